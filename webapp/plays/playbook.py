"""The playbook: chains of play that a team keeps, each with its branches, and what may be done with them.

A *line* is a chain's steps from its start, each one or two text forms of actions. As the children of a node
are unique by their actions, a line names a node. Changes may have been made long ago on a device without a
network, so they ask for no green lights and no stages, only for what the chain's own version of the rules
allows, and nothing that was played is ever taken out of a chain.
"""

from __future__ import annotations

import json
import time
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Final

from sqlalchemy import exists, func, select
from sqlalchemy.orm import Session

from engine.floor.formations import Formation
from engine.rules.rule_sets import RuleSet
from webapp.chains import history
from webapp.chains.lines_of_play import Line, reach
from webapp.chains.setup import formation_in, rules_in
from webapp.store.tables import Board, Chain, Node, Place
from webapp.team import designs
from webapp.team.designs import DesignForm
from webapp.wire.refusals import Refused

#: When a coach wants a play, in the order they stand in: plays for any time come first.
OCCASIONS: Final = ("timeout", "sideline", "baseline", "last_shot", "zone")
#: Chains a team may keep; steps of one chain, all its branches together; steps of one line.
KEPT_MAX: Final = 500
TREE_MAX: Final = 5000
STEPS_MAX: Final = 500


@dataclass(frozen=True, slots=True)
class Ruled:
    """The version of a formation and of the rules that a chain is played by."""

    formation: DesignForm
    shape: Formation
    rules: DesignForm
    ruling: RuleSet


def ruled_by(session: Session, team_id: str, formation: str, rules: str) -> Ruled:
    """Return what two refs name, deleted or not. Raises ``Refused``, and so if it cannot be read any more."""
    shaped = designs.find(session, team_id, "formation", formation, deleted=True)
    ruled = designs.find(session, team_id, "rules", rules, deleted=True)
    return Ruled(shaped, formation_in(shaped), ruled, rules_in(ruled))


@dataclass(frozen=True, slots=True)
class ChainWithLine:
    """A chain that holds a line. ``nodes``: those of the line, root left out, as far as it is legal.

    ``legal``: how many steps that is. ``why``: the engine's sentence if it is not all of them. ``new``:
    whether anything was not there before.
    """

    chain: Chain
    root: int
    nodes: tuple[int, ...]
    legal: int
    why: str | None
    new: bool


def bring(
    session: Session,
    team_id: str,
    board_id: str,
    chain_id: str,
    formation_ref: str,
    rules_ref: str,
    line: Sequence[Sequence[str]],
    steps_max: int = STEPS_MAX,
) -> ChainWithLine:
    """Store ``line`` as part of a chain, made if it is not there, as far as the chain's rules allow it.

    A chain that is there is played by the refs it was made with, whatever is given. Raises ``Refused``.
    """
    chain, new = session.get(Chain, chain_id), False
    if chain is None:
        board = session.get(Board, board_id)
        if board is None or board.team_id != team_id:
            raise Refused("no_board")
        ruled = ruled_by(session, team_id, formation_ref, rules_ref)
        _short(line, steps_max)
        history.root_node(session, board_id, ruled.formation.ref, ruled.rules.ref, chain_id)
        chain, new = session.get_one(Chain, chain_id), True
    brought = grow(session, own(session, team_id, chain.id), line, steps_max)
    return brought if not new else ChainWithLine(chain, *_parts(brought), new=True)


def _parts(brought: ChainWithLine) -> tuple[int, tuple[int, ...], int, str | None]:
    return brought.root, brought.nodes, brought.legal, brought.why


def own(session: Session, team_id: str, chain_id: str) -> Chain:
    """Return a chain of the team's, deleted or not. Raises ``Refused``."""
    chain = session.get(Chain, chain_id)
    if chain is None:
        raise Refused("no_chain")
    if chain.team_id != team_id:
        raise Refused("taken_chain")
    return chain


