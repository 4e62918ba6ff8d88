"""Whose team a request is about, and whether the asking device coaches it."""

from __future__ import annotations

from dataclasses import dataclass

from flask import request
from sqlalchemy import select
from sqlalchemy.orm import Session

from webapp.access.devices import presented
from webapp.access.keys import coach_key, find_key
from webapp.store.tables import Board, Key, Team
from webapp.wire.refusals import Refused


@dataclass(frozen=True, slots=True)
class Asking:
    """A coach's device, its team, and the board it asks from, if it says so (``?board=<id>``)."""

    team: Team
    key: Key
    board: Board | None


def asking(session: Session) -> Asking:
    """Return who asks, by the board in the address; without one, by the one team the device coaches.

    Raises ``Refused``: ``which_team`` if it coaches several, and as :func:`webapp.access.keys.coach_key`.
    """
    board_id = request.args.get("board")
    if board_id is not None:
        board, key = coach_key(session, board_id, presented(request))
        return Asking(session.get_one(Team, board.team_id), key, board)
    found = [key for key in find_key(session, presented(request)) if key.role != "viewer"]
    live = [key for key in found if key.revoked is None]
    if not live:
        raise Refused("gone_key" if found else "no_key")
    if len({key.team_id for key in live}) > 1:
        raise Refused("which_team")
    key = max(live, key=lambda key: key.role == "head_coach")
    return Asking(session.get_one(Team, key.team_id), key, None)


def board_of(session: Session, who: Asking) -> Board | None:
    """Return the board asked from, else the team's first that has players on places, else its first."""
    if who.board is not None:
        return who.board
    boards = list(
        session.scalars(select(Board).where(Board.team_id == who.team.id).order_by(Board.made, Board.id))
    )
    return next((board for board in boards if board.places != "{}"), boards[0] if boards else None)
