"""A step in time, as values: who runs when along which path, and where the ball is at every moment."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import Literal, NamedTuple

from engine.floor.markings import Point
from engine.floor.paths import Path
from engine.motion.profile import elapsed, travelled

#: cut: without the ball. dribble: with it. screen: ends in a screen. hand: the dribble to a hand-off.
#: carry: without the ball until it is handed over, dribbling from there.
Style = Literal["cut", "dribble", "screen", "hand", "carry"]

BallKind = Literal["pass", "hand", "shot"]

#: Where a shot goes: the basket's centre is the origin of all coordinates.
BASKET = Point(0.0, 0.0)


class Run(NamedTuple):
    """One player's run. ``origin``: the spot he stood on before the first step, which is who he is here.

    ``start`` and ``duration`` in seconds from the timeline's beginning. Between runs a player stands.
    """

    origin: str
    start: float
    duration: float
    path: Path
    style: Style

    @property
    def end(self) -> float:
        """When he arrives."""
        return self.start + self.duration

    def at(self, t: float) -> Point:
        """Return where he is at ``t``; before the run at its beginning, after it at its end."""
        if self.duration <= 0.0:
            return self.path.end
        return self.path.point(self.path.length * travelled((t - self.start) / self.duration))

    def along(self, times: Sequence[float]) -> tuple[list[float], list[float]]:
        """Return x and y of where :meth:`at` says he is at each of ``times``, which must not fall."""
        if self.duration <= 0.0:
            return [self.path.end.x] * len(times), [self.path.end.y] * len(times)
        start, duration, length = self.start, self.duration, self.path.length
        return self.path.points([length * travelled((t - start) / duration) for t in times])

    def time_left_with(self, metres: float) -> float:
        """Return when he has only ``metres`` left to run; the start if the run is no longer than that."""
        if self.path.length <= metres:
            return self.start
        return self.start + self.duration * elapsed(1.0 - metres / self.path.length)


class BallEvent(NamedTuple):
    """The ball changes hands, or leaves them: from ``giver`` to ``receiver`` (None: to the basket).

    ``start`` and ``end`` in seconds; equal for a hand-off.
    """

    kind: BallKind
    start: float
    end: float
    giver: str
    receiver: str | None


@dataclass(frozen=True)
class Timeline:
    """What happens from 0 to ``end`` seconds; the handler may go on from ``ready`` (never after ``end``).

    ``runs`` by start, ``ball`` by time. ``holder``: who has the ball at 0. ``places``: where the players who
    do not run stand, for every spot of the formation.
    """

    ready: float
    end: float
    runs: tuple[Run, ...]
    ball: tuple[BallEvent, ...]
    holder: str
    places: Mapping[str, Point] = field(repr=False, compare=False)

    @cached_property
    def runs_of(self) -> dict[str, tuple[Run, ...]]:
        """The runs of each player who runs, in order."""
        found: dict[str, tuple[Run, ...]] = {}
        for run in self.runs:
            found[run.origin] = (*found.get(run.origin, ()), run)
        return found

    def position(self, origin: str, t: float) -> Point:
        """Return where the player who began on ``origin`` is at ``t``; ``KeyError`` for no such spot."""
        current = None
        for run in self.runs_of.get(origin, ()):
            if current is None or run.start <= t:
                current = run
        return self.places[origin] if current is None else current.at(t)

    def holder_at(self, t: float) -> str | None:
        """Return who holds the ball at ``t``, by origin; None while it is in the air and after a shot."""
        holder: str | None = self.holder
        for event in self.ball:
            if t < event.start:
                break
            holder = event.receiver if t >= event.end else None
        return holder

    def ball_position(self, t: float) -> Point:
        """Return where the ball is at ``t``: with its holder, or on a straight line through the air."""
        holder: str | None = self.holder
        for event in self.ball:
            if t < event.start:
                break
            if t < event.end:
                return self._flight(event, t)
            holder = event.receiver
        return BASKET if holder is None else self.position(holder, t)

    def _flight(self, event: BallEvent, t: float) -> Point:
        part = (t - event.start) / (event.end - event.start)
        x0, y0 = self.position(event.giver, event.start)
        x1, y1 = BASKET if event.receiver is None else self.position(event.receiver, event.end)
        return Point(x0 + part * (x1 - x0), y0 + part * (y1 - y0))

    def slowed(self, level: float) -> Timeline:
        """Return the timeline with every time divided by ``level``."""
        return Timeline(
            ready=self.ready / level,
            end=self.end / level,
            runs=tuple(r._replace(start=r.start / level, duration=r.duration / level) for r in self.runs),
            ball=tuple(e._replace(start=e.start / level, end=e.end / level) for e in self.ball),
            holder=self.holder,
            places=self.places,
        )
