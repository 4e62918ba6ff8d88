"""Taking a backup of the data while a server is at work on it."""

from __future__ import annotations

import contextlib
import os
import sqlite3
import tempfile
import time
from contextlib import closing
from pathlib import Path

from engine.words.spoken import say
from webapp.backup.integrity import CannotUse, Contents, look_at, opened


def usual_name() -> str:
    """Return what to call a backup made now."""
    return time.strftime("quintet-backup-%Y%m%d-%H%M%S.sqlite3")


def take(database: Path, target: Path) -> Contents:
    """Write ``database`` as it stands now to ``target``, one file that needs nothing beside it.

    Everything that has been answered when this begins is in it. SQLite's own copying is used, which sees one
    unchanging state and keeps nobody waiting. ``target`` is there whole or not at all, and nothing is ever
    written over. Raises ``CannotUse``.
    """
    if not database.is_file():
        raise CannotUse(say("server.take.nothing_back_up_name", parent=database.parent))
    if target.exists():
        raise CannotUse(say("server.take.already_nothing_written_over", target=target))
    try:
        handle, made = tempfile.mkstemp(".part", target.name + ".", target.parent)
        os.close(handle)  # made so that only the owner may read it
        part = Path(made)
        try:
            _copy(database, part)
            contents = look_at(part, database)
            _put(part, target)
        finally:
            part.unlink(missing_ok=True)
    except OSError as error:
        raise CannotUse(
            say("server.take.cannot_written_choose_another", target=target, strerror=error.strerror)
        ) from None
    return contents


def _copy(database: Path, part: Path) -> None:
    try:
        with opened(database) as source, closing(sqlite3.connect(part, isolation_level=None)) as copy:
            source.backup(copy)
            copy.execute("PRAGMA journal_mode = DELETE")
    except sqlite3.DatabaseError as error:
        raise CannotUse(
            say("server.take.data_cannot_copied_nothing", database=database, error=error)
        ) from None
    with part.open("rb+") as file:
        os.fsync(file.fileno())


def _put(part: Path, target: Path) -> None:
    """Give ``part`` its name, unless something has that name by now."""
    try:
        os.link(part, target)
    except FileExistsError:
        raise CannotUse(say("server.take.already_nothing_written_over", target=target)) from None
    except OSError:  # a stick's file system may know no second names
        if target.exists():
            raise
        part.rename(target)
    sync_folder(target.parent)


def sync_folder(folder: Path) -> None:
    """Make sure that names given in ``folder`` survive a power cut, where the system can."""
    with contextlib.suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
