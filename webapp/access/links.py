"""Links and join codes: made, opened, turned off."""

from __future__ import annotations

import time
from dataclasses import dataclass
from typing import Final, Literal

from sqlalchemy import literal_column, select, update
from sqlalchemy.orm import Session

from engine.words.spoken import say
from webapp.access.keys import require_head_coach
from webapp.base.tokens import hashed, new_code, new_id, new_token, tidy_code
from webapp.store.tables import Board, JoinCode, Key, Link
from webapp.wire.refusals import Refused

Kind = Literal["view", "coach"]

#: When a code that was turned off runs out: no clock that is set back brings it to life.
_NEVER: Final = 0


@dataclass(frozen=True, slots=True)
class NewLink:
    """A link just made, with the secret that goes into its address, shown once."""

    id: str
    kind: str
    name: str
    token: str

    @property
    def path(self) -> str:
        """The link's address on this server."""
        return f"/{'c' if self.kind == 'coach' else 'v'}/{self.token}"


def make_link(
    session: Session,
    board_id: str,
    kind: Kind,
    name: str,
    *,
    role: str | None = None,
    code_id: str | None = None,
    automatic: bool = False,
) -> NewLink:
    """Store a new link and return it. Opened, it makes an assistant or a viewer unless ``role`` says more."""
    token = new_token()
    link = Link(
        id=new_id(),
        board_id=board_id,
        kind=kind,
        role=role or ("assistant" if kind == "coach" else "viewer"),
        token_hash=hashed(token),
        name=name,
        code_id=code_id,
        automatic=automatic,
        uses=0,
        made=int(time.time()),
        revoked=None,
    )
    session.add(link)
    session.flush()
    return NewLink(link.id, kind, name, token)


def find_link(session: Session, token: str, kind: Kind) -> Link:
    """Return the link with this secret. Raises ``Refused`` (``gone_link``) if it is off or never was."""
    # The hash is what is looked up, so that how long it takes says nothing about the secret.
    link = session.scalar(select(Link).where(Link.token_hash == hashed(token), Link.kind == kind))
    if link is None or link.revoked is not None:
        raise Refused("gone_link")
    return link


def links_of(session: Session, board: Board) -> list[Link]:
    """Return the links to a board that are not turned off, the oldest first."""
    found = select(Link).where(Link.board_id == board.id, Link.revoked.is_(None))
    return list(session.scalars(found.order_by(Link.made, Link.id)))


@dataclass(frozen=True, slots=True)
class TurnedOff:
    """The ids of what went off: each may have live screens."""

    links: tuple[str, ...]
    keys: tuple[str, ...] = ()


def turn_off_link(session: Session, link_id: str, by: Key) -> TurnedOff:
    """Turn a link off, and whatever came by it.

    With a viewing link go its join codes and the links of the phones that used them; with the link of one
    such phone goes the code it came by, so that it does not come in again, while the others stay. With a
    coaching link, which only a head coach may turn off, go the keys of the devices that opened it, but never
    the key of whoever does it nor another head coach's. Raises ``Refused``.
    """
    link = session.get(Link, link_id)
    board = None if link is None else session.get(Board, link.board_id)
    if link is None or board is None or link.revoked is not None or not _reaches(by, board):
        raise Refused("no_link")
    now = int(time.time())
    link.revoked = now
    if link.kind == "view":
        return TurnedOff((link.id, *_end_codes(session, link, now)))
    require_head_coach(by)
    theirs = select(Key.id).where(
        Key.link_id == link.id, Key.revoked.is_(None), Key.id != by.id, Key.role != "head_coach"
    )
    keys = list(session.scalars(theirs))
    session.execute(update(Key).where(Key.id.in_(keys)).values(revoked=now))
    return TurnedOff((link.id,), tuple(keys))


def _end_codes(session: Session, link: Link, now: int) -> list[str]:
    """End the codes of a viewing link, and return the ids of the links they gave, turned off as well."""
    if link.code_id is not None:
        session.execute(update(JoinCode).where(JoinCode.id == link.code_id).values(expires=_NEVER))
        return []
    # A code that names no link was made for the board: it ends with any of its links, as nobody could say
    # afterwards by which of them its phones came.
    its = (JoinCode.link_id == link.id) | JoinCode.link_id.is_(None)
    codes = list(session.scalars(select(JoinCode.id).where(JoinCode.board_id == link.board_id, its)))
    session.execute(update(JoinCode).where(JoinCode.id.in_(codes)).values(expires=_NEVER))
    given = select(Link.id).where(Link.code_id.in_(codes), Link.revoked.is_(None))
    links = list(session.scalars(given))
    session.execute(update(Link).where(Link.id.in_(links)).values(revoked=now))
    return links


def _reaches(key: Key, board: Board) -> bool:
    return key.team_id == board.team_id and key.board_id in (None, board.id)


def make_start_link(session: Session, board_id: str) -> NewLink:
    """Make the head coach's link of this start; that of the start before stops working, its keys stay."""
    session.execute(
        update(Link).where(Link.automatic, Link.revoked.is_(None)).values(revoked=int(time.time()))
    )
    return make_link(
        session, board_id, "coach", say("refusals.links.this_machine"), role="head_coach", automatic=True
    )


@dataclass(frozen=True, slots=True)
class NewCode:
    """A join code just made: what is typed, shown once."""

    id: str
    code: str


def codes_of(session: Session, board_id: str) -> list[str]:
    """Return the ids of the join codes of a board that work."""
    live = select(JoinCode.id).where(JoinCode.board_id == board_id, JoinCode.expires > int(time.time()))
    return list(session.scalars(live))


def make_code(
    session: Session, board_id: str, life_s: int, live_max_count: int, link_id: str | None = None
) -> NewCode:
    """Store a new join code and return it. The oldest stop working when more than so many would work.

    ``link_id``: the viewing link of the board it is given away with, and ends with; ``None``: with any of
    them. Raises ``Refused`` (``no_link``) if that is off or another board's.
    """
    if link_id is not None:
        link = session.get(Link, link_id)
        if link is None or (link.board_id, link.kind, link.revoked) != (board_id, "view", None):
            raise Refused("no_link")
    now = int(time.time())
    live = select(JoinCode).where(JoinCode.board_id == board_id, JoinCode.expires > now)
    for old in list(session.scalars(live.order_by(literal_column("rowid").desc())))[live_max_count - 1 :]:
        old.expires = now
    while True:
        code = new_code()
        same = select(JoinCode.id).where(JoinCode.code_hash == hashed(code), JoinCode.expires > now)
        if session.scalar(same) is None:
            break
    made = JoinCode(
        id=new_id(),
        board_id=board_id,
        link_id=link_id,
        code_hash=hashed(code),
        made=now,
        expires=now + life_s,
        uses=0,
    )
    session.add(made)
    session.flush()
    return NewCode(made.id, code)


def use_code(session: Session, typed: str) -> NewLink:
    """Return a new viewing link for whoever typed a working code. Raises ``Refused`` (``bad_code``)."""
    found = select(JoinCode).where(
        JoinCode.code_hash == hashed(tidy_code(typed)), JoinCode.expires > int(time.time())
    )
    code = session.scalar(found)
    if code is None:
        raise Refused("bad_code")
    code.uses += 1
    return make_link(
        session, code.board_id, "view", say("refusals.links.joined_by_code", uses=code.uses), code_id=code.id
    )
