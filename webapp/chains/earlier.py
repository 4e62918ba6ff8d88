"""The chains that stood on a board before: whatever was there comes back, whoever replaced it and however."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace

from sqlalchemy import select
from sqlalchemy.orm import Session

from webapp.chains.history import nodes_above
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
    of_board = select(Change).where(Change.board_id == board_id)
    switches = of_board.where(Change.kind.in_(SWITCHES)).order_by(Change.seq.desc()).limit(_LOOKED_AT)
    changes = list(session.scalars(switches))
    asked = of_board.where(Change.seq.in_([change.seq - 1 for change in changes]))
    before_of = {change.seq + 1: change for change in session.scalars(asked)}
    trees = _Trees(session, {change.node_id for change in (*changes, *before_of.values())})
    found: dict[str, Earlier] = {}
    #: An empty chain is passed over: what it replaced was replaced by what came after it.
    passed: dict[str, str] = {}
    arrived = False
    for change in changes:
        before = before_of.get(change.seq)
        if before is None:
            arrived = arrived or (change.kind == "open" and change.seq == standing.seq)
            continue
        left, came = (trees.chain_of(one.node_id) for one in (before, change))
        if left.id == came.id:
            continue
        crossed = change.kind == "crossed"
        arrived = arrived or (change.seq == standing.seq and not crossed)
        to = "" if crossed else passed.get(came.id, came.id)
        # Of one in the playbook the main line is what was saved, not what was on the board.
        path = trees.path_to(before.node_id if left.kept else left.line_id)
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


class _Trees:
    """Some places on a board with their chains, asked for together: a board that began again a hundred times
    is not to answer a hundred times slower.
    """

    def __init__(self, session: Session, tips: Collection[int]) -> None:
        self._nodes = nodes_above(session, tips)
        roots = [node.id for node in self._nodes.values() if node.parent_id is None]
        chains = list(session.scalars(select(Chain).where(Chain.root_id.in_(roots))))
        self._chains = {chain.root_id: chain for chain in chains}
        self._nodes |= nodes_above(session, {chain.line_id for chain in chains})

    def chain_of(self, tip: int) -> Chain:
        """Return the chain with this place."""
        node = self._nodes[tip]
        while node.parent_id is not None:
            node = self._nodes[node.parent_id]
        return self._chains[node.id]

    def path_to(self, tip: int) -> list[Node]:
        """Return the nodes from the root to this place, which is one of those asked for or ends a chain."""
        path = [self._nodes[tip]]
        while (above := path[-1].parent_id) is not None:
            path.append(self._nodes[above])
        return path[::-1]


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
