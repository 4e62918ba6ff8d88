"""Bringing a backup back, with what was there before kept beside it."""

from __future__ import annotations

import contextlib
import os
import shutil
import sqlite3
import tempfile
import time
from dataclasses import dataclass
from itertools import chain, count
from pathlib import Path

from engine.words.spoken import say
from webapp.backup.integrity import CannotUse, Contents, look_at, opened, schema_of
from webapp.backup.take import sync_folder
from webapp.store.guard import AlreadyServed, ServerGuard

_BESIDE = ("-wal", "-shm")


@dataclass(frozen=True, slots=True)
class Restored:
    """What was brought back, and where what was there before is now, if anything was."""

    contents: Contents
    aside: Path | None


def restore(source: Path, database: Path, lock: Path) -> Restored:
    """Make ``database`` what ``source`` holds, brought to the newest form.

    Until the last step, which is one renaming, the data stays as it was. Raises ``CannotUse``.
    """
    if not source.is_file():
        raise CannotUse(say("server.restore.no_file_nothing_was", source=source))
    if database.exists() and source.samefile(database):
        raise CannotUse(say("server.restore.data_itself_nothing_was", source=source))
    guard = ServerGuard(lock)
    try:
        guard.acquire(0)
        try:
            return _restore(source, database)
        finally:
            guard.release()
    except AlreadyServed:
        raise CannotUse(say("server.restore.quintet_server_running_on", parent=lock.parent)) from None
    except OSError as error:
        raise CannotUse(
            say("server.restore.nothing_was_changed", strerror=error.strerror, filename=error.filename)
        ) from None


def _restore(source: Path, database: Path) -> Restored:
    with tempfile.TemporaryDirectory(prefix=".restoring-", dir=database.parent) as made:
        fresh = Path(made) / database.name
        shutil.copyfile(source, fresh)
        beside = source.with_name(source.name + "-wal")
        if beside.exists():  # the file was copied as it was, not by a backup
            shutil.copyfile(beside, fresh.with_name(fresh.name + "-wal"))
        contents = look_at(fresh, source)
        _bring_up_to_date(fresh, source)
        aside = None
        if database.exists():
            aside = _unused(database.with_name(time.strftime("quintet-before-restore-%Y%m%d-%H%M%S.sqlite3")))
            _keep(database, aside)
        os.replace(fresh, database)
        sync_folder(database.parent)
    return Restored(contents, aside)


def _bring_up_to_date(fresh: Path, source: Path) -> None:
    from webapp.store.database import Store  # takes a second to import, and few files get this far

    empty = fresh.with_name("empty.sqlite3")
    try:
        for path in (fresh, empty):
            Store(path).close()
        with opened(empty) as model, opened(fresh) as found:
            same = schema_of(model) == schema_of(found)
            found.execute("PRAGMA journal_mode = DELETE")  # one file, with nothing beside it
    except Exception as error:
        # Whatever a migration stumbles over was not written by us.
        raise CannotUse(say("server.restore.cannot_brought_up_date", source=source, error=error)) from error
    if not same:
        raise CannotUse(say("server.restore.not_quintet_backup_nothing", source=source))
    with fresh.open("rb+") as file:
        os.fsync(file.fileno())


def _unused(wanted: Path) -> Path:
    """Return a name no file has: two restores may begin in one second."""
    others = (wanted.with_stem(f"{wanted.stem}-{number}") for number in count(2))
    return next(path for path in chain((wanted,), others) if not path.exists())


def _keep(database: Path, aside: Path) -> None:
    """Give what is there a second name, with all that belongs to it."""
    # What still waits beside the file goes into it; a damaged file is kept as it is.
    with contextlib.suppress(sqlite3.DatabaseError), opened(database) as connection:
        connection.execute("PRAGMA journal_mode = DELETE")
    try:
        os.link(database, aside)
    except OSError:
        shutil.copy2(database, aside)
    for ending in _BESIDE:
        left = database.with_name(database.name + ending)
        if left.exists():
            # Otherwise it would be taken for a part of what is brought back.
            os.replace(left, aside.with_name(aside.name + ending))
