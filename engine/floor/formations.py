"""Formations: which spots a team stands on, who starts where, and where the ball starts.

A formation is literal data. Its *ring* lists the perimeter spots in order from the left corner to the
right corner ("left" and "right" are the offence's, facing the basket). Where a spot lies on the floor
depends on the court as well; that is worked out in :mod:`engine.floor.court` from ``ring_angles``.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType
from typing import Final, Literal

Side = Literal["left", "right", "middle"]
#: The offence's left or right, facing the basket.
Direction = Literal["left", "right"]
DIRECTIONS: Final[tuple[Direction, ...]] = ("left", "right")

#: Every name a perimeter spot may have, left corner to right corner.
RING_NAMES: Final[tuple[str, ...]] = (
    "left_corner",
    "left_wing",
    "left_slot",
    "top",
    "right_slot",
    "right_wing",
    "right_corner",
)

#: Post spots, in the order used wherever an order is needed and none is given.
POSTS: Final[tuple[str, ...]] = (
    "left_block",
    "right_block",
    "left_elbow",
    "right_elbow",
    "high_post",
    "left_short_corner",
    "right_short_corner",
)

#: Where cutters arrive, where middle drives arrive, and where baseline drives do, beside the basket.
RIM: Final = "rim"
PAINT: Final = "paint"
BESIDE_RIM: Final[Mapping[Direction, str]] = MappingProxyType({"left": "rim_left", "right": "rim_right"})
#: The lane, where nobody stays but the ball handler or the one cutter, for as long as he chooses.
LANE: Final[tuple[str, ...]] = (RIM, PAINT, *BESIDE_RIM.values())
#: Those that a position put together by hand may have somebody on; to the others only a drive leads.
OPEN_LANE: Final[tuple[str, ...]] = (RIM, PAINT)


@cache
def side_of(spot: str) -> Side:
    """Return the side a spot lies on: left, right, or middle (top, high post and the lane)."""
    if spot.startswith("left_"):
        return "left"
    if spot.startswith("right_"):
        return "right"
    return "middle"


def _crowding() -> Mapping[str, frozenset[str]]:
    pairs = [("left_elbow", "high_post"), ("right_elbow", "high_post")]
    for side in ("left", "right"):
        pairs += [(f"{side}_block", f"{side}_short_corner"), (f"{side}_corner", f"{side}_short_corner")]
    partners: dict[str, set[str]] = {}
    for a, b in pairs:
        partners.setdefault(a, set()).add(b)
        partners.setdefault(b, set()).add(a)
    return MappingProxyType({spot: frozenset(others) for spot, others in partners.items()})


#: For each spot, the spots too close to it for a post player to stand on while they are taken.
CROWDS: Final[Mapping[str, frozenset[str]]] = _crowding()


@dataclass(frozen=True, slots=True)
class Formation:
    """A named shape.

    ``ring``: perimeter spots, left corner to right corner. ``ring_angles``: for each, the direction from
    the point under the basket's centre, in degrees, 0 along the baseline to the right, 90 straight out;
    corners are given as 0 and 180. ``home``: the resting shape. ``posts``: how many post spots may be taken
    at once. ``start``: player number to spot. ``ball``: the number of the player who starts with it.
    ``offsets``: for each ring spot, how far outside the three-point line it lies, in metres; empty for the
    usual distance. ``moved``: post spots that a coach has put elsewhere, (spot, x, y) in metres.
    """

    name: str
    ring: tuple[str, ...]
    ring_angles: tuple[float, ...]
    home: frozenset[str]
    posts: int
    start: tuple[tuple[int, str], ...]
    ball: int
    offsets: tuple[float, ...] = ()
    moved: tuple[tuple[str, float, float], ...] = ()

    def __hash__(self) -> int:
        """Of its name alone: answers are cached by formation, and asked for often."""
        return hash(self.name)

    def index(self, spot: str) -> int:
        """Return the ring index of ``spot``; raise ``ValueError`` if it is not on the ring."""
        return self.ring.index(spot)


_WITH_TOP = ("left_corner", "left_wing", "top", "right_wing", "right_corner")
_WITH_SLOTS = ("left_corner", "left_wing", "left_slot", "right_slot", "right_wing", "right_corner")

FIVE_OUT: Final = Formation(
    name="five_out",
    ring=_WITH_TOP,
    # 45-degree steps: neighbours 15 to 18 ft apart. Common practice, no source.
    ring_angles=(180.0, 135.0, 90.0, 45.0, 0.0),
    home=frozenset(_WITH_TOP),
    posts=2,
    start=((1, "top"), (2, "right_wing"), (3, "left_wing"), (4, "right_corner"), (5, "left_corner")),
    ball=1,
)

FOUR_OUT_ONE_IN: Final = Formation(
    name="four_out_one_in",
    ring=_WITH_SLOTS,
    # Slots about 70 and wings about 33 degrees from the baseline direction. Common practice, no source.
    ring_angles=(180.0, 147.0, 110.0, 70.0, 33.0, 0.0),
    home=frozenset(_WITH_SLOTS[1:-1]),
    posts=2,
    start=((1, "right_slot"), (2, "right_wing"), (3, "left_wing"), (4, "left_slot"), (5, "right_block")),
    ball=1,
)

THREE_OUT_TWO_IN: Final = Formation(
    name="three_out_two_in",
    ring=_WITH_TOP,
    ring_angles=(180.0, 135.0, 90.0, 45.0, 0.0),
    home=frozenset(("left_wing", "top", "right_wing")),
    posts=2,
    start=((1, "top"), (2, "right_wing"), (3, "left_wing"), (4, "left_block"), (5, "right_block")),
    ball=1,
)

#: The formations that ship, by name.
FORMATIONS: Final[Mapping[str, Formation]] = MappingProxyType(
    {formation.name: formation for formation in (FIVE_OUT, FOUR_OUT_ONE_IN, THREE_OUT_TWO_IN)}
)
