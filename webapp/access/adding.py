"""Ways in for one more device of a coach: a code read out from another device, and a recovery sheet on paper.

Both let in one device, once. A code is short, lives a few minutes and falls with the device that made it; a
sheet lives in a drawer until it is used, replaced or turned off, and outlives every device.
"""

from __future__ import annotations

import time
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, Literal

from sqlalchemy import delete, literal_column, select, update
from sqlalchemy.orm import Session

from webapp.access.keys import NewKey, at_least, make_key, opens, require_head_coach
from webapp.base.tokens import CODE_LENGTH, hashed, new_code, new_id, tidy_code
from webapp.store.tables import Admission, Board, Key
from webapp.wire.refusals import Refused

Kind = Literal["code", "sheet"]
Role = Literal["head_coach", "assistant"]

#: 36 random bits: enough for minutes at a few tries each, one code a device, and two more than a player's.
DEVICE_CODE_LENGTH: Final = 8
#: 135 random bits: enough to lie in a drawer for years; typed once, if the picture cannot be photographed.
SHEET_CODE_LENGTH: Final = 30


@dataclass(frozen=True, slots=True)
class NewAdmission:
    """A way in just made, with its secret ``code``, shown once. ``made``: seconds since 1970."""

    id: str
    code: str
    made: int


@dataclass(frozen=True, slots=True)
class Admitted:
    """Who came in: to which board, by what, and the new key; none if the device has what it was given."""

    board_id: str
    kind: str
    new: NewKey | None


def grouped(code: str, each: int) -> str:
    """Return ``code`` in groups of ``each`` letters, as it is read out."""
    return " ".join(code[at : at + each] for at in range(0, len(code), each))


def make_device_code(session: Session, board: Board, by: Key, role: Role, life_s: int) -> NewAdmission:
    """Store a code that makes a device what ``role`` says; the one that ``by`` made before stops working.

    A head coach's code opens all of the team's boards, an assistant's this one. Raises ``Refused`` where
    ``role`` is more than ``by`` has.
    """
    if role == "head_coach":
        require_head_coach(by)
    unused = (Admission.kind == "code", Admission.used.is_(None))
    session.execute(delete(Admission).where(Admission.by_id == by.id, *unused))
    return _store(session, by, "code", DEVICE_CODE_LENGTH, role, board.id, int(time.time()) + life_s)


def make_sheet(session: Session, by: Key) -> NewAdmission:
    """Store a recovery sheet of the team of ``by``; the one before stops working. Raises ``Refused``."""
    require_head_coach(by)
    session.execute(
        update(Admission)
        .where(
            Admission.team_id == by.team_id,
            Admission.kind == "sheet",
            Admission.used.is_(None),
            Admission.revoked.is_(None),
        )
        .values(revoked=int(time.time()))
    )
    return _store(session, by, "sheet", SHEET_CODE_LENGTH, "head_coach", None, None)


def _store(
    session: Session, by: Key, kind: Kind, length: int, role: Role, board_id: str | None, expires: int | None
) -> NewAdmission:
    code = new_code(length)
    while session.scalar(select(Admission.id).where(Admission.secret_hash == hashed(code))) is not None:
        code = new_code(length)
    made = int(time.time())
    found = Admission(
        id=new_id(),
        team_id=by.team_id,
        kind=kind,
        role=role,
        board_id=None if role == "head_coach" else board_id,
        secret_hash=hashed(code),
        by_id=by.id,
        made=made,
        expires=expires,
        used=None,
        key_id=None,
        revoked=None,
    )
    session.add(found)
    session.flush()
    return NewAdmission(found.id, code, made)


def last_sheet(session: Session, team_id: str) -> Admission | None:
    """Return the team's newest recovery sheet, whether it still works or not."""
    found = select(Admission).where(Admission.team_id == team_id, Admission.kind == "sheet")
    return session.scalar(found.order_by(Admission.made.desc(), literal_column("rowid").desc()).limit(1))


def turn_off_sheet(session: Session, sheet_id: str, by: Key) -> None:
    """Make a recovery sheet worthless. Raises ``Refused``."""
    require_head_coach(by)
    sheet = session.get(Admission, sheet_id)
    if sheet is None or sheet.kind != "sheet" or sheet.team_id != by.team_id:
        raise Refused("no_sheet")
    if sheet.used is not None or sheet.revoked is not None:
        raise Refused("no_sheet")
    sheet.revoked = int(time.time())


def admit(session: Session, typed: str, held: Sequence[Key], name: str) -> Admitted:
    """Let the device that holds the keys ``held`` in by what was ``typed``, and call it ``name``.

    A device that already has as much uses nothing up. Raises ``Refused``.
    """
    way = _way_in(session, tidy_code(typed))
    board = _board(session, way)
    mine = [
        key
        for key in held
        if key.revoked is None and key.role != "viewer" and key.team_id == way.team_id and opens(key, board)
    ]
    if any(at_least(key.role, way.role) and key.board_id in (None, way.board_id) for key in mine):
        return Admitted(board.id, way.kind, None)
    new = None
    if mine:
        mine[0].role, mine[0].board_id = way.role, way.board_id
        way.key_id = mine[0].id
    else:
        new = make_key(session, way.team_id, way.role, _unlike(session, way.team_id, name), way.board_id)
        way.key_id = new.id
    way.used = int(time.time())
    return Admitted(board.id, way.kind, new)


def _way_in(session: Session, code: str) -> Admission:
    # The hash is what is looked up, so that how long it takes says nothing about the secret.
    way = session.scalar(select(Admission).where(Admission.secret_hash == hashed(code)))
    if way is None:
        raise Refused("players_code" if len(code) == CODE_LENGTH else "bad_device_code")
    if way.kind == "sheet":
        if way.used is not None:
            raise Refused("used_sheet")
        if way.revoked is not None:
            raise Refused("old_sheet")
        return way
    giver = session.get_one(Key, way.by_id)
    late = way.used is not None or way.expires is None or way.expires <= time.time()
    if late or giver.revoked is not None or not at_least(giver.role, way.role):
        raise Refused("bad_device_code")
    return way


def _board(session: Session, way: Admission) -> Board:
    """Return the board that the way in leads to: its own, else the team's first."""
    if way.board_id is not None:
        return session.get_one(Board, way.board_id)
    found = select(Board).where(Board.team_id == way.team_id).order_by(Board.made, Board.id).limit(1)
    board = session.scalar(found)
    if board is None:
        raise Refused("no_board")
    return board


def _unlike(session: Session, team_id: str, name: str) -> str:
    """Return ``name``, with a number if the team has a device of that name already."""
    live = select(Key.name).where(Key.team_id == team_id, Key.revoked.is_(None))
    taken = set(session.scalars(live))
    number = 2
    found = name
    while found in taken:
        found = f"{name} {number}"
        number += 1
    return found


def ways_of(session: Session, team_id: str) -> dict[str, Admission]:
    """Return the ways by which the team's keys came in, by the key they gave."""
    found = session.scalars(
        select(Admission).where(Admission.team_id == team_id, Admission.used.is_not(None))
    )
    return {way.key_id: way for way in found if way.key_id is not None}
