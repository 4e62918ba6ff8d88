"""Making very many values at once."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager
from threading import Lock

_lock = Lock()
#: How many are at it, and whether there was collecting before the first of them began.
_busy = 0
_was_on = False


@contextmanager
def uncollected() -> Iterator[None]:
    """Let nothing look for values that refer to each other in circles: here are many values and no circles.

    Looking through all of them again and again takes a third of the time. It is off for the whole process,
    and on again when the last of those who are at it is done.
    """
    global _busy, _was_on
    with _lock:
        if not _busy:
            _was_on = gc.isenabled()
            gc.disable()
        _busy += 1
    try:
        yield
    finally:
        with _lock:
            _busy -= 1
            if not _busy and _was_on:
                gc.enable()
