"""Rebounding and balance: two get back, three rebound with the least running."""

from __future__ import annotations

from functools import cache
from math import hypot

import numpy as np
import pytest
from scipy.optimize import linear_sum_assignment

from engine.floor.alignment import Alignment
from engine.floor.court import half_court, spots
from engine.floor.formations import FIVE_OUT, FORMATIONS
from engine.game.rebounding import backs, tasks
from tests.graphs import reach

FIBA = half_court("fiba")


#: One graph a formation serves all four courts.
REACHED = cache(reach)


def _home(ball: str) -> Alignment:
    return Alignment(FIVE_OUT.home, ball)


def test_the_two_furthest_from_the_baseline_get_back() -> None:
    found = tasks(_home("right_corner"), FIBA, FIVE_OUT)
    assert {spot: task.role for spot, task in found.items()} == {
        "top": "middle",
        "left_wing": "ball_side",
        "right_wing": "front",
        "left_corner": "left_block",
        "right_corner": "right_block",
    }
    assert backs(_home("right_corner"), FIBA, FIVE_OUT) == ("top", "left_wing")


def test_places_on_the_court() -> None:
    found = {task.role: task.point for task in tasks(_home("right_corner"), FIBA, FIVE_OUT).values()}
    # 14 m from baseline to half-way line, the basket 1.575 m in (FIBA Art. 2), 1.5 m short of the line.
    assert found["middle"] == pytest.approx((0.0, 14.0 - 1.575 - 1.5))
    # 1.5 m above the three-point line (6.75 m from the basket, FIBA Art. 2), on the ball's side.
    assert hypot(*found["ball_side"]) == pytest.approx(6.75 + 1.5)
    assert found["ball_side"].x > 0.0
    assert found["front"] == pytest.approx((0.0, 1.8))
    assert found["left_block"].x == -found["right_block"].x < 0.0


@pytest.mark.parametrize(("ball", "side"), [("left_wing", -1), ("top", -1), ("right_wing", 1)])
def test_the_second_gets_back_on_the_balls_side_in_the_middle_the_left(ball: str, side: int) -> None:
    point = next(t.point for t in tasks(_home(ball), FIBA, FIVE_OUT).values() if t.role == "ball_side")
    assert point.x * side > 0.0


def test_at_equal_distances_the_left_comes_first() -> None:
    assert backs(_home("top"), FIBA, FIVE_OUT) == ("left_wing", "right_wing")


@pytest.mark.parametrize("formation", FORMATIONS.values(), ids=FORMATIONS)
@pytest.mark.parametrize("court", ["fiba", "nba", "ncaa", "nfhs"])
def test_least_running_as_a_general_solver_finds_it(formation, court) -> None:
    floor = half_court(court)
    places = spots(floor, formation)
    for alignment in REACHED(formation).alignments[::45]:
        found = tasks(alignment, floor, formation)
        assert found.keys() == alignment.occupied
        rebounders = [spot for spot in sorted(found) if not found[spot].gets_back]
        assert len(rebounders) == 3
        assert alignment.ball in rebounders
        points = [found[spot].point for spot in rebounders]
        cost = np.array([[hypot(places[s].x - p.x, places[s].y - p.y) for p in points] for s in rebounders])
        rows, columns = linear_sum_assignment(cost)
        assert np.trace(cost) == pytest.approx(cost[rows, columns].sum(), abs=1e-3)
        deep = sorted(places[s].y for s in alignment.occupied - {alignment.ball})[-2:]
        got_back = sorted(places[s].y for s in found if found[s].gets_back)
        assert got_back == pytest.approx(deep)
