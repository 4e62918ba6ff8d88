"""Routes: where a run goes between two points, drawn as a coach would draw it.

All points and lengths in metres. Every attacker is thought to be guarded by a nominal defender one metre
from him toward the basket; cuts, drives and screens go round that defender. ``bend`` bends a route further
(or, below zero, less or the other way); 0 is the route as it is meant, and the rest is there to keep
team-mates apart.
"""

from __future__ import annotations

from math import atan2, cos, degrees, hypot, radians, sin
from typing import Final

from engine.court import PERIMETER_OFFSET_M, Court
from engine.markings import Point
from engine.paths import Path, through

#: The nominal defender: this far from his man toward the basket.
DEFENDER_M: Final = 1.0

#: How far beside the defender a screener stands, and a player goes past the defender or the screener.
SCREEN_BESIDE_M: Final = 0.65
PAST_DEFENDER_M: Final = 0.6
PAST_SCREEN_M: Final = 1.2

#: The path along the baseline lies behind the board: this far behind the basket's centre.
SLIDE_Y: Final = -1.2

#: Nobody's path comes nearer to the sideline or the baseline than this.
EDGE_M: Final = 0.3

_XY = tuple[float, float]

#: For bends -2 to 2 of a cut: how far its two control points lie aside of the line to the basket.
_CUT_ASIDE: Final = {-2: (1.35, -0.3), -1: (1.4, 0.4), 0: (1.5, 1.0), 1: (2.1, 1.6), 2: (2.8, 2.2)}
_BEND_M: Final = 0.7


def toward_basket(point: _XY) -> Point:
    """Return the unit vector from ``point`` to the basket."""
    x, y = point
    distance = hypot(x, y) or 1.0
    return Point(-x / distance, -y / distance)


def right_hand(point: _XY) -> Point:
    """Return the unit vector to the right of a player at ``point`` who faces the basket."""
    u = toward_basket(point)
    return Point(-u.y, u.x)


def defender(point: _XY) -> Point:
    """Return where the nominal defender of a player at ``point`` stands."""
    u = toward_basket(point)
    return Point(point[0] + DEFENDER_M * u.x, point[1] + DEFENDER_M * u.y)


def ball_side(point: _XY, ball: _XY) -> int:
    """Return +1 if the ball is to the right of a player at ``point`` who faces the basket, -1 to his left.

    With the ball straight ahead: the hand away from the nearer sideline's baseline, in the middle the left.
    """
    right = right_hand(point)
    aside = (ball[0] - point[0]) * right.x + (ball[1] - point[1]) * right.y
    if abs(aside) > 0.05:
        return 1 if aside > 0 else -1
    return 1 if right.y > 0.05 else -1


def beside_defender(point: _XY, hand: int, metres: float) -> Point:
    """Return the point ``metres`` to the ``hand`` side (+1 right, -1 left) of the nominal defender."""
    right, d = right_hand(point), defender(point)
    return Point(d.x + hand * metres * right.x, d.y + hand * metres * right.y)


def cut(start: _XY, end: _XY, hand: int, bend: int = 0) -> Path:
    """Return a cut from ``start`` to ``end`` that goes past the defender on the ``hand`` side."""
    u, right = toward_basket(start), right_hand(start)
    near, far = _CUT_ASIDE[bend]
    c1 = _off(_off(start, u, 1.3), right, hand * near)
    c2 = _off(_mix(start, end, 0.62), right, hand * far)
    return _path(start, c1, c2, end)


def cut_off_screen(start: _XY, end: _XY, hand: int, bend: int = 0) -> Path:
    """Return a cut past a screener who stands beside the defender on the ``hand`` side."""
    by = beside_defender(start, hand, PAST_SCREEN_M)
    turn = max(-70.0, min(70.0, 0.8 * _angle_out(end, by)))
    return _round(start, by, end, turn, bend)


def back_screen_hand(start: _XY, ball: _XY, court: Court) -> int:
    """Return the side of a mate's defender to screen on: away from the ball, if the court has room there."""
    hand = -ball_side(start, ball)
    room = beside_defender(start, hand, PAST_SCREEN_M)
    return hand if court.in_court(room, EDGE_M) else -hand


def drive(start: _XY, end: _XY, hand: int, baseline: bool, screened: bool, bend: int = 0) -> Path:
    """Return a drive past the defender, or past a screener beside him, and at the rim.

    A middle drive turns to face the rim as it ends; a ``baseline`` drive goes at the rim and is pulled up
    to ``end`` from below.
    """
    by = beside_defender(start, hand, PAST_SCREEN_M if screened else PAST_DEFENDER_M)
    # Which way the driver comes into the paint: degrees from straight out, on his side.
    angle = _angle_out(end, by)
    turn = max(-100.0, min(100.0, 0.9 * angle)) if baseline else max(-40.0, min(40.0, 0.6 * angle))
    return _round(start, by, end, turn, bend)


def along_ring(court: Court, first: float, last: float, bend: int = 0) -> Path:
    """Return the path outside the three-point line between two directions, in degrees, of ring spots."""
    pieces = max(2, round(abs(last - first) / 12.0))
    points = []
    for i in range(pieces + 1):
        part = i / pieces
        aside = (0.10 + 0.45 * abs(bend)) * 4.0 * part * (1.0 - part)
        points.append(ring_point(court, first + part * (last - first), PERIMETER_OFFSET_M + aside))
    return through(points)


