"""Chains: the next step starts when the handler is ready, and whoever still runs finishes first."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.floor.alignment import Position
from engine.floor.alignment import start as start_of
from engine.floor.court import half_court
from engine.floor.formations import FIVE_OUT, FORMATIONS, Formation
from engine.game.play import advance, follow, offers
from engine.game.steps import Step
from engine.motion.clock import film_of
from engine.motion.film import Film
from engine.motion.report import of_film, of_timeline
from engine.motion.timeline import timeline
from tests.engine.motion.reachable import distance

FIBA = half_court("fiba")

#: What crosses the wire is in hundredths of a second: so far somebody runs in half of one, a few times over.
ROUNDED_M = 0.06


def play(formation: Formation, groups: list[list[str]], level: float = 1.0) -> Film:
    """Return the chain of groups of actions from the start."""
    position = start_of(formation)
    made: list[tuple[Step, ...]] = []
    for texts in groups:
        position, steps = advance(position, texts, formation)
        made.append(steps)
    return film_of(start_of(formation), made, FIBA, formation, level)


def test_each_step_starts_when_the_handler_is_ready() -> None:
    film = play(FIVE_OUT, [["pass:right_wing"], ["fill:left_corner"], ["dribble_at:right_corner"]])
    for before, after in pairwise(film.cues):
        assert after.start == pytest.approx(before.ready)


def test_a_player_under_way_finishes_his_run_first() -> None:
    film = play(FIVE_OUT, [["pass:right_wing"], ["fill:left_corner"]])
    cut, fill = film.legs[1]
    assert film.cues[1].start < cut.end
    assert fill.start == pytest.approx(cut.end)


def test_a_pass_waits_for_a_receiver_who_is_on_his_way() -> None:
    film = play(FIVE_OUT, [["pass:right_wing"], ["cutter_pass"]])
    (cut,) = film.legs[1]
    toss = film.tosses[-1]
    assert film.cues[1].start > film.cues[0].ready
    assert distance(cut.at(toss.start), cut.path.end) == pytest.approx(1.0, abs=0.05)
    assert film.cues[1].start == pytest.approx(toss.start)


def test_a_pass_in_a_composite_waits_for_a_cutter_who_starts_late() -> None:
    film = play(FIVE_OUT, [["pass:right_wing"], ["fill:left_corner", "skip:left_corner"]])
    cut, fill = film.legs[1][:2]
    assert fill.start == pytest.approx(cut.end)
    toss = film.tosses[-1]
    assert toss.taker == 1
    assert distance(film.position(1, toss.start), fill.path.end) <= 1.0 + ROUNDED_M


def test_level_stretches_the_whole_clock() -> None:
    groups = [["pass:right_wing"], ["fill:left_corner", "drive:right"], ["kick_out:left_wing"]]
    assert play(FIVE_OUT, groups, 0.75).end == pytest.approx(play(FIVE_OUT, groups).end / 0.75, abs=0.05)


def test_an_empty_chain_is_over_at_once() -> None:
    film = play(FIVE_OUT, [])
    assert film.end == 0.0
    assert film.holder_at(3.0) == 1
    assert film.position(1, 2.0) == pytest.approx((0.0, 7.15))


@settings(deadline=None, max_examples=40)
@given(st.sampled_from(sorted(FORMATIONS)), st.lists(st.integers(0, 10**6), min_size=1, max_size=9))
def test_nobody_ever_jumps_and_the_ball_never_gets_lost(name: str, choices: list[int]) -> None:
    formation = FORMATIONS[name]
    position: Position = start_of(formation)
    groups = []
    for choice in choices:
        menu = offers(position, formation)
        if not menu:
            break
        steps = menu[choice % len(menu)].steps
        groups.append(steps)
        for step in steps:
            position = follow(position, step)
    film = film_of(start_of(formation), groups, FIBA, formation)
    ticks = [tick * 0.02 for tick in range(int(film.end / 0.02) + 2)]
    for player in film.players:
        points = [film.position(player, t) for t in ticks]
        # Nobody above 7.3 m/s: 99th percentile of each clip's fastest, professional tracking data 2015-16.
        assert max(distance(a, b) for a, b in pairwise(points)) <= 7.3 * 0.02
        assert all(a.end <= b.start + 1e-9 for a, b in pairwise(film.legs[player]))
    assert all(a.end <= b.start + 1e-9 for a, b in pairwise(film.tosses))
    for before, toss in pairwise(film.tosses):
        assert before.taker == toss.giver
    over = position.alignment.over
    assert film.holder_at(film.end) == (0 if over else position.player(position.alignment.ball))


def test_report_of_a_pass_and_cut() -> None:
    film = play(FIVE_OUT, [["pass:right_wing"]])
    report = of_film(film, FIBA)
    assert report.seconds == film.end
    # The cutter runs from the top (7.15 m out) to 1.2 m from the basket, a little more for the bend.
    assert 5.95 < report.metres[1] < 7.0
    assert report.metres[2] == report.metres[4] == 0.0
    # He is in the lane, 4.225 m deep from the basket's centre (FIBA Art. 2), for the end of his cut only.
    assert 0.3 < report.lane[1].total < 1.5
    assert report.lane[1].total == report.lane[1].longest
    assert report.lane[2].total == 0.0


def test_time_in_the_lane_runs_on_the_play_clock_and_not_with_the_ball() -> None:
    waiting = of_film(play(FIVE_OUT, [["pass:right_wing"], ["pass:right_corner"]][:1]), FIBA)
    film = play(FIVE_OUT, [["pass:right_wing"], ["cutter_pass"], ["kick_out:top"]])
    report = of_film(film, FIBA)
    caught = film.tosses[1].end
    assert report.lane[1].longest < film.end - caught + waiting.lane[1].total + 0.6
    assert report.lane[1].total >= report.lane[1].longest


def test_report_of_one_timeline_is_by_spot() -> None:
    _, steps = advance(start_of(FIVE_OUT), ["pass:right_wing"], FIVE_OUT)
    line = timeline(steps, FIBA, FIVE_OUT)
    report = of_timeline(line, FIVE_OUT.home, FIBA)
    assert set(report.metres) == FIVE_OUT.home
    assert report.metres["top"] == pytest.approx(
        of_film(play(FIVE_OUT, [["pass:right_wing"]]), FIBA).metres[1]
    )
