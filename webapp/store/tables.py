"""The tables, as typed models. Times are whole seconds since 1970 UTC; secrets are kept as SHA-256 in hex."""

from __future__ import annotations

from sqlalchemy import CheckConstraint, ForeignKey, Index, MetaData, UniqueConstraint
from sqlalchemy.orm import DeclarativeBase, Mapped, mapped_column

#: Names for constraints, so that migrations can name what they change.
_NAMES = {
    "ix": "ix_%(column_0_label)s",
    "uq": "uq_%(table_name)s_%(column_0_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "fk": "fk_%(table_name)s_%(column_0_name)s_%(referred_table_name)s",
    "pk": "pk_%(table_name)s",
}


class Base(DeclarativeBase):
    """What all tables share."""

    metadata = MetaData(naming_convention=_NAMES)


class ServerLock(Base):
    """One row: the generation of the server that may write. Every start raises it by 1."""

    __tablename__ = "server_lock"
    __table_args__ = (CheckConstraint("id = 1", name="one_row"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    generation: Mapped[int]


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


class JoinCode(Base):
    """A six-character code that gives viewing links for a few minutes.

    ``link_id``: the viewing link it is given away with, and ends with; empty: it ends with any of the
    board's. No foreign key: links name codes already, and a ring of tables has no order to be written in.
    """

    __tablename__ = "join_code"

    id: Mapped[str] = mapped_column(primary_key=True)
    board_id: Mapped[str] = mapped_column(ForeignKey("board.id"), index=True)
    link_id: Mapped[str | None] = mapped_column(index=True)
    code_hash: Mapped[str] = mapped_column(index=True)
    made: Mapped[int]
    expires: Mapped[int]
    uses: Mapped[int] = mapped_column(default=0)


class Link(Base):
    """A link to view or to coach. ``code_id`` names the join code it came from, if any.

    ``role`` is what a device becomes by opening it; ``automatic`` marks the link made at each start.
    """

    __tablename__ = "link"
    __table_args__ = (
        CheckConstraint("kind IN ('view', 'coach')", name="kind"),
        CheckConstraint("role IN ('head_coach', 'assistant', 'viewer')", name="role"),
    )

    id: Mapped[str] = mapped_column(primary_key=True)
    board_id: Mapped[str] = mapped_column(ForeignKey("board.id"), index=True)
    kind: Mapped[str]
    role: Mapped[str]
    token_hash: Mapped[str] = mapped_column(unique=True)
    name: Mapped[str]
    code_id: Mapped[str | None] = mapped_column(ForeignKey("join_code.id"))
    automatic: Mapped[bool] = mapped_column(default=False)
    uses: Mapped[int] = mapped_column(default=0)
    made: Mapped[int]
    revoked: Mapped[int | None]


class Key(Base):
    """A device's own key. ``board_id`` is the one board it opens; empty: every board of the team."""

    __tablename__ = "key"
    __table_args__ = (CheckConstraint("role IN ('head_coach', 'assistant', 'viewer')", name="role"),)

    id: Mapped[str] = mapped_column(primary_key=True)
    team_id: Mapped[str] = mapped_column(ForeignKey("team.id"), index=True)
    board_id: Mapped[str | None] = mapped_column(ForeignKey("board.id"))
    link_id: Mapped[str | None] = mapped_column(ForeignKey("link.id"), index=True)
    role: Mapped[str]
    secret_hash: Mapped[str]
    name: Mapped[str]
    made: Mapped[int]
    seen: Mapped[int]
    revoked: Mapped[int | None]


class Admission(Base):
    """A way in for one device, once: a code read out from another device, or a recovery sheet on paper.

    ``role`` and ``board_id`` are what the device's key gets (no board: all of the team). ``by_id`` is the key
    that made it, ``key_id`` the key it gave. ``expires``: codes only.
    """

    __tablename__ = "admission"
    __table_args__ = (
        CheckConstraint("kind IN ('code', 'sheet')", name="kind"),
        CheckConstraint("role IN ('head_coach', 'assistant')", name="role"),
    )

    id: Mapped[str] = mapped_column(primary_key=True)
    team_id: Mapped[str] = mapped_column(ForeignKey("team.id"), index=True)
    kind: Mapped[str]
    role: Mapped[str]
    board_id: Mapped[str | None] = mapped_column(ForeignKey("board.id"))
    secret_hash: Mapped[str] = mapped_column(unique=True)
    by_id: Mapped[str] = mapped_column(ForeignKey("key.id"))
    made: Mapped[int]
    expires: Mapped[int | None]
    used: Mapped[int | None]
    key_id: Mapped[str | None] = mapped_column(ForeignKey("key.id"))
    revoked: Mapped[int | None]


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
