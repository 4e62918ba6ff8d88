"""Boards and what is played on them: trees of play, chains, ink, where a board stands, its history."""

from __future__ import annotations

from sqlalchemy import ForeignKey, Index, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from webapp.store.base import Base


class Board(Base):
    """A board and what has been chosen for it. ``level`` is the speed factor, 0.75 to 1.

    ``formation`` and ``rules`` name what ships, or a version of the team's own. ``stage``: index of the
    teaching stage, empty for all of them. ``places``: JSON, from "1" to "5" to a player's id or null.
    """

    __tablename__ = "board"

    id: Mapped[str] = mapped_column(primary_key=True)
    team_id: Mapped[str] = mapped_column(ForeignKey("team.id"), index=True)
    name: Mapped[str]
    formation: Mapped[str]
    court: Mapped[str]
    level: Mapped[float]
    made: Mapped[int]
    rules: Mapped[str] = mapped_column(default="pass_and_cut", server_default="pass_and_cut")
    stage: Mapped[int | None]
    places: Mapped[str] = mapped_column(default="{}", server_default="{}")


class Node(Base):
    """A place in a board's tree of play. A root has a formation, rules and no actions; every other node has
    the text forms of its one or two actions, separated by a space, and is played after its parent.
    """

    __tablename__ = "node"

    id: Mapped[int] = mapped_column(primary_key=True)
    board_id: Mapped[str] = mapped_column(ForeignKey("board.id"), index=True)
    parent_id: Mapped[int | None] = mapped_column(ForeignKey("node.id"), index=True)
    depth: Mapped[int]
    actions: Mapped[str]
    formation: Mapped[str | None]
    made: Mapped[int]
    rules: Mapped[str | None]


class Chain(Base):
    """A chain of play with all its branches: a root and everything played after it.

    ``line_id`` ends its main line, the one that is shown when it is opened. ``kept``: it stands in the
    playbook; the others are history only. ``tags``: JSON, a list of words. ``board_id``: where it was begun.
    ``id`` may have been made by a device that was offline. ``used``: when it was last opened or saved.
    """

    __tablename__ = "chain"

    id: Mapped[str] = mapped_column(primary_key=True)
    team_id: Mapped[str] = mapped_column(ForeignKey("team.id"), index=True)
    board_id: Mapped[str] = mapped_column(ForeignKey("board.id"))
    root_id: Mapped[int] = mapped_column(ForeignKey("node.id"), unique=True)
    line_id: Mapped[int] = mapped_column(ForeignKey("node.id"))
    name: Mapped[str] = mapped_column(default="")
    note: Mapped[str] = mapped_column(default="")
    tags: Mapped[str] = mapped_column(default="[]")
    pinned: Mapped[bool] = mapped_column(default=False)
    occasion: Mapped[str] = mapped_column(default="", server_default="")
    rank: Mapped[int] = mapped_column(default=0, server_default="0")
    kept: Mapped[bool] = mapped_column(default=False)
    made: Mapped[int]
    used: Mapped[int]
    deleted: Mapped[int | None]


class Ink(Base):
    """One stroke drawn over the court after a step, by the id its sender gave it.

    ``tool``, ``colour`` and, as JSON, ``points``: as on the wire. ``gone``: rubbed out, can be taken back.
    """

    __tablename__ = "ink"

    node_id: Mapped[int] = mapped_column(ForeignKey("node.id"), primary_key=True)
    id: Mapped[str] = mapped_column(primary_key=True)
    chain_id: Mapped[str] = mapped_column(ForeignKey("chain.id"), index=True)
    tool: Mapped[int]
    colour: Mapped[int]
    points: Mapped[str]
    gone: Mapped[bool] = mapped_column(default=False)
    made: Mapped[int]


class Done(Base):
    """A change of the playbook that has been done, by the id its sender gave it: twice sent is once done."""

    __tablename__ = "done"

    id: Mapped[str] = mapped_column(primary_key=True)
    team_id: Mapped[str] = mapped_column(ForeignKey("team.id"), primary_key=True)
    made: Mapped[int]


class Place(Base):
    """Where a board stands in its tree: at ``cursor``, on the way from ``root`` to ``tip`` (redo goes there).

    ``seq`` is the number of changes so far.
    """

    __tablename__ = "place"

    board_id: Mapped[str] = mapped_column(ForeignKey("board.id"), primary_key=True)
    seq: Mapped[int]
    root_id: Mapped[int] = mapped_column(ForeignKey("node.id"))
    cursor_id: Mapped[int] = mapped_column(ForeignKey("node.id"))
    tip_id: Mapped[int] = mapped_column(ForeignKey("node.id"))


class Change(Base):
    """The history: one row for each change of a board, in order, with the id its sender gave it.

    ``node_id`` is where the board stood after it.
    """

    __tablename__ = "change"
    __table_args__ = (
        UniqueConstraint("board_id", "message_id"),
        Index("ix_change_node_id", "node_id"),
    )

    board_id: Mapped[str] = mapped_column(ForeignKey("board.id"), primary_key=True)
    seq: Mapped[int] = mapped_column(primary_key=True)
    message_id: Mapped[str]
    kind: Mapped[str]
    node_id: Mapped[int] = mapped_column(ForeignKey("node.id"))
    key_id: Mapped[str | None] = mapped_column(ForeignKey("key.id"))
    made: Mapped[int]