def ring_point(court: Court, angle: float, offset: float) -> Point:
    """Return the point ``offset`` outside the three-point line, or as far as the sideline allows."""
    point = court.perimeter_point(angle, offset)
    limit = court.sideline - EDGE_M
    if abs(point.x) <= limit:
        return point
    return Point(limit if point.x > 0 else -limit, point.y)


def slide(start: _XY, end: _XY) -> Path:
    """Return the path along the baseline, behind the board, from corner to corner."""
    way = 1.0 if end[0] > start[0] else -1.0
    a, b = start[0] + way * 1.3, end[0] - way * 1.3
    points = [start, (start[0] + way * 0.5, -0.75), (a, SLIDE_Y), (0.5 * a, SLIDE_Y), (0.5 * b, SLIDE_Y)]
    return through([*points, (b, SLIDE_Y), (end[0] - way * 0.5, -0.75), end])


def run_out(start: _XY, end: _XY, bend: int = 0) -> Path:
    """Return the way from the lane out to a ring spot, bowed away from the baseline."""
    up = 0.45 if abs(end[0]) > 1.0 else 0.0
    return bowed(start, end, up * (1.0 if end[0] > start[0] else -1.0) + _BEND_M * bend)


def short(start: _XY, end: _XY, bend: int = 0) -> Path:
    """Return a short way between two inside places, a little bowed."""
    return bowed(start, end, 0.12 + _BEND_M * bend)


def bowed(start: _XY, end: _XY, aside: float) -> Path:
    """Return a curve whose middle lies ``aside`` metres to the runner's right of the straight line."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    length = hypot(dx, dy) or 1.0
    right = Point(-dy / length, dx / length)
    wide = aside * 4.0 / 3.0
    return _path(
        start, _off(_mix(start, end, 1 / 3), right, wide), _off(_mix(start, end, 2 / 3), right, wide), end
    )


def hand_off_places(court: Court, giver: float, receiver: float) -> tuple[Point, Point]:
    """Return where the giver stands and where the receiver goes by, half way between two directions."""
    middle = 0.5 * (giver + receiver)
    by = ring_point(court, middle, 0.75)
    u = toward_basket(by)
    return Point(by.x + 0.6 * u.x, by.y + 0.6 * u.y), by


def to_hand_off(court: Court, giver: float, receiver: float) -> Path:
    """Return the giver's dribble to the place of the hand-off."""
    place, _ = hand_off_places(court, giver, receiver)
    start = court.perimeter_point(giver, PERIMETER_OFFSET_M)
    quarter = court.perimeter_point(giver + 0.25 * (receiver - giver), PERIMETER_OFFSET_M)
    return through([start, quarter, place])


def through_hand_off(court: Court, giver: float, receiver: float) -> Path:
    """Return the receiver's run from his spot, past the giver on the outside, to the giver's spot."""
    _, by = hand_off_places(court, giver, receiver)
    points = [
        ring_point(court, receiver + part * (giver - receiver), offset)
        for part, offset in ((0.0, PERIMETER_OFFSET_M), (0.25, 0.65), (0.75, 0.65), (1.0, PERIMETER_OFFSET_M))
    ]
    return through([*points[:2], by, *points[2:]])


def _round(start: _XY, by: _XY, end: _XY, turn: float, bend: int) -> Path:
    """Return a path from ``start`` past ``by``, there heading for the basket, to ``end``.

    ``turn``: the direction it comes from at the end, degrees from straight out, positive to the right.
    """
    ux, uy = toward_basket(by)
    first = hypot(by[0] - start[0], by[1] - start[1])
    second = hypot(end[0] - by[0], end[1] - by[1])
    lead = (by[0] - start[0], by[1] - start[1])
    hand = 1.0 if lead[0] * right_hand(start).x + lead[1] * right_hand(start).y > 0 else -1.0
    right = right_hand(by)
    wide = hand * 0.5 * bend
    c2 = (by[0] - 0.35 * first * ux, by[1] - 0.35 * first * uy)
    c1 = (start[0] + 0.4 * lead[0], start[1] + 0.4 * lead[1])
    d1 = (by[0] + 0.4 * second * ux + wide * right.x, by[1] + 0.4 * second * uy + wide * right.y)
    back = 0.33 * second
    d2 = (
        end[0] + back * sin(radians(turn)) + wide * right.x,
        end[1] + back * cos(radians(turn)) + wide * right.y,
    )
    return _path(start, c1, c2, by, d1, d2, end)


def _angle_out(of: _XY, point: _XY) -> float:
    """Return the direction of ``point`` seen from ``of``, degrees from straight out, right positive."""
    return degrees(atan2(point[0] - of[0], point[1] - of[1]))


def _path(*points: _XY) -> Path:
    return Path(tuple((round(x * 100), round(y * 100)) for x, y in points))


def _mix(a: _XY, b: _XY, part: float) -> Point:
    return Point(a[0] + part * (b[0] - a[0]), a[1] + part * (b[1] - a[1]))


def _off(point: _XY, axis: _XY, metres: float) -> Point:
    return Point(point[0] + metres * axis[0], point[1] + metres * axis[1])
