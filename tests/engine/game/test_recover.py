"""Back on spots with the least total running: exact, checked with scipy's assignment."""

from __future__ import annotations

from itertools import combinations
from math import dist, hypot

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import linear_sum_assignment

from engine.errors import IllegalAction, UnreadableAction
from engine.floor.alignment import Alignment, problems, start
from engine.floor.court import half_court, spots
from engine.floor.formations import CROWDS, FORMATIONS, POSTS, Formation
from engine.game.moves import legal
from engine.game.recover import Recovery, check, is_as_good, nearest_open, read, recover, recovery
from engine.rules.rule_sets import DEFAULT

FIBA = half_court("fiba")
places = st.tuples(st.floats(-7.5, 7.5), st.floats(-1.5, 12.0))
everybody = st.lists(places, min_size=5, max_size=5).map(lambda found: dict(enumerate(found, start=1)))
formations = st.sampled_from(list(FORMATIONS.values()))


def total(where: dict[int, tuple[float, float]], lineup: tuple[tuple[str, int], ...], f: Formation) -> float:
    floor = spots(FIBA, f)
    return sum(hypot(where[n][0] - floor[s].x, where[n][1] - floor[s].y) for s, n in lineup)


def allowed_posts(formation: Formation) -> list[tuple[str, ...]]:
    """Every set of posts that may be taken together, by the written rules."""
    return [
        chosen
        for size in range(formation.posts + 1)
        for chosen in combinations(POSTS, size)
        if all(b not in CROWDS[a] for a, b in combinations(chosen, 2))
    ]


@settings(max_examples=40, deadline=None)
@given(everybody, formations)
def test_no_other_way_back_takes_less_running(
    where: dict[int, tuple[float, float]], formation: Formation
) -> None:
    """Reference: scipy.optimize.linear_sum_assignment over every set of posts that may be taken."""
    floor = spots(FIBA, formation)
    best = np.inf
    for posts in allowed_posts(formation):
        crowded = {spot for post in posts for spot in CROWDS[post]}
        known = [*(spot for spot in formation.ring if spot not in crowded), *posts]
        if len(known) < 5:
            continue
        cost = np.array(
            [[hypot(where[n][0] - floor[s].x, where[n][1] - floor[s].y) for s in known] for n in where]
        )
        rows, columns = linear_sum_assignment(cost)
        best = min(best, cost[rows, columns].sum())
    found = recover(where, 1, FIBA, formation)
    assert total(where, found.lineup, formation) == pytest.approx(best, abs=1e-3)


@given(everybody, formations, st.integers(1, 5))
def test_play_goes_on_from_where_everybody_lands(
    where: dict[int, tuple[float, float]], formation: Formation, ball: int
) -> None:
    found = recover(where, ball, FIBA, formation)
    assert problems(found.alignment, formation) == ()
    assert found.player(found.alignment.ball) == ball
    assert len(legal(found.alignment, formation)) > 1


@pytest.mark.parametrize("formation", FORMATIONS.values(), ids=list(FORMATIONS))
def test_who_stands_on_his_spot_stays(formation: Formation) -> None:
    floor, position = spots(FIBA, formation), start(formation)
    where = {number: tuple(floor[spot]) for spot, number in position.lineup}
    assert recover(where, formation.ball, FIBA, formation) == position


@given(everybody, formations)
def test_a_recovery_is_read_as_it_was_written(
    where: dict[int, tuple[float, float]], formation: Formation
) -> None:
    made = recovery(where, 1, FIBA, formation)
    assert read(made.text, formation) == made
    assert made.position(1).alignment == recover(where, 1, FIBA, formation).alignment


