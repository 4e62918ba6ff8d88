"""Where the spots of each formation lie on each court, and how far apart neighbours stand."""

from __future__ import annotations

import math
from itertools import combinations

import pytest

from engine.floor.court import PERIMETER_OFFSET_M, Court, half_court, spots
from engine.floor.formations import BESIDE_RIM, FORMATIONS, LANE, POSTS, Formation, side_of
from engine.floor.spacing import Neighbours, ring_distances

COURTS = ["fiba", "nba", "ncaa", "nfhs"]
FOOT_M = 0.3048
#: Spots are whole centimetres.
CM = 0.0075


@pytest.fixture(params=COURTS)
def court(request: pytest.FixtureRequest) -> Court:
    return half_court(request.param)


@pytest.fixture(params=list(FORMATIONS))
def formation(request: pytest.FixtureRequest) -> Formation:
    return FORMATIONS[request.param]


def test_every_spot_of_the_formation_and_no_other(court: Court, formation: Formation) -> None:
    assert list(spots(court, formation)) == [*formation.ring, *POSTS, *LANE]


def test_spots_are_whole_centimetres(court: Court, formation: Formation) -> None:
    for x, y in spots(court, formation).values():
        assert (x, y) == (round(x * 100) / 100, round(y * 100) / 100)


def test_perimeter_spots_stand_just_outside_the_line(court: Court, formation: Formation) -> None:
    # 0.3 to 0.5 m outside: common practice, no source.
    assert 0.3 <= PERIMETER_OFFSET_M <= 0.5
    places = spots(court, formation)
    for spot in formation.ring:
        assert court.three_point_distance(*places[spot]) == pytest.approx(PERIMETER_OFFSET_M, abs=CM)
        assert court.in_court(places[spot], margin=0.4)


def test_corners_are_level_with_the_basket(court: Court, formation: Formation) -> None:
    places = spots(court, formation)
    x = court.standard.three_point_straight + PERIMETER_OFFSET_M
    assert places["right_corner"] == pytest.approx((x, 0.0), abs=CM)
    assert places["left_corner"] == pytest.approx((-x, 0.0), abs=CM)


def test_ring_directions(court: Court, formation: Formation) -> None:
    places = spots(court, formation)
    for spot, angle in zip(formation.ring, formation.ring_angles, strict=True):
        x, y = places[spot]
        assert math.degrees(math.atan2(y, x)) == pytest.approx(angle, abs=0.1)


def test_left_and_right_mirror_each_other(court: Court, formation: Formation) -> None:
    places = spots(court, formation)
    for spot, (x, y) in places.items():
        match side_of(spot):
            case "left":
                assert x < 0
                assert places["right_" + spot.removeprefix("left_")] == (-x, y)
            case "right":
                assert x > 0
            case "middle" if spot in BESIDE_RIM.values():
                assert places[BESIDE_RIM["left"]].x == -places[BESIDE_RIM["right"]].x < 0
            case "middle":
                assert x == 0


def test_posts_are_inside_the_line_and_outside_the_lane(court: Court, formation: Formation) -> None:
    places = spots(court, formation)
    for post in POSTS:
        assert court.three_point_distance(*places[post]) < -0.5, post
        assert not court.in_lane(places[post]), post
        assert court.in_court(places[post], margin=0.4)
    lane = court.standard.lane_width / 2
    for side in ("left", "right"):
        assert abs(abs(places[f"{side}_block"].x) - lane) < 0.5
        # The elbow is the corner where the free-throw line meets the lane's side line.
        elbow = places[f"{side}_elbow"]
        assert math.dist((abs(elbow.x), elbow.y), (lane, court.free_throw_line)) < 0.5
    assert places["high_post"].y - court.free_throw_line < 0.5


def test_a_block_stands_beside_its_mark() -> None:
    for name in ("fiba", "nba", "ncaa"):
        court = half_court(name)
        block = spots(court, FORMATIONS["five_out"])["right_block"]
        marks = [m for m in court.markings if m.kind == "lane_mark"]
        low, high = min(m.low.y for m in marks), max(m.high.y for m in marks)  # type: ignore[union-attr]
        assert low < block.y < high


