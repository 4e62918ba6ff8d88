"""A whole chain on one clock, recoveries and drawings too: where everybody and the ball are at any time."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Final

from engine.floor.court import Point, half_court
from engine.motion.chain import Chain, chain
from engine.script import ACTORS
from webapp.paper import scripted
from webapp.paper.free_steps import HAND_S, STRAY_S, FreeStep, Standing, back_on_spots, laid
from webapp.paper.marks import LYING, Who
from webapp.paper.sheet import Act, Sheet

__all__ = ("HAND_S", "PIECES", "STRAY_S", "Film", "Part", "film")

#: Pieces a run is sampled in: enough that straight lines between them stay within 3 cm of it.
PIECES: Final = 20


@dataclass(frozen=True, slots=True)
class Part:
    """Part of a film, from ``start`` seconds on.

    It is what the engine makes of steps in a row, or one step that goes by no rule.
    """

    start: float
    chain: Chain | FreeStep

    @property
    def end(self) -> float:
        """When all of it is over, seconds from the film's beginning."""
        return self.start + self.chain.end

    def position(self, who: Who, t: float) -> Point:
        """Return where somebody is at ``t`` seconds of the film."""
        if isinstance(self.chain, Chain):
            return self.chain.position(int(who), t - self.start)
        return self.chain.position(who, t - self.start)

    def has(self, who: Who) -> bool:
        """Whether somebody is in it."""
        return who in self.chain.standing

    def times(self, who: Who) -> set[float]:
        """Return the times between which somebody moves evenly enough to be drawn by straight lines."""
        found = {self.start, self.end}
        chain = self.chain
        for run in chain.runs.get(who, ()) if isinstance(chain, FreeStep) else chain.runs[int(who)]:
            begin = self.start + run.start
            found |= {begin + run.duration * i / PIECES for i in range(PIECES + 1)}
            if isinstance(chain, FreeStep):
                found |= {begin + run.duration * part for part in scripted.corners(run)}
        return found

    def flights(self) -> list[tuple[float, float, Point | None]]:
        """Return when the ball is on its way, and where a hand-off of no time begins."""
        if isinstance(self.chain, FreeStep):
            return [(self.start + one.start, self.start + one.end, None) for one in self.chain.flights]
        made: list[tuple[float, float, Point | None]] = []
        for toss in self.chain.tosses:
            begin = self.start + toss.start
            if toss.kind == "hand":
                made.append((begin, begin + HAND_S, self.chain.position(toss.giver, toss.start)))
            else:
                made.append((begin, self.start + toss.end, None))
        return made


