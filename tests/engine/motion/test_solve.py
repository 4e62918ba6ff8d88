"""The search for what keeps players apart: what may be changed at all, and that what it finds does."""

from __future__ import annotations

import pytest

from engine.floor.alignment import start
from engine.floor.court import half_court
from engine.floor.formations import FORMATIONS
from engine.game.lane import default_choice
from engine.game.moves import resolve
from engine.game.play import advance
from engine.game.steps import Step
from engine.motion.clearance import clashes, exempt
from engine.motion.solve import CLEAR_M, EVERY_S, THOROUGH_TRIES, options, solve
from engine.motion.table import standing
from engine.motion.timeline import build
from engine.rules.actions import parse
from engine.rules.rule_sets import DEFAULT
from tests.graphs import reach

FIBA = half_court("fiba")


def late(steps: tuple[Step, ...], number: int) -> set[str]:
    """Return who may be told to wait in a step."""
    free = options(steps)
    return {who for (at, who), changes in free.items() if at == number and any(c.delay for c in changes)}


@pytest.mark.parametrize("name", FORMATIONS)
def test_who_drives_goes_at_once_and_who_answers_may_wait(name: str) -> None:
    drives = [step for step in reach(FORMATIONS[name]).steps if step.action.kind == "drive"]
    assert drives
    for step in drives:
        movers = {move.origin for move in step.moves}
        assert late((step,), 0) == movers - {step.ball.origin}, step


def test_who_drives_after_a_choice_in_the_lane_may_wait_for_it() -> None:
    formation = FORMATIONS["five_out"]
    position, _ = advance(start(formation), ["pass:right_wing"], formation, DEFAULT)
    choice = default_choice(position.alignment, formation)
    assert choice is not None
    first = resolve(position.alignment, choice, formation)
    second = resolve(first.after, parse("drive:right"), formation)
    assert second.ball.origin in late((first, second), 1)


@pytest.mark.parametrize("thorough", [False, True])
def test_what_is_found_keeps_everybody_apart(thorough: bool) -> None:
    formation = FORMATIONS["three_out_two_in"]
    tried = 0
    for step in sorted(
        reach(formation).steps, key=lambda step: (step.action.text, sorted(step.before.occupied))
    ):
        steps, still, allowed = (step,), standing((step,)), exempt((step,))
        if not clashes(build(steps, FIBA, formation, {}), still, allowed, CLEAR_M, EVERY_S):
            continue
        changes = solve(steps, still, [FIBA], formation, THOROUGH_TRIES, thorough)
        assert not clashes(build(steps, FIBA, formation, changes), still, allowed, CLEAR_M, EVERY_S), step
        tried += 1
        if tried == 8:
            return
    pytest.fail(f"only {tried} of the steps need a change")
