"""Of two positions that mirror each other a pack holds one, and only where all is the same the other way."""

from __future__ import annotations

import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.floor.alignment import Alignment
from engine.game.lane import default_choice
from engine.game.moves import generate
from engine.game.rebounding import tasks
from engine.game.steps import Step
from engine.pack import mirror
from tests.engine.pack.worlds import LOPSIDED, SCREENING, SHIPPED, World, closed, written

SOME = 400
WORLDS = [*SHIPPED, SCREENING]


def the_other_way(step: Step) -> Step:
    """Return the step the other way round."""
    before, after = mirror.alignment(step.before), mirror.alignment(step.after)
    return Step(before, mirror.action(step.action), after, mirror.moves(step.moves), mirror.ball(step.ball))


def drawn(world: World, seed: int) -> Alignment:
    return random.Random(seed).choice(list(closed(world)))


@pytest.mark.parametrize("world", WORLDS, ids=lambda world: world.name)
@settings(deadline=None, max_examples=25)
@given(st.integers(0, 2**32))
def test_mirrored_twice_is_as_before(world: World, seed: int) -> None:
    alignment = drawn(world, seed)
    assert mirror.alignment(mirror.alignment(alignment)) == alignment
    for step in closed(world)[alignment]:
        assert mirror.action(mirror.action(step.action)) == step.action
        assert the_other_way(the_other_way(step)) == step
        assert the_other_way(step).before == mirror.alignment(alignment)


@pytest.mark.parametrize("world", WORLDS, ids=lambda world: world.name)
def test_what_is_left_out_is_there_the_other_way_round(world: World) -> None:
    kept = written(world)
    left_out = [alignment for alignment in closed(world) if alignment not in kept]
    assert len(left_out) > len(kept) / 4
    for alignment in random.Random(world.name).sample(left_out, min(SOME, len(left_out))):
        other = mirror.alignment(alignment)
        assert other in kept
        there = {step for step in generate(other, world.formation, world.rules) if not step.after.over}
        here = generate(alignment, world.formation, world.rules)
        assert {the_other_way(step) for step in here if not step.after.over} == there
        choice = default_choice(alignment, world.formation, world.rules)
        turned = None if choice is None else mirror.action(choice)
        assert turned == default_choice(other, world.formation, world.rules) == kept[other]


@pytest.mark.parametrize("world", WORLDS, ids=lambda world: world.name)
def test_a_shot_is_rebounded_the_other_way_round_too(world: World) -> None:
    kept = written(world)
    left_out = [alignment for alignment in closed(world) if alignment not in kept]
    for alignment in random.Random(world.name).sample(left_out, min(SOME, len(left_out))):
        there = tasks(mirror.alignment(alignment), world.court, world.formation)
        for spot, task in tasks(alignment, world.court, world.formation).items():
            x, y = there[mirror.spot(spot)].point
            assert (-x, y) == task.point, (alignment, spot)


@pytest.mark.parametrize("world", [LOPSIDED], ids=lambda world: world.name)
def test_a_formation_that_is_not_symmetric_is_written_down_whole(world: World) -> None:
    assert written(world).keys() == closed(world).keys()
