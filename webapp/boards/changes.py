"""What a change makes of a board: where it stands after an action, an undo, a fresh start, another setup."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any, Final

from sqlalchemy.orm import Session

from engine.floor.alignment import Position
from webapp.chains import history, setup
from webapp.chains.state import BoardState, Played, act, get_back, play
from webapp.plays import playbook
from webapp.store.tables import Chain
from webapp.wire.refusals import Problems, Refused


def _act(session: Session, standing: BoardState, message: Mapping[str, Any]) -> BoardState:
    standing = _back_to(standing, message["at"])
    actions = tuple(message["a"])
    return _played(session, standing, actions, act(standing.card, standing.position, actions))


def _recover(session: Session, standing: BoardState, message: Mapping[str, Any]) -> BoardState:
    standing = _back_to(standing, message["at"])
    card, position = standing.card, standing.position
    actions = (get_back(card, position, message["where"], message.get("spots")),)
    return _played(session, standing, actions, play(position, actions, card.shape, card.rules))


def _back_to(standing: BoardState, depth: int) -> BoardState:
    if depth > len(standing.steps):
        raise Refused("at", steps=len(standing.steps))
    return standing.cut(depth)


def _played(session: Session, standing: BoardState, actions: tuple[str, ...], after: Position) -> BoardState:
    node = history.node_after(session, standing.card.id, standing.cursor, len(standing.steps) + 1, actions)
    return standing.grown(Played(node, actions, standing.position, after))


def _undo(_session: Session, standing: BoardState, _message: Mapping[str, Any]) -> BoardState:
    return standing.undone()


def _redo(_session: Session, standing: BoardState, _message: Mapping[str, Any]) -> BoardState:
    return standing.redone()


def _fresh(session: Session, standing: BoardState, message: Mapping[str, Any]) -> BoardState:
    card, wanted = standing.card, message.get("chain")
    if wanted is not None and session.get(Chain, wanted) is not None:
        # It was saved from the device, by another way, before this reached us.
        root = playbook.own(session, card.team_id, wanted).root_id
    else:
        root = history.root_node(session, card.id, card.formation, card.rules_ref, wanted)
    return replace(standing, root=root, chain=history.tag_of(session, root), steps=(), ahead=())


def _setup(session: Session, standing: BoardState, message: Mapping[str, Any]) -> BoardState:
    before = standing.card
    try:
        card = setup.changed(session, before, message)
    except Problems as error:
        raise Refused("bad_form", why=error.problems[0][1]) from None
    changed = replace(standing, card=card)
    if (card.formation, card.rules_ref) != (before.formation, before.rules_ref):
        return _fresh(session, changed, message)
    return changed


#: What a coach's message makes of a board, by its ``t``; each raises ``Refused``.
CHANGES: Final[Mapping[str, Callable[[Session, BoardState, Mapping[str, Any]], BoardState]]] = {
    "act": _act,
    "undo": _undo,
    "redo": _redo,
    "fresh": _fresh,
    "setup": _setup,
    "recover": _recover,
}
