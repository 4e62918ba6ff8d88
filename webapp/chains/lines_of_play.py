"""Lines of play: how far one is legal, worked out once and kept."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from engine.floor.alignment import Position, start
from engine.floor.formations import Formation
from engine.rules.rule_sets import RuleSet
from engine.words.spoken import spoken
from webapp.chains.state import play
from webapp.wire.refusals import Refused

#: Steps from a start, each the text forms of its one or two actions.
Line = tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True)
class Reach:
    """How many steps of a line are legal, and the engine's sentence why the next is not."""

    legal: int
    why: str | None


def reach(formation: Formation, rules: RuleSet, line: Line) -> Reach:
    """Return how far ``line`` is legal. Licences and stages are not asked."""
    return _reach(spoken().tag, formation, rules, line)


@lru_cache(maxsize=8192)
def _reach(_tag: str, formation: Formation, rules: RuleSet, line: Line) -> Reach:
    # The sentence is in one language, so what is kept is kept for each.
    position = start(formation)
    for at, actions in enumerate(line):
        try:
            position = play(position, actions, formation, rules)
        except Refused as refused:
            return Reach(at, str(refused.details.get("why", refused)))
    return Reach(len(line), None)


def unplayable(formation: Formation, rules: RuleSet, tree: Sequence[tuple[int, str]]) -> dict[int, str]:
    """Return the first nodes of a tree's branches that are not legal, each with the engine's sentence.

    ``tree``: (index of the parent, actions separated by spaces), the start first, parents before children.
    """
    positions: list[Position | None] = [start(formation)]
    found = {}
    for index, (parent, actions) in enumerate(tree[1:], start=1):
        before = positions[parent]
        positions.append(None)
        if before is None:
            continue
        try:
            positions[index] = play(before, actions.split(), formation, rules)
        except Refused as refused:
            found[index] = str(refused.details.get("why", refused))
    return found
