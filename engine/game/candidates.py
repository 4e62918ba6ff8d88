"""Which actions' own conditions hold, whatever the responses to them: looked up in tables filled as met.

A table belongs to a place of the ball and of a waiting cutter. What the conditions of an action look at
(the ring, the posts) is what its table is looked up by, so that few different floors are ever asked about.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from typing import Final

from engine.floor.alignment import Alignment
from engine.floor.formations import DIRECTIONS, Formation
from engine.floor.spot_bits import SpotBits, bits_of
from engine.rules.actions import Action
from engine.rules.catalogue import CATALOGUE
from engine.rules.conditions import Condition
from engine.rules.rule_sets import RuleSet
from engine.rules.views import view_of
from engine.words.spoken import Said

#: There are few different actions: each is made once.
_action: Final = lru_cache(maxsize=4096)(Action)


def all_actions(formation: Formation) -> Iterator[Action]:
    """Yield every action there could ever be in a formation, in the order they are listed."""
    spots = bits_of(formation).names
    for name, kind in CATALOGUE.items():
        for spot in spots if "spot" in kind.parts else (None,):
            for direction in DIRECTIONS if "direction" in kind.parts else (None,):
                yield _action(name, spot, direction)


def refusal(alignment: Alignment, action: Action, formation: Formation, rules: RuleSet) -> Said | None:
    """Return the refusal of an action's first condition that does not hold, its slots still open."""
    view = view_of(alignment, formation, rules.posts_in(formation))
    spot = action.spot or ""
    return next((c.refusal for c in action.about.conditions if not c.holds(view, spot)), None)


class Candidates:
    """The installed actions, by number, whose conditions hold while ball and cutter are on two spots."""

    def __init__(self, ball: str, cutter: str | None, formation: Formation, rules: RuleSet) -> None:
        self._formation, self._limit = formation, rules.posts_in(formation)
        self._ball, self._cutter = ball, cutter
        bits = self._bits = bits_of(formation)
        self._here = bits.bit[ball] | (0 if cutter is None else bits.bit[cutter])
        self.always: list[int] = []
        self.actions = tuple(all_actions(formation))
        groups: dict[int, list[tuple[int, tuple[Condition, ...]]]] = {}
        alone = view_of(Alignment(bits.spots_of(self._here), ball, cutter), formation, self._limit)
        for number, action in enumerate(self.actions):
            if not rules.has(action.kind):
                continue
            looks = 0
            asked: list[Condition] = []
            spot = action.spot or ""
            for condition in action.about.conditions:
                looked_at = self._looks(condition, spot, bits)
                if looked_at:
                    looks |= looked_at
                    asked.append(condition)
                elif not condition.holds(alone, spot):
                    break
            else:
                if asked:
                    groups.setdefault(looks, []).append((number, tuple(asked)))
                else:
                    self.always.append(number)
        self._groups = [(looks, group, dict[int, list[int]]()) for looks, group in groups.items()]

    def _looks(self, condition: Condition, spot: str, bits: SpotBits) -> int:
        """Return the spots an answer depends on besides those of ball and cutter."""
        looks = condition.looks
        if looks == "spot":
            bit = bits.bit[spot]
            looks = "nothing" if bit & (self._here | bits.lane) else "ring" if bit & bits.ring else "posts"
        return {"nothing": 0, "ring": bits.ring, "posts": bits.beside_posts}[looks]

    def found(self, mask: int) -> list[int]:
        """Return the numbers of the actions, in order, for the spots of ``mask``."""
        found = self.always[:]
        for looks, group, table in self._groups:
            some = table.get(mask & looks)
            if some is None:
                some = table[mask & looks] = self._ask(mask & looks, group)
            found += some
        found.sort()
        return found

    def _ask(self, mask: int, group: list[tuple[int, tuple[Condition, ...]]]) -> list[int]:
        there = self._bits.spots_of(mask | self._here)
        view = view_of(Alignment(there, self._ball, self._cutter), self._formation, self._limit)
        return [
            number
            for number, conditions in group
            if all(c.holds(view, self.actions[number].spot or "") for c in conditions)
        ]
