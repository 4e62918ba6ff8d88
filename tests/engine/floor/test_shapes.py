"""A coach's own formations: read, written, dragged, and every problem named at once."""

from __future__ import annotations

import copy
from math import hypot
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.checker import check
from engine.floor.alignment import problems
from engine.floor.court import STANDARDS, half_court, spots
from engine.floor.formations import FORMATIONS, Formation
from engine.floor.shapes import BadFormation, dragged, read, write
from engine.floor.spacing import ring_distances
from engine.rules.rule_sets import shipped
from tests.graphs import reach

FIBA = half_court("fiba")


def data(name: str = "five_out") -> dict[str, Any]:
    return copy.deepcopy(write(FORMATIONS[name]))


@pytest.mark.parametrize("name", FORMATIONS)
@pytest.mark.parametrize("court", STANDARDS)
def test_a_copied_formation_stands_where_the_first_one_does(name: str, court: str) -> None:
    copied = read(data(name))
    assert spots(half_court(court), copied) == spots(half_court(court), FORMATIONS[name])
    assert read(write(copied)) == copied


def test_a_smaller_ring_can_be_played_and_checked() -> None:
    made = data("three_out_two_in")
    made["name"] = "triangle"
    made["ring"] = [item for item in made["ring"] if "corner" not in item["spot"]]
    formation = read(made)
    assert formation.ring == ("left_wing", "top", "right_wing")
    for alignment in reach(formation).alignments:
        assert problems(alignment, formation) == ()
    assert check(shipped("first_steps"), formation, FIBA).positions > 1


@given(st.floats(-7.0, 7.0), st.floats(-1.2, 10.0))
def test_a_dragged_perimeter_spot_lies_where_it_was_let_go_or_on_the_line(x: float, y: float) -> None:
    made = data()
    wing = next(item for item in made["ring"] if item["spot"] == "left_wing")
    wing.update(dragged("left_wing", x, y, FIBA))
    formation = Formation(
        "dragged", ("left_wing",), (wing["angle"],), frozenset(), 2, (), 1, (wing["offset"],)
    )
    landed = spots(FIBA, formation)["left_wing"]
    assert FIBA.three_point_distance(*landed) >= -0.01
    outside = FIBA.three_point_distance(x, y)
    if 0.0 <= outside <= 3.0 and y >= -0.5:
        # The direction is kept to a tenth of a degree: 2 cm at ten metres.
        assert hypot(landed.x - x, landed.y - y) < 0.15


def test_distances_follow_the_drag() -> None:
    made = data()
    wing = next(item for item in made["ring"] if item["spot"] == "right_wing")
    wing.update(dragged("right_wing", 3.0, 7.0, FIBA))
    marks = {(pair.first, pair.second): pair.mark for pair in ring_distances(FIBA, read(made))}
    assert marks["top", "right_wing"] == "near"
    assert marks["right_wing", "right_corner"] == "far"


def test_every_problem_is_named_at_once_with_its_place() -> None:
    made = data()
    made["ring"][1]["spot"] = "left_corner"
    made["ring"][3]["spot"] = "moon"
    made["start"] = {"1": "top", "2": "top", "3": "left_block", "4": "left_short_corner", "5": "right_block"}
    made["ball"] = 3
    with pytest.raises(BadFormation) as refusal:
        read(made)
    places = [place for place, _ in refusal.value.problems]
    assert {"ring.left_corner", "ring.moon", "start.top", "start", "start.left_block", "ball"} <= set(places)
    assert all(sentence.endswith(".") for _, sentence in refusal.value.problems)


def test_two_spots_on_one_place_are_refused() -> None:
    made = data()
    made["moved"] = [{"spot": "left_block", "x": 2.8, "y": 0.4}]
    with pytest.raises(BadFormation, match="left block and the right block are on one place"):
        read(made)


def test_spots_keep_their_order_round_the_ring() -> None:
    made = data()
    made["ring"][1]["angle"] = 60.0
    with pytest.raises(BadFormation, match="dragged past the next"):
        read(made)


def test_what_is_dragged_is_kept_to_the_centimetre_and_the_tenth_of_a_degree() -> None:
    assert dragged("left_block", -2.80641, 0.41362, FIBA) == {"x": -2.81, "y": 0.41}
    wing = dragged("left_wing", -6.123, 4.567, FIBA)
    assert wing == {"angle": round(wing["angle"], 1), "offset": round(wing["offset"], 2)}


@pytest.mark.parametrize("name", FORMATIONS)
def test_neighbours_are_of_the_resting_shape_only_if_both_are(name: str) -> None:
    formation = FORMATIONS[name]
    for pair in ring_distances(FIBA, formation):
        assert pair.home == ({pair.first, pair.second} <= formation.home)
        assert pair.metres == pytest.approx(pair.feet * 0.3048)


@pytest.mark.parametrize(
    ("change", "place", "sentence"),
    [
        ({"ball": 6}, "ball", "One of the five players must start with the ball."),
        ({"posts": 0}, "start", "2 players start on posts, but only 0 may be taken."),
        ({"ball": 5}, "ball", "The ball must start on the perimeter."),
        (
            {"start": {"1": "top", "2": "left_wing", "3": "right_wing", "4": "left_block"}},
            "start",
            "Players 1 to 5 each need a starting place.",
        ),
    ],
)
def test_a_start_that_cannot_be_is_told_in_a_sentence(
    change: dict[str, Any], place: str, sentence: str
) -> None:
    with pytest.raises(BadFormation) as refusal:
        read({**data("three_out_two_in"), **change})
    assert (place, sentence) in refusal.value.problems


def test_perimeter_spots_stand_in_the_order_of_their_names() -> None:
    made = data()
    made["ring"][0]["spot"], made["ring"][1]["spot"] = made["ring"][1]["spot"], made["ring"][0]["spot"]
    with pytest.raises(BadFormation, match="must stand in order, left corner to right corner"):
        read(made)