def grow(
    session: Session, chain: Chain, line: Sequence[Sequence[str]], steps_max: int = STEPS_MAX
) -> ChainWithLine:
    """Store ``line`` in a chain as far as it is legal; the chain counts as used. Raises ``Refused``."""
    _short(line, steps_max)
    root = session.get_one(Node, chain.root_id)
    ruled = ruled_by(session, chain.team_id, *_refs(root))
    whole: Line = tuple(tuple(step) for step in line)
    far = reach(ruled.shape, ruled.ruling, whole)
    nodes, parent, new = [], root.id, False
    last = session.scalar(select(func.max(Node.id))) or 0
    for depth, actions in enumerate(whole[: far.legal], start=1):
        parent = history.node_after(session, root.board_id, parent, depth, actions)
        nodes.append(parent)
        new = new or parent > last
    if new and len(tree(session, [chain.root_id])[chain.root_id]) > TREE_MAX:
        raise Refused("full_tree", most=TREE_MAX)
    chain.used = int(time.time())
    return ChainWithLine(chain, root.id, tuple(nodes), far.legal, far.why, new)


def _short(line: Sequence[Sequence[str]], steps_max: int) -> None:
    if len(line) > steps_max:
        raise Refused("long_line", steps=steps_max)


@dataclass(frozen=True, slots=True)
class Branch:
    """A node of a chain's tree; the root has no parent. ``made``: when, in seconds since 1970."""

    id: int
    parent: int | None
    actions: str
    made: int


def tree(session: Session, roots: Sequence[int]) -> dict[int, list[Branch]]:
    """Return the nodes of whole chains by their roots, every parent before its children."""
    found: dict[int, list[Branch]] = {root: [] for root in roots}
    columns = (Node.id, Node.parent_id, Node.actions, Node.made)
    for begin in range(0, len(roots), 500):  # SQLite takes only so many parameters
        part = roots[begin : begin + 500]
        below = select(*columns, Node.id.label("root")).where(Node.id.in_(part)).cte(recursive=True)
        below = below.union_all(select(*columns, below.c.root).join(below, Node.parent_id == below.c.id))
        for node, parent, actions, made, root in session.execute(select(below).order_by(below.c.id)):
            found[root].append(Branch(node, parent, actions, made))
    return found


def line_to(nodes: Sequence[Branch], end: int) -> list[int]:
    """Return the indices in ``nodes`` that lead from the root, which is left out, to node ``end``."""
    at = {node.id: index for index, node in enumerate(nodes)}
    found: list[int] = []
    index = at.get(end, 0)
    while (parent := nodes[index].parent) is not None:
        found.append(index)
        index = at[parent]
    return found[::-1]


def actions_of(nodes: Sequence[Branch], line: Sequence[int]) -> Line:
    """Return the steps of a line given as indices."""
    return tuple(tuple(nodes[index].actions.split()) for index in line)


def keep(session: Session, chain: Chain) -> None:
    """Put a chain into the playbook. Raises ``Refused`` if that is full."""
    if chain.kept and chain.deleted is None:
        return
    count = select(func.count()).select_from(Chain)
    mine = count.where(Chain.team_id == chain.team_id, Chain.kept, Chain.deleted.is_(None))
    if (session.scalar(mine) or 0) >= KEPT_MAX:
        raise Refused("full_playbook", most=KEPT_MAX)
    chain.kept, chain.deleted = True, None


def describe(chain: Chain, given: dict[str, Any]) -> None:
    """Set what ``given`` says of a chain: its name, note, tags, whether it is pinned, for when and where."""
    chain.name, chain.note = given.get("name", chain.name), given.get("note", chain.note)
    chain.pinned = given.get("pinned", chain.pinned)
    chain.occasion, chain.rank = given.get("occasion", chain.occasion), given.get("rank", chain.rank)
    if "tags" in given:
        chain.tags = json.dumps(given["tags"], ensure_ascii=False)


