"""Sheets of what is stored: the chain on a board now, a chain of the playbook, the team's pinned ones."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from sqlalchemy.orm import Session

from engine.words.spoken import Said, say
from webapp.boards.ink import on_paper
from webapp.chains.setup import card_of
from webapp.chains.state import BoardState, Card, replay
from webapp.paper.options import Options, chosen
from webapp.paper.sheet import Sheet, sheet
from webapp.plays.playbook import line_to, own, pinned_of, ruled_by, tree
from webapp.store.tables import Board, Chain, Node
from webapp.wire.refusals import Refused

NAMELESS: Final = Said("paper.stored.chain_without_name")


@dataclass(frozen=True, slots=True)
class Printable:
    """A chain for paper: its sheet, the steps wanted, and a sentence if not all of it can be printed."""

    whole: Sheet
    first: int
    last: int
    notice: str | None

    @property
    def sheet(self) -> Sheet:
        """The sheet of the steps wanted."""
        return self.whole.part(self.first, self.last)


def on_board(session: Session, standing: BoardState, options: Options) -> Printable:
    """Return what is on a board now. Raises ``Refused`` for steps that it has not."""
    chain = session.query(Chain).filter_by(root_id=standing.root).one_or_none()
    name, note = (chain.name, chain.note) if chain is not None else ("", "")
    whole = sheet(standing.card, standing.steps, name or standing.card.name, note)
    whole = _inked(session, whole, [standing.root, *(step.node for step in standing.steps)])
    return Printable(whole, *chosen(options, whole.total), None)


def in_playbook(session: Session, board: Board, chain_id: str, options: Options) -> Printable:
    """Return a chain's main line, or the branch that ends in node ``options.end`` of its tree.

    Court, level and squad are the board's. Raises ``Refused``.
    """
    chain = own(session, board.team_id, chain_id)
    if chain.deleted is not None:
        raise Refused("no_chain")
    card, _ = card_of(session, board)
    whole, notice = _sheet(session, card, chain, options.end)
    return Printable(whole, *chosen(options, whole.total), notice)


def pinned(session: Session, board: Board, most: int) -> tuple[list[Sheet], int]:
    """Return the sheets of the pinned chains, in the order of the bench row, and how many more there are."""
    card, _ = card_of(session, board)
    found = pinned_of(session, board.team_id)
    rows = (session.get_one(Chain, one.id) for one in found[:most])
    return [_sheet(session, card, row, None)[0] for row in rows], max(0, len(found) - most)


def _sheet(session: Session, card: Card, chain: Chain, end: int | None) -> tuple[Sheet, str | None]:
    root = session.get_one(Node, chain.root_id)
    assert root.formation is not None
    assert root.rules is not None
    ruled = ruled_by(session, chain.team_id, root.formation, root.rules)
    nodes = tree(session, [chain.root_id])[chain.root_id]
    if end is not None and end >= len(nodes):
        raise Refused("bad_form", why=say("paper.stored.chain_has_no_such"))
    line = line_to(nodes, chain.line_id if end is None else nodes[end].id)
    steps = [(nodes[at].id, tuple(nodes[at].actions.split())) for at in line]
    played = replay(ruled.shape, ruled.ruling, steps)
    notice = None
    if len(played) < len(steps):
        notice = say("paper.stored.rules_chain_allow_only", played=len(played), steps=len(steps))
    card = replace(
        card,
        formation=ruled.formation.ref,
        shape=ruled.shape,
        formation_name=ruled.formation.title,
        rules_ref=ruled.rules.ref,
        rules=ruled.ruling,
    )
    whole = sheet(card, played, chain.name or str(NAMELESS), chain.note)
    return _inked(session, whole, [chain.root_id, *(step.node for step in played)]), notice


def _inked(session: Session, whole: Sheet, nodes: Sequence[int]) -> Sheet:
    """Return the sheet with what was drawn after each of ``nodes``, the start first."""
    found = on_paper(session, nodes)
    return replace(whole, ink={depth: found[node] for depth, node in enumerate(nodes) if node in found})
