"""Court and path geometry against shapely, which measures the same shapes its own way."""

from __future__ import annotations

import math
import re
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString, Polygon
from shapely.geometry import Point as ShapelyPoint

from engine.floor.court import Arc, Circle, Court, Marking, Point, Rect, Segment, half_court
from engine.floor.paths import Path, line, marking_svg, through
from tests.depth import deep

COURTS = ["fiba", "nba", "ncaa", "nfhs"]
#: Whole centimetres may move a point by half a centimetre each way.
ROUNDING_M = 0.0071

places = st.tuples(
    st.floats(-7.0, 7.0, allow_nan=False).map(lambda v: round(v, 3)),
    st.floats(-1.5, 12.0, allow_nan=False).map(lambda v: round(v, 3)),
)
courts = st.sampled_from(COURTS).map(half_court)


def outline(mark: Marking) -> LineString:
    match mark:
        case Segment(start=start, end=end):
            return LineString([start, end])
        case Rect(low=low, high=high):
            return LineString([low, (high.x, low.y), high, (low.x, high.y), low])
        case Circle(centre=centre, radius=radius):
            return LineString(ShapelyPoint(centre).buffer(radius, quad_segs=90).exterior.coords)
        case Arc(first=first, last=last):
            return LineString([mark.at(first + (last - first) * i / 360) for i in range(361)])


def two_point_area(court: Court) -> Polygon:
    """The area inside the three-point line, which is taken to run on 20 m behind the baseline."""
    straight, radius = court.standard.three_point_straight, court.standard.three_point_radius
    disc = ShapelyPoint(0, 0).buffer(radius, quad_segs=720)
    strip = Polygon([(-straight, -20), (straight, -20), (straight, radius), (-straight, radius)])
    below = Polygon([(-radius, -20), (radius, -20), (radius, 0), (-radius, 0)])
    return strip.intersection(disc.union(below))


AREAS = {name: two_point_area(half_court(name)) for name in COURTS}


@pytest.mark.parametrize("name", COURTS)
def test_the_three_point_line_is_one_unbroken_line_inside_the_court(name: str) -> None:
    court = half_court(name)
    right, arc, left = (outline(m) for m in court.markings if m.kind == "three_point")
    assert math.dist(right.coords[-1], arc.coords[0]) < 1e-9
    assert math.dist(arc.coords[-1], left.coords[0]) < 1e-9
    area = AREAS[name]
    for part in (right, arc, left):
        assert part.hausdorff_distance(area.exterior.intersection(part.buffer(1e-3))) < 2e-3
    total = right.length + arc.length + left.length
    inside = area.intersection(Polygon([(-9, court.baseline), (9, court.baseline), (9, 9), (-9, 9)]))
    baseline_part = 2 * court.standard.three_point_straight
    assert total == pytest.approx(inside.exterior.length - baseline_part, abs=0.001)


@pytest.mark.parametrize("name", COURTS)
def test_every_marking_lies_inside_the_boundary(name: str) -> None:
    court = half_court(name)
    (x0, y0), (x1, y1) = court.box
    box = Polygon([(x0, y0), (x1, y0), (x1, y1), (x0, y1)]).buffer(1e-9)
    assert all(box.covers(outline(mark)) for mark in court.markings)


@given(court=courts, place=places)
def test_distance_outside_the_three_point_line(court: Court, place: tuple[float, float]) -> None:
    area = AREAS[court.standard.name]
    spot = ShapelyPoint(place)
    expected = area.exterior.distance(spot) * (-1 if area.contains(spot) else 1)
    # The line is taken to run on behind the baseline; the reference stops 20 m behind it.
    assert court.three_point_distance(*place) == pytest.approx(expected, abs=1e-3)


@given(court=courts, angle=st.floats(0.0, 180.0), offset=st.floats(0.0, 2.0))
def test_perimeter_point_lies_in_its_direction_at_its_distance(
    court: Court, angle: float, offset: float
) -> None:
    point = court.perimeter_point(angle, offset)
    assert court.three_point_distance(*point) == pytest.approx(offset, abs=1e-6)
    assert court.perimeter_angle(point) == pytest.approx(angle, abs=1e-6)
    mirrored = court.perimeter_point(180.0 - angle, offset)
    assert mirrored == pytest.approx((-point.x, point.y), abs=1e-9)


@pytest.mark.parametrize("name", COURTS)
def test_the_perimeter_has_no_jumps(name: str) -> None:
    court = half_court(name)
    points = [court.perimeter_point(i / 4, 0.4) for i in range(721)]
    assert points[0] == (court.standard.three_point_straight + 0.4, 0.0)
    assert max(math.dist(a, b) for a, b in pairwise(points)) < 0.04


