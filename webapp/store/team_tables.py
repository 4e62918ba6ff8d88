"""Teams, their squads and lineups, and their own rule sets and formations."""

from __future__ import annotations

from sqlalchemy import CheckConstraint, ForeignKey
from sqlalchemy.orm import Mapped, mapped_column

from webapp.store.base import Base


class Team(Base):
    """A team: the owner of its boards, of the keys to them, of its squad and of its own designs.

    ``calls``: JSON, its words and hand signals by kind of action. ``language``: the tag of the one it is
    spoken to in; "" for what each browser asks for.
    """

    __tablename__ = "team"

    id: Mapped[str] = mapped_column(primary_key=True)
    name: Mapped[str]
    made: Mapped[int]
    calls: Mapped[str] = mapped_column(default="{}", server_default="{}")
    language: Mapped[str] = mapped_column(default="", server_default="")


class Player(Base):
    """A player of a squad: a number, at most a first name or nickname, and what he may do.

    ``positions``, ``may`` and ``lane`` are JSON lists; without ``may`` he may do all that is installed.
    ``deleted``: when he was taken out of the squad, which can be taken back.
    """

    __tablename__ = "player"

    id: Mapped[str] = mapped_column(primary_key=True)
    team_id: Mapped[str] = mapped_column(ForeignKey("team.id"), index=True)
    number: Mapped[str]
    name: Mapped[str]
    positions: Mapped[str]
    hand: Mapped[str]
    may: Mapped[str | None]
    lane: Mapped[str]
    made: Mapped[int]
    deleted: Mapped[int | None]


class Lineup(Base):
    """Five players and their places. ``places``: JSON, from "1" to "5" to a player's id or null."""

    __tablename__ = "lineup"

    id: Mapped[str] = mapped_column(primary_key=True)
    team_id: Mapped[str] = mapped_column(ForeignKey("team.id"), index=True)
    name: Mapped[str]
    places: Mapped[str]
    made: Mapped[int]
    deleted: Mapped[int | None]


class Design(Base):
    """A team's own rule set or formation; what it says is in its versions."""

    __tablename__ = "design"
    __table_args__ = (CheckConstraint("kind IN ('rules', 'formation')", name="kind"),)

    id: Mapped[str] = mapped_column(primary_key=True)
    team_id: Mapped[str] = mapped_column(ForeignKey("team.id"), index=True)
    kind: Mapped[str]
    made: Mapped[int]
    deleted: Mapped[int | None]


class DesignVersion(Base):
    """One version of a design, counted from 1, never changed once stored: boards are played by it.

    ``data``: its JSON form.
    """

    __tablename__ = "design_version"

    design_id: Mapped[str] = mapped_column(ForeignKey("design.id"), primary_key=True)
    version: Mapped[int] = mapped_column(primary_key=True)
    data: Mapped[str]
    made: Mapped[int]
