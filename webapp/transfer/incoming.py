"""A document's squad and designs on their way into a team, and what each of its ids has become there."""

from __future__ import annotations

import json
import time
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Final, Literal

from sqlalchemy import select
from sqlalchemy.orm import Session

from webapp.base.tokens import new_id
from webapp.store.tables import Base, Design, DesignVersion, Lineup, Player, Team
from webapp.team import designs
from webapp.transfer.changes import Item
from webapp.wire.refusals import Refused

Json = dict[str, Any]
#: Whose counts where the document and the team differ.
Choice = Literal["mine", "theirs", "both"]

_NUMBERS: Final = tuple(str(number) for number in range(100))


def free_id(session: Session, table: type[Base], wanted: str) -> str:
    """Return ``wanted``, or a new id if that is taken here."""
    return wanted if session.get(table, wanted) is None else new_id()


@dataclass
class Coming:
    """One document on its way in: what each of its ids has become here."""

    session: Session
    team: Team
    choices: Mapping[str, Choice]
    players: dict[str, str] = field(default_factory=dict)
    refs: dict[str, str] = field(default_factory=dict)
    #: Own designs that stay as they are, of which chains that come may need the document's versions.
    waiting: dict[str, Json] = field(default_factory=dict)
    #: Players here who will get another number.
    leaving: set[str] = field(default_factory=set)

    def team_itself(self, item: Item) -> None:
        """Take the name and the calls over, or the calls that are missing here."""
        theirs, choice = item.theirs, self.choices["team"]
        if item.status != "different" or choice == "mine":
            return
        calls = theirs["calls"]
        if choice == "theirs":
            self.team.name = theirs["name"]
            self.team.language = theirs.get("language", self.team.language)
        else:
            calls = {**calls, **json.loads(self.team.calls)}
        self.team.calls = json.dumps(calls, ensure_ascii=False)

    def player(self, item: Item) -> None:
        """Take a player in. Where his number is taken, he gets the lowest free one."""
        theirs, choice = item.theirs, self.choices["players"]
        row = self.row(Player, item)
        if row is not None and (item.status == "same" or choice == "mine"):
            self.players[theirs["id"]] = row.id
            return
        if row is None or choice == "both":
            row = self._back(Player, theirs["id"]) or Player(
                id=free_id(self.session, Player, theirs["id"]), team_id=self.team.id
            )
        self.leaving.discard(row.id)
        row.number = self._number(theirs["number"], row)
        row.made, row.deleted = theirs["made"], None
        row.name, row.hand = theirs["name"], theirs["hand"]
        row.positions, row.lane = json.dumps(theirs["positions"]), json.dumps(theirs["lane"])
        row.may = None if theirs["may"] is None else json.dumps(theirs["may"])
        self.session.add(row)
        self.session.flush()
        self.players[theirs["id"]] = row.id

    def _number(self, wanted: str, row: Player) -> str:
        others = select(Player).where(Player.team_id == self.team.id, Player.deleted.is_(None))
        taken = {
            other.number for other in self.session.scalars(others) if other.id not in {row.id, *self.leaving}
        }
        return next(number for number in (wanted, row.number, *_NUMBERS) if number and number not in taken)

    def lineup(self, item: Item) -> None:
        """Take a lineup in."""
        theirs, choice = item.theirs, self.choices["lineups"]
        row = self.row(Lineup, item)
        if row is not None and (item.status == "same" or choice == "mine"):
            return
        if row is None or choice == "both":
            row = self._back(Lineup, theirs["id"]) or Lineup(
                id=free_id(self.session, Lineup, theirs["id"]), team_id=self.team.id
            )
        row.name, row.made, row.deleted = theirs["name"], theirs["made"], None
        row.places = json.dumps(self.seats(theirs["places"]))
        self.session.add(row)

    def seats(self, places: Mapping[str, str | None]) -> dict[str, str | None]:
        """Return places with the players they have become here; nobody has two."""
        found: dict[str, str | None] = {}
        for place, who in sorted(places.items()):
            player = None if who is None else self.players[who]
            found[place] = None if player in found.values() else player
        return found

    def design(self, item: Item) -> None:
        """Take rules or a formation in, with all versions; those that are here already keep theirs."""
        theirs, choice = item.theirs, self.choices["designs"]
        row = self.row(Design, item)
        if row is None or row.kind != theirs["kind"]:
            self._new_design(theirs)
            return
        here = self.session.scalars(select(DesignVersion).where(DesignVersion.design_id == row.id))
        known = {version.version: json.loads(version.data) for version in here}
        for version in theirs["versions"]:
            if known.get(version["version"]) == version["data"]:
                ref = designs.ref_of(_kind(row), row.id, version["version"])
                self.refs[ref] = ref
        if item.status == "same":
            return
        if choice == "both":
            self._new_design(theirs)
        elif choice == "mine":
            self.waiting[row.id] = theirs
        else:
            row.deleted = theirs["deleted"]
            self._add_versions(row, theirs, known)

    def _add_versions(self, row: Design, theirs: Json, known: dict[int, Json]) -> None:
        """Add the versions that are not here, and let the document's newest be the newest here as well."""
        newest = max(known)
        for version in theirs["versions"]:
            ref = designs.ref_of(_kind(row), theirs["id"], version["version"])
            last = version is theirs["versions"][-1] and known[newest] != version["data"]
            if ref in self.refs and not last:
                continue
            newest += 1
            if newest > designs.VERSIONS_MAX:
                raise Refused("full_versions", most=designs.VERSIONS_MAX)
            self._version(row, newest, version)
            known[newest] = version["data"]
            self.refs.setdefault(ref, designs.ref_of(_kind(row), row.id, newest))

    def _new_design(self, theirs: Json, deleted: int | None = None) -> None:
        row = Design(
            id=free_id(self.session, Design, theirs["id"]),
            team_id=self.team.id,
            kind=theirs["kind"],
            made=theirs["made"],
            deleted=theirs["deleted"] or deleted,
        )
        self.session.add(row)
        self.session.flush()
        for version in theirs["versions"]:
            self._version(row, version["version"], version)
            ref = designs.ref_of(_kind(row), theirs["id"], version["version"])
            self.refs.setdefault(ref, designs.ref_of(_kind(row), row.id, version["version"]))

    def _version(self, row: Design, number: int, version: Json) -> None:
        data = json.dumps(version["data"], ensure_ascii=False)
        made = version["made"]
        self.session.add(DesignVersion(design_id=row.id, version=number, data=data, made=made))

    def ref(self, ref: str) -> str:
        """Return what a ref of the document is here.

        If the coach keeps his own rules and a chain was played by others of that id, those come as well,
        deleted: the chain plays by them, and the list stays as it was.
        """
        if "@" not in ref:
            return ref
        if ref not in self.refs:
            self._new_design(self.waiting[ref.partition("@")[0][2:]], int(time.time()))
        return self.refs[ref]

    def row(self, table: type[Any], item: Item) -> Any:
        """Return what is here of an item: not another team's, and nothing that is not there at all."""
        return None if item.mine is None else self.session.get_one(table, item.mine["id"])

    def _back(self, table: type[Any], wanted: str) -> Any:
        """Return a row of the team's that was taken out, to be used again."""
        row = self.session.get(table, wanted)
        return row if row is not None and row.team_id == self.team.id and row.deleted is not None else None


def _kind(row: Design) -> designs.Kind:
    return "rules" if row.kind == "rules" else "formation"