@dataclass(frozen=True)
class Film:
    """Scenes one after the other. ``cues``: when each step begins, in seconds from the film's beginning.

    ``standing`` and ``holder``: where the five are, and who has the ball, in a film without any scene.
    """

    scenes: tuple[Part, ...]
    cues: tuple[float, ...]
    standing: dict[int, Point]
    holder: int

    @property
    def end(self) -> float:
        """When everybody has arrived; 0 if nobody moves."""
        return self.scenes[-1].end if self.scenes else 0.0

    @cached_property
    def extras(self) -> tuple[str, ...]:
        """Whoever is in a drawing beside the five: defenders, a coach, cones."""
        return tuple(who for who in ACTORS if any(scene.has(who) for scene in self.scenes))

    def position(self, who: Who, t: float) -> Point:
        """Return where somebody is, in metres; an extra where he was last, while he is not there."""
        scene = self._scene(t)
        if scene is not None and not scene.has(who):
            mine = [one for one in self.scenes if one.has(who)]
            before = [one for one in mine if one.start <= t]
            return before[-1].position(who, before[-1].end) if before else mine[0].position(who, 0.0)
        return self.standing[int(who)] if scene is None else scene.position(who, t)

    def shown(self, extra: str) -> list[tuple[float, float]]:
        """Return from when to when an extra is there; without end where nothing follows."""
        found: list[tuple[float, float]] = []
        for i, scene in enumerate(self.scenes):
            if not scene.has(extra):
                continue
            until = self.scenes[i + 1].start if i + 1 < len(self.scenes) else float("inf")
            if found and found[-1][1] == scene.start:
                found[-1] = (found[-1][0], until)
            else:
                found.append((scene.start, until))
        return found

    def keys(self, who: Who) -> list[tuple[float, Point]]:
        """Return times and places between which somebody moves evenly; of an extra only while he is there."""
        if isinstance(who, int):
            times = {0.0, self.end}.union(*(scene.times(who) for scene in self.scenes))
            return [(t, self.position(who, t)) for t in sorted(times)]
        mine = [scene for scene in self.scenes if scene.has(who)]
        return [(t, scene.position(who, t)) for scene in mine for t in sorted(scene.times(who))]

    def ball(self, t: float) -> Point:
        """Return where the ball is, in metres."""
        scene = self._scene(t)
        return self.standing[self.holder] if scene is None else scene.chain.ball_position(t - scene.start)

    def is_lying(self, t: float) -> bool:
        """Whether the ball is on the floor."""
        scene = self._scene(t)
        return (
            scene is not None and isinstance(scene.chain, FreeStep) and scene.chain.is_lying(t - scene.start)
        )

    def ball_keys(self) -> list[tuple[float, Point]]:
        """Return the times and places between which the ball moves evenly."""
        times = {t for player in self.standing for t, _ in self.keys(player)}
        handed: dict[float, Point] = {}
        for scene in self.scenes:
            for begin, end, hands in scene.flights():
                if hands is not None:
                    handed[begin] = hands
                times = {t for t in times if not begin < t < end} | {begin, min(end, self.end)}
        return [(t, handed.get(t) or self.ball(t)) for t in sorted(times)]

    def _scene(self, t: float) -> Part | None:
        found = None
        for scene in self.scenes:
            if found is None or scene.start <= t:
                found = scene
        return found


def film(sheet: Sheet) -> Film:
    """Return the film of a sheet's steps."""
    scenes: list[Part] = []
    cues: list[float] = []
    for acts in _groups(sheet.acts):
        made = _made(sheet, acts, scenes)
        at = scenes[-1].end if scenes else 0.0
        scenes.append(Part(at, made))
        cues += [at + cue.start for cue in made.cues]
    where = {who: place for who, place in sheet.stood(sheet.start).items() if isinstance(who, int)}
    return Film(tuple(scenes), tuple(cues), where, sheet.start.player(sheet.start.alignment.ball))


def _made(sheet: Sheet, acts: Sequence[Act], scenes: Sequence[Part]) -> Chain | FreeStep:
    first = acts[0]
    if first.script is not None:
        before = _before(sheet, first, scenes) if scenes else None
        return laid(first.script, before, _holder(first))
    if first.back is not None:
        homes = {number: sheet.spots[spot] for number, spot in first.after.where().items()}
        holder = first.before.player(first.before.alignment.ball)
        return back_on_spots(first.back, homes, _before(sheet, first, scenes), holder)
    groups = [act.steps for act in acts]
    return chain(first.before, groups, half_court(sheet.court), sheet.formation, sheet.level)


def _before(sheet: Sheet, act: Act, scenes: Sequence[Part]) -> Standing:
    """Return where everybody is before a step, extras who are still there and a ball that lies with them."""
    found = sheet.stood(act.before)
    if scenes and isinstance(scenes[-1].chain, FreeStep):
        last = scenes[-1]
        found |= {who: last.position(who, last.end) for who in map(scripted.known, ACTORS) if last.has(who)}
    return found if act.lies is None else {**found, LYING: scripted.metres(*act.lies)}


def _holder(act: Act) -> int:
    """Return who has the ball before a step, 0 if it lies on the floor."""
    return 0 if act.lies is not None else act.before.player(act.before.alignment.ball)


def _groups(acts: tuple[Act, ...]) -> list[list[Act]]:
    """Return the steps in runs that the engine lays on one clock; what goes by no rule stands by itself."""
    groups: list[list[Act]] = []
    for act in acts:
        if groups and act.steps and groups[-1][-1].steps:
            groups[-1].append(act)
        else:
            groups.append([act])
    return groups
