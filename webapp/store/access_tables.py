"""Ways in: links, codes to join by, the keys of devices and what admits another device."""

from __future__ import annotations

from sqlalchemy import CheckConstraint, ForeignKey
from sqlalchemy.orm import Mapped, mapped_column

from webapp.store.base import Base


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
