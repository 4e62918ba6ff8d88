"""Routes: where a run goes between two points, drawn as a coach would draw it.

All points and lengths in metres. Every attacker is thought to be guarded by a nominal defender one metre
from him toward the basket; cuts, drives and screens go round that defender. ``bend`` bends a route further
(or, below zero, less or the other way); 0 is the route as it is meant, and the rest is there to keep
team-mates apart.
"""

from __future__ import annotations

from functools import lru_cache
from math import atan2, cos, degrees, hypot, radians, sin
from typing import Final

from engine.floor.court import PERIMETER_OFFSET_M, Court, half_court
from engine.floor.markings import Point
from engine.floor.paths import Path, through

#: The nominal defender: this far from his man toward the basket.
DEFENDER_M: Final = 1.0

#: How far beside the defender a screener stands, and a player goes past the defender or the screener.
SCREEN_BESIDE_M: Final = 0.65
PAST_DEFENDER_M: Final = 0.6
PAST_SCREEN_M: Final = 1.25

#: The path along the baseline lies behind the board: this far behind the basket's centre.
SLIDE_Y: Final = -1.2

#: Nobody's path comes nearer to the sideline or the baseline than this.
EDGE_M: Final = 0.3

_XY = tuple[float, float]

#: Where a baseline drive on the right goes under the block: 0.6 m clear of it on all four courts, and in
#: front of the board. How far out it has turned along the baseline, and how far a bend of 1 lifts it, metres.
UNDER_M: Final = Point(2.35, -0.25)
TURN_X: Final = 4.40
UNDER_LIFT_M: Final = 0.35

#: How far a bend of 1 moves the middle of a route, metres.
BEND_M: Final = 0.7

#: The ball counts as straight ahead of a player within this angle of his line to the basket, degrees.
STRAIGHT_AHEAD: Final = 25.0


#: Of routes between the same places there are many: each is worked out once.
_remembered: Final = lru_cache(maxsize=4096)


def toward_basket(point: _XY) -> Point:
    """Return the unit vector from ``point`` to the basket."""
    return _unit(-point[0], -point[1])


def right_hand(point: _XY) -> Point:
    """Return the unit vector to the right of a player at ``point`` who faces the basket."""
    u = toward_basket(point)
    return Point(-u.y, u.x)


def defender(point: _XY) -> Point:
    """Return where the nominal defender of a player at ``point`` stands."""
    u = toward_basket(point)
    return Point(point[0] + DEFENDER_M * u.x, point[1] + DEFENDER_M * u.y)


@_remembered
def ball_side(point: _XY, ball: _XY) -> int:
    """Return +1 if the ball is to the right of a player at ``point`` who faces the basket, -1 to his left.

    Straight ahead, within 25 degrees, a ball is on neither side: then the side away from the baseline is
    taken, and in the middle of the court the left.
    """
    u, right = toward_basket(point), right_hand(point)
    dx, dy = ball[0] - point[0], ball[1] - point[1]
    aside, ahead = dx * right.x + dy * right.y, dx * u.x + dy * u.y
    if abs(degrees(atan2(aside, ahead))) > STRAIGHT_AHEAD:
        return 1 if aside > 0 else -1
    return 1 if right.y > 0.05 else -1


@_remembered
def beside_defender(point: _XY, hand: int, metres: float) -> Point:
    """Return the point ``metres`` to the ``hand`` side (+1 right, -1 left) of the nominal defender."""
    right, d = right_hand(point), defender(point)
    return Point(d.x + hand * metres * right.x, d.y + hand * metres * right.y)


@_remembered
def cut(start: _XY, end: _XY, hand: int, bend: float = 0.0) -> Path:
    """Return a cut from ``start`` to ``end`` that goes past the defender on the ``hand`` side."""
    u, right = toward_basket(start), right_hand(start)
    # How far the two control points lie aside; never so little that he would run into the defender.
    near = 1.5 + (0.6 if bend > 0 else -0.07) * bend
    far = 1.0 + (0.6 if bend > 0 else 0.9) * bend
    c1 = _off(_off(start, u, 1.3), right, hand * near)
    c2 = _off(_mix(start, end, 0.62), right, hand * far)
    return _path(start, c1, c2, end)


@_remembered
def cut_off_screen(start: _XY, end: _XY, hand: int, bend: float = 0.0) -> Path:
    """Return a cut past a screener who stands beside the defender on the ``hand`` side."""
    by = beside_defender(start, hand, PAST_SCREEN_M)
    turn = max(-70.0, min(70.0, 0.8 * _angle_out(end, by)))
    return _round(start, by, end, turn, bend)


def back_screen_hand(start: _XY, ball: _XY, court: Court) -> int:
    """Return the side of a mate's defender to screen on: away from the ball, if the court has room there."""
    hand = -ball_side(start, ball)
    room = beside_defender(start, hand, PAST_SCREEN_M)
    return hand if court.in_court(room, 2.0 * EDGE_M) else -hand