def copy(session: Session, chain: Chain, chain_id: str, name: str | None) -> Chain:
    """Keep a chain with all its branches once more, under another id. Raises ``Refused``."""
    root = session.get_one(Node, chain.root_id)
    made = _begin(session, chain, chain_id, *_refs(root), name)
    nodes = tree(session, [chain.root_id])[chain.root_id]
    now, after, depths = int(time.time()), {root.id: made.root_id}, {root.id: 0}
    for node in nodes[1:]:
        assert node.parent is not None
        depths[node.id] = depths[node.parent] + 1
        row = Node(
            board_id=root.board_id,
            parent_id=after[node.parent],
            depth=depths[node.id],
            actions=node.actions,
            formation=None,
            made=now,
            rules=None,
        )
        session.add(row)
        session.flush()
        after[node.id] = row.id
    made.line_id = after[chain.line_id]
    history.carry_ink(session, after, made.id)
    return made


def renew(session: Session, chain: Chain, chain_id: str, name: str | None) -> ChainWithLine:
    """Keep the main line, as far as it is legal by today's rules, as a chain of its own by those.

    The chain itself stays as it is. Raises ``Refused``, and so if the rules or the formation were deleted.
    """
    formation, rules = _refs(session.get_one(Node, chain.root_id))
    shaped = designs.find(session, chain.team_id, "formation", newest(formation))
    ruled = designs.find(session, chain.team_id, "rules", newest(rules))
    nodes = tree(session, [chain.root_id])[chain.root_id]
    line = actions_of(nodes, line_to(nodes, chain.line_id))
    made = _begin(session, chain, chain_id, shaped.ref, ruled.ref, name)
    brought = grow(session, made, line, len(line))
    made.line_id = brought.nodes[-1] if brought.nodes else brought.root
    old = [chain.root_id, *(nodes[index].id for index in line_to(nodes, chain.line_id))]
    history.carry_ink(session, dict(zip(old, (brought.root, *brought.nodes), strict=False)), made.id)
    return brought


def _refs(root: Node) -> tuple[str, str]:
    assert root.formation is not None
    assert root.rules is not None
    return root.formation, root.rules


def newest(ref: str) -> str:
    """Return the ref that goes along with new versions."""
    return ref.partition("@")[0]


def _begin(
    session: Session, like: Chain, chain_id: str, formation: str, rules: str, name: str | None
) -> Chain:
    if session.get(Chain, chain_id) is not None:
        raise Refused("taken_chain")
    history.root_node(session, like.board_id, formation, rules, chain_id)
    made = session.get_one(Chain, chain_id)
    made.name, made.note, made.tags = like.name if name is None else name, like.note, like.tags
    made.occasion = like.occasion
    keep(session, made)
    session.flush()
    return made


@dataclass(frozen=True, slots=True)
class Pinned:
    """A chain for the first page: ``board_id`` is where it was begun."""

    id: str
    name: str
    board_id: str


def pinned_of(session: Session, team_id: str) -> list[Pinned]:
    """Return the chains that a team has pinned, by when they are wanted and then as the coach put them."""
    rows = select(Chain).where(Chain.team_id == team_id, Chain.kept, Chain.pinned, Chain.deleted.is_(None))
    found = sorted(session.scalars(rows), key=_on_the_bench)
    return [Pinned(chain.id, chain.name, chain.board_id) for chain in found]


def _on_the_bench(chain: Chain) -> tuple[int, int, int, str]:
    """Where a pinned chain stands: those that nobody has put anywhere in the order they were made."""
    return ("", *OCCASIONS).index(chain.occasion), chain.rank, chain.made, chain.id


def is_stood_on(session: Session, chain: Chain) -> bool:
    """Whether some board stands in the chain."""
    return bool(session.scalar(select(exists().where(Place.root_id == chain.root_id))))
