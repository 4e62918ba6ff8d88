"""A half court: its markings, its distances, and where the spots of a formation lie on it.

Metres; the origin lies on the floor under the basket's centre, x to the offence's right facing the basket,
y away from the baseline (so the baseline has a negative y).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from math import atan2, cos, hypot, pi, radians, sin, sqrt, tan
from typing import Final

from engine.floor.formations import BESIDE_RIM, PAINT, POSTS, RIM, Formation
from engine.floor.markings import Arc, Circle, Marking, Point, Rect, Segment, arc_meets_straight, draw
from engine.floor.standards import STANDARDS, Standard
from engine.words.spoken import listed, say

__all__ = [
    "PERIMETER_OFFSET_M",
    "POST_CLEAR_M",
    "STANDARDS",
    "Arc",
    "Circle",
    "Court",
    "Marking",
    "Point",
    "Rect",
    "Segment",
    "Standard",
    "half_court",
    "spots",
]

#: How far outside the three-point line's outer edge perimeter spots stand, metres (0.3 to 0.5 is usual:
#: common practice, no source).
PERIMETER_OFFSET_M: Final = 0.40

#: How far below the basket's level, as seen from it, a spot in the corner may lie, degrees.
CORNER_DROP_DEG: Final = 10.0

#: How far outside the lane players on blocks, elbows and the high post stand, metres, so that nobody who
#: stands on a post spot is counted in the lane. Common practice, no source.
POST_CLEAR_M: Final = 0.35

#: Short corners: between the lane and the three-point line on all four courts, and 0.7 m clear of the path
#: behind the board at y = -1.2. Common practice, no source.
SHORT_CORNER_M: Final = Point(4.40, -0.50)

#: Where cutters arrive, and drivers from the middle: metres in front of the basket's centre.
RIM_M: Final = Point(0.0, 1.20)
PAINT_M: Final = Point(0.0, 1.80)
#: Where drivers along the baseline arrive on the right, clear of the board: metres from the basket's centre.
BESIDE_RIM_M: Final = Point(1.10, 0.30)


@dataclass(frozen=True, slots=True)
class Court:
    """One half of a court. ``half_length`` is from the baseline to the half-way line; all lengths metres."""

    standard: Standard
    markings: tuple[Marking, ...]
    half_length: float
    width: float
    baseline: float
    half_way: float
    sideline: float
    three_point_meet: float

    @property
    def box(self) -> tuple[Point, Point]:
        """Opposite corners of the half court, smaller coordinates first."""
        return Point(-self.sideline, self.baseline), Point(self.sideline, self.half_way)

    @property
    def lane_polygon(self) -> tuple[Point, Point, Point, Point]:
        """The corners of the lane, its lines included, from the baseline's left round to its right."""
        half, line = self.standard.lane_width / 2, self.free_throw_line
        return Point(-half, self.baseline), Point(-half, line), Point(half, line), Point(half, self.baseline)

    @property
    def free_throw_line(self) -> float:
        """Return y of the free-throw line's far edge."""
        return self.standard.free_throw_line - self.standard.basket

    def in_lane(self, point: tuple[float, float]) -> bool:
        """Say whether ``point`` counts for three seconds in the lane; its lines belong to it."""
        x, y = point
        return abs(x) <= self.standard.lane_width / 2 and self.baseline <= y <= self.free_throw_line

    def in_court(self, point: tuple[float, float], margin: float = 0.0) -> bool:
        """Say whether ``point`` is in this half court and at least ``margin`` metres from its edges."""
        x, y = point
        return abs(x) <= self.sideline - margin and self.baseline + margin <= y <= self.half_way - margin

    def three_point_distance(self, x: float, y: float) -> float:
        """Return how far (x, y) is outside the three-point line's outer edge, negative inside it, in metres.

        The straight parts are taken to run on behind the baseline.
        """
        straight, radius, meet = (
            self.standard.three_point_straight,
            self.standard.three_point_radius,
            self.three_point_meet,
        )
        x = abs(x)
        if x <= straight:
            # Not outside the straight part: the nearer of the two lines. Below the basket there is only one.
            return x - straight if y <= 0.0 else max(x - straight, hypot(x, y) - radius)
        if y <= meet:
            return x - straight
        if x * meet <= y * straight:
            return hypot(x, y) - radius
        # Beyond the bend, where line and arc meet at an angle, the bend itself is the nearest.
        return hypot(x - straight, y - meet)

    def perimeter_point(self, angle: float, offset: float) -> Point:
        """Return the point in direction ``angle`` that lies ``offset`` metres outside the three-point line.

        ``angle`` in degrees from the point under the basket's centre: 0 is the right corner, level with the
        basket, 90 straight out, 180 the left corner; down to -10 and up to 190 lie nearer the baseline. The
        points of all angles follow the straight parts, go round the bend, and follow the arc. ``offset`` must
        not be negative. Raises ``ValueError`` for an angle outside these or a negative offset.
        """
        if not -CORNER_DROP_DEG <= angle <= 180.0 + CORNER_DROP_DEG:
            raise ValueError(say("refusals.court.direction_must_between_degrees", angle=f"{angle:g}"))
        if not offset >= 0.0:
            raise ValueError(say("refusals.court.distance_outside_line_must", offset=f"{offset:g}"))
        if angle > 90.0:
            mirrored = self.perimeter_point(180.0 - angle, offset)
            return Point(-mirrored.x, mirrored.y)
        straight, meet = self.standard.three_point_straight, self.three_point_meet
        turn = radians(angle)
        if (straight + offset) * sin(turn) <= meet * cos(turn):
            return Point(straight + offset, (straight + offset) * tan(turn))
        along = self.standard.three_point_radius + offset
        if turn < atan2(meet, straight):
            # Round the bend: where the ray leaves the circle of radius ``offset`` about it.
            near = straight * cos(turn) + meet * sin(turn)
            aside = meet * cos(turn) - straight * sin(turn)
            along = near + sqrt(max(0.0, offset * offset - aside * aside))
        return Point(along * cos(turn), along * sin(turn))

    def perimeter_angle(self, point: tuple[float, float]) -> float:
        """Return the direction of ``point`` for :meth:`perimeter_point`, in degrees, held to 0 to 180."""
        x, y = point
        if y <= 0.0:
            return 0.0 if x >= 0.0 else 180.0
        return atan2(y, x) * 180.0 / pi


