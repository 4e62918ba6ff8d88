"""What a board's present chain amounts to: how long it takes, how far everybody runs, who is in the lane."""

from __future__ import annotations

from typing import Any, Final

from flask import Blueprint, request

from webapp.access.devices import presented
from webapp.access.keys import coach_key
from webapp.services import services

report: Final = Blueprint("report", __name__, url_prefix="/api")


@report.get("/board/<board_id>/report")
def show(board_id: str) -> dict[str, Any]:
    """Return the figures of the chain on the board."""
    from webapp.chains.chain_report import chain_report

    with services().store.read() as session:
        coach_key(session, board_id, presented(request))
    return chain_report(services().boards.standing(board_id))
