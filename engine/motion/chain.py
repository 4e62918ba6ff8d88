"""A chain of actions on one clock: when each step starts, and where everybody is at any moment.

A step starts when its handler is ready after the one before. Who is still under way finishes his run before
his next one starts; a pass waits until its receiver is within a metre of the end of his, a screen until the
screener has ended his, and a ball event for the hands it needs; then the whole step, or the rest of it, is
that much later.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from engine.floor.alignment import Position
from engine.floor.court import Court, places
from engine.floor.formations import Formation
from engine.floor.markings import Point
from engine.game.play import follow
from engine.game.steps import Step
from engine.motion.speeds import REACH_M
from engine.motion.timeline import timeline
from engine.motion.values import BASKET, BallEvent, Run, Timeline


@dataclass(frozen=True, slots=True)
class Cue:
    """One step on the clock: when it starts, when its handler is ready, when all of it is over. Seconds."""

    start: float
    ready: float
    end: float


@dataclass(frozen=True, slots=True)
class Toss:
    """The ball from player to player, or to the basket (None). A hand-off takes no time."""

    kind: str
    start: float
    end: float
    giver: int
    receiver: int | None


@dataclass(frozen=True)
class Chain:
    """Steps on one clock. ``runs``: by player number, in order; ``standing``: where players began.

    A run's ``origin`` is still a spot of its own step; its ``start`` is on the chain's clock.
    """

    standing: dict[int, Point]
    holder: int
    cues: tuple[Cue, ...]
    runs: dict[int, tuple[Run, ...]]
    tosses: tuple[Toss, ...]

    @property
    def end(self) -> float:
        """When the last of the last step has arrived; 0 for no step."""
        return max((cue.end for cue in self.cues), default=0.0)

    def position(self, player: int, t: float) -> Point:
        """Return where a player is at ``t`` seconds; raise ``KeyError`` for nobody's number."""
        current = None
        for run in self.runs[player]:
            if current is None or run.start <= t:
                current = run
        return self.standing[player] if current is None else current.at(t)

    def holder_at(self, t: float) -> int | None:
        """Return who holds the ball at ``t``; None while it is in the air and after a shot."""
        holder: int | None = self.holder
        for toss in self.tosses:
            if t < toss.start:
                break
            holder = toss.receiver if t >= toss.end else None
        return holder

    def ball_position(self, t: float) -> Point:
        """Return where the ball is at ``t``: with its holder, or on a straight line through the air."""
        holder: int | None = self.holder
        for toss in self.tosses:
            if t < toss.start:
                break
            if t < toss.end:
                part = (t - toss.start) / (toss.end - toss.start)
                x0, y0 = self.position(toss.giver, toss.start)
                x1, y1 = BASKET if toss.receiver is None else self.position(toss.receiver, toss.end)
                return Point(x0 + part * (x1 - x0), y0 + part * (y1 - y0))
            holder = toss.receiver
        return BASKET if holder is None else self.position(holder, t)


def chain(
    position: Position,
    groups: Sequence[Sequence[Step]],
    court: Court,
    formation: Formation,
    level: float = 1.0,
) -> Chain:
    """Return the chain of ``groups`` of steps (one each, or two for a composite) from ``position``."""
    spots = places(court, formation)
    film = _Film(
        {number: spots[spot] for spot, number in position.lineup}, position.player(position.alignment.ball)
    )
    for steps in groups:
        film.append(timeline(steps, court, formation, level), dict(position.lineup))
        for step in steps:
            position = follow(position, step)
    return Chain(
        film.standing,
        film.holder,
        tuple(film.cues),
        {number: tuple(runs) for number, runs in film.runs.items()},
        tuple(film.tosses),
    )


class _Film:
    """The chain being put together."""

    def __init__(self, standing: dict[int, Point], holder: int) -> None:
        self.standing, self.holder = standing, holder
        self.cues: list[Cue] = []
        self.runs: dict[int, list[Run]] = {number: [] for number in standing}
        self.tosses: list[Toss] = []

    def append(self, line: Timeline, player: dict[str, int]) -> None:
        """Add a timeline; ``player``: numbers by spot before it."""
        start = self._earliest(line, player, self.cues[-1].ready if self.cues else 0.0)
        late: dict[str, list[tuple[float, float]]] = {}
        end = start + line.end
        for run in line.runs:
            mine = self.runs[player[run.origin]]
            begin = max(start + run.start, mine[-1].end if mine else 0.0)
            late.setdefault(run.origin, []).append((run.start, begin - start - run.start))
            mine.append(run._replace(start=begin))
            end = max(end, begin + run.duration)
        slip = 0.0
        for event in line.ball:
            slip = max(slip, _lateness(late, event.giver, event.start))
            if event.receiver is not None:
                slip = max(slip, _lateness(late, event.receiver, event.start))
            begin = max(start + event.start + slip, self.tosses[-1].end if self.tosses else 0.0)
            self.tosses.append(_toss(event, begin, player))
            end = max(end, self.tosses[-1].end)
        self.cues.append(Cue(start, min(end, start + line.ready + slip), end))

    def _earliest(self, line: Timeline, player: dict[str, int], start: float) -> float:
        """Return when the step may start: its handler has the ball, receivers can catch, screeners can go."""
        if self.tosses:
            last = self.tosses[-1]
            uses = [event.start for event in line.ball]
            uses += [run.start for run in line.runs if player[run.origin] == last.receiver]
            if uses:
                start = max(start, last.end - min(uses))
        for run in line.runs:
            before = self.runs[player[run.origin]]
            if run.style == "screen" and before:
                # A screen must be set before it is used, so nobody goes before the screener can.
                start = max(start, before[-1].end - run.start)
        for event in line.ball:
            runs = self.runs[player[event.receiver]] if event.receiver is not None else []
            if event.kind == "pass" and runs:
                start = max(start, runs[-1].time_left_with(REACH_M) - event.start)
        return start


def _lateness(late: dict[str, list[tuple[float, float]]], origin: str, t: float) -> float:
    """Return the greatest delay of the player's runs that were to begin by ``t``."""
    return max((delay for begin, delay in late.get(origin, ()) if begin <= t), default=0.0)


def _toss(event: BallEvent, begin: float, player: dict[str, int]) -> Toss:
    receiver = None if event.receiver is None else player[event.receiver]
    return Toss(event.kind, begin, begin + event.end - event.start, player[event.giver], receiver)