@pytest.mark.parametrize("angle", [-10.5, 190.5, math.nan])
def test_perimeter_point_refuses_other_directions(angle: float) -> None:
    with pytest.raises(ValueError, match="between -10 and 190 degrees"):
        half_court("fiba").perimeter_point(angle, 0.4)


def test_perimeter_point_refuses_a_distance_inside_the_line() -> None:
    with pytest.raises(ValueError, match="must not be negative"):
        half_court("fiba").perimeter_point(90.0, -0.1)


def test_an_unknown_court_is_named_and_the_known_ones_offered() -> None:
    with pytest.raises(
        ValueError, match=r"no court called 'street'\. Choose one of: fiba, nba, ncaa, nfhs\."
    ):
        half_court("street")


@given(court=courts, place=places)
def test_the_lane_is_its_polygon(court: Court, place: tuple[float, float]) -> None:
    polygon = Polygon(court.lane_polygon)
    assert court.in_lane(place) == polygon.covers(ShapelyPoint(place))
    assert polygon.area == pytest.approx(court.standard.lane_width * court.standard.free_throw_line)


# Paths


def bezier(path: Path, pieces: int = 400) -> LineString:
    """The path's curves by repeated division (de Casteljau), finely, in metres."""
    points: list[tuple[float, ...]] = [path.controls[0]]
    for first in range(0, len(path.controls) - 1, 3):
        for i in range(1, pieces + 1):
            level: list[tuple[float, ...]] = list(path.controls[first : first + 4])
            while len(level) > 1:
                level = [
                    tuple(p + (q - p) * i / pieces for p, q in zip(a, b, strict=True))
                    for a, b in pairwise(level)
                ]
            points.append(level[0])
    return LineString([(x / 100, y / 100) for x, y in points])


@settings(max_examples=deep(34, 100))
@given(points=st.lists(places, min_size=2, max_size=7))
def test_a_path_is_as_long_as_shapely_says(points: list[tuple[float, float]]) -> None:
    path = through(points)
    reference = bezier(path)
    assert path.length == pytest.approx(reference.length, rel=0.01, abs=0.005)
    for part in (0.0, 0.1, 0.35, 0.5, 0.8, 1.0):
        along = path.point(part * path.length)
        assert reference.distance(ShapelyPoint(along)) < 0.06
        assert math.dist(along, reference.interpolate(part, normalized=True).coords[0]) < max(
            0.1, 0.02 * path.length
        )


@settings(max_examples=deep(34, 100))
@given(points=st.lists(places, min_size=2, max_size=7))
def test_a_path_passes_through_its_points_and_ends_at_them(points: list[tuple[float, float]]) -> None:
    path = through(points)
    assert math.dist(path.start, points[0]) < ROUNDING_M
    assert math.dist(path.end, points[-1]) < ROUNDING_M
    assert path.point(0.0) == path.point(-1.0) == path.start
    assert path.point(path.length) == path.point(path.length + 1.0) == path.end
    reference = bezier(path)
    assert all(reference.distance(ShapelyPoint(point)) < 2 * ROUNDING_M for point in points)


@given(st.lists(places, min_size=2, max_size=5), st.lists(st.floats(-1.0, 40.0), max_size=12))
def test_many_points_of_a_path_are_those_asked_for_one_by_one(
    points: list[tuple[float, float]], lengths: list[float]
) -> None:
    path = through(points)
    lengths = sorted([*lengths, 0.0, path.length])
    assert list(zip(*path.points(lengths), strict=True)) == [path.point(length) for length in lengths]


@given(a=places, b=places)
def test_a_line_is_straight(a: tuple[float, float], b: tuple[float, float]) -> None:
    path = line(a, b)
    straight = LineString([path.start, path.end]) if path.start != path.end else ShapelyPoint(path.start)
    assert path.length == pytest.approx(math.dist(path.start, path.end), abs=0.01)
    assert all(straight.distance(ShapelyPoint(sample)) < ROUNDING_M for sample in path.samples)
    assert path == through([a, b])


def test_a_round_route_is_measured_to_the_centimetre() -> None:
    # A quarter of a 7 m circle through points at 15 degrees: 7 * pi / 2 m.
    points = [(7 * math.cos(math.radians(t)), 7 * math.sin(math.radians(t))) for t in range(0, 91, 15)]
    path = through(points)
    assert path.length == pytest.approx(7 * math.pi / 2, abs=0.02)
    middle = path.point(path.length / 2)
    assert middle == pytest.approx((7 * math.sqrt(0.5), 7 * math.sqrt(0.5)), abs=0.02)


