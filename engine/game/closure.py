"""Every valid alignment on a formation's spots, reachable from the start or not, and all that follows."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from engine.floor.alignment import Alignment
from engine.floor.formations import CROWDS, OPEN_LANE, POSTS, Formation
from engine.game.moves import generate
from engine.game.steps import Step
from engine.rules.rule_sets import RuleSet

_POSTS = frozenset(POSTS)
_LANE = frozenset(OPEN_LANE)


def occupied_sets(formation: Formation, rules: RuleSet) -> Iterator[tuple[str, ...]]:
    """Yield every set of five spots that players can stand on between two actions.

    No more posts than the rules allow, no two posts that crowd each other, at most one player in the lane,
    and not where only a drive leads to.
    """
    limit = rules.posts_in(formation)
    for spots in combinations((*formation.ring, *POSTS, *OPEN_LANE), 5):
        posts = [spot for spot in spots if spot in _POSTS]
        if len(posts) > limit or len(_LANE.intersection(spots)) > 1:
            continue
        if all(CROWDS[post].isdisjoint(posts) for post in posts):
            yield spots


def valid(formation: Formation, rules: RuleSet) -> Iterator[Alignment]:
    """Yield every valid alignment that a drag or a recovery can lead to.

    A player in the lane either has the ball or is the cutter who waits.
    """
    for spots in occupied_sets(formation, rules):
        lane = next((spot for spot in spots if spot in _LANE), None)
        for ball in spots:
            yield Alignment(frozenset(spots), ball, None if lane == ball else lane)


def recoverable(formation: Formation, rules: RuleSet) -> Iterator[tuple[str, ...]]:
    """Yield the sets of five spots a recovery may put everybody on.

    Nobody in the lane, and, closer than :func:`valid` asks, nobody sent to a corner beside a short corner.
    """
    for spots in occupied_sets(formation, rules):
        if _LANE.isdisjoint(spots) and all(CROWDS.get(spot, frozenset()).isdisjoint(spots) for spot in spots):
            yield spots


def closure(formation: Formation, rules: RuleSet) -> dict[Alignment, tuple[Step, ...]]:
    """Return the steps of every valid alignment and of all they lead to that are not over."""
    found: dict[Alignment, tuple[Step, ...]] = {}
    todo = list(valid(formation, rules))
    seen = set(todo)
    for alignment in todo:
        steps = found[alignment] = generate(alignment, formation, rules)
        for step in steps:
            after = step.after
            if not after.over and after not in seen:
                seen.add(after)
                todo.append(after)
    return found