def test_short_corners_leave_the_way_behind_the_board_free(court: Court, formation: Formation) -> None:
    # The slide along the baseline runs at y = -1.2; team-mates keep 0.6 m apart.
    for side in ("left", "right"):
        spot = spots(court, formation)[f"{side}_short_corner"]
        assert spot.y - (-1.2) >= 0.6
        assert abs(spot.x) > court.standard.lane_width / 2 + 0.5


def test_lane_spots_are_in_the_lane_in_front_of_the_basket(court: Court, formation: Formation) -> None:
    places = spots(court, formation)
    for spot in LANE:
        assert court.in_lane(places[spot])
    assert court.standard.ring_diameter / 2 < places["rim"].y < places["paint"].y < court.free_throw_line


def test_no_two_spots_that_can_be_taken_together_are_close(court: Court, formation: Formation) -> None:
    places = spots(court, formation)
    for a, b in combinations(places, 2):
        if {a, b} <= set(LANE):
            continue  # at most one player is in the lane
        # Beside the basket is a step nearer to a block on a narrow lane: nobody stays there.
        assert math.dist(places[a], places[b]) >= (1.1 if {a, b} & set(LANE) else 1.2), (a, b)


def test_changing_the_court_moves_the_spots(formation: Formation) -> None:
    tops = {name: spots(half_court(name), formation) for name in COURTS}
    corner = {name: places["right_corner"].x for name, places in tops.items()}
    assert corner["nba"] > corner["fiba"] > corner["nfhs"]
    # The college arc is the international one to within a millimetre or two of the drawn line.
    assert corner["ncaa"] == pytest.approx(corner["fiba"], abs=0.01)


# Spacing


def test_neighbours_in_ring_order_in_metres_and_feet(court: Court, formation: Formation) -> None:
    found = ring_distances(court, formation)
    assert [n.first for n in found] == list(formation.ring[:-1])
    assert [n.second for n in found] == list(formation.ring[1:])
    places = spots(court, formation)
    for n in found:
        assert n.metres == pytest.approx(math.dist(places[n.first], places[n.second]))
        assert n.feet * FOOT_M == pytest.approx(n.metres)
        assert n.home == ({n.first, n.second} <= formation.home)


def test_fiba_home_neighbours(formation: Formation) -> None:
    home = [n.metres for n in ring_distances(half_court("fiba"), formation) if n.home]
    assert home
    assert all(4.4 <= metres <= 5.6 for metres in home)


def test_five_out_neighbours(court: Court) -> None:
    # 15 to 18 ft, or a little more on the courts with the longer lines: common practice, no source.
    for n in ring_distances(court, FORMATIONS["five_out"]):
        assert 15 <= n.feet <= 19.5
        assert n.metres >= 4.57


@pytest.mark.parametrize(
    ("name", "marked"),
    [
        ("fiba", {}),
        ("nba", {}),
        ("ncaa", {}),
        # 33 degrees of a 6.42 m circle: 2 * 6.42 * sin(16.5 degrees) = 3.65 m.
        ("nfhs", {("left_corner", "left_wing"): "near", ("right_wing", "right_corner"): "near"}),
    ],
)
def test_marks_four_out(name: str, marked: dict[tuple[str, str], str]) -> None:
    found = ring_distances(half_court(name), FORMATIONS["four_out_one_in"])
    assert {(n.first, n.second): n.mark for n in found if n.mark} == marked


@pytest.mark.parametrize("name", COURTS)
@pytest.mark.parametrize("shape", ["five_out", "three_out_two_in"])
def test_no_marks_at_45_degree_steps(name: str, shape: str) -> None:
    assert not [n for n in ring_distances(half_court(name), FORMATIONS[shape]) if n.mark]


@pytest.mark.parametrize(
    ("metres", "mark"), [(3.69, "near"), (3.7, None), (5.0, None), (6.0, None), (6.01, "far")]
)
def test_marks_begin_outside_3_7_to_6_metres(metres: float, mark: str | None) -> None:
    assert Neighbours("left_wing", "top", metres, home=True).mark == mark
