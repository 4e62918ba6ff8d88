"""Everything a formation can reach: alignments, the steps between them, and counted sequences."""

from __future__ import annotations

from dataclasses import dataclass

from engine.floor.alignment import Alignment, start
from engine.floor.formations import Formation
from engine.game.moves import generate, steps
from engine.game.steps import Step
from engine.rules.rule_sets import DEFAULT, RuleSet


@dataclass(frozen=True, slots=True)
class Graph:
    """``alignments`` in the order found from the start, breadth first; ``steps`` between them."""

    alignments: tuple[Alignment, ...]
    steps: tuple[Step, ...]


def reach(formation: Formation, origin: Alignment | None = None, rules: RuleSet = DEFAULT) -> Graph:
    """Return all alignments reached from ``origin`` (the formation's start), over or not, and all steps."""
    first = start(formation).alignment if origin is None else origin
    found: dict[Alignment, None] = {first: None}
    made: list[Step] = []
    queue = [first]
    for alignment in queue:
        for step in generate(alignment, formation, rules):
            made.append(step)
            if step.after not in found:
                found[step.after] = None
                queue.append(step.after)
    return Graph(tuple(found), tuple(made))


def perft(formation: Formation, length: int, rules: RuleSet = DEFAULT) -> int:
    """Count the legal sequences of ``length`` actions from the start; raise ``ValueError`` below 0."""
    if length < 0:
        raise ValueError("The length of a sequence is 0 or more.")
    level = {start(formation).alignment: 1}
    for _ in range(length):
        following: dict[Alignment, int] = {}
        for alignment, count in level.items():
            for step in steps(alignment, formation, rules):
                following[step.after] = following.get(step.after, 0) + count
        level = following
    return sum(level.values())
