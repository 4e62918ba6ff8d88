"""Whatever may be played has a place of its own on a tablet's court, whichever way one looks at it."""

from __future__ import annotations

import random

import pytest

from tests.depth import deep
from tests.engine.pack.worlds import SHIPPED, World, closed, packed, seated
from tests.node import run_node
from webapp.wire.engine_values import floor_wire, position_wire

#: So many positions of each formation; deep: all of them.
POSITIONS = deep(250, 10_000)
#: The court of a tablet lying down and upright (1180 by 820, 820 by 1180), and of a phone, CSS pixels.
TABLETS = [[864, 635], [820, 606]]
PHONE = [390, 338]


@pytest.mark.parametrize("named", [False, True], ids=["numbers", "names"])
@pytest.mark.parametrize("world", SHIPPED, ids=lambda world: world.name)
def test_every_action_has_a_target_inside_the_lines(world: World, *, named: bool) -> None:
    seen = _seen(world, [*TABLETS, PHONE], named=named)
    for screen in TABLETS:
        assert seen["counts"].get(f"{screen[0]}x{screen[1]}", {}) == {}, seen["examples"]
    on_the_phone = seen["counts"]["x".join(map(str, PHONE))]
    assert not [what for what in on_the_phone if not what.startswith("missing")], seen["examples"]
    # A phone has no room for everything; what every chain needs comes first.
    assert not [what for what in on_the_phone if what.startswith(("missing spot", "missing shot"))], seen[
        "examples"
    ]


def _seen(world: World, screens: list[list[int]], *, named: bool) -> dict[str, dict[str, dict[str, int]]]:
    dice = random.Random(world.name)
    every = list(closed(world))
    cases = [position_wire(seated(dice, one)) for one in dice.sample(every, min(POSITIONS, len(every)))]
    floor = floor_wire(world.court_name, world.formation)
    given = {"text": packed(world), "floor": floor, "cases": cases, "screens": screens, "named": named}
    seen: dict[str, dict[str, dict[str, int]]] = run_node("targets", given)
    return seen
