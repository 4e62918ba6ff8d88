"""The newest form of the database as SQL, as the migrations make it; what a new folder is begun with.

``python3 -m tests.webapp.newest_form`` writes it: run it after adding or changing a migration.
"""

from __future__ import annotations

import sqlite3
import sys
import tempfile
from contextlib import closing
from pathlib import Path

from sqlalchemy import create_engine

from webapp.store.migrate import NEWEST_FORM, upgrade


def as_migrated() -> str:
    """Return, as SQL, the database that all migrations make of an empty file."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "quintet.sqlite3"
        engine = create_engine(f"sqlite:///{path}")
        with engine.connect() as connection, connection.begin():
            upgrade(connection)
        engine.dispose()
        return dump(path)


def dump(path: Path) -> str:
    """Return a database as SQL, without what begins and ends it all."""
    with closing(sqlite3.connect(path)) as connection:
        return "\n".join(list(connection.iterdump())[1:-1]) + "\n"


def _main() -> str:
    NEWEST_FORM.write_text(as_migrated(), "utf-8")
    return f"Wrote {NEWEST_FORM}."


if __name__ == "__main__":
    sys.exit(print(_main()))
