"""The timelines of a pack: one for each set of movements, and for each of those who stand in its way."""

from __future__ import annotations

from collections.abc import Sequence

from engine.court import Court
from engine.formations import FORMATIONS, Formation
from engine.motion import Timeline
from engine.motion.clearance import CLEAR_M, Memory, among, beside, exempt, tracks_of
from engine.motion.scene import Changes
from engine.motion.solve import NoWay, solve
from engine.motion.table import changes_for, movements, standing
from engine.motion.timeline import LOOK_S, TRIES, build
from engine.moves import Step
from engine.rules import DEFAULT, RuleSet


class Lines:
    """Makes timelines, each only once. What was found for some who stand is tried for others first.

    For what ships, the tables hold what clears every valid alignment. Anything else is looked at, and
    cleared by a short search where it must be; where that finds no way, it stays as it is.
    """

    def __init__(self, formation: Formation, rules: RuleSet, court: Court) -> None:
        self._formation, self._court = formation, court
        self._trusted = rules == DEFAULT and FORMATIONS.get(formation.name) == formation
        self._made: dict[tuple[str, object], Timeline] = {}
        self._found: dict[str, list[Timeline]] = {}
        self._memory: Memory = {}
        self._looked: dict[tuple[str, frozenset[str]], Timeline] = {}

    def line(self, steps: Sequence[Step]) -> Timeline:
        """Return the timeline of one step, or of a lane choice and the ball action played over it."""
        words = movements(steps)
        known = changes_for(steps, self._formation.name, self._court.standard.name)
        if self._trusted:  # what is not in the table either has no way, as the search for it has found
            return self._build(words, steps, known or {})
        still = standing(steps)
        key = words, still
        if key not in self._looked:
            self._looked[key] = self._search(words, steps, still, known or {})
        return self._looked[key]

    def _build(self, words: str, steps: Sequence[Step], changes: Changes) -> Timeline:
        key = words, frozenset(changes.items())
        if key not in self._made:
            self._made[key] = build(steps, self._court, self._formation, changes)
        return self._made[key]

    def _search(self, words: str, steps: Sequence[Step], still: frozenset[str], known: Changes) -> Timeline:
        first = self._build(words, steps, known)
        allowed = exempt(steps)
        before = self._found.setdefault(words, [])
        for line in (first, *before):
            if self._is_clear(line, still, allowed):
                return line
        try:
            changes = solve(steps, still, (self._court,), self._formation, TRIES)
        except NoWay:
            return first
        line = self._build(words, steps, changes)
        before.append(line)
        return line

    def _is_clear(self, line: Timeline, still: frozenset[str], allowed: frozenset[frozenset[str]]) -> bool:
        tracks = tracks_of(line, LOOK_S, self._memory)
        return not (
            among(tracks, allowed, CLEAR_M, LOOK_S) or beside(tracks, line, still, allowed, CLEAR_M, LOOK_S)
        )