@_remembered
def drive(start: _XY, end: _XY, hand: int, screened: bool, bend: float = 0.0) -> Path:
    """Return a middle drive past the defender, or past a screener beside him, that ends facing the rim."""
    by = beside_defender(start, hand, PAST_SCREEN_M if screened else PAST_DEFENDER_M)
    # Which way the driver comes into the paint: degrees from straight out, on his side.
    turn = max(-40.0, min(40.0, 0.6 * _angle_out(end, by)))
    return _round(start, by, end, turn, bend)


@_remembered
def baseline_drive(start: _XY, end: _XY, hand: int, screened: bool, bend: float = 0.0) -> Path:
    """Return a drive past the defender on the baseline side, under the block, and up to the rim on that side.

    A bend lifts it off the baseline, first where a player on the short corner is passed on the basket's side;
    below zero it goes deeper.
    """
    by = beside_defender(start, hand, PAST_SCREEN_M if screened else PAST_DEFENDER_M)
    lift = UNDER_LIFT_M * bend
    under = Point(hand * UNDER_M.x, UNDER_M.y + 0.5 * lift)
    # From the wing he has turned down to the baseline by the time he is level with the short corner.
    out = min(TURN_X, 0.85 * abs(by.x))
    turn = Point(hand * out, min(max(UNDER_M.y, 0.28 * by.y) + lift, max(start[1], end[1]) + 0.35))
    return through([start, by, turn, under, end])


def along_ring(court: Court, first: float, last: float, bend: float = 0.0) -> Path:
    """Return the path outside the three-point line between two directions, in degrees, of ring spots."""
    return _along_ring(court.standard.name, first, last, abs(bend))


@lru_cache(maxsize=1024)
def _along_ring(court_name: str, first: float, last: float, bend: float) -> Path:
    court = half_court(court_name)
    pieces = max(2, round(abs(last - first) / 12.0))
    points = []
    for i in range(pieces + 1):
        part = i / pieces
        aside = (0.10 + 0.45 * bend) * 4.0 * part * (1.0 - part)
        points.append(ring_point(court, first + part * (last - first), PERIMETER_OFFSET_M + aside))
    return through(points)


def ring_point(court: Court, angle: float, offset: float) -> Point:
    """Return the point ``offset`` outside the three-point line, or as far as the sideline allows."""
    point = court.perimeter_point(angle, offset)
    limit = court.sideline - EDGE_M
    if abs(point.x) <= limit:
        return point
    return Point(limit if point.x > 0 else -limit, point.y)


@lru_cache(maxsize=64)
def slide(start: _XY, end: _XY) -> Path:
    """Return the path along the baseline, behind the board, from corner to corner."""
    way = 1.0 if end[0] > start[0] else -1.0
    a, b = start[0] + way * 1.3, end[0] - way * 1.3
    points = [start, (start[0] + way * 0.5, -0.75), (a, SLIDE_Y), (0.5 * a, SLIDE_Y), (0.5 * b, SLIDE_Y)]
    return through([*points, (b, SLIDE_Y), (end[0] - way * 0.5, -0.75), end])


def run_out(start: _XY, end: _XY, bend: float = 0.0) -> Path:
    """Return the way from the lane out to a ring spot, bowed away from the baseline."""
    up = 0.45 if abs(end[0]) > 1.0 else 0.0
    return bowed(start, end, up * (1.0 if end[0] > start[0] else -1.0) + BEND_M * bend)


def short(start: _XY, end: _XY, bend: float = 0.0) -> Path:
    """Return a short way between two inside places, a little bowed."""
    return bowed(start, end, 0.12 + BEND_M * bend)


@_remembered
def bowed(start: _XY, end: _XY, aside: float) -> Path:
    """Return a curve whose middle lies ``aside`` metres to the runner's right of the straight line."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    length = hypot(dx, dy) or 1.0
    right = Point(-dy / length, dx / length)
    wide = aside * 4.0 / 3.0
    return _path(
        start, _off(_mix(start, end, 1 / 3), right, wide), _off(_mix(start, end, 2 / 3), right, wide), end
    )


def side(point: _XY, other: _XY) -> int:
    """Return +1 if ``other`` is to the right of a player at ``point`` who faces the basket, else -1."""
    right = right_hand(point)
    return 1 if (other[0] - point[0]) * right.x + (other[1] - point[1]) * right.y > 0 else -1


@_remembered
def come_off(start: _XY, end: _XY, hand: int, bend: float = 0.0) -> Path:
    """Return a run past a screener beside the defender, round him and on to ``end``."""
    by = beside_defender(start, hand, PAST_SCREEN_M)
    # Outside the screener, as seen from the basket, so that the defender runs into him.
    out = _off(by, toward_basket(by), -0.45)
    if not bend:
        return through([start, out, end])
    across = _unit(out.y - end[1], end[0] - out.x)
    return through([start, out, _off(_mix(out, end, 0.55), across, BEND_M * bend), end])


def inside_ring(start: _XY, end: _XY, inside: float) -> Path:
    """Return a curve whose middle is ``inside`` metres nearer the basket than the straight line."""
    middle = _mix(start, end, 0.5)
    toward = 1.0 if side_of_line(start, end, toward_basket(middle)) else -1.0
    return bowed(start, end, toward * inside)


def side_of_line(start: _XY, end: _XY, direction: _XY) -> bool:
    """Say whether ``direction`` points to the runner's right of the line from ``start`` to ``end``."""
    return -(end[1] - start[1]) * direction[0] + (end[0] - start[0]) * direction[1] > 0.0


