"""A whole chain on one clock, recoveries included: where everybody and the ball are at any time."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from engine.court import Point, half_court
from engine.motion.chain import Chain, Cue, chain
from engine.motion.speeds import OFF_BALL, duration
from engine.motion.values import Run
from engine.paths import Path, line
from webapp.paper.sheet import Act, Sheet

#: How long players take to where they were put by hand, before they get back, seconds: as on the screen.
STRAY_S: Final = 0.4

#: Pieces a run is sampled in: enough that straight lines between them stay within 3 cm of it.
PIECES: Final = 20

#: A ball that is handed over is shown on its way so long, seconds.
HAND_S: Final = 0.12


@dataclass(frozen=True, slots=True)
class Scene:
    """Part of a film: what the engine makes of steps in a row, or one recovery; from ``start`` seconds on."""

    start: float
    chain: Chain


@dataclass(frozen=True)
class Film:
    """Scenes one after the other. ``cues``: when each step begins, in seconds from the film's beginning."""

    scenes: tuple[Scene, ...]
    cues: tuple[float, ...]
    standing: dict[int, Point]
    holder: int

    @property
    def end(self) -> float:
        """When everybody has arrived; 0 if nobody moves."""
        return self.scenes[-1].start + self.scenes[-1].chain.end if self.scenes else 0.0

    def position(self, player: int, t: float) -> Point:
        """Return where a player is, in metres."""
        scene = self._scene(t)
        return self.standing[player] if scene is None else scene.chain.position(player, t - scene.start)

    def ball(self, t: float) -> Point:
        """Return where the ball is, in metres."""
        scene = self._scene(t)
        return self.standing[self.holder] if scene is None else scene.chain.ball_position(t - scene.start)

    def times(self, player: int) -> list[float]:
        """Return the times between which a player moves evenly enough to be drawn by straight lines."""
        found = {0.0, self.end}
        for scene in self.scenes:
            for run in scene.chain.runs[player]:
                begin = scene.start + run.start
                found |= {begin + run.duration * i / PIECES for i in range(PIECES + 1)}
        return sorted(found)

    def ball_keys(self) -> list[tuple[float, Point]]:
        """Return the times and places between which the ball moves evenly."""
        times = {t for player in self.standing for t in self.times(player)}
        handed: dict[float, Point] = {}
        for scene in self.scenes:
            for toss in scene.chain.tosses:
                begin, end = scene.start + toss.start, scene.start + toss.end
                if toss.kind == "hand":
                    end = begin + HAND_S
                    handed[begin] = scene.chain.position(toss.giver, toss.start)
                times = {t for t in times if not begin < t < end} | {begin, min(end, self.end)}
        return [(t, handed.get(t) or self.ball(t)) for t in sorted(times)]

    def _scene(self, t: float) -> Scene | None:
        found = None
        for scene in self.scenes:
            if found is None or scene.start <= t:
                found = scene
        return found


def film(sheet: Sheet) -> Film:
    """Return the film of a sheet's steps."""
    court = half_court(sheet.court)
    scenes: list[Scene] = []
    cues: list[float] = []
    at = 0.0
    for acts in _groups(sheet.acts):
        first = acts[0]
        if first.back is not None:
            made = _back(sheet, first)
        else:
            groups = [act.steps for act in acts]
            made = chain(first.before, groups, court, sheet.formation, sheet.level)
        scenes.append(Scene(at, made))
        cues += [at + cue.start for cue in made.cues]
        at += made.end
    where = {number: sheet.spots[spot] for spot, number in sheet.start.lineup}
    return Film(tuple(scenes), tuple(cues), where, sheet.start.player(sheet.start.alignment.ball))


def _groups(acts: tuple[Act, ...]) -> list[list[Act]]:
    """Return the steps in runs that the engine can lay on one clock; a recovery stands by itself."""
    groups: list[list[Act]] = []
    for act in acts:
        if groups and act.back is None and groups[-1][-1].back is None:
            groups[-1].append(act)
        else:
            groups.append([act])
    return groups


def _back(sheet: Sheet, act: Act) -> Chain:
    """Return a recovery: everybody to where he was put by hand, then straight to his spot."""
    assert act.back is not None
    spots, after = sheet.spots, act.after.where()
    standing = {number: spots[spot] for spot, number in act.before.lineup}
    runs: dict[int, tuple[Run, ...]] = {}
    end = STRAY_S
    for number, x, y in act.back.where:
        put, home = (x / 100, y / 100), spots[after[number]]
        back = line(put, home)
        lasts = duration(OFF_BALL, back.length) if back.length > 0.05 else 0.0
        runs[number] = (_run(0.0, STRAY_S, line(standing[number], put)), _run(STRAY_S, lasts, back))
        end = max(end, STRAY_S + lasts)
    holder = act.before.player(act.before.alignment.ball)
    return Chain(standing, holder, (Cue(0.0, end, end),), runs, ())


def _run(start: float, lasts: float, path: Path) -> Run:
    return Run("", start, lasts, path, "cut")
