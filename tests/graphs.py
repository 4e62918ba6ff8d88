"""What formations can reach, worked out once for all tests of a process that look at it."""

from __future__ import annotations

from functools import lru_cache

from engine.formations import Formation
from engine.graph import Graph
from engine.graph import reach as _reach
from engine.rules import DEFAULT, RuleSet


@lru_cache(maxsize=12)
def reach(formation: Formation, rules: RuleSet = DEFAULT) -> Graph:
    """Return what :func:`engine.graph.reach` does from the start of a formation."""
    return _reach(formation, rules=rules)