@_remembered
def past(start: _XY, by: _XY, end: _XY, bend: float = 0.0) -> Path:
    """Return a run from ``start`` close past a team-mate at ``by``, on his far side from the basket."""
    return through([start, _off(by, toward_basket(by), -0.6 - 0.3 * abs(bend)), end])


def hand_off_places(court: Court, giver: float, receiver: float) -> tuple[Point, Point]:
    """Return where the giver stands and where the receiver goes by, half way between two directions."""
    middle = 0.5 * (giver + receiver)
    by = ring_point(court, middle, 0.75)
    u = toward_basket(by)
    return Point(by.x + 0.6 * u.x, by.y + 0.6 * u.y), by


def hand_off(
    court: Court, giver: float, receiver: float, start: Point | None = None, bend: float = 0.0
) -> tuple[Path, Path]:
    """Return the giver's dribble to the place, and the receiver's run past him to the giver's spot.

    ``giver``, ``receiver``: the directions of their spots, in degrees. The receiver goes by on the outside.
    ``start``: where he comes from, if not from his spot; ``bend``: of that way.
    """
    return _hand_off(court.standard.name, giver, receiver, start, bend if start else 0.0)


@lru_cache(maxsize=256)
def _hand_off(
    court_name: str, giver: float, receiver: float, start: Point | None, bend: float
) -> tuple[Path, Path]:
    court = half_court(court_name)
    place, by = hand_off_places(court, giver, receiver)

    def at(part: float, offset: float) -> Point:
        return ring_point(court, giver + part * (receiver - giver), offset)

    here = at(0.0, PERIMETER_OFFSET_M)
    there = [at(1.0, PERIMETER_OFFSET_M), at(0.75, 0.65)]
    if start is not None:
        near = at(0.7, 0.25)
        across = _unit(near.y - start.y, start.x - near.x)
        there = [start, *([_off(_mix(start, near, 0.5), across, BEND_M * bend)] if bend else []), near]
    dribble = through([here, at(0.25, PERIMETER_OFFSET_M), place])
    return dribble, through([*there, by, at(0.25, 0.65 if start is None else 0.5), here])


def _round(start: _XY, by: _XY, end: _XY, turn: float, bend: float) -> Path:
    """Return a path from ``start`` round ``by``, there turning toward ``end``, to it.

    ``turn``: the direction it comes from at the end, degrees from straight out, positive to the right.
    """
    first, second = hypot(by[0] - start[0], by[1] - start[1]), hypot(end[0] - by[0], end[1] - by[1])
    lead = _unit(by[0] - start[0], by[1] - start[1])
    ahead = _unit(end[0] - by[0], end[1] - by[1])
    heading = _unit(0.4 * lead.x + 0.6 * ahead.x, 0.4 * lead.y + 0.6 * ahead.y)
    right = right_hand(start)
    # A wider bend goes on in the direction the path goes round ``by``.
    wide = (0.8 if lead.x * right.x + lead.y * right.y > 0 else -0.8) * bend
    c1 = _off(start, lead, 0.4 * first)
    c2 = _off(by, heading, -0.4 * first)
    d1 = _off(_off(by, heading, 0.3 * second), right, wide)
    out = Point(sin(radians(turn)), cos(radians(turn)))
    d2 = _off(_off(end, out, 0.33 * second), right, wide)
    return _path(start, c1, c2, by, d1, d2, end)


def _unit(x: float, y: float) -> Point:
    length = hypot(x, y) or 1.0
    return Point(x / length, y / length)


def _angle_out(of: _XY, point: _XY) -> float:
    """Return the direction of ``point`` seen from ``of``, degrees from straight out, right positive."""
    return degrees(atan2(point[0] - of[0], point[1] - of[1]))


def _path(*points: _XY) -> Path:
    return _shared(tuple((round(x * 100), round(y * 100)) for x, y in points))


@lru_cache(maxsize=8192)
def _shared(controls: tuple[tuple[int, int], ...]) -> Path:
    """Return the path with these controls: measured once, and kept once however many runs go along it."""
    return Path(controls)


def _mix(a: _XY, b: _XY, part: float) -> Point:
    return Point(a[0] + part * (b[0] - a[0]), a[1] + part * (b[1] - a[1]))


def _off(point: _XY, axis: _XY, metres: float) -> Point:
    return Point(point[0] + metres * axis[0], point[1] + metres * axis[1])
