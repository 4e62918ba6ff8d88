"""The packs that are made, and those being made: one at a time, each only once, kept as files.

Kept is what takes seconds to work out. Refs and titles are put before it when it is given out, so that rules
that are called something else, copied or brought from another server need not be worked out again.
"""

from __future__ import annotations

import gzip
import json
import logging
import os
import subprocess
import sys
import threading
import time
import zlib
from collections import OrderedDict
from contextlib import suppress
from pathlib import Path
from typing import Any, Final

from webapp.base.settings import ROOT
from webapp.packs.pack_name import Wanted

_LOG: Final = logging.getLogger("quintet")

#: Files kept; the ones not asked for longest go first.
KEPT_MAX: Final = 64
#: What could not be made is tried again after this long: a full disk is emptied some day.
AGAIN_S: Final = 900.0


class Shelf:
    """The packs in a folder. What is asked for last is made first: somebody waits for it.

    ``longest_s``: a pack that takes longer is given up. ``again_s``: so long it is refused then.
    """

    def __init__(self, folder: Path, longest_s: float, again_s: float = AGAIN_S) -> None:
        self._folder, self._longest_s, self._again_s = folder, longest_s, again_s
        self._waiting: OrderedDict[str, Wanted] = OrderedDict()
        #: By its name, when a pack that could not be made may be tried again.
        self._failed: dict[str, float] = {}
        self._lock = threading.Lock()
        self._worker: threading.Thread | None = None

    def get(self, wanted: Wanted) -> bytes | None:
        """Return a pack, packed with gzip; ``None`` while it is being made. Raises ``LookupError``."""
        key = wanted.play
        path = self._path(key)
        try:
            found = path.read_bytes()
            os.utime(path)
            return _headed(wanted.head(), found)
        except (OSError, EOFError, zlib.error):
            # There is none, or the folder is none: then making it fails, and that is told. Or it is damaged.
            pass
        with self._lock:
            if time.monotonic() < self._failed.get(key, 0.0):
                raise LookupError(key)
            self._failed.pop(key, None)
            self._waiting[key] = wanted
            self._waiting.move_to_end(key)
            if self._worker is None:
                self._worker = threading.Thread(target=self._work, name="packs", daemon=True)
                self._worker.start()
        return None

    def _path(self, key: str) -> Path:
        return self._folder / f"{key}.json.gz"

    def _work(self) -> None:
        while True:
            with self._lock:
                if not self._waiting:
                    self._worker = None
                    return
                key, wanted = next(reversed(self._waiting.items()))
            try:
                self._make(wanted)
            except Exception:
                _LOG.exception("a pack could not be made")
                with self._lock:
                    self._failed[key] = time.monotonic() + self._again_s
            with self._lock:
                self._waiting.pop(key, None)

    def _make(self, wanted: Wanted) -> None:
        self._folder.mkdir(parents=True, exist_ok=True)  # before seconds of work that could not be kept
        job = json.dumps(wanted.job()).encode()
        command = [sys.executable, "-m", "webapp.packs.maker"]
        done = subprocess.run(
            command, input=job, capture_output=True, cwd=ROOT, timeout=self._longest_s, check=True
        )
        path = self._path(wanted.play)
        for old in self._folder.glob("*.part"):  # of a server that was killed
            with suppress(OSError):
                if time.time() - old.stat().st_mtime > self._longest_s:
                    old.unlink()
        half = path.with_suffix(f".{os.getpid()}.part")
        with half.open("wb") as file:
            file.write(done.stdout)
            file.flush()
            os.fsync(file.fileno())  # a name without its contents would be given out for ever
        half.replace(path)
        oldest = sorted(self._folder.glob("*.json.gz"), key=lambda file: file.stat().st_mtime)
        for old in oldest[:-KEPT_MAX]:
            old.unlink(missing_ok=True)


def _headed(head: dict[str, Any], kept: bytes) -> bytes:
    """Return what a device gets: ``head``, and what is kept as its ``pack``."""
    pack = gzip.decompress(kept)
    if not pack:
        raise EOFError("An empty file is no pack.")
    before = json.dumps(head, ensure_ascii=False, separators=(",", ":"))[:-1].encode()
    return gzip.compress(before + b',"pack":' + pack + b"}", 6, mtime=0)
