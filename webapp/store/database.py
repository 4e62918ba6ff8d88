"""The database: one SQLite file, opened so that what has been answered survives a crash and a power cut."""

from __future__ import annotations

import sqlite3
import threading
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from typing import Any, Final

from sqlalchemy import Connection, Engine, create_engine, event, select, update
from sqlalchemy.orm import Session

from engine.words.spoken import say
from webapp.store.migrate import migrate
from webapp.store.tables import ServerLock

_WRITES: Final = "quintet_writes"


class Superseded(RuntimeError):
    """Another server has been started on this database since; this one may not write any more."""


class Store:
    """The database of one server. Reading and writing are context managers that give a session.

    Making one raises the generation, so that any older server on the same file is refused its next write.
    """

    def __init__(self, path: Path, busy_timeout_ms: int = 5000) -> None:
        path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)  # it holds names
        self.path = path
        self._engine = _engine(path, busy_timeout_ms)
        self._writing = threading.Lock()
        migrate(self._engine)
        self.generation = self._raise_generation()

    @contextmanager
    def read(self) -> Iterator[Session]:
        """Give a session on one unchanging view of the data; whatever is changed in it is dropped."""
        with Session(self._engine, expire_on_commit=False) as session:
            yield session

    @contextmanager
    def write(self) -> Iterator[Session]:
        """Give a session that is committed, and on disk, when the block ends; an exception undoes it all.

        Raises ``Superseded`` if a newer server has taken the database over.
        """
        engine = self._engine.execution_options(**{_WRITES: True})
        with self._writing, Session(engine, expire_on_commit=False) as session, session.begin():
            if session.scalar(select(ServerLock.generation)) != self.generation:
                raise Superseded(say("refusals.database.another_quintet_server_has"))
            yield session

    def scrub(self) -> None:
        """Leave nothing of what has been erased in the files beside the database, as far as nobody reads."""
        with self._writing, closing(self._engine.raw_connection()) as connection:
            connection.cursor().execute("PRAGMA wal_checkpoint(TRUNCATE)")  # cannot be done in a transaction

    def close(self) -> None:
        """Close every connection; needed before the process forks."""
        self._engine.dispose()

    def _raise_generation(self) -> int:
        engine = self._engine.execution_options(**{_WRITES: True})
        with Session(engine) as session, session.begin():
            session.execute(update(ServerLock).values(generation=ServerLock.generation + 1))
            return session.scalars(select(ServerLock.generation)).one()


def _engine(path: Path, busy_timeout_ms: int) -> Engine:
    engine = create_engine(
        f"sqlite:///{path}",
        connect_args={"timeout": busy_timeout_ms / 1000, "check_same_thread": False},
        pool_size=8,
        max_overflow=56,
        pool_timeout=30,
    )
    event.listen(engine, "connect", _configure)
    event.listen(engine, "begin", _begin)
    return engine


def _configure(connection: sqlite3.Connection, _record: Any) -> None:
    # The driver must not open transactions by itself: it would not do so before reads or changes of tables.
    connection.isolation_level = None
    for pragma in ("journal_mode = WAL", "synchronous = FULL", "foreign_keys = ON", "secure_delete = ON"):
        connection.execute(f"PRAGMA {pragma}").close()


def _begin(connection: Connection) -> None:
    # A writer takes the write lock before it looks, so that what it has checked cannot change under it.
    writes = connection.get_execution_options().get(_WRITES, False)
    connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")
