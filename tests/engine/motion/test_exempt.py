"""Who may come close: by example; and tracks that are remembered are those worked out afresh."""

from __future__ import annotations

import pytest

from engine.floor.court import half_court
from engine.floor.formations import Formation
from engine.game.moves import resolve
from engine.game.steps import Step
from engine.motion.clearance import Memory, clashes, exempt, tracks_of
from engine.motion.table import standing
from engine.motion.timeline import timeline
from engine.rules.actions import parse
from engine.rules.rule_sets import DEFAULT, RuleSet, shipped
from tests.engine.boards import FIVE, FOUR, SHORT, board, long

FIBA = half_court("fiba")
AWAY = shipped("pass_and_screen_away")


def played(formation: Formation, before: str, *actions: str, rules: RuleSet = DEFAULT) -> tuple[Step, ...]:
    alignment, made = board(before), []
    for text in actions:
        made.append(resolve(alignment, parse(long(text)), formation, rules))
        alignment = made[-1].after
    return tuple(made)


MEETINGS = [
    (played(FIVE, "LC LW T* RW RC", "pass:RW"), None),
    (played(FIVE, "LC LW T* RW RC", "drive:right"), None),
    (played(FIVE, "LC LW T* RW RC", "hand_off:RW"), "T RW"),
    (played(FIVE, "LW T RW* RC rim^", "back_screen:LW"), "rim LW"),
    (played(FIVE, "LW T RW* RC rim^", "ball_screen:rim:left"), "rim RW"),
    (played(FOUR, "LW LS RS RW* RB", "ball_screen:RB:left"), "RB RW"),
    (played(FIVE, "LC LW T* RW RC", "pass:RW", rules=AWAY), "T LW"),
    # in the second half of a tap everybody is still who he was before it
    (played(FIVE, "LW T RW* RC rim^", "post_up:RB", "ball_screen:RB:left"), "rim RW"),
]


@pytest.mark.parametrize(("steps", "pair"), MEETINGS, ids=lambda value: str(value)[:40])
def test_only_those_who_meet_may_be_closer(steps: tuple[Step, ...], pair: str | None) -> None:
    assert exempt(steps) == (
        frozenset() if pair is None else {frozenset(SHORT[word] for word in pair.split())}
    )


@pytest.mark.parametrize("every", [0.05, 0.1])
def test_what_is_remembered_of_a_run_is_what_it_is(every: float) -> None:
    memory = Memory()
    for _ in range(2):
        for steps, _ in MEETINGS[:-1]:
            formation = FOUR if "left_slot" in steps[0].before.occupied else FIVE
            line = timeline(steps, FIBA, formation)
            assert tracks_of(line, every, memory) == tracks_of(line, every)
            near = clashes(line, standing(steps), exempt(steps), 1.5, every)
            assert clashes(line, standing(steps), exempt(steps), 1.5, every, memory) == near
