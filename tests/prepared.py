"""Databases made ready once: a copy of one costs a test less than bringing a new one up to date.

What comes of the migrations is kept in the folder for temporary files, by their contents, for all runs.
"""

from __future__ import annotations

import hashlib
import os
import shutil
import sqlite3
import tempfile
from contextlib import closing
from functools import cache
from pathlib import Path

from webapp.store.database import Store
from webapp.store.migrate import SCRIPTS

_FOLDER = Path(tempfile.gettempdir()) / f"quintet-test-data-{os.getuid()}"


def put_database(path: Path) -> None:
    """Put a database there, brought up to date and with nothing in it, unless something is there already."""
    path.parent.mkdir(parents=True, exist_ok=True)
    if not path.exists():
        shutil.copyfile(_prepared(), path)


@cache
def _prepared() -> Path:
    """Return the database to copy, made unless it was before."""
    made_by = hashlib.sha256()
    for file in sorted((*SCRIPTS.rglob("*.py"), *SCRIPTS.parent.joinpath("store").glob("*.py"))):
        made_by.update(file.read_bytes())
    found = _FOLDER / f"{made_by.hexdigest()[:24]}.sqlite3"
    if not found.exists():
        _FOLDER.mkdir(exist_ok=True)
        with tempfile.TemporaryDirectory(dir=_FOLDER) as folder:
            new = Path(folder) / "new.sqlite3"
            Store(new).close()
            with closing(sqlite3.connect(new)) as database:
                # As if no server had been on it yet; and all of it in the one file.
                database.execute("UPDATE server_lock SET generation = 0")
                database.commit()
                database.execute("PRAGMA wal_checkpoint(TRUNCATE)").close()
            new.replace(found)  # at once, whoever else makes it just now
    return found
