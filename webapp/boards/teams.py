"""Making teams and boards, and finding them."""

from __future__ import annotations

import time
from collections.abc import Sequence

from sqlalchemy import select
from sqlalchemy.orm import Session

from engine.floor.formations import FIVE_OUT
from engine.rules.rule_sets import DEFAULT
from webapp.access.keys import opens
from webapp.base.tokens import new_id
from webapp.chains import history
from webapp.store.tables import Board, Key, Team


def make_team(session: Session, team_name: str, board_name: str) -> Board:
    """Store a team and its first board, and return the board."""
    now = int(time.time())
    team = Team(id=new_id(), name=team_name, made=now, calls="{}")
    session.add(team)
    session.flush()
    board = Board(
        id=new_id(),
        team_id=team.id,
        name=board_name,
        formation=FIVE_OUT.name,
        court="fiba",
        level=1.0,
        made=now,
        rules=DEFAULT.name,
        stage=None,
        places="{}",
    )
    history.make_board(session, board)
    return board


def first_board(session: Session) -> Board | None:
    """Return the board made first, or ``None`` if there is none."""
    return session.scalar(select(Board).order_by(Board.made, Board.id))


def boards_of(session: Session, keys: Sequence[Key]) -> list[tuple[Board, str]]:
    """Return the boards that ``keys`` open, each with its team's name, in the order of their names."""
    rows = session.execute(
        select(Board, Team.name)
        .join(Team, Team.id == Board.team_id)
        .where(Board.team_id.in_({key.team_id for key in keys if key.role != "viewer"}))
        .order_by(Team.name, Board.name, Board.made)
    )
    return [(board, team) for board, team in rows if any(opens(key, board) for key in keys)]
