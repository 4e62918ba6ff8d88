"""Time: who starts when, what waits for what, and that nobody ever jumps."""

from __future__ import annotations

from itertools import pairwise

import pytest

from engine.errors import QuintetError
from engine.floor.alignment import start
from engine.floor.court import half_court
from engine.floor.formations import FIVE_OUT, FORMATIONS
from engine.game.composites import runs_once
from engine.game.moves import resolve
from engine.game.steps import Step
from engine.motion import Timeline, timeline
from engine.motion.speeds import LEVELS
from engine.motion.values import Run
from engine.rules.actions import parse
from tests.engine.motion.conftest import Floor
from tests.engine.motion.reachable import distance

FIBA = half_court("fiba")


def step_of(*texts: str) -> Step:
    """Return the last step of a five-out sequence."""
    alignment = start(FIVE_OUT).alignment
    for text in texts:
        step = resolve(alignment, parse(text), FIVE_OUT)
        alignment = step.after
    return step


def test_something_moves_from_the_first_moment(floor: Floor) -> None:
    for one in floor.played:
        starts = [run.start for run in one.line.runs] + [event.start for event in one.line.ball]
        assert min(starts) < 0.12, one.name
        assert min(starts) >= 0.0, one.name


def test_mates_react_after_a_quarter_of_a_second(floor: Floor) -> None:
    # Visual reaction 0.2 to 0.3 s (from memory).
    for one in floor.played:
        if len(one.steps) > 1:
            continue
        for _, step, move, runs in one.parts():
            if move.manner in ("rotate", "cover", "relocate", "slide") or (
                move.manner == "fill" and move.origin != step.before.cutter
            ):
                assert runs[0].start >= 0.2, one.name


def test_ready_comes_before_the_end(floor: Floor) -> None:
    for one in floor.played:
        assert 0.0 < one.line.ready <= one.line.end < 9.0, one.name


def test_everybody_ends_on_his_spot_and_runs_one_run_at_a_time(floor: Floor) -> None:
    for one in floor.played:
        places = one.line.places
        where = {spot: spot for spot in one.steps[0].before.occupied}
        for step in one.steps:
            travel = {move.origin: move.target for move in step.moves}
            where = {who: travel.get(spot, spot) for who, spot in where.items()}
        for who, runs in one.line.runs_of.items():
            assert distance(runs[0].path.start, places[who]) < 0.02, one.name
            for earlier, later in pairwise(runs):
                assert later.start >= earlier.end - 1e-9, one.name
                assert distance(earlier.path.end, later.path.start) < 0.02, one.name
            if one.steps[0].action.kind != "shot":
                assert distance(runs[-1].path.end, places[where[who]]) < 0.02, one.name


def test_nobody_jumps_and_nobody_is_faster_than_the_fastest_measured(floor: Floor) -> None:
    # Nobody above 7.3 m/s: 99th percentile of each clip's fastest player, professional tracking data.
    seen: set[tuple[Run, ...]] = set()
    for one in floor.played[::7]:
        for who, runs in one.line.runs_of.items():
            if runs in seen:
                continue  # as in another timeline
            seen.add(runs)
            points = [one.line.position(who, tick * 0.02) for tick in range(int(one.line.end / 0.02) + 2)]
            assert max(distance(a, b) for a, b in pairwise(points)) <= 7.3 * 0.02, one.name


def test_the_ball_is_always_with_its_holder_or_in_flight(floor: Floor) -> None:
    for one in floor.played[::7]:
        line = one.line
        t = 0.0
        while t < line.end:
            holder = line.holder_at(t)
            thrown = [event for event in line.ball if event.start <= t]
            in_flight = bool(thrown) and (t < thrown[-1].end or thrown[-1].receiver is None)
            assert (holder is None) == in_flight, one.name
            if holder is not None:
                assert line.ball_position(t) == line.position(holder, t), one.name
            t += 0.05
        assert line.holder == one.steps[0].before.ball
        last = one.steps[-1]
        if last.action.kind == "shot":
            assert line.holder_at(line.end) is None
            assert line.ball_position(line.end) == (0.0, 0.0)
        else:
            holder = line.holder_at(line.end)
            assert holder is not None
            assert distance(line.position(holder, line.end), line.places[last.after.ball]) < 0.02, one.name


