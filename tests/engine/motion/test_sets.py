"""Sets of changes come in the order in which a queue with every one of them in it would give them."""

from __future__ import annotations

import random
from heapq import heappop, heappush
from itertools import count

import pytest

from engine.motion.clearance import Clash
from engine.motion.scene import Adjustment
from engine.motion.sets import NOTHING, Key, Sets, Solution, cost, costs
from engine.motion.solve import changeable

KEYS: list[Key] = [(0, "top"), (0, "left_wing"), (1, "top"), (1, "right_wing")]


def options(dice: random.Random) -> dict[Key, tuple[Adjustment, ...]]:
    """Return what may be changed for each, the least first; many changes cost the same."""
    some = [
        Adjustment(dice.randint(0, 4) / 10, dice.randint(-3, 3) / 2, dice.randint(0, 1)) for _ in range(24)
    ]
    return {
        key: tuple(sorted(set(dice.sample(some, dice.randint(1, 9))), key=lambda c: (cost(c), str(c))))
        for key in KEYS
    }


def whose(seed: int, changes: dict[Key, Adjustment]) -> list[Key]:
    """Return for whom a set is changed further: always the same for the same set."""
    dice = random.Random(f"{seed} {sorted(changes.items(), key=lambda item: item[0])}")
    return [key for key in dice.sample(KEYS, dice.randint(1, 3)) if key not in changes]


def is_good(changes: dict[Key, Adjustment]) -> bool:
    return sum(change.bend for change in changes.values()) < 2.0


def plainly(seed: int, free: dict[Key, tuple[Adjustment, ...]], picky: bool) -> list[dict[Key, Adjustment]]:
    """Return all sets in order, each put into the queue as soon as it is thought of, and only once."""
    number, seen, found = count(), set(), []
    queue: list[tuple[float, int, dict[Key, Adjustment]]] = [(0.0, next(number), {})]
    while queue:
        so_far, _, changes = heappop(queue)
        found.append(changes)
        for key in whose(seed, changes):
            for change in free[key]:
                child = {**changes, key: change}
                mark = frozenset(child.items())
                if mark not in seen:
                    seen.add(mark)
                    if not picky or is_good(child):
                        heappush(queue, (so_far + cost(change), next(number), child))
    return found


@pytest.mark.parametrize("seed", range(20))
@pytest.mark.parametrize("picky", [False, True])
def test_they_come_as_out_of_a_queue_with_all_of_them(seed: int, picky: bool) -> None:
    free = options(random.Random(seed))
    sets, mine = Sets(free), []
    found: Solution | None = NOTHING
    while found is not None:
        mine.append(found.changes)
        sets.branch(found, [(key, is_good if picky else None) for key in whose(seed, found.changes)])
        found = sets.next()
    expected = plainly(seed, free, picky)
    assert mine == expected
    assert list(map(list, mine)) == list(map(list, expected))


def test_of_less_and_more_the_less_costs_less() -> None:
    assert cost(Adjustment()) == 0.0
    rising = (Adjustment(0.1), Adjustment(0.0, 1.0), Adjustment(0.2, 0.5), Adjustment(0.0, 2.0, 1.0))
    assert costs(rising) == (1.0, 2.0, 3.0, 7.0)


def test_who_leaves_the_court_is_changed_once() -> None:
    # He clashes with himself; named twice, every set would come twice, and half as many would be looked at.
    keys: dict[str, list[Key]] = {"top": [(0, "top"), (1, "top")], "left_wing": [(0, "left_wing")]}
    assert changeable(Clash("top", "top", 0.5, -0.2), keys) == [((0, "top"), "top"), ((1, "top"), "top")]
    assert len(changeable(Clash("top", "left_wing", 0.5, 0.4), keys)) == 3
