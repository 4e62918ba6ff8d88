"""The whole way: from a formation, a rule set and a court to the pack a screen plays from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from engine.actions import Action
from engine.alignment import Alignment
from engine.court import Court
from engine.formations import Formation
from engine.lane import default_choice
from engine.motion import Timeline
from engine.moves import Step
from engine.pack import mirror
from engine.pack.lines import Lines
from engine.pack.record import Record, record
from engine.rebounding import backs, tasks
from engine.rules import RuleSet


@dataclass(frozen=True, slots=True)
class Outcome:
    """What one action leads to, and how long everything takes."""

    record: Record
    line: Timeline


@dataclass(frozen=True, slots=True)
class Row:
    """One alignment: the outcomes of its actions, in their order, and the default choice of its cutter.

    ``after``: the timelines of the default choice with each ball action that only then is legal, in order.
    """

    alignment: Alignment
    outcomes: tuple[Outcome, ...]
    default: Action | None
    after: tuple[tuple[Action, Timeline], ...]


def rows(
    formation: Formation, rules: RuleSet, court: Court, steps: Mapping[Alignment, tuple[Step, ...]]
) -> list[Row]:
    """Return every alignment of ``steps`` (see ``closure``); of two that mirror each other in all, one."""
    halved = mirror.is_symmetric(court, formation)
    work = _Work(formation, rules, court, steps)
    found: list[Row] = []
    for alignment in sorted(steps, key=order):
        if halved:
            other = mirror.alignment(alignment)
            if order(other) < order(alignment) and work.mirrors(alignment, other):
                continue
        found.append(work.row(alignment))
    return found


def order(alignment: Alignment) -> tuple[Any, ...]:
    """Return what alignments are sorted by, so that neighbours are much alike."""
    return (
        alignment.cutter or "",
        alignment.ball,
        alignment.freed or "",
        sorted(alignment.occupied, reverse=True),
    )


class _Work:
    def __init__(
        self,
        formation: Formation,
        rules: RuleSet,
        court: Court,
        steps: Mapping[Alignment, tuple[Step, ...]],
    ) -> None:
        self._formation, self._rules, self._court, self._steps = formation, rules, court, steps
        self._line = Lines(formation, rules, court).line
        self._records: dict[object, Record] = {}

    def row(self, alignment: Alignment) -> Row:
        steps = self._steps[alignment]
        outcomes = tuple(Outcome(self.record(step), self._line((step,))) for step in steps)
        default = default_choice(alignment, self._formation, self._rules)
        after: list[tuple[Action, Timeline]] = []
        if default is not None:
            now = {step.action: step for step in steps}
            first = now[default]
            after = [
                (step.action, self._line((first, step)))
                for step in self._steps[first.after]
                if step.action not in now
            ]
        return Row(alignment, outcomes, default, tuple(after))

    def record(self, step: Step) -> Record:
        """Return the record of a step; steps that move the same players the same way share one."""
        before, after = step.before, step.after
        back: tuple[str, ...] = ()
        lane = before.cutter, after.cutter, after.freed, step.is_freed
        key: object = (step.action, step.moves, step.ball, lane)
        if step.action.kind == "shot":
            back = backs(before, self._court, self._formation)
            key = step.action, before
        if key not in self._records:
            self._records[key] = record(step, back)
        return self._records[key]

    def mirrors(self, one: Alignment, other: Alignment) -> bool:
        """Whether the same happens in both, the other way round."""
        mine, theirs = self._steps[one], self._steps[other]
        if {step.action for step in mine} != {mirror.action(step.action) for step in theirs}:
            return False
        there = {step.action: step for step in theirs}
        for step in mine:
            twin = there[mirror.action(step.action)]
            if step.action.kind == "shot":
                turned = {mirror.spot(s): mirror.spot(role) for s, role in self._tasks(other).items()}
                if self._tasks(one) != turned:
                    return False
            elif step != mirror.step(twin):
                return False
        default = default_choice(one, self._formation, self._rules)
        other_default = default_choice(other, self._formation, self._rules)
        return default == (None if other_default is None else mirror.action(other_default))

    def _tasks(self, alignment: Alignment) -> dict[str, str]:
        return {s: task.role for s, task in tasks(alignment, self._court, self._formation).items()}
