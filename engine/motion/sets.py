"""Sets of changes, the least first: each is put together only when it is its turn.

A search looks at a few hundred of the tens of thousands there could be.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from heapq import heappop, heappush, heapreplace
from typing import NamedTuple

from engine.motion.scene import Adjustment, Changes

#: (number of the step, spot before it): whose change.
Key = tuple[int, str]
#: The changes of a set by their places among what is free: by it a set is told from the others.
_Mark = frozenset[tuple[Key, int]]


class Solution(NamedTuple):
    """A set of changes, and what all of it costs."""

    cost: float
    changes: dict[Key, Adjustment]
    mark: _Mark


#: The set without any change, which is the first.
NOTHING = Solution(0.0, {}, frozenset())


@dataclass(slots=True, eq=False)
class _Branch:
    """A set, and on top of it each change of one player, of which ``place`` is the next.

    ``first``: the number of the first of these sets, in the order of what was branched off when. ``parent``:
    when the set itself was branched from. ``is_good``: whether a set is to be looked at at all.
    """

    below: Solution
    parent: int
    key: Key
    first: int
    is_good: Callable[[Changes], bool] | None
    place: int = 0


class Sets:
    """What is still to be looked at: of sets that cost the same, the one first that was thought of first."""

    def __init__(self, free: Mapping[Key, tuple[Adjustment, ...]]) -> None:
        self._free = free
        self._costs = {key: costs(changes) for key, changes in free.items()}
        self._queue: list[tuple[float, int, _Branch]] = []
        self._count = 0
        # When each set was branched from, and for whose changes.
        self._branched: dict[_Mark, tuple[int, frozenset[Key]]] = {}

    def branch(self, found: Solution, keys: Iterable[tuple[Key, Callable[[Changes], bool] | None]]) -> None:
        """Add ``found`` with each change of each of ``keys`` on top of it, unless it was thought of before.

        With each key: whether a set is to be looked at, asked when it is its turn; None for all.
        """
        parent, mine = len(self._branched), []
        for key, is_good in keys:
            branch = _Branch(found, parent, key, self._count, is_good)
            heappush(self._queue, (found.cost + self._costs[key][0], branch.first, branch))
            self._count += len(self._free[key])
            mine.append(key)
        self._branched[found.mark] = parent, frozenset(mine)

    def next(self) -> Solution | None:
        """Return the least set that has not been returned; None when there are no more."""
        while self._queue:
            cost, _, branch = self._queue[0]
            key, place = branch.key, branch.place
            branch.place += 1
            all_costs = self._costs[key]
            if branch.place < len(all_costs):
                following = branch.below.cost + all_costs[branch.place]
                heapreplace(self._queue, (following, branch.first + branch.place, branch))
            else:
                heappop(self._queue)
            mark = branch.below.mark.union(((key, place),))
            if self._is_known(mark, branch):
                continue
            changes = {**branch.below.changes, key: self._free[key][place]}
            if branch.is_good is None or branch.is_good(changes):
                return Solution(cost, changes, mark)
        return None

    def _is_known(self, mark: _Mark, branch: _Branch) -> bool:
        """Whether the same set came of another that was branched from earlier."""
        for one in branch.below.mark:
            other = self._branched.get(mark.difference((one,)))
            if other is not None and other[0] < branch.parent and one[0] in other[1]:
                return True
        return False


def cost(change: Adjustment) -> float:
    """Return how much a change changes: half a bend, or a tenth of a second, is 1."""
    return 10.0 * change.delay + sum(
        2.0 * abs(b) + max(0.0, abs(b) - 1.0) for b in (change.bend, change.first)
    )


@lru_cache(maxsize=64)
def costs(changes: tuple[Adjustment, ...]) -> tuple[float, ...]:
    """Return what each of many changes costs, which are in the order of it."""
    return tuple(map(cost, changes))
