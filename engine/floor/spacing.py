"""How far apart neighbours on a formation's ring stand, court by court."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from math import hypot
from typing import Final, Literal

from engine.floor.court import Court, spots
from engine.floor.formations import Formation

#: Outside these, in metres, a distance is marked: nearer, and one defender guards two; further, and a pass
#: hangs in the air. Common practice, no source.
NEAR_M: Final = 3.7
FAR_M: Final = 6.0

_FOOT_M: Final = 0.3048

Mark = Literal["near", "far"]


@dataclass(frozen=True, slots=True)
class Neighbours:
    """Two spots next to each other on the ring, and how far apart they are.

    ``home``: both belong to the formation's resting shape. ``mark``: "near" or "far" when the distance is
    outside 3.7 to 6.0 m, else None.
    """

    first: str
    second: str
    metres: float
    home: bool

    @property
    def feet(self) -> float:
        """The distance in feet."""
        return self.metres / _FOOT_M

    @property
    def mark(self) -> Mark | None:
        """Say whether the two are marked as too near or too far."""
        if self.metres < NEAR_M:
            return "near"
        return "far" if self.metres > FAR_M else None


def ring_distances(court: Court, formation: Formation) -> tuple[Neighbours, ...]:
    """Return the neighbours on the ring, left corner to right corner, with their distances on this court."""
    places = spots(court, formation)
    return tuple(
        Neighbours(
            first=a,
            second=b,
            metres=hypot(places[a].x - places[b].x, places[a].y - places[b].y),
            home=a in formation.home and b in formation.home,
        )
        for a, b in pairwise(formation.ring)
    )
