"""Sets of spots as whole numbers, a bit a spot: what tables are looked up by."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache

from engine.floor.formations import CROWDS, LANE, POSTS, Formation


class SpotBits:
    """The spots of a formation with a bit each, in the order ring, posts, lane.

    ``ring``, ``posts``, ``lane``: the bits of those; ``beside_posts``: of the posts and of what crowds one.
    """

    def __init__(self, formation: Formation) -> None:
        self.names = (*formation.ring, *POSTS, *LANE)
        self.bit = {name: 1 << number for number, name in enumerate(self.names)}
        self.ring, self.posts, self.lane = map(self.mask, (formation.ring, POSTS, LANE))
        self.beside_posts = self.posts | self.mask(spot for spot in CROWDS if spot in self.bit)
        self._masks: dict[frozenset[str], int] = {}
        self._sets: dict[int, frozenset[str]] = {}

    def mask(self, spots: Iterable[str]) -> int:
        """Return the number of a set of spots of the formation."""
        return sum(self.bit[spot] for spot in spots)

    def mask_of(self, occupied: frozenset[str]) -> int:
        """Return the number of a set that has come up before, or will again."""
        found = self._masks.get(occupied)
        if found is None:
            found = self._masks[occupied] = self.mask(occupied)
        return found

    def spots_of(self, mask: int) -> frozenset[str]:
        """Return the spots of a number; for one number always the same set."""
        found = self._sets.get(mask)
        if found is None:
            found = self._sets[mask] = frozenset(name for name in self.names if mask & self.bit[name])
            self._masks[found] = mask
        return found


@lru_cache(maxsize=256)
def bits_of(formation: Formation) -> SpotBits:
    """Return the bits of a formation's spots."""
    return SpotBits(formation)