@lru_cache(maxsize=len(STANDARDS))
def half_court(name: str) -> Court:
    """Return the half court of a standard: "fiba", "nba", "ncaa" or "nfhs"; else raise ``ValueError``."""
    standard = STANDARDS.get(name)
    if standard is None:
        raise ValueError(
            say("refusals.court.no_court_called_choose", name=repr(name), choices=listed(STANDARDS, "comma"))
        )
    return Court(
        standard=standard,
        markings=draw(standard),
        half_length=standard.length / 2,
        width=standard.width,
        baseline=-standard.basket,
        half_way=standard.length / 2 - standard.basket,
        sideline=standard.width / 2,
        three_point_meet=arc_meets_straight(standard),
    )


def places(court: Court, formation: Formation) -> Mapping[str, Point]:
    """Return where the spots lie (see :func:`spots`); the same mapping every time, not to be changed."""
    # By the court's name: a court holds all its markings, and would take longer to hash than to look up.
    return _places(court.standard.name, formation)


@lru_cache(maxsize=64)
def _places(court_name: str, formation: Formation) -> Mapping[str, Point]:
    return spots(half_court(court_name), formation)


def spots(court: Court, formation: Formation) -> dict[str, Point]:
    """Return where each spot lies: the formation's ring, the posts and the lane; whole centimetres.

    Whole centimetres, because that is what the boards are sent: engine and screen then agree on every spot.
    """
    offsets = formation.offsets or (PERIMETER_OFFSET_M,) * len(formation.ring)
    places = {
        spot: court.perimeter_point(angle, offset)
        for spot, angle, offset in zip(formation.ring, formation.ring_angles, offsets, strict=True)
    }
    lane = court.standard.lane_width / 2
    above = court.free_throw_line + POST_CLEAR_M
    pairs = {
        "block": Point(lane + POST_CLEAR_M, court.standard.block - court.standard.basket),
        "elbow": Point(lane, above),
        "short_corner": SHORT_CORNER_M,
    }
    for post in POSTS:
        side, _, kind = post.partition("_")
        if kind in pairs:
            x, y = pairs[kind]
            places[post] = Point(-x if side == "left" else x, y)
        else:
            places[post] = Point(0.0, above)
    places.update((post, Point(x, y)) for post, x, y in formation.moved)
    places[RIM] = RIM_M
    places[PAINT] = PAINT_M
    for side, spot in BESIDE_RIM.items():
        places[spot] = Point(BESIDE_RIM_M.x if side == "right" else -BESIDE_RIM_M.x, BESIDE_RIM_M.y)
    return {spot: Point(round(x, 2), round(y, 2)) for spot, (x, y) in places.items()}
