"""Looking at a database file before it is trusted: whole, ours, and of a form that is known."""

from __future__ import annotations

import re
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from engine.words.spoken import say
from webapp.store.migrate import revisions

#: The first bytes of every SQLite file (SQLite file format, section 1.3).
_MAGIC: Final = b"SQLite format 3\0"
#: Tables that have been there from the first form on.
_OURS: Final = frozenset(("alembic_version", "server_lock", "team", "board", "node", "place", "change"))
_REVISION: Final = re.compile(r"\A[0-9]{4}\Z")

Schema = frozenset[tuple[object, ...]]


class CannotUse(RuntimeError):
    """A backup cannot be made or used; ``str(error)`` is the one sentence that says why and what to do."""


@dataclass(frozen=True, slots=True)
class Contents:
    """What a database file holds. ``newest``: whether it is in the form of this program."""

    teams: int
    boards: int
    steps: int
    newest: bool

    def __str__(self) -> str:
        return say(
            "server.integrity.contents",
            teams=say("server.integrity.teams", n=self.teams),
            boards=say("general.boards", n=self.boards),
            steps=say("general.steps", n=self.steps),
        )


@contextmanager
def opened(path: Path, mode: str = "rw") -> Iterator[sqlite3.Connection]:
    """Give a connection to an existing file, that neither commits by itself nor trusts what it finds."""
    address = f"{path.resolve().as_uri()}?mode={mode}"
    with closing(sqlite3.connect(address, uri=True, isolation_level=None, timeout=10)) as connection:
        connection.execute("PRAGMA trusted_schema = OFF")
        connection.execute("PRAGMA cell_size_check = ON")
        yield connection


def look_at(path: Path, name: object) -> Contents:
    """Return what the file at ``path`` holds; nothing in it is changed.

    ``name`` is what to call it. Raises ``CannotUse`` for what is damaged, not ours, or newer than we are.
    """
    with path.open("rb") as file:
        begins = file.read(len(_MAGIC))
    if begins != _MAGIC:
        raise CannotUse(say("server.integrity.not_quintet_backup_nothing", name=name))
    try:
        with opened(path) as connection:
            return _look(connection, name)
    except sqlite3.DatabaseError as error:
        raise CannotUse(say("server.integrity.damaged_nothing_was_changed", name=name, what=error)) from None


def schema_of(connection: sqlite3.Connection) -> Schema:
    """Return every table, index and column there is."""
    found = connection.execute("SELECT type, name, tbl_name FROM sqlite_master").fetchall()
    tables = [name for kind, name, _ in found if kind == "table"]
    for table in tables:
        quoted = table.replace('"', '""')
        found += [(table, *row[1:]) for row in connection.execute(f'PRAGMA table_info("{quoted}")')]
    return frozenset(map(tuple, found))


def _look(connection: sqlite3.Connection, name: object) -> Contents:
    kinds = connection.execute("SELECT type, name FROM sqlite_master").fetchall()
    tables = {table for kind, table in kinds if kind == "table"}
    found = (
        connection.execute("SELECT version_num FROM alembic_version").fetchall() if tables >= _OURS else []
    )
    known = revisions()
    revision = str(found[0][0]) if len(found) == 1 else ""
    if not _REVISION.match(revision) or any(kind in ("trigger", "view") for kind, _ in kinds):
        raise CannotUse(say("server.integrity.not_quintet_backup_nothing", name=name))
    if revision not in known:
        raise CannotUse(say("server.integrity.was_written_by_newer", name=name))
    wrong = [row[0] for row in connection.execute("PRAGMA integrity_check(1)") if row[0] != "ok"]
    if wrong or connection.execute("PRAGMA foreign_key_check").fetchone():
        what = wrong[0].splitlines()[0] if wrong else say("server.integrity.parts_missing")
        raise CannotUse(say("server.integrity.damaged_nothing_was_changed", name=name, what=what))
    counts = [
        connection.execute(f"SELECT count(*) FROM {what}").fetchone()[0]
        for what in ("team", "board", "node WHERE parent_id IS NOT NULL")
    ]
    teams, boards, steps = counts
    return Contents(teams, boards, steps, newest=revision == known[-1])
