"""The chains that stood on a board before: whatever was there comes back, whoever replaced it and however."""

from __future__ import annotations

from dataclasses import replace

from sqlalchemy import select
from sqlalchemy.orm import Session

from webapp.chains.history import path_to
from webapp.chains.state import BoardState, Earlier
from webapp.store.tables import Chain, Change, Node

#: So many are told, and looked for among so many times that one chain gave way to another.
EARLIER_MAX = 20
_LOOKED_AT = 3 * EARLIER_MAX
#: What can put another chain on the board; ``crossed`` is an undo that goes back to the one before.
SWITCHES = ("open", "fresh", "setup", "crossed")


def with_earlier(session: Session, standing: BoardState) -> BoardState:
    """Return a board with the chains that stood on it before; each once, the last first."""
    board_id = standing.card.id
    rows = session.scalars(
        select(Change)
        .where(Change.board_id == board_id, Change.kind.in_(SWITCHES))
        .order_by(Change.seq.desc())
        .limit(_LOOKED_AT)
    )
    found: dict[str, Earlier] = {}
    #: An empty chain is passed over: what it replaced was replaced by what came after it.
    passed: dict[str, str] = {}
    arrived = False
    for change in list(rows):
        before = session.get(Change, (board_id, change.seq - 1))
        if before is None:
            arrived = arrived or (change.kind == "open" and change.seq == standing.seq)
            continue
        left, came = (_chain_of(session, path_to(session, one.node_id)[0]) for one in (before, change))
        if left.id == came.id:
            continue
        crossed = change.kind == "crossed"
        arrived = arrived or (change.seq == standing.seq and not crossed)
        to = "" if crossed else passed.get(came.id, came.id)
        # Of one in the playbook the main line is what was saved, not what was on the board.
        path = path_to(session, before.node_id if left.kept else left.line_id)
        if len(path) == 1:
            passed.setdefault(left.id, to)
        elif left.id in found:
            # Left last by an undo: what replaced it before that is still what an undo leads back from.
            found[left.id] = found[left.id]._replace(to=found[left.id].to or to)
        elif left.id != standing.chain.id:
            found[left.id] = _earlier(left, path, before.node_id, change.made, to)
        if len(found) == EARLIER_MAX:
            break
    return replace(standing, earlier=tuple(found.values()), arrived=arrived)


def _earlier(chain: Chain, path: list[Node], stood: int, at: int, to: str) -> Earlier:
    ids = [node.id for node in path]
    return Earlier(
        chain=chain.id,
        name=chain.name if chain.kept and chain.deleted is None else "",
        formation=str(path[0].formation),
        rules=str(path[0].rules),
        line=tuple(tuple(node.actions.split()) for node in path[1:]),
        depth=ids.index(stood) if stood in ids else 0,
        at=at,
        to=to,
    )


def _chain_of(session: Session, root: Node) -> Chain:
    return session.scalars(select(Chain).where(Chain.root_id == root.id)).one()
