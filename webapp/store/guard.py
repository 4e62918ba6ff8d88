"""One server to a database: an operating-system lock on a file beside it, let go when its holder dies."""

from __future__ import annotations

import os
import sys
import time
from pathlib import Path

from engine.words.spoken import say


class AlreadyServed(RuntimeError):
    """Another server holds the database; ``str(error)`` is the sentence."""


class ServerGuard:
    """The lock, held from :meth:`acquire` on by this process and by every process forked from it.

    As the lock belongs to the open file, it outlives a master that is killed while its worker still runs,
    and ends with the last of them, however they end.
    """

    def __init__(self, path: Path) -> None:
        self._path = path
        self._file: int | None = None

    def acquire(self, wait_s: float) -> None:
        """Take the lock, waiting up to ``wait_s`` seconds for a server that is stopping.

        Raises ``AlreadyServed``.
        """
        self._path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)  # it holds names
        file = os.open(self._path, os.O_RDWR | os.O_CREAT, 0o600)
        deadline = time.monotonic() + wait_s
        while not _try_lock(file):
            if time.monotonic() >= deadline:
                os.close(file)
                raise AlreadyServed(
                    say("server.guard.another_quintet_server_already", parent=self._path.parent)
                )
            time.sleep(0.05)
        self._file = file

    def release(self) -> None:
        """Let go of the lock in this process."""
        if self._file is not None:
            os.close(self._file)
            self._file = None


if sys.platform == "win32":
    import msvcrt

    def _try_lock(file: int) -> bool:
        try:
            msvcrt.locking(file, msvcrt.LK_NBLCK, 1)
        except OSError:
            return False
        return True

else:
    import fcntl

    def _try_lock(file: int) -> bool:
        try:
            fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError:
            return False
        return True
