"""What formations can reach, worked out once for all tests of a process that look at it."""

from __future__ import annotations

from functools import lru_cache

from engine.floor.formations import Formation
from engine.game.graph import Graph
from engine.game.graph import reach as _reach
from engine.rules.rule_sets import DEFAULT, RuleSet


@lru_cache(maxsize=12)
def reach(formation: Formation, rules: RuleSet = DEFAULT) -> Graph:
    """Return what :func:`engine.game.graph.reach` does from the start of a formation."""
    return _reach(formation, rules=rules)
