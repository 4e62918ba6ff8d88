"""Packs over HTTP: which of them a board's device should hold, and each by the name of its contents."""

from __future__ import annotations

from typing import Any, Final

from flask import Blueprint, Response, request
from sqlalchemy import select
from sqlalchemy.orm import Session

from engine.floor.formations import FORMATIONS
from webapp.packs.pack_name import Wanted, find
from webapp.services import services
from webapp.store.tables import Board, Chain, Node
from webapp.web.team_access import asking, board_of
from webapp.wire.refusals import Refused

packs: Final = Blueprint("packs", __name__, url_prefix="/api")

#: Packs one device is told to hold.
MOST: Final = 16
#: How long a device waits before it asks again for one that is being made, seconds.
AGAIN_S: Final = 1


@packs.get("/packs")
def listing() -> dict[str, Any]:
    """List what a device should hold to play on without a network: the board's own first."""
    with services().store.read() as session:
        found = _wanted(session)
    return {
        "packs": [
            {
                "key": wanted.key,
                "rules": wanted.rules.ref,
                "formation": wanted.formation.ref,
                "court": wanted.court,
            }
            for wanted in found
        ]
    }


@packs.get("/packs/<key>")
def one(key: str) -> Response:
    """Give a pack by the name of its contents; ``202`` while it is being made.

    ``?rules=&formation=&court=`` say whose name it is; without them it must be one of the list.
    """
    refs = [request.args.get(name) for name in ("rules", "formation", "court")]
    with services().store.read() as session:
        if any(ref is None for ref in refs):
            candidates = _wanted(session)
        else:
            candidates = [find(session, asking(session).team.id, *map(str, refs))]
    found = next((wanted for wanted in candidates if wanted.key == key), None)
    if found is None:
        raise Refused("no_pack")
    try:
        body = services().packs.get(found)
    except LookupError:
        raise Refused("pack_failed") from None
    if body is None:
        again = {"Retry-After": str(AGAIN_S)}
        return Response('{"making":true}', 202, again, content_type="application/json")
    response = Response(body, content_type="application/json; charset=utf-8")
    response.headers["Content-Encoding"] = "gzip"
    return response


def _wanted(session: Session) -> list[Wanted]:
    """Return the packs of the board asked from, then of the playbook and of the formations that ship."""
    who = asking(session)
    board = board_of(session, who)
    if board is None:
        return []
    refs = [(board.rules, board.formation)]
    refs += _played(session, who.team.id)
    refs += [(board.rules, name) for name in FORMATIONS]
    refs += [
        (other.rules, other.formation)
        for other in session.scalars(select(Board).where(Board.team_id == who.team.id).order_by(Board.made))
    ]
    found: dict[str, Wanted] = {}
    for rules, formation in dict.fromkeys(refs):
        try:
            wanted = find(session, who.team.id, rules, formation, board.court)
            found.setdefault(wanted.key, wanted)
        except Refused:
            continue  # of a version that cannot be read any more: nothing can be played by it
        if len(found) == MOST:
            break
    return list(found.values())


def _played(session: Session, team_id: str) -> list[tuple[str, str]]:
    """Return the rules and formations of the kept chains, the pinned and the last used first."""
    rows = session.execute(
        select(Node.rules, Node.formation)
        .join(Chain, Chain.root_id == Node.id)
        .where(Chain.team_id == team_id, Chain.kept, Chain.deleted.is_(None))
        .order_by(Chain.pinned.desc(), Chain.used.desc())
    )
    return list(dict.fromkeys((str(rules), str(formation)) for rules, formation in rows))
