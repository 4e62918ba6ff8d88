"""The timelines of a pack: one for each set of movements, and for each of those who stand in its way."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from engine.floor.court import Court
from engine.floor.formations import FORMATIONS, Formation
from engine.game.steps import Step
from engine.motion import Timeline
from engine.motion.clearance import CLEAR_M, Memory, clashes, exempt
from engine.motion.scene import Changes
from engine.motion.solve import NoWay, solve
from engine.motion.table import Row, changes_in, digest, load
from engine.motion.timeline import LOOK_S, TRIES, build
from engine.rules.rule_sets import DEFAULT, RuleSet

_NOBODY: frozenset[str] = frozenset()


@dataclass(slots=True, eq=False)
class Group:
    """One set of movements. ``left``: the spots whose players run, on a shot all; none where nobody matters.

    ``is_sure``: the table says all there is to know of it. ``row``: what the table says. ``matter``: the
    standing players who need changes of their own. ``lines``: those made, by their changes. ``found``: those
    found by search. ``no_way``: who stood where none was found.
    """

    left: frozenset[str]
    is_sure: bool
    row: Row | None
    matter: frozenset[str]
    lines: dict[object, Timeline] = field(default_factory=dict)
    found: list[Timeline] = field(default_factory=list)
    no_way: list[frozenset[str]] = field(default_factory=list)


class Lines:
    """Makes timelines, each only once. What was found for some who stand is tried for others first.

    For what ships, the tables hold what clears every valid alignment. Anything else is looked at, and
    cleared by a short search where it must be; where that finds no way, it stays as it is.
    """

    def __init__(self, formation: Formation, rules: RuleSet, court: Court) -> None:
        self._formation, self._court = formation, court
        self._trusted = rules == DEFAULT and FORMATIONS.get(formation.name) == formation
        self._table = load(_nearest(formation))
        self._groups: dict[str, Group] = {}
        self._memory = Memory()

    def group(self, steps: Sequence[Step], words: str) -> Group:
        """Return the set of movements of one step, or of a lane choice and the ball action over it.

        ``words``: what :func:`movements` says of them.
        """
        found = self._groups.get(words)
        if found is None:
            found = self._groups[words] = self._new(steps, words)
        return found

    def _new(self, steps: Sequence[Step], words: str) -> Group:
        key = digest(words)
        row = self._table.rows.get(key)
        is_sure = self._trusted and (row is not None or key in self._table.clear)
        if is_sure and row is None:
            return Group(_NOBODY, True, None, _NOBODY)
        if steps[0].is_shot:
            left = steps[0].before.occupied
        else:
            left = frozenset(move.origin for step in steps for move in step.moves)
        return Group(left, is_sure, row, _NOBODY if row is None else row[0] - left)

    def around(self, group: Group, occupied: frozenset[str]) -> frozenset[str]:
        """Return all of those who stand that the timeline of a group depends on."""
        if group.is_sure:
            return group.matter & occupied if group.matter else _NOBODY
        return occupied - group.left

    def line(self, group: Group, steps: Sequence[Step], around: frozenset[str]) -> Timeline:
        """Return the timeline of steps of a group, ``around`` being those who stand: see :meth:`around`."""
        known = None
        if group.row is not None:
            known = changes_in(group.row, group.matter & around, self._court.standard.name)
        if group.is_sure:
            return self._build(group, steps, known or {})
        return self._search(group, steps, around, known or {})

    def _build(self, group: Group, steps: Sequence[Step], changes: Changes) -> Timeline:
        key = frozenset(changes.items())
        if key not in group.lines:
            group.lines[key] = build(steps, self._court, self._formation, changes)
        return group.lines[key]

    def _search(self, group: Group, steps: Sequence[Step], still: frozenset[str], known: Changes) -> Timeline:
        first = self._build(group, steps, known)
        allowed = exempt(steps)
        for line in (first, *group.found):
            if self._is_clear(line, still, allowed):
                return line
        if any(some <= still for some in group.no_way):
            return first
        changes = self._solve(group, steps, still)
        if changes is None:
            if still:  # mostly those who run are in each other's way; that is found out, and holds for all
                self._solve(group, steps, _NOBODY)
            return first
        line = self._build(group, steps, changes)
        group.found.append(line)
        return line

    def _solve(self, group: Group, steps: Sequence[Step], still: frozenset[str]) -> Changes | None:
        """Return what keeps all apart; None, which is remembered, where a short search finds nothing."""
        try:
            return solve(steps, still, (self._court,), self._formation, TRIES)
        except NoWay:
            group.no_way.append(still)
            return None

    def _is_clear(self, line: Timeline, still: frozenset[str], allowed: frozenset[frozenset[str]]) -> bool:
        return not clashes(line, still, allowed, CLEAR_M, LOOK_S, self._memory)


def _nearest(formation: Formation) -> str:
    """Return the formation whose table to look into: its own, else that of one with the same ring.

    A coach's own formation has its spots elsewhere, but not far off: what keeps team-mates apart there mostly
    does so here.
    """
    if formation.name in FORMATIONS:
        return formation.name
    return next((name for name, one in FORMATIONS.items() if one.ring == formation.ring), formation.name)
