"""The whole way: from a formation, a rule set and a court to the pack a screen plays from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Final, NamedTuple

from engine.floor.alignment import Alignment
from engine.floor.court import Court
from engine.floor.formations import POSTS, RING_NAMES, Formation
from engine.game.lane import default_choice
from engine.game.rebounding import backs, tasks
from engine.game.steps import Step
from engine.motion import Timeline
from engine.motion.table import movement
from engine.pack import mirror
from engine.pack.lines import Group, Lines
from engine.pack.record import Record, record, shot_record
from engine.rules.actions import Action
from engine.rules.rule_sets import RuleSet

_PLACE: Final = {spot: place for place, spot in enumerate((*RING_NAMES, *POSTS))}


class Outcome(NamedTuple):
    """What one action leads to, and how long everything takes."""

    record: Record
    line: Timeline


class Row(NamedTuple):
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
    place = {alignment: at for at, alignment in enumerate(sorted(steps, key=order))}
    for alignment, at in place.items():
        if halved:
            other = mirror.alignment(alignment)
            if place.get(other, at) < at and work.mirrors(alignment, other):
                continue
        found.append(work.row(alignment))
    return found


def order(alignment: Alignment) -> tuple[Any, ...]:
    """Return what alignments are sorted by, so that neighbours are much alike, and so pack well."""
    return (
        alignment.cutter or "",
        alignment.ball,
        alignment.freed or "",
        # Whoever is in the lane has been told of.
        sorted((_PLACE[spot] for spot in alignment.occupied if spot in _PLACE), reverse=True),
    )


@dataclass(slots=True, eq=False)
class _Sort:
    """Steps that are alike: the same players do the same, and it leads to the same lane, freed mate and ball.

    ``step``: one of them, ``words``: its movements. ``mirrored``: the sort of their mirror images; unset
    until it is asked for.
    """

    step: Step
    words: str
    group: Group
    record: Record | None = None
    mirrored: _Sort | None = None
    is_mirror_known: bool = False
    outcomes: dict[frozenset[str], Outcome] = field(default_factory=dict)


#: What steps of one sort have in common.
_Key = tuple[object, ...]


class _Work:
    def __init__(
        self,
        formation: Formation,
        rules: RuleSet,
        court: Court,
        steps: Mapping[Alignment, tuple[Step, ...]],
    ) -> None:
        self._formation, self._rules, self._court, self._steps = formation, rules, court, steps
        self._lines = Lines(formation, rules, court)
        self._known: dict[_Key, _Sort] = {}
        self._defaults: dict[Alignment, Action | None] = {}
        self._after: dict[tuple[int, int], tuple[Group, dict[frozenset[str], Timeline]]] = {}
        self._sorts = {alignment: list(map(self._sort, found)) for alignment, found in steps.items()}

    def row(self, alignment: Alignment) -> Row:
        """Return the row of an alignment."""
        sorts, steps, occupied = self._sorts[alignment], self._steps[alignment], alignment.occupied
        outcomes = tuple(self._outcome(*both, occupied) for both in zip(sorts, steps, strict=True))
        default = self._default(alignment)
        if default is None:
            return Row(alignment, outcomes, None, ())
        now = {step.action for step in steps}
        at = next(at for at, step in enumerate(steps) if step.action == default)
        first = steps[at]
        after = tuple(
            (step.action, self._over((sorts[at], sort), (first, step), occupied))
            for sort, step in zip(self._sorts[first.after], self._steps[first.after], strict=True)
            if step.action not in now
        )
        return Row(alignment, outcomes, default, after)

    def mirrors(self, one: Alignment, other: Alignment) -> bool:
        """Whether the same happens in both, the other way round."""
        mine, theirs = self._sorts[one], self._sorts[other]
        if len(mine) != len(theirs) or {self._mirrored(sort) for sort in mine} != {*theirs}:
            return False
        default, other_default = self._default(one), self._default(other)
        return default == (None if other_default is None else mirror.action(other_default))

    def _default(self, alignment: Alignment) -> Action | None:
        if alignment not in self._defaults:
            self._defaults[alignment] = default_choice(alignment, self._formation, self._rules)
        return self._defaults[alignment]

    def _sort(self, step: Step) -> _Sort:
        before, action, after, moves, ball = step
        key: _Key
        if ball.kind == "shot":
            # What everybody does on a shot goes by where all of them stand.
            key = action, before.occupied, before.ball, before.cutter
        else:
            key = action, moves, ball, before.cutter, after.cutter, after.freed, _is_freed(step)
        found = self._known.get(key)
        if found is None:
            words = movement(step)
            found = self._known[key] = _Sort(step, words, self._lines.group((step,), words))
        return found

    def _outcome(self, sort: _Sort, step: Step, occupied: frozenset[str]) -> Outcome:
        around = self._lines.around(sort.group, occupied)
        found = sort.outcomes.get(around)
        if found is None:
            line = self._lines.line(sort.group, (step,), around)
            found = sort.outcomes[around] = Outcome(self._record(sort), line)
        return found

    def _record(self, sort: _Sort) -> Record:
        if sort.record is None:
            step = sort.step
            if step.is_shot:
                sort.record = shot_record(step, backs(step.before, self._court, self._formation))
            else:
                sort.record = record(step)
        return sort.record

    def _over(
        self, sorts: tuple[_Sort, _Sort], steps: tuple[Step, Step], occupied: frozenset[str]
    ) -> Timeline:
        """Return the timeline of a lane choice with a ball action over it."""
        key = id(sorts[0]), id(sorts[1])
        if key not in self._after:
            self._after[key] = self._lines.group(steps, f"{sorts[0].words}|{sorts[1].words}"), {}
        group, lines = self._after[key]
        around = self._lines.around(group, occupied)
        if around not in lines:
            lines[around] = self._lines.line(group, steps, around)
        return lines[around]

    def _mirrored(self, sort: _Sort) -> _Sort | None:
        """Return the sort of the mirror images; None if there are none, or they are not played like it."""
        if not sort.is_mirror_known:
            sort.mirrored, sort.is_mirror_known = self._find_mirrored(sort.step), True
        return sort.mirrored

    def _find_mirrored(self, step: Step) -> _Sort | None:
        before, after, action = step.before, step.after, mirror.action(step.action)
        cutter = mirror.maybe(before.cutter)
        if not step.is_shot:
            moves, ball = mirror.moves(step.moves), mirror.ball(step.ball)
            cutter_then, freed = mirror.maybe(after.cutter), mirror.maybe(after.freed)
            return self._known.get((action, moves, ball, cutter, cutter_then, freed, _is_freed(step)))
        turned = mirror.alignment(before)
        mine = tasks(before, self._court, self._formation)
        theirs = tasks(turned, self._court, self._formation)
        # Who gets back on the ball's side does so on one side, which his role alone does not tell.
        if any(theirs[mirror.spot(spot)] != mirror.task(task) for spot, task in mine.items()):
            return None
        return self._known.get((action, turned.occupied, turned.ball, cutter))


def _is_freed(step: Step) -> bool:
    return step.before.freed is not None and step.is_freed
