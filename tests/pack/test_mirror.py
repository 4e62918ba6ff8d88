"""Of two positions that mirror each other a pack holds one, and only where all is the same the other way."""

from __future__ import annotations

import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.alignment import Alignment
from engine.lane import default_choice
from engine.moves import generate
from engine.pack import mirror
from engine.rebounding import tasks
from tests.pack.worlds import LOPSIDED, SCREENING, SHIPPED, World, closed, written

SOME = 400
WORLDS = [*SHIPPED, SCREENING]
draws = st.tuples(st.sampled_from(WORLDS), st.integers(0, 2**32))


def drawn(world: World, seed: int) -> Alignment:
    return random.Random(seed).choice(list(closed(world)))


@settings(deadline=None)
@given(draws)
def test_mirrored_twice_is_as_before(draw: tuple[World, int]) -> None:
    alignment = drawn(*draw)
    assert mirror.alignment(mirror.alignment(alignment)) == alignment
    for step in closed(draw[0])[alignment]:
        assert mirror.action(mirror.action(step.action)) == step.action
        assert mirror.step(mirror.step(step)) == step
        assert mirror.step(step).before == mirror.alignment(alignment)


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
        assert {mirror.step(step) for step in here if not step.after.over} == there
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


def test_a_formation_that_is_not_symmetric_is_written_down_whole() -> None:
    assert written(LOPSIDED).keys() == closed(LOPSIDED).keys()
