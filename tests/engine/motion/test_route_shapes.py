"""Each kind of route by itself: through where it must go, to the side it is bent, the same left and right."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise
from math import cos, degrees, hypot, radians, sin, tan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.floor.court import PAINT_M, PERIMETER_OFFSET_M, RIM_M, half_court
from engine.floor.markings import Point
from engine.floor.paths import Path, line, through
from engine.motion import routes

FIBA = half_court("fiba")

#: Where an attacker stands: outside the line anywhere round the ring, or a few metres nearer.
angles = st.integers(0, 180).map(float)
hands = st.sampled_from((1, -1))
bends = st.sampled_from((-0.6, -0.3, 0.0, 0.3, 0.6))


@st.composite
def places(draw: st.DrawFn) -> Point:
    turn = radians(draw(angles))
    far = draw(st.floats(4.0, 7.2))
    return Point(far * cos(turn), far * sin(turn))


ends = st.sampled_from((RIM_M, PAINT_M))
flags = st.booleans()

#: Every route that is told a hand, by its arguments after start, end and hand.
HANDED: dict[str, Callable[[Point, Point, int, float], Path]] = {
    "cut": routes.cut,
    "cut off a screen": routes.cut_off_screen,
    "come off": routes.come_off,
    "middle drive": lambda a, b, hand, bend: routes.drive(a, b, hand, False, bend),
    "drive off a screen": lambda a, b, hand, bend: routes.drive(a, b, hand, True, bend),
}
each_handed = pytest.mark.parametrize("kind", HANDED)


def mirrored(point: tuple[float, float]) -> Point:
    return Point(-point[0], point[1])


def same(one: Path, other: Path) -> bool:
    """Whether two paths are mirror images, to the centimetre that rounding may take."""
    return len(one.controls) == len(other.controls) and all(
        abs(a[0] + b[0]) <= 1 and abs(a[1] - b[1]) <= 1
        for a, b in zip(one.controls, other.controls, strict=True)
    )


@each_handed
@given(places(), ends, hands, bends)
def test_left_and_right_are_mirror_images(
    kind: str, start: Point, end: Point, hand: int, bend: float
) -> None:
    way = HANDED[kind]
    # Coming off a screen, a bend is to the runner's own side, else away from whom the route goes round.
    other = -bend if kind == "come off" else bend
    assert same(way(start, end, hand, bend), way(mirrored(start), end, -hand, other))


@given(places(), places(), bends)
def test_routes_without_a_hand_are_mirror_images_too(start: Point, end: Point, bend: float) -> None:
    left, right = mirrored(start), mirrored(end)
    assert same(routes.bowed(start, end, bend), routes.bowed(left, right, -bend))
    if abs(start.x * end.y - start.y * end.x) > 1.0:  # else the basket is on neither side of the way
        assert same(routes.inside_ring(start, end, 1.1), routes.inside_ring(left, right, 1.1))
    assert same(routes.past(start, PAINT_M, end, bend), routes.past(left, PAINT_M, right, bend))


@each_handed
@given(places(), ends, hands, bends)
def test_a_route_begins_and_ends_where_it_should_and_makes_no_loop(
    kind: str, start: Point, end: Point, hand: int, bend: float
) -> None:
    path = HANDED[kind](start, end, hand, bend)
    assert hypot(path.start.x - start.x, path.start.y - start.y) < 0.01
    assert hypot(path.end.x - end.x, path.end.y - end.y) < 0.01
    by = routes.beside_defender(start, hand, routes.PAST_SCREEN_M)
    legs = hypot(by.x - start.x, by.y - start.y) + hypot(end.x - by.x, end.y - by.y)
    assert path.length < 1.35 * legs


@given(places(), ends, hands)
def test_a_wider_bend_goes_further_round_the_defender(start: Point, end: Point, hand: int) -> None:
    right = routes.right_hand(start)

    def aside(path: Path) -> float:
        return max(hand * ((p.x - start.x) * right.x + (p.y - start.y) * right.y) for p in path.samples)

    tight, plain, wide = (aside(routes.cut(start, end, hand, bend)) for bend in (-0.6, 0.0, 0.6))
    assert tight < plain < wide


@given(places(), places(), st.floats(-1.0, 1.0))
def test_a_bowed_way_has_its_middle_that_far_to_the_right(start: Point, end: Point, aside: float) -> None:
    dx, dy = end.x - start.x, end.y - start.y
    length = hypot(dx, dy)
    if length < 1.0:
        return
    middle = routes.bowed(start, end, aside)
    x, y = middle.point(middle.length / 2)
    off = ((x - start.x) * -dy + (y - start.y) * dx) / length
    assert off == pytest.approx(aside, abs=0.03)


@given(angles, angles)
def test_a_way_inside_the_ring_is_nearer_the_basket(first: float, last: float) -> None:
    if not 20.0 <= abs(first - last) <= 60.0:
        return
    a, b = (FIBA.perimeter_point(angle, PERIMETER_OFFSET_M) for angle in (first, last))
    path = routes.inside_ring(a, b, 1.1)
    x, y = path.point(path.length / 2)
    straight = hypot((a.x + b.x) / 2, (a.y + b.y) / 2)
    assert hypot(x, y) < straight - 0.8


@given(angles, angles, st.floats(0.0, 0.6))
def test_a_way_along_the_ring_follows_the_line_outside_it(first: float, last: float, bend: float) -> None:
    path = routes.along_ring(FIBA, first, last, bend)
    for end, angle in ((path.start, first), (path.end, last)):
        place = FIBA.perimeter_point(angle, PERIMETER_OFFSET_M)
        assert hypot(end.x - place.x, end.y - place.y) < 0.01
    if abs(first - last) > 12.0:
        x, y = path.point(path.length / 2)
        assert FIBA.three_point_distance(x, y) > PERIMETER_OFFSET_M


@pytest.mark.parametrize("way", [1.0, -1.0])
def test_the_slide_goes_straight_along_behind_the_board(way: float) -> None:
    start, end = Point(-way * 6.9, 0.0), Point(way * 6.9, 0.0)
    path = routes.slide(start, end)
    assert (path.start, path.end) == (start, end)
    xs = [way * p.x for p in path.samples]
    assert xs == sorted(xs)  # never back
    under = [p.y for p in path.samples if abs(p.x) < 5.0]
    assert all(y == pytest.approx(routes.SLIDE_Y, abs=0.1) for y in under)


@pytest.mark.parametrize("end", [Point(6.9, 0.5), Point(-6.9, 0.5), Point(5.0, 5.2), Point(-5.0, 5.2)])
def test_the_way_out_of_the_lane_is_bowed_away_from_the_baseline(end: Point) -> None:
    def height(bend: float) -> float:
        path = routes.run_out(RIM_M, end, bend)
        return path.point(path.length / 2).y

    assert height(0.0) > (RIM_M.y + end.y) / 2 + 0.2
    assert height(0.5 if end.x > 0 else -0.5) > height(0.0) + 0.1


@given(places(), st.floats(1.0, 5.0), st.integers(-180, 180))
def test_a_ball_is_to_the_side_it_is_seen_on(start: Point, far: float, turn: int) -> None:
    u, right = routes.toward_basket(start), routes.right_hand(start)
    ahead, aside = far * cos(radians(turn)), far * sin(radians(turn))
    ball = Point(start.x + ahead * u.x + aside * right.x, start.y + ahead * u.y + aside * right.y)
    found = routes.ball_side(start, ball)
    if 26 <= abs(turn) <= 179:
        assert found == (1 if turn > 0 else -1)
    elif abs(turn) <= 24 and abs(right.y) > 0.06:
        # Straight ahead: away from the baseline, which is on the left of a player on the right side.
        assert found == (1 if start.x < 0 else -1)
    assert routes.side(start, ball) == found or abs(turn) in (0, 180) or abs(turn) <= 25


@given(angles, angles)
def test_a_hand_off_happens_half_way_with_the_taker_outside(giver: float, taker: float) -> None:
    place, by = routes.hand_off_places(FIBA, giver, taker)
    for point in (place, by):
        assert degrees(routes._unit(*point).x) == pytest.approx(
            degrees(cos(radians((giver + taker) / 2))), abs=9
        )
    assert hypot(by.x - place.x, by.y - place.y) == pytest.approx(0.6)
    assert hypot(*by) > hypot(*place)
    dribble, run = routes.hand_off(FIBA, giver, taker)
    assert hypot(dribble.end.x - place.x, dribble.end.y - place.y) < 0.01
    assert min(hypot(p.x - by.x, p.y - by.y) for p in run.samples) < 0.3


def test_a_path_through_points_goes_through_them_without_a_loop() -> None:
    points = [(0.0, 7.0), (1.0, 6.8), (1.2, 3.0), (6.0, 2.9)]
    path = through(points)
    assert [path.controls[i] for i in (0, 3, 6, 9)] == [(round(x * 100), round(y * 100)) for x, y in points]
    straight = sum(line(a, b).length for a, b in pairwise(points))
    assert straight <= path.length < 1.1 * straight


@given(places(), places(), st.floats(0.0, 1.0))
def test_a_point_of_a_straight_path_is_that_far_along(start: Point, end: Point, part: float) -> None:
    path = line(start, end)
    assert path.length == pytest.approx(hypot(end.x - start.x, end.y - start.y), abs=0.02)
    x, y = path.point(part * path.length)
    assert x == pytest.approx(start.x + part * (end.x - start.x), abs=0.02)
    assert y == pytest.approx(start.y + part * (end.y - start.y), abs=0.02)


@given(places(), ends, hands)
def test_a_drive_turns_toward_where_it_goes_as_it_goes_past(start: Point, end: Point, hand: int) -> None:
    path = routes.drive(start, end, hand, False)
    before, by, last, to = (path.controls[i] for i in (2, 3, 5, 6))
    way, ahead = (by[0] - before[0], by[1] - before[1]), (to[0] - by[0], to[1] - by[1])
    assert way[0] * ahead[0] + way[1] * ahead[1] > 0
    guard = routes.defender(start)
    if hypot(*start) < 5.5:
        return  # so near, he is at the rim before he is past
    # Past him shoulder to shoulder: neither through him nor in a wide bow.
    assert 0.40 <= min(hypot(p.x - guard.x, p.y - guard.y) for p in path.samples) <= 0.85
    # He comes in facing the rim: not more than 40 degrees from straight down the middle.
    x, y = last[0] - to[0], last[1] - to[1]
    assert y > 0
    assert abs(x) <= y * tan(radians(41.0)) + 1.0


def test_who_stands_straight_ahead_is_not_to_the_right() -> None:
    assert routes.side(Point(0.0, 5.0), Point(0.0, 2.0)) == -1
