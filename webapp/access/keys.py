"""Device keys: who holds one, what it opens, and turning it off."""

from __future__ import annotations

import time
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from sqlalchemy import ColumnElement, or_, select
from sqlalchemy.orm import Session

from webapp.base.tokens import hashed, matches, new_id, new_token
from webapp.store.tables import Board, Key, Link
from webapp.wire.refusals import Refused

#: A key is noted as seen at most once in so many seconds, so that looking does not mean writing.
SEEN_EVERY_S: Final = 60

_RANK: Final = {"viewer": 0, "assistant": 1, "head_coach": 2}


@dataclass(frozen=True, slots=True)
class NewKey:
    """A key just made: its row's id, its team, and the secret text that goes to the device, once."""

    id: str
    team_id: str
    secret: str


def make_key(
    session: Session,
    team_id: str,
    role: str,
    name: str,
    board_id: str | None = None,
    link_id: str | None = None,
) -> NewKey:
    """Store a new key and return it."""
    now, token = int(time.time()), new_token()
    key = Key(
        id=new_id(),
        team_id=team_id,
        board_id=board_id,
        link_id=link_id,
        role=role,
        secret_hash=hashed(token),
        name=name,
        made=now,
        seen=now,
        revoked=None,
    )
    session.add(key)
    session.flush()
    return NewKey(key.id, team_id, f"{key.id}.{token}")


def find_key(session: Session, presented: Iterable[str]) -> list[Key]:
    """Return the keys, turned off or not, whose secrets are among ``presented``."""
    found = []
    for text in presented:
        key_id, _, token = text.partition(".")
        key = session.get(Key, key_id) if token else None
        if key is not None and matches(token, key.secret_hash):
            found.append(key)
    return found


def opens(key: Key, board: Board) -> bool:
    """Whether ``key``, if it is not turned off, opens ``board``."""
    return key.team_id == board.team_id and key.board_id in (None, board.id)


def coach_key(session: Session, board_id: str, presented: Iterable[str]) -> tuple[Board, Key]:
    """Return the board and the key to it among the secrets ``presented``.

    Raises ``Refused``: ``gone_key`` if the only keys to it are turned off, ``no_key`` if there are none,
    ``no_board`` if there is no such board.
    """
    board = session.get(Board, board_id)
    if board is None:
        raise Refused("no_board")
    keys = [key for key in find_key(session, presented) if opens(key, board) and key.role != "viewer"]
    live = [key for key in keys if key.revoked is None]
    if not live:
        raise Refused("gone_key" if keys else "no_key")
    return board, max(live, key=lambda key: _RANK[key.role])


def strongest(held: Iterable[Key], team_id: str) -> Key | None:
    """Return the key among ``held`` that is not turned off and may do most in a team, if any."""
    live = [key for key in held if key.revoked is None and key.team_id == team_id and key.role != "viewer"]
    return max(live, key=lambda key: _RANK[key.role], default=None)


def teams_lost(held: Iterable[Key]) -> set[str]:
    """Return the teams that a device with the keys ``held`` coached and does not any more."""
    coaching = [key for key in held if key.role != "viewer"]
    live = {key.team_id for key in coaching if key.revoked is None}
    return {key.team_id for key in coaching} - live


def require_live(session: Session, key_id: str) -> None:
    """Raise ``Refused`` (``gone_key``) if the key is turned off; asked within the change it allows."""
    if session.scalar(select(Key.id).where(Key.id == key_id, Key.revoked.is_(None))) is None:
        raise Refused("gone_key")


def require_head_coach(key: Key) -> None:
    """Raise ``Refused`` unless ``key`` is a head coach's."""
    if key.role != "head_coach":
        raise Refused("head_coach_only")


def at_least(role: str, other: str) -> bool:
    """Whether ``role`` may do all that ``other`` may."""
    return _RANK[role] >= _RANK[other]


def raise_role(key: Key, link: Link) -> None:
    """Give a device that opens a further link what that link gives, if it is more than it has."""
    if _RANK[link.role] > _RANK[key.role]:
        key.role = link.role
    if link.role == "head_coach":
        key.board_id = None


def keys_of(session: Session, board: Board) -> list[Key]:
    """Return the keys to a board that are not turned off, the oldest first."""
    return list(session.scalars(select(Key).where(*_to(board)).order_by(Key.made, Key.id)))


def _to(board: Board) -> tuple[ColumnElement[bool], ...]:
    return (
        Key.team_id == board.team_id,
        Key.revoked.is_(None),
        or_(Key.board_id.is_(None), Key.board_id == board.id),
    )


def turn_off_key(session: Session, key_id: str, by: Key) -> Key:
    """Turn a key off. A head coach may turn off any of the team's; everybody his own.

    Raises ``Refused``; the team's only head coach cannot be turned off.
    """
    key = session.get(Key, key_id)
    if key is None or key.team_id != by.team_id or key.revoked is not None:
        raise Refused("no_such_key")
    if key.id != by.id:
        require_head_coach(by)
    if key.role == "head_coach":
        others = select(Key.id).where(
            Key.team_id == key.team_id, Key.role == "head_coach", Key.revoked.is_(None), Key.id != key.id
        )
        if session.scalar(others) is None:
            raise Refused("last_key")
    key.revoked = int(time.time())
    return key
