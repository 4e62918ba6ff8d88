"""Routes: what a coach would draw, checked on every different timeline there is."""

from __future__ import annotations

from math import acos, degrees, hypot
from statistics import median

from engine.floor.paths import Path
from engine.game.composites import runs_once
from engine.motion import Run
from engine.rules.movements import is_baseline
from tests.engine.motion.conftest import Floor
from tests.engine.motion.reachable import across, distance, passing_defender

RING_MANNERS = {"fill", "rotate", "cover"}


def test_perimeter_moves_and_dribbles_stay_outside_the_line(floor: Floor) -> None:
    ring = set(floor.formation.ring)
    looked_at = 0
    outside: set[Path] = set()
    for one in floor.played:
        once = runs_once(one.steps)
        for number, _, move, runs in one.parts():
            if (
                once is not None
                and once.target == move.target
                and (number == 1 or move.origin == once.origin)
            ):
                continue  # he comes straight from the lane
            if not runs:
                continue
            if move.manner in RING_MANNERS | {"dribble"} and {move.origin, move.target} <= ring:
                path = runs[0].path
                if path not in outside:
                    for point in path.samples:
                        assert floor.court.three_point_distance(*point) > 0.0, one.name
                    outside.add(path)
                looked_at += 1
    assert looked_at > 100


def test_nobody_leaves_the_court(floor: Floor) -> None:
    within: set[Path] = set()
    for one in floor.played:
        for run in one.line.runs:
            if run.path not in within:
                assert all(floor.court.in_court(p, 0.2) for p in run.path.samples), (one.name, run.origin)
                within.add(run.path)


def test_the_slide_runs_behind_the_board(floor: Floor) -> None:
    slides = [
        runs[0]
        for one in floor.played
        for _, _, move, runs in one.parts()
        # A cutter who is moved on along the baseline comes straight from the lane.
        if move.manner == "slide" and one.line.places[move.origin] == runs[0].path.start
    ]
    assert slides or floor.formation.name == "three_out_two_in"
    for run in slides:
        between = [point for point in run.path.samples if abs(point.x) < floor.court.standard.lane_width]
        assert between
        assert all(point.y <= -0.9 for point in between)


def test_cuts_go_in_front_of_the_defender_and_back_cuts_behind(floor: Floor) -> None:
    front = behind = 0
    for one in floor.played:
        for _, step, move, runs in one.parts():
            if move.manner not in ("cut", "back_cut"):
                continue
            path = runs[-1].path
            handed = step.ball.kind == "hand_off"
            ball = one.line.places[
                step.ball.origin if handed or move.manner == "back_cut" else step.ball.target
            ]
            by = across(path.start, passing_defender(path.samples))
            # Well clear of the middle of the defender.
            assert abs(by) > 0.35, one.name
            if step.ball.kind == "hand_off" or _straight_ahead(path, ball):
                # After a hand-off he may roll either way.
                continue
            side = across(path.start, ball)
            if move.manner == "cut":
                assert by * side > 0.0, one.name
                front += 1
            else:
                assert by * side < 0.0, one.name
                behind += 1
    assert front > 20
    assert behind > 20


def _straight_ahead(path: Path, ball: tuple[float, float]) -> bool:
    """Whether the ball is so nearly between the cutter and the basket that it is on neither side."""
    start = path.start
    return _angle((ball[0] - start.x, ball[1] - start.y), (-start.x, -start.y)) <= 25.0


def test_a_drive_goes_past_the_defender_on_its_side_and_at_the_rim(floor: Floor) -> None:
    endings, baseline = [], 0
    for one in floor.played:
        for _, step, move, runs in one.parts():
            if move.manner != "drive":
                continue
            (run,) = runs
            path, direction = run.path, step.action.direction
            by = across(path.start, passing_defender(path.samples))
            # Facing the basket in these axes, the right hand has the positive side of the line.
            assert (by > 0.35) if direction == "right" else (by < -0.35), one.name
            if is_baseline(step.ball.origin, direction):
                # Along the baseline, and up to the rim: never away from it by more than half a metre.
                baseline += 1
                far = max(path.start.y, path.end.y) + 0.5
                assert max(point.y for point in path.samples) <= far, one.name
                assert _to_basket(path, 0.97) < 45.0, one.name
            else:
                endings.append(_to_basket(path, 0.97))
                assert endings[-1] < 90.0, one.name
    assert len(endings) > 30
    assert median(endings) < 45.0
    assert baseline > 20


def _to_basket(path: Path, part: float) -> float:
    """Return the angle between the heading after ``part`` of the path and the basket, in degrees."""
    a, b = path.point(path.length * part), path.point(path.length * min(1.0, part + 0.03))
    return _angle((b.x - a.x, b.y - a.y), (-a.x, -a.y))


def _angle(a: tuple[float, float], b: tuple[float, float]) -> float:
    cosine = (a[0] * b[0] + a[1] * b[1]) / (hypot(*a) * hypot(*b))
    return degrees(acos(max(-1.0, min(1.0, cosine))))


def test_a_screen_is_set_three_tenths_before_it_is_used(floor: Floor) -> None:
    screens = 0
    seen: set[tuple[Run, Run]] = set()
    for one in floor.played:
        parts = {move.manner: (move, runs) for _, _, move, runs in one.parts()}
        for setter, user in (("roll", "drive"), ("set_screen", "screened_cut")):
            if setter not in parts or user not in parts:
                continue
            _, (there, *_) = parts[setter]
            _, (used, *_) = parts[user]
            screens += 1
            if (there, used) in seen:
                continue  # as in another timeline
            seen.add((there, used))
            assert there.style == "screen"
            place, start = there.path.end, used.path.start
            # Beside the nominal defender, one metre from the user toward the basket.
            length = hypot(*start)
            defender = start.x - start.x / length, start.y - start.y / length
            assert 0.5 < distance(place, defender) < 0.8, one.name
            times = [used.start + used.duration * tick / 100 for tick in range(101)]
            passed = min(times, key=lambda t, used=used, place=place: distance(used.at(t), place))
            assert passed >= there.end + 0.3 - 0.03, one.name
            # Round the screener: he stands between the user and the defender.
            by, mid = across(start, used.at(passed)), across(start, place)
            assert by * mid > 0.0, one.name
            assert abs(by) > abs(mid) + 0.25, one.name
    assert screens > 20


def test_a_hand_off_happens_between_the_two_spots_at_speed(floor: Floor) -> None:
    looked_at = 0
    for one in floor.played:
        for event in one.line.ball:
            if event.kind != "hand":
                continue
            t, line, step = event.start, one.line, one.steps[-1]
            assert event.receiver is not None
            giver, taker = line.position(event.giver, t), line.position(event.receiver, t)
            a, b = line.places[step.ball.origin], line.places[step.action.spot or ""]
            assert event.start == event.end
            assert distance(giver, taker) < 0.8, one.name
            assert max(distance(giver, a), distance(giver, b)) < 0.75 * distance(a, b), one.name
            before, after = (line.position(event.receiver, t + aside) for aside in (-0.1, 0.1))
            assert distance(before, after) / 0.2 > 2.0, one.name
            looked_at += 1
    assert looked_at > 10
