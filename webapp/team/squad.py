"""The squad: players, what each may do, lineups, and who plays which of a board's five places."""

from __future__ import annotations

import json
import time
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

from sqlalchemy import delete, func, select
from sqlalchemy.orm import Session

from engine.game.licences import Licence
from engine.words.spoken import say
from webapp.base.tokens import new_id
from webapp.store.tables import Board, Lineup, Player
from webapp.wire.refusals import Problems, Refused
from webapp.wire.schemas import PLACES

PLAYERS_MAX: Final = 30
LINEUPS_MAX: Final = 30

#: Players and lineups that were taken out can be brought back for so long; then they are erased.
KEPT_S: Final = 30 * 86400

#: Who plays which place, place 1 first; ``None`` for nobody in particular.
Places = tuple[str | None, ...]
NOBODY: Final[Places] = (None,) * len(PLACES)


@dataclass(frozen=True, slots=True)
class Member:
    """A player of the squad. ``number`` is a text, as 0 and 00 are two numbers."""

    id: str
    number: str
    name: str
    positions: tuple[str, ...]
    hand: str
    may: tuple[str, ...] | None
    lane: tuple[str, ...]

    @property
    def licence(self) -> Licence:
        """What he may do, as the engine asks it."""
        return Licence(None if self.may is None else frozenset(self.may), self.lane)

    def shown(self) -> dict[str, Any]:
        """Return him as the team's page knows him."""
        return {
            "id": self.id,
            "number": self.number,
            "name": self.name,
            "positions": list(self.positions),
            "hand": self.hand,
            "may": None if self.may is None else list(self.may),
            "lane": list(self.lane),
        }


def _member(row: Player) -> Member:
    may = None if row.may is None else tuple(json.loads(row.may))
    positions, lane = tuple(json.loads(row.positions)), tuple(json.loads(row.lane))
    return Member(row.id, row.number, row.name, positions, row.hand, may, lane)


def players(session: Session, team_id: str) -> tuple[Member, ...]:
    """Return the squad by number."""
    rows = session.scalars(select(Player).where(Player.team_id == team_id, Player.deleted.is_(None)))
    return tuple(sorted(map(_member, rows), key=lambda m: (int(m.number), len(m.number))))


def add_player(session: Session, team_id: str, given: Mapping[str, Any]) -> Member:
    """Store a new player. Raises ``Refused``."""
    forget_old(session, team_id)
    _room(session, team_id, Player, PLAYERS_MAX, "full_squad")
    row = Player(id=new_id(), team_id=team_id, made=int(time.time()), deleted=None)
    _write(session, row, {**BLANK, **given})
    session.add(row)
    session.flush()
    return _member(row)


#: A player of whom only the number is known.
BLANK: Final[Mapping[str, Any]] = {"name": "", "positions": [], "hand": "", "may": None, "lane": []}


def change_player(session: Session, team_id: str, player_id: str, given: Mapping[str, Any]) -> Member:
    """Change what is given of a player. Raises ``Refused``."""
    row = _player(session, team_id, player_id)
    if row.deleted is not None:
        raise Refused("no_player")
    _write(session, row, given)
    return _member(row)


def _write(session: Session, row: Player, given: Mapping[str, Any]) -> None:
    number = given.get("number", row.number)
    others = select(Player.id).where(
        Player.team_id == row.team_id, Player.number == number, Player.deleted.is_(None), Player.id != row.id
    )
    if session.scalar(others) is not None:
        raise Problems([("number", say("refusals.squad.number_squad_already", number=number))])
    row.number = number
    for name in ("name", "hand"):
        if name in given:
            setattr(row, name, given[name])
    for name in ("positions", "lane"):
        if name in given:
            setattr(row, name, json.dumps(given[name]))
    if "may" in given:
        row.may = None if given["may"] is None else json.dumps(given["may"])


def delete_player(session: Session, team_id: str, player_id: str) -> None:
    """Take a player out of the squad until he is restored. Raises ``Refused``."""
    row = _player(session, team_id, player_id)
    if row.deleted is not None:
        raise Refused("no_player")
    row.deleted = int(time.time())


def restore_player(session: Session, team_id: str, player_id: str) -> Member:
    """Bring a player back who was taken out. Raises ``Refused``."""
    row = _player(session, team_id, player_id)
    if row.deleted is None:
        raise Refused("not_deleted")
    _room(session, team_id, Player, PLAYERS_MAX, "full_squad")
    _write(session, row, {})
    row.deleted = None
    return _member(row)


def _player(session: Session, team_id: str, player_id: str) -> Player:
    row = session.get(Player, player_id)
    if row is None or row.team_id != team_id:
        raise Refused("no_player")
    return row


def lineups(session: Session, team_id: str) -> list[dict[str, Any]]:
    """Return the lineups as the team's page knows them, the oldest first."""
    found = select(Lineup).where(Lineup.team_id == team_id, Lineup.deleted.is_(None))
    members = {member.id for member in players(session, team_id)}
    return [_lineup(row, members) for row in session.scalars(found.order_by(Lineup.made, Lineup.id))]