@pytest.mark.parametrize(
    "text",
    [
        "recover:",
        "recover:1=top@0,0",
        "recover:1=top@0,0;2=top@0,0;3=left_wing@0,0;4=right_wing@0,0;5=left_corner@0,0",
        "recover:1=moon@0,0;2=top@0,0;3=left_wing@0,0;4=right_wing@0,0;5=left_corner@0,0",
        "recover:1=rim@0,0;2=top@0,0;3=left_wing@0,0;4=right_wing@0,0;5=left_corner@0,0",
    ],
)
def test_what_is_no_recovery_is_refused(text: str) -> None:
    with pytest.raises(UnreadableAction, match="cannot be read"):
        read(text, FORMATIONS["five_out"])


@given(formations, st.integers(1, 5), places)
def test_one_lost_player_alone_takes_the_nearest_open_spot(
    formation: Formation, number: int, place: tuple[float, float]
) -> None:
    """A lost player goes to the nearest open spot: common practice, no source."""
    floor, position = spots(FIBA, formation), start(formation)
    where = {other: tuple(floor[spot]) for spot, other in position.lineup} | {number: place}
    others = frozenset(spot for spot, other in position.lineup if other != number)
    lost = Alignment(others, position.alignment.ball)
    nearest = floor[nearest_open(lost, place, FIBA, formation)]
    found = recover(where, formation.ball, FIBA, formation)
    # Nobody else has to move for it; several together may find a way that is shorter still.
    assert total(where, found.lineup, formation) <= dist(place, nearest) + 1e-3


def test_a_lost_player_takes_the_nearest_open_spot() -> None:
    formation = FORMATIONS["five_out"]
    alignment = start(formation).alignment
    others = Alignment(alignment.occupied - {"left_corner"}, alignment.ball)
    assert nearest_open(others, (-6.0, 0.5), FIBA, formation) == "left_corner"
    assert nearest_open(others, (2.5, 0.0), FIBA, formation) == "right_block"
    # beside a taken corner the short corner is not open
    assert nearest_open(others, (4.6, -0.5), FIBA, formation) == "right_block"


def _of(*spots_taken: str) -> Recovery:
    return Recovery(
        tuple((n, 0, 0) for n in range(1, 6)), tuple(sorted(zip(spots_taken, range(1, 6), strict=True)))
    )


def test_as_many_posts_as_may_be_taken_are_kept_and_one_more_is_refused() -> None:
    three = FORMATIONS["three_out_two_in"]
    check(_of("left_wing", "top", "right_wing", "left_block", "right_block"), three)
    with pytest.raises(IllegalAction, match="More posts"):
        check(_of("left_wing", "top", "left_elbow", "left_block", "right_block"), three)
    with pytest.raises(IllegalAction, match="too close"):
        check(_of("left_wing", "top", "right_wing", "left_block", "left_short_corner"), three)


def test_only_a_way_back_to_spots_that_may_be_taken_together_is_as_good() -> None:
    three = FORMATIONS["three_out_two_in"]

    def is_good(*taken: str, within: float = 100.0) -> bool:
        best = _of("left_corner", "top", "right_wing", "left_block", "right_block")
        return is_as_good(_of(*taken), best, FIBA, three, DEFAULT, within)

    assert is_good("left_corner", "top", "right_wing", "left_block", "right_block", within=0.0)
    # All of them come from under the basket, and the wing is farther from it than the corner.
    assert not is_good("left_wing", "top", "right_wing", "left_block", "right_block", within=0.0)
    assert is_good("left_wing", "top", "right_wing", "left_block", "right_block")
    # One post too many, two too close to each other, two on one spot, somebody in the lane.
    assert not is_good("left_wing", "top", "left_elbow", "left_block", "right_block")
    assert not is_good("left_wing", "top", "right_wing", "left_block", "left_short_corner")
    assert not is_good("left_wing", "top", "top", "left_block", "right_block")
    assert not is_good("left_wing", "top", "right_wing", "left_block", "rim")


def test_a_refusal_quotes_the_beginning_of_what_cannot_be_read() -> None:
    with pytest.raises(UnreadableAction) as refusal:
        read("recover:" + "x" * 300, FORMATIONS["five_out"])
    assert str(refusal.value) == f"'recover:{'x' * 32}' cannot be read: it is not a recovery."
