"""Reading and writing a board's tree of play and the list of its changes."""

from __future__ import annotations

import time
from collections.abc import Collection, Mapping
from dataclasses import replace
from typing import Final

from sqlalchemy import select, text
from sqlalchemy.orm import Session

from webapp.base.tokens import new_id
from webapp.chains.setup import card_of
from webapp.chains.state import BoardState, Tag, replay
from webapp.store.tables import Board, Chain, Change, Ink, Node, Place
from webapp.team.squad import write_places
from webapp.wire.refusals import Refused

#: What a coach is told, as a key of the browser's texts: each screen says it in its own language.
CUT_SHORT: Final = "cut_short"


def load(session: Session, board_id: str) -> BoardState:
    """Return where a board stands, worked out again from its history. Raises ``Refused`` (``no_board``).

    What is not legal any more is left out of it, with a notice, and stays in the store.
    """
    board, place = session.get(Board, board_id), session.get(Place, board_id)
    if board is None or place is None:
        raise Refused("no_board")
    card, notice = card_of(session, board)
    nodes = path_to(session, place.tip_id)
    played = replay(card.shape, card.rules, [(node.id, tuple(node.actions.split())) for node in nodes[1:]])
    if len(played) < len(nodes) - 1 and notice is None:
        notice = CUT_SHORT
    depth = [node.id for node in nodes].index(place.cursor_id)
    last = session.get(Change, (board_id, place.seq))
    change = None if last is None else (last.message_id, last.kind)
    tag = tag_of(session, place.root_id)
    at = nodes[0].made if last is None else last.made
    parts = (place.root_id, tag, played[:depth], played[depth:], notice)
    return BoardState(card, place.seq, change, *parts, at=at)


def tag_of(session: Session, root_id: int) -> Tag:
    """Return which chain a root begins."""
    chain = session.scalars(select(Chain).where(Chain.root_id == root_id)).one()
    return Tag(chain.id, chain.name, chain.kept and chain.deleted is None)


def path_to(session: Session, tip_id: int) -> list[Node]:
    """Return the nodes from the root to ``tip_id``, in one query."""
    path = select(Node.id, Node.parent_id).where(Node.id == tip_id).cte("path", recursive=True)
    path = path.union_all(select(Node.id, Node.parent_id).join(path, Node.id == path.c.parent_id))
    found = session.scalars(select(Node).join(path, Node.id == path.c.id).order_by(Node.depth))
    return list(found)


def nodes_above(session: Session, tips: Collection[int]) -> dict[int, Node]:
    """Return these nodes and all they were played after, each once and by its id, in one query."""
    above = select(Node.id, Node.parent_id).where(Node.id.in_(tips)).cte("above", recursive=True)
    above = above.union(select(Node.id, Node.parent_id).join(above, Node.id == above.c.parent_id))
    return {node.id: node for node in session.scalars(select(Node).join(above, Node.id == above.c.id))}


def make_board(session: Session, board: Board) -> None:
    """Store a new board, at the start of its first chain."""
    session.add(board)
    session.flush()
    root = root_node(session, board.id, board.formation, board.rules)
    session.add(Place(board_id=board.id, seq=0, root_id=root, cursor_id=root, tip_id=root))
    session.flush()


def root_node(
    session: Session, board_id: str, formation: str, rules: str, chain_id: str | None = None
) -> int:
    """Begin a new chain, in a formation and by rules given as refs (with version), and return its root.

    ``chain_id``: the id the chain is to have; it must not be taken.
    """
    root = Node(board_id=board_id, parent_id=None, depth=0, actions="", formation=formation, rules=rules)
    node_id = _add(session, root)
    session.add(
        Chain(
            id=chain_id or new_id(),
            team_id=session.get_one(Board, board_id).team_id,
            board_id=board_id,
            root_id=node_id,
            line_id=node_id,
            made=root.made,
            used=root.made,
            deleted=None,
        )
    )
    session.flush()
    return node_id


def node_after(session: Session, board_id: str, parent: int, depth: int, actions: tuple[str, ...]) -> int:
    """Return the node that ``actions`` lead to from ``parent``, a new one unless they were played before."""
    text = " ".join(actions)
    known = session.scalar(select(Node.id).where(Node.parent_id == parent, Node.actions == text))
    if known is not None:
        return known
    node = Node(board_id=board_id, parent_id=parent, depth=depth, actions=text, formation=None, rules=None)
    return _add(session, node)


def _add(session: Session, node: Node) -> int:
    node.made = int(time.time())
    session.add(node)
    session.flush()
    return node.id


def carry_ink(session: Session, nodes: Mapping[int, int], chain_id: str) -> None:
    """Copy what is drawn on steps to those of another chain; ``nodes``: from each to its copy."""
    rows = select(Ink).where(Ink.node_id.in_(list(nodes)), Ink.gone.is_(False)).order_by(text("ink.rowid"))
    for row in list(session.scalars(rows)):
        copied = {"tool": row.tool, "colour": row.colour, "points": row.points, "made": row.made}
        session.add(Ink(node_id=nodes[row.node_id], id=row.id, chain_id=chain_id, gone=False, **copied))


def find_change(session: Session, board_id: str, message_id: str) -> int | None:
    """Return the number of the change that ``message_id`` made, if it was ever applied."""
    return session.scalar(
        select(Change.seq).where(Change.board_id == board_id, Change.message_id == message_id)
    )


def numbered(standing: BoardState, message_id: str, kind: str) -> BoardState:
    """Return ``standing`` as the next change of its board."""
    now = int(time.time())
    return replace(
        standing, seq=standing.seq + 1, change=(message_id, kind), notice=None, arrived=False, at=now
    )


def record(session: Session, standing: BoardState, key_id: str | None) -> None:
    """Store ``standing`` as where its board stands, and the change that led there."""
    card, place = standing.card, session.get_one(Place, standing.card.id)
    board = session.get_one(Board, card.id)
    board.formation, board.court, board.level = card.formation, card.court, card.level
    board.rules, board.stage, board.places = card.rules_ref, card.stage, write_places(card.places)
    place.seq, place.root_id = standing.seq, standing.root
    place.cursor_id, place.tip_id = standing.cursor, standing.tip
    chain = session.scalars(select(Chain).where(Chain.root_id == standing.root)).one()
    if not chain.kept:  # the main line of one in the playbook is what was saved
        chain.line_id, chain.used = standing.tip, int(time.time())
    assert standing.change is not None
    message_id, kind = standing.change
    session.add(
        Change(
            board_id=card.id,
            seq=standing.seq,
            message_id=message_id,
            kind=kind,
            node_id=standing.cursor,
            key_id=key_id,
            made=int(time.time()),
        )
    )
