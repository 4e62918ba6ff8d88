"""The timelines of a pack keep team-mates apart, whoever stands around."""

from __future__ import annotations

import random

import pytest

from engine.game.lane import default_choice
from engine.game.steps import Step
from engine.motion.clearance import clashes, exempt
from engine.motion.table import movements, standing
from engine.motion.timeline import LOOK_S
from engine.pack.lines import Lines
from tests.engine.pack.worlds import SCREENING, SHIPPED, World, closed

SOME = 1200


def drawn(dice: random.Random, world: World) -> tuple[Step, ...]:
    """Return one step at random, or the default choice of a cutter with a ball action over it."""
    steps_of = closed(world)
    alignment = dice.choice(list(steps_of))
    choice = default_choice(alignment, world.formation, world.rules)
    now = {step.action: step for step in steps_of[alignment]}
    if choice is not None and dice.random() < 0.6:
        over = [step for step in steps_of[now[choice].after] if step.action not in now]
        if over:
            return now[choice], dice.choice(over)
    return (dice.choice(list(now.values())),)


@pytest.mark.parametrize("world", [*SHIPPED, SCREENING], ids=lambda world: world.name)
def test_nobody_runs_into_anybody(world: World) -> None:
    dice, lines = random.Random(world.name), Lines(world.formation, world.rules, world.court)
    crowded = []
    for _ in range(SOME if world.ships else SOME // 4):
        steps = drawn(dice, world)
        group = lines.group(steps, movements(steps))
        line = lines.line(group, steps, lines.around(group, steps[0].before.occupied))
        if clashes(line, standing(steps), exempt(steps), every=LOOK_S):
            crowded.append(steps)
    # A few sets of movements have no way at all: a cut through a spot that is being filled.
    assert len(crowded) <= SOME / 200, crowded[:3]
