"""The lines of a half court as plain geometry.

Metres; the origin lies on the floor under the basket's centre, x to the offence's right facing the basket,
y away from the baseline. Angles are in degrees, 0 toward +x and 90 toward +y.

Each marking is the curve along the edge its rule names (see :mod:`engine.floor.standards`), without width: a
renderer strokes it. A stroke centred on the curve is therefore off by half a line (2.5 cm), which no player
can see and which keeps every published distance true of the curve itself.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import atan2, cos, degrees, radians, sin, sqrt
from typing import NamedTuple

from engine.floor.standards import Standard


class Point(NamedTuple):
    """A place on the floor, in metres."""

    x: float
    y: float


@dataclass(frozen=True, slots=True)
class Segment:
    """A straight line."""

    kind: str
    start: Point
    end: Point


@dataclass(frozen=True, slots=True)
class Arc:
    """Part of a circle, from ``first`` to ``last`` degrees, ``first`` < ``last`` <= ``first`` + 360."""

    kind: str
    centre: Point
    radius: float
    first: float
    last: float
    dashed: bool = False

    def at(self, angle: float) -> Point:
        """Return the point of the circle in direction ``angle`` (degrees)."""
        turn = radians(angle)
        return Point(self.centre.x + self.radius * cos(turn), self.centre.y + self.radius * sin(turn))


@dataclass(frozen=True, slots=True)
class Circle:
    """A whole circle."""

    kind: str
    centre: Point
    radius: float


@dataclass(frozen=True, slots=True)
class Rect:
    """A rectangle with sides along the axes; ``low`` has the smaller coordinates."""

    kind: str
    low: Point
    high: Point


Marking = Segment | Arc | Circle | Rect


def arc_meets_straight(standard: Standard) -> float:
    """Return y where the three-point arc meets its straight parts, in metres from the basket's centre."""
    radius, straight = standard.three_point_radius, standard.three_point_straight
    return sqrt(radius * radius - straight * straight)


def draw(standard: Standard) -> tuple[Marking, ...]:
    """Return the markings of one half of a court, large ones first.

    Kinds: boundary, half_way, centre_circle, lane, free_throw_circle, three_point, no_charge, lane_mark,
    board, ring. Lane-side marks nobody has shown us (NFHS) are left out.
    """
    side = standard.width / 2
    baseline = -standard.basket
    middle = standard.length / 2 - standard.basket
    lane = standard.lane_width / 2
    line = standard.free_throw_line - standard.basket
    # The free-throw circle's centre is the middle of the free-throw line, half a line short of its far edge.
    on_line, centre = Point(0.0, line - standard.line_width / 2), Point(0.0, middle)
    marks: list[Marking] = [
        Rect("boundary", Point(-side, baseline), Point(side, middle)),
        Segment("half_way", Point(-side, middle), Point(side, middle)),
        Arc("centre_circle", centre, standard.circle_radius, 180.0, 360.0),
        Rect("lane", Point(-lane, baseline), Point(lane, line)),
        Arc("free_throw_circle", on_line, standard.circle_radius, 0.0, 180.0),
    ]
    if standard.dashed_half:
        marks.append(Arc("free_throw_circle", on_line, standard.circle_radius, 180.0, 360.0, dashed=True))
    marks += _three_point(standard, baseline)
    marks += _no_charge(standard)
    for begin, end in standard.lane_marks:
        low, high = begin - standard.basket, end - standard.basket
        outer = lane + standard.lane_mark_depth
        marks.append(Rect("lane_mark", Point(-outer, low), Point(-lane, high)))
        marks.append(Rect("lane_mark", Point(lane, low), Point(outer, high)))
    face = standard.board - standard.basket
    half_board = standard.board_width / 2
    marks.append(Segment("board", Point(-half_board, face), Point(half_board, face)))
    marks.append(Circle("ring", Point(0.0, 0.0), standard.ring_diameter / 2))
    return tuple(marks)


def _three_point(standard: Standard, baseline: float) -> list[Marking]:
    meet = arc_meets_straight(standard)
    x = standard.three_point_straight
    first = degrees(atan2(meet, x))
    return [
        Segment("three_point", Point(x, baseline), Point(x, meet)),
        Arc("three_point", Point(0.0, 0.0), standard.three_point_radius, first, 180.0 - first),
        Segment("three_point", Point(-x, meet), Point(-x, baseline)),
    ]


def _no_charge(standard: Standard) -> list[Marking]:
    radius = standard.no_charge_radius
    if radius is None:
        return []
    face = standard.board - standard.basket
    return [
        Segment("no_charge", Point(radius, face), Point(radius, 0.0)),
        Arc("no_charge", Point(0.0, 0.0), radius, 0.0, 180.0),
        Segment("no_charge", Point(-radius, 0.0), Point(-radius, face)),
    ]
