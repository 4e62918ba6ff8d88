"""Limits on how often something may be tried."""

from __future__ import annotations

import threading
import time
from collections import OrderedDict, deque
from collections.abc import Callable
from typing import Final

_ADDRESSES_MAX: Final = 4096


class TryLimit:
    """At most ``each`` tries from one address and ``together`` from all, in any ``window_s`` seconds.

    Only so many addresses are remembered; the one heard from longest ago is forgotten first.
    """

    def __init__(
        self, each: int, together: int, window_s: float, clock: Callable[[], float] = time.monotonic
    ) -> None:
        self._each, self._together, self._window_s, self._clock = each, together, window_s, clock
        self._all: deque[float] = deque()
        self._by_address: OrderedDict[str, deque[float]] = OrderedDict()
        self._lock = threading.Lock()

    def allow(self, address: str) -> bool:
        """Count a try from ``address`` and return whether it may go ahead. A refused try is not counted."""
        now = self._clock()
        with self._lock:
            mine = self._by_address.setdefault(address, deque())
            self._by_address.move_to_end(address)
            if len(self._by_address) > _ADDRESSES_MAX:
                self._by_address.popitem(last=False)
            for tries in (mine, self._all):
                while tries and tries[0] <= now - self._window_s:
                    tries.popleft()
            if len(mine) >= self._each or len(self._all) >= self._together:
                return False
            mine.append(now)
            self._all.append(now)
            return True


class Pace:
    """A steady pace with room for a burst: ``per_s`` a second for long, ``burst`` at once."""

    def __init__(self, per_s: float, burst: int, clock: Callable[[], float] = time.monotonic) -> None:
        self._per_s, self._burst, self._clock = per_s, float(burst), clock
        self._room, self._last = float(burst), clock()

    def allow(self) -> bool:
        """Count one and return whether it is within the pace."""
        now = self._clock()
        self._room = min(self._burst, self._room + (now - self._last) * self._per_s)
        self._last = now
        if self._room < 1:
            return False
        self._room -= 1
        return True
