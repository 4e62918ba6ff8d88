"""The page that tells a coach whether this device is ready for a game, and what the server knows for it."""

from __future__ import annotations

from typing import Any, Final

from flask import Blueprint, render_template, request

from webapp.access.devices import presented
from webapp.access.keys import find_key
from webapp.boards.teams import boards_of
from webapp.services import services

readiness: Final = Blueprint("readiness", __name__)


@readiness.get("/check")
def page() -> str:
    """Show the page; what it tells it finds out on the device, so that it works without a network too."""
    return render_template("check.html")


@readiness.get("/api/check")
def known_addresses() -> dict[str, Any]:
    """Tell the device what it may open, and where it is told to trust this server's certificate.

    ``boards``: id, name and team of each; ``roles``: of its keys, by team; ``trust``: path of a page or null.
    The answer's ``Date`` is what the device compares its clock with.
    """
    shared = services()
    with shared.store.read() as session:
        held = [key for key in find_key(session, presented(request)) if key.revoked is None]
        coaching = [key for key in held if key.role != "viewer"]
        boards = [
            {"id": board.id, "name": board.name, "team": team} for board, team in boards_of(session, coaching)
        ]
    return {
        "boards": boards,
        "roles": sorted({key.role for key in coaching}),
        "trust": "/trust" if shared.settings.local_authority else None,
    }
