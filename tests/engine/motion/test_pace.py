"""How long a way takes, and where the ball is while it flies: by example and for any length."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.floor.alignment import start
from engine.floor.court import half_court
from engine.floor.formations import FIVE_OUT
from engine.floor.paths import through
from engine.game.play import advance
from engine.motion.clock import film_of
from engine.motion.speeds import BALL, CUT, DRIBBLE, DRIVE, OFF_BALL, Pace, check_level, duration, mean_speed
from engine.motion.timeline import timeline
from engine.motion.values import BASKET, Run

FIBA = half_court("fiba")
PACES = {"off the ball": OFF_BALL, "cut": CUT, "drive": DRIVE, "dribble": DRIBBLE, "ball": BALL}
each_pace = pytest.mark.parametrize("pace", PACES.values(), ids=list(PACES))


@each_pace
@given(st.floats(0.1, 20.0), st.floats(0.1, 20.0))
def test_a_longer_way_is_faster_and_takes_longer(pace: Pace, one: float, other: float) -> None:
    short, long = sorted((one, other))
    assert pace[0][1] <= mean_speed(pace, short) <= mean_speed(pace, long) <= pace[-1][1]
    assert duration(pace, short) <= duration(pace, long)


@each_pace
def test_the_speed_of_a_length_in_the_table_is_its_own_and_half_way_the_mean(pace: Pace) -> None:
    assert [mean_speed(pace, length) for length, _ in pace] == pytest.approx([speed for _, speed in pace])
    for (near, slow), (far, fast) in pairwise(pace):
        assert mean_speed(pace, (near + far) / 2) == pytest.approx((slow + fast) / 2)


def test_means_stay_within_what_was_measured() -> None:
    # Tracking, p10 and p90: moves of 3 m or more, cuts from over 5.5 m, drives of about 5.5 m.
    assert all(2.1 <= speed <= 3.6 for length, speed in OFF_BALL if length >= 3.0)
    assert all(2.4 <= speed <= 3.8 for length, speed in CUT if length >= 5.5)
    assert 2.6 <= mean_speed(DRIVE, 5.5) <= 4.6
    # Dribbling from spot to spot is a little slower than running there: common practice, no source.
    for metres in range(1, 10):
        assert (
            0.95 * mean_speed(OFF_BALL, metres) <= mean_speed(DRIBBLE, metres) <= mean_speed(OFF_BALL, metres)
        )


@pytest.mark.parametrize("level", [0.75, 0.9, 1.0])
def test_a_level_that_is_offered_is_taken_as_it_is(level: float) -> None:
    assert check_level(level) == level


@given(st.floats(0.0, 1.0))
def test_a_pass_flies_straight_from_hand_to_hand(part: float) -> None:
    position = start(FIVE_OUT)
    _, steps = advance(position, ["pass:right_wing"], FIVE_OUT)
    film = film_of(position, [steps], FIBA, FIVE_OUT)
    (toss,) = film.tosses
    x, y = film.ball_position(toss.start + part * (toss.end - toss.start))
    (x0, y0), (x1, y1) = film.position(toss.giver, toss.start), film.position(toss.taker, toss.end)
    assert (x, y) == pytest.approx((x0 + part * (x1 - x0), y0 + part * (y1 - y0)), abs=1e-6)
    line = timeline(steps, FIBA, FIVE_OUT)
    assert line.ball_position(toss.start + part * (toss.end - toss.start)) == pytest.approx((x, y), abs=0.06)


@given(st.lists(st.floats(-1.0, 5.0)), st.floats(0.0, 2.0), st.sampled_from((0.0, 0.4, 2.5)))
def test_a_run_at_many_times_is_the_run_at_each(times: list[float], begin: float, lasts: float) -> None:
    run = Run("top", begin, lasts, through([(0.0, 7.0), (1.0, 6.0), (0.0, 1.2)]), "cut")
    times.sort()
    assert list(zip(*run.along(times), strict=True)) == [run.at(t) for t in times]


def test_the_ball_is_with_its_holder_before_and_after_a_pass_and_in_the_basket_after_a_shot() -> None:
    position = start(FIVE_OUT)
    after, passed = advance(position, ["pass:right_wing"], FIVE_OUT)
    _, shot = advance(after, ["shot"], FIVE_OUT)
    film = film_of(position, [passed, shot], FIBA, FIVE_OUT)
    passing, shooting = film.tosses
    assert film.holder_at(passing.start - 0.01) == 1
    assert film.ball_position(0.0) == film.position(1, 0.0)
    assert film.holder_at((passing.start + passing.end) / 2) == 0
    assert film.holder_at(passing.end) == passing.taker
    assert film.ball_position(shooting.start) == film.position(shooting.giver, shooting.start)
    assert film.holder_at(shooting.end) == 0
    assert film.ball_position(shooting.end) == BASKET


def test_nothing_of_a_step_happens_before_it_starts() -> None:
    position = start(FIVE_OUT)
    groups = []
    for texts in (["pass:right_wing"], ["cutter_pass"], ["kick_out:top"]):
        position, steps = advance(position, texts, FIVE_OUT)
        groups.append(steps)
    film = film_of(start(FIVE_OUT), groups, FIBA, FIVE_OUT)
    for cue, toss in zip(film.cues, film.tosses, strict=True):
        assert cue.start <= toss.start <= toss.end <= cue.end