def test_path_text() -> None:
    assert line((5.05, 5.05), (0.0, 0.9)).svg() == "M505 505C337 367 168 228 0 90"
    assert Path(((505, 505), (400, 300), (200, 200), (0, 90))).svg() == "M505 505C400 300 200 200 0 90"
    two = through([(0.0, 0.0), (1.0, 0.0), (2.0, 0.0)])
    assert two.svg() == "M0 0C33 0 67 0 100 0 133 0 167 0 200 0"


def test_paths_with_equal_text_are_equal_and_hash_alike() -> None:
    a, b = through([(0.0, 0.0), (1.0, 2.0), (3.0, 1.0)]), through([(0.001, 0.0), (1.0, 2.001), (3.0, 1.0)])
    assert a.svg() == b.svg()
    assert a == b
    assert len({a, b, line((0.0, 0.0), (3.0, 1.0))}) == 2


@pytest.mark.parametrize("points", [[], [(1.0, 1.0)]])
def test_a_path_needs_two_points(points: list[tuple[float, float]]) -> None:
    with pytest.raises(ValueError, match="at least two points"):
        through(points)


@pytest.mark.parametrize("count", [0, 1, 3, 5, 6])
def test_a_path_needs_whole_curves(count: int) -> None:
    with pytest.raises(ValueError, match="control points"):
        Path(tuple((i, i) for i in range(count)))


def test_standing_still_is_a_path_of_no_length() -> None:
    still = line((1.0, 2.0), (1.0, 2.0))
    assert still.length == 0.0
    assert still.point(0.5) == (1.0, 2.0)
    assert through([(1.0, 2.0), (1.0, 2.0), (1.001, 2.0)]) == still


# Marking text

TOKEN = re.compile(r"[MLHVAZ]|-?\d+")


def read_svg(text: str) -> LineString:
    """Read the path data a marking is sent as, in metres; arcs by the two-circle construction."""
    assert re.fullmatch(r"(?:[MLHVAZ]|-?\d+| )+", text), text
    tokens = TOKEN.findall(text)
    points: list[tuple[float, float]] = []
    command, at = "", 0

    def take() -> float:
        nonlocal at
        at += 1
        return float(tokens[at - 1])

    while at < len(tokens):
        if tokens[at].isalpha():
            command = tokens[at]
            at += 1
        if command in "ML":
            points.append((take(), take()))
        elif command == "H":
            points.append((take(), points[-1][1]))
        elif command == "V":
            points.append((points[-1][0], take()))
        elif command == "A":
            radius, _, _, large, sweep = (take() for _ in range(5))
            assert (large, sweep) == (0.0, 1.0)
            (x0, y0), (x1, y1) = points[-1], (take(), take())
            chord = math.dist((x0, y0), (x1, y1))
            height = math.sqrt(max(0.0, radius**2 - chord**2 / 4))
            # Sweeping from +x toward +y, the centre lies to the side of +y seen along +x.
            cx = (x0 + x1) / 2 - height * (y1 - y0) / chord
            cy = (y0 + y1) / 2 + height * (x1 - x0) / chord
            begin, end = math.atan2(y0 - cy, x0 - cx), math.atan2(y1 - cy, x1 - cx)
            if end < begin:
                end += 2 * math.pi
            turns = [begin + (end - begin) * i / 90 for i in range(1, 91)]
            points += [(cx + radius * math.cos(t), cy + radius * math.sin(t)) for t in turns]
        else:
            points.append(points[0])
    return LineString([(x / 100, y / 100) for x, y in points])


@pytest.mark.parametrize("name", COURTS)
def test_marking_text_draws_the_marking_to_a_centimetre(name: str) -> None:
    for mark in half_court(name).markings:
        drawn = read_svg(marking_svg(mark))
        assert drawn.hausdorff_distance(outline(mark)) < 0.015, mark


def test_marking_text_examples() -> None:
    assert marking_svg(Segment("board", Point(-0.9, -0.375), Point(0.9, -0.375))) == "M-90 -38L90 -38"
    assert marking_svg(Rect("lane", Point(-2.45, -1.575), Point(2.45, 4.225))) == "M-245 -158H245V422H-245Z"
    assert marking_svg(Arc("a", Point(0.0, 0.0), 1.0, 0.0, 90.0)) == "M100 0A100 100 0 0 1 0 100"
