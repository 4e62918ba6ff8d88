"""Everything a team can get into under its rules, breadth first, with the shortest way to each position."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from engine.alignment import Alignment, Position, start
from engine.formations import Formation
from engine.licences import FREE, Licence, Licences, missing
from engine.moves import Step, generate
from engine.play import follow
from engine.rules import RuleSet


@dataclass(slots=True)
class Explored:
    """Positions in the order found, and for each the position and step that first led to it.

    Players with equal licences are the same player here: a position's lineup holds the number of a group.
    Without licences there is one group, so that positions differ only in their alignments.
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


def explore(
    formation: Formation, rules: RuleSet, licences: Licences
) -> Iterator[tuple[Explored, Position, tuple[Step, ...]]]:
    """Walk through every position reached from the start, once each, shortest way first.

    Yields the work in hand, a position, and the steps that lead on from it.
    """
    member, by_group = groups(licences)
    first = start(formation)
    origin = Position(first.alignment, tuple((spot, member[number]) for spot, number in first.lineup))
    done = Explored(origin, {origin: None})
    limited = any(licence.may is not None for licence in by_group.values())
    cache: dict[Alignment, tuple[Step, ...]] = {}
    queue = [origin]
    for position in queue:
        alignment = position.alignment
        made = cache.get(alignment)
        if made is None:
            made = cache[alignment] = generate(alignment, formation, rules)
        if limited:
            made = tuple(step for step in made if missing(position, step.action, by_group) is None)
        done.steps += len(made)
        yield done, position, made
        for step in made:
            after = follow(position, step)
            if after not in done.ways:
                done.ways[after] = (position, step)
                queue.append(after)
