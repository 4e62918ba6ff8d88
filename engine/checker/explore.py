"""Everything a team can get into under its rules, breadth first, with the shortest way to each position."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from engine.floor.alignment import Alignment, Position, start
from engine.floor.formations import Formation
from engine.game.licences import FREE, Licence, Licences, missing
from engine.game.moves import outcomes
from engine.game.play import follow
from engine.game.steps import Step
from engine.rules.actions import Action
from engine.rules.responses import Fault
from engine.rules.rule_sets import RuleSet


@dataclass(slots=True)
class Explored:
    """Positions in the order found, and for each the position and step that first led to it.

    Players with equal licences are the same player here: a position's lineup holds the number of a group.
    """

    origin: Position
    ways: dict[Position, tuple[Position, Step] | None] = field(default_factory=dict)
    steps: int = 0

    def chain(self, position: Position, *more: str) -> tuple[str, ...]:
        """Return the shortest chain of text forms to ``position``, and ``more`` after it."""
        back: list[str] = []
        way = self.ways[position]
        while way is not None:
            position, step = way
            back.append(step.action.text)
            way = self.ways[position]
        return (*reversed(back), *more)


def groups(licences: Licences, players: range = range(1, 6)) -> tuple[dict[int, int], dict[int, Licence]]:
    """Return the group of each player, and the licence of each group."""
    order: dict[Licence, int] = {}
    member = {number: order.setdefault(licences.get(number, FREE), len(order) + 1) for number in players}
    return member, {group: licence for licence, group in order.items()}


@dataclass(frozen=True, slots=True)
class LookedAt:
    """One position looked at: the steps that lead on from it, and what fails there for want of a response."""

    position: Position
    steps: tuple[Step, ...]
    faults: tuple[tuple[Action, Fault], ...]


def explore(formation: Formation, rules: RuleSet, licences: Licences) -> Iterator[tuple[Explored, LookedAt]]:
    """Walk through every position reached from the start, once each, shortest way first.

    Yields the work in hand and each position as it is looked at. Where nobody is limited, positions have no
    lineup: only alignments matter then.
    """
    member, by_group = groups(licences)
    first = start(formation)
    limited = any(licence.may is not None for licence in by_group.values())
    lineup = tuple((spot, member[number]) for spot, number in first.lineup) if limited else ()
    origin = Position(first.alignment, lineup)
    done = Explored(origin, {origin: None})
    known: dict[Alignment, tuple[tuple[Step, ...], tuple[tuple[Action, Fault], ...]]] = {}
    ways, queue = done.ways, [origin]
    for position in queue:
        alignment = position.alignment
        found = known.get(alignment)
        if found is None:
            found = known[alignment] = outcomes(alignment, formation, rules)
        steps, faults = found
        if limited:
            steps = tuple(step for step in steps if missing(position, step.action, by_group) is None)
        done.steps += len(steps)
        yield done, LookedAt(position, steps, faults)
        for step in steps:
            after = follow(position, step) if limited else Position(step.after, ())
            if after not in ways:
                ways[after] = (position, step)
                queue.append(after)