def _lineup(row: Lineup, members: set[str]) -> dict[str, Any]:
    places = {place: who if who in members else None for place, who in json.loads(row.places).items()}
    return {"id": row.id, "name": row.name, "places": places}


def add_lineup(session: Session, team_id: str, name: str, places: Mapping[str, str | None]) -> dict[str, Any]:
    """Store a new lineup. Raises ``Refused``."""
    forget_old(session, team_id)
    _room(session, team_id, Lineup, LINEUPS_MAX, "full_lineups")
    row = Lineup(id=new_id(), team_id=team_id, name=name, made=int(time.time()), deleted=None)
    members = _fill(session, row, places)
    session.add(row)
    session.flush()
    return _lineup(row, members)


def change_lineup(session: Session, team_id: str, lineup_id: str, given: Mapping[str, Any]) -> dict[str, Any]:
    """Change a lineup's name or places. Raises ``Refused``."""
    row = _find_lineup(session, team_id, lineup_id, deleted=False)
    row.name = given.get("name", row.name)
    if "places" in given:
        return _lineup(row, _fill(session, row, given["places"]))
    return _lineup(row, {member.id for member in players(session, team_id)})


def _fill(session: Session, row: Lineup, places: Mapping[str, str | None]) -> set[str]:
    members = {member.id for member in players(session, row.team_id)}
    row.places = json.dumps(dict(zip(PLACES, placed(NOBODY, places, members), strict=True)))
    return members


def delete_lineup(session: Session, team_id: str, lineup_id: str) -> None:
    """Take a lineup out until it is restored. Raises ``Refused``."""
    _find_lineup(session, team_id, lineup_id, deleted=False).deleted = int(time.time())


def restore_lineup(session: Session, team_id: str, lineup_id: str) -> dict[str, Any]:
    """Bring a lineup back that was taken out. Raises ``Refused``."""
    row = _find_lineup(session, team_id, lineup_id, deleted=True)
    _room(session, team_id, Lineup, LINEUPS_MAX, "full_lineups")
    row.deleted = None
    return _lineup(row, {member.id for member in players(session, team_id)})


def _find_lineup(session: Session, team_id: str, lineup_id: str, *, deleted: bool) -> Lineup:
    row = session.get(Lineup, lineup_id)
    if row is None or row.team_id != team_id or (row.deleted is not None and not deleted):
        raise Refused("no_lineup")
    if deleted and row.deleted is None:
        raise Refused("not_deleted")
    return row


def placed(now: Places, given: Mapping[str, str | None], members: set[str]) -> Places:
    """Return the places once ``given`` are taken: two players change places rather than one having two.

    Raises ``Problems`` if somebody is given two places or is not among ``members``.
    """
    wanted = [who for who in given.values() if who is not None]
    problems = [
        (f"places.{place}", say("refusals.squad.no_such_player_squad"))
        for place, who in given.items()
        if who is not None and who not in members
    ]
    problems += [
        (f"places.{place}", say("refusals.squad.one_player_cannot_have"))
        for place, who in given.items()
        if who is not None and wanted.count(who) > 1
    ]
    if problems:
        raise Problems(problems)
    after = dict(zip(PLACES, now, strict=True))
    for place, who in given.items():
        for other in PLACES:
            if who is not None and after[other] == who and other not in given:
                after[other] = after[place]
        after[place] = who
    return tuple(after.values())


def read_places(text: str) -> Places:
    """Return the places that a board keeps as JSON."""
    kept = json.loads(text)
    return tuple(kept.get(place) for place in PLACES)


def write_places(places: Places) -> str:
    """Return ``places`` as a board keeps them."""
    return json.dumps({place: who for place, who in zip(PLACES, places, strict=True) if who is not None})


def seated(places: Places, squad: Sequence[Member]) -> tuple[Member | None, ...]:
    """Return the players on the five places."""
    by_id = {member.id: member for member in squad}
    return tuple(None if who is None else by_id.get(who) for who in places)


def erase(session: Session, team_id: str) -> int:
    """Erase all players and lineups of a team for good, and return how many players there were."""
    count = session.scalar(select(func.count()).where(Player.team_id == team_id)) or 0
    session.execute(delete(Player).where(Player.team_id == team_id))
    session.execute(delete(Lineup).where(Lineup.team_id == team_id))
    for board in session.scalars(select(Board).where(Board.team_id == team_id)):
        board.places = "{}"
    return count


def forget_old(session: Session, team_id: str) -> None:
    """Erase what was taken out long ago."""
    before = int(time.time()) - KEPT_S
    for table in (Player, Lineup):
        session.execute(delete(table).where(table.team_id == team_id, table.deleted < before))


def _room(session: Session, team_id: str, table: type[Player] | type[Lineup], most: int, code: str) -> None:
    mine = select(func.count()).select_from(table).where(table.team_id == team_id)
    live, kept = session.scalar(mine.where(table.deleted.is_(None))), session.scalar(mine)
    if (live or 0) >= most or (kept or 0) >= 10 * most:
        raise Refused(code, most=most)