def test_a_pass_to_a_cutter_who_still_runs_leads_him(floor: Floor) -> None:
    led = 0
    for one in floor.played:
        if len(one.steps) < 2:
            continue
        cutter = one.steps[0].moves[0].origin
        (first, *_) = one.line.runs_of[cutter]
        for event in one.line.ball:
            if event.kind == "pass" and event.receiver == cutter:
                for t in (event.start, event.end):
                    assert distance(first.at(t), first.path.end) <= 1.0 + 1e-9, one.name
                led += 1
    assert led > 0


def test_in_a_composite_a_cutter_runs_once_straight_to_where_the_action_takes_him(floor: Floor) -> None:
    """He ran to the spot of his choice and from there on: 20.7 m where 6.6 would do."""
    looked_at = 0
    for one in floor.played:
        once = runs_once(one.steps)
        if once is not None:
            (run,) = one.line.runs_of[once.origin]
            assert distance(run.path.start, one.line.places[once.origin]) < 0.02, one.name
            assert distance(run.path.end, one.line.places[once.target]) < 0.02, one.name
            looked_at += 1
    assert looked_at > 100


def test_a_cutter_who_plays_a_part_reaches_the_spot_of_his_choice_first(floor: Floor) -> None:
    twice = 0
    for one in floor.played:
        if len(one.steps) > 1 and runs_once(one.steps) is None:
            first = one.steps[0].moves[0]
            runs = one.line.runs_of[first.origin]
            assert runs[0].start == 0.0
            assert distance(runs[0].path.end, one.line.places[first.target]) < 0.02
            twice += len(runs) > 1
    assert twice > 10


def test_level_slows_everything_alike() -> None:
    step = step_of("pass:right_wing")
    full = timeline((step,), FIBA, FIVE_OUT)
    for level in LEVELS:
        slow = timeline((step,), FIBA, FIVE_OUT, level)
        assert slow.ready == pytest.approx(full.ready / level)
        assert slow.end == pytest.approx(full.end / level)
        for a, b in zip(slow.runs, full.runs, strict=True):
            assert (a.path, a.style, a.origin) == (b.path, b.style, b.origin)
            assert (a.start, a.duration) == pytest.approx((b.start / level, b.duration / level))
        for who in full.runs_of:
            assert slow.position(who, 1.0 / level) == pytest.approx(full.position(who, 1.0))


@pytest.mark.parametrize("level", [0.5, 1.01, 0.0, -1.0, float("nan")])
def test_a_level_that_is_not_offered_is_refused_in_a_sentence(level: float) -> None:
    with pytest.raises(QuintetError, match=r"level must be between 0\.75 and 1\.0"):
        timeline((step_of("pass:right_wing"),), FIBA, FIVE_OUT, level)


def test_one_or_two_steps_make_a_timeline() -> None:
    with pytest.raises(ValueError, match="one or two"):
        timeline((), FIBA, FIVE_OUT)


def test_players_who_stand_are_where_their_spot_is() -> None:
    line: Timeline = timeline((step_of("pass:right_wing"),), FIBA, FIVE_OUT)
    assert line.position("right_corner", 1.0) == line.places["right_corner"]
    with pytest.raises(KeyError):
        line.position("nowhere", 1.0)


def test_a_shot_goes_to_the_basket_while_five_players_move() -> None:
    assert set(FORMATIONS) == {"five_out", "four_out_one_in", "three_out_two_in"}
    line = timeline((step_of("shot"),), FIBA, FIVE_OUT)
    (event,) = line.ball
    assert (event.kind, event.start, event.giver, event.receiver) == ("shot", 0.0, "top", None)
    assert len(line.runs) == 5
    # A free flight from 7.15 m takes about 1.1 s (reckoned from gravity).
    assert event.end == pytest.approx(1.1, abs=0.1)
