"""What all tables share, and the lock of the one server that may write."""

from __future__ import annotations

from sqlalchemy import CheckConstraint, MetaData
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
