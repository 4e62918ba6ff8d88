"""At level 1.0 people and the ball are as fast as they were measured to be.

Source of every range: 3,425 half-court clips of open professional tracking data (2015-16, ball and ten
players every 0.12 s), offence holding the ball; p10 and p90 of each quantity.
"""

from __future__ import annotations

from statistics import median

import pytest

from engine.motion.profile import PEAK
from engine.motion.speeds import BALL, REACTION_S, duration, mean_speed
from engine.motion.values import Run
from tests.engine.motion.conftest import Floor
from tests.engine.motion.reachable import distance


def _runs(floor: Floor, manners: set[str]) -> list[Run]:
    return [
        runs[-1]
        for one in floor.played
        if len(one.steps) == 1
        for _, _, move, runs in one.parts()
        if move.manner in manners and runs
    ]


def _mean(run: Run) -> float:
    return run.path.length / run.duration


def test_off_ball_moves(floor: Floor) -> None:
    runs = [r for r in _runs(floor, {"fill", "rotate", "cover", "slide", "relocate"}) if r.path.length >= 3.0]
    assert len(runs) > 100
    assert 2.1 <= median(map(_mean, runs)) <= 3.6
    assert 2.6 <= median(_mean(run) * PEAK for run in runs) <= 4.7
    # Every single one, too, not only the one in the middle.
    assert all(2.1 <= _mean(run) <= 3.6 + 1e-9 for run in runs)


def test_cuts_from_over_five_and_a_half_metres(floor: Floor) -> None:
    cuts = _runs(floor, {"cut", "back_cut", "screened_cut"})
    runs = [r for r in cuts if distance(r.path.start, (0.0, 0.0)) > 5.5]
    assert len(runs) > 50
    assert 1.6 <= median(run.duration for run in runs) <= 3.8
    assert 2.4 <= median(map(_mean, runs)) <= 3.8


def test_drives_from_about_five_and_a_half_metres(floor: Floor) -> None:
    runs = [run for run in _runs(floor, {"drive"}) if 4.5 <= run.path.length <= 6.5]
    assert len(runs) > 10
    assert 1.1 <= median(run.duration for run in runs) <= 2.0
    assert 2.6 <= median(map(_mean, runs)) <= 4.6
    assert 3.8 <= median(_mean(run) * PEAK for run in runs) <= 5.4


def test_passes(floor: Floor) -> None:
    flights = [
        (distance(one.line.position(e.giver, e.start), one.line.position(e.receiver, e.end)), e.end - e.start)
        for one in floor.played
        if len(one.steps) == 1
        for e in one.line.ball
        if e.kind == "pass" and e.receiver is not None
    ]
    assert len(flights) > 100
    assert 6.7 <= median(metres / seconds for metres, seconds in flights) <= 11.9
    usual = [seconds for metres, seconds in flights if 4.0 <= metres <= 8.0]
    assert 0.48 <= median(usual) <= 0.79


@pytest.mark.parametrize(
    ("metres", "speed"), [(3.0, 8.2), (5.0, 9.8), (7.0, 10.9), (9.0, 11.5), (11.5, 12.1)]
)
def test_ball_speed_rises_with_the_length_of_the_pass(metres: float, speed: float) -> None:
    # Median ball speed: 2-4 m 8.2; 4-6 m 9.8; 6-8 m 10.9; 8-10 m 11.5; 10-13 m 12.1 m/s; same data.
    assert mean_speed(BALL, metres) == pytest.approx(speed)
    assert duration(BALL, metres) == pytest.approx(metres / speed)


def test_reaction() -> None:
    # Visual reaction 0.2 to 0.3 s (from memory).
    assert 0.2 <= REACTION_S <= 0.3
