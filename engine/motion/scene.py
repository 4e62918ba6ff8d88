"""The workbench a timeline is put together on: who is where, who is under way, what has been scheduled."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from math import hypot
from typing import NamedTuple

from engine.floor.court import Court, half_court, places
from engine.floor.formations import Formation
from engine.floor.markings import Point
from engine.floor.paths import Path
from engine.game.steps import Move, Step
from engine.motion.speeds import BALL, REACH_M, Pace, duration
from engine.motion.values import BallEvent, BallKind, Run, Style


class Adjustment(NamedTuple):
    """What keeps one player clear of the others: a later start, in seconds, and a bend of his route.

    ``first``, of a screener: the bend of his way to a ball screen. Of a screener off the ball, and of a giver
    who cuts after a hand-off: if not 0, that he takes the other side of the defender.
    """

    delay: float = 0.0
    bend: float = 0.0
    first: float = 0.0


NO_CHANGE = Adjustment()

#: By number of the step (0 or 1) and spot before it: the changes that keep team-mates apart.
Changes = Mapping[tuple[int, str], Adjustment]


@dataclass(frozen=True, slots=True, eq=False)
class Ground:
    """A court and a formation as runs see them: the places of spots, the angles of the ring's (degrees).

    There is one of each court and formation (see :func:`ground`), so that it is told by its identity.
    """

    court: Court
    formation: Formation
    places: Mapping[str, Point]
    angles: Mapping[str, float]


def ground(court: Court, formation: Formation) -> Ground:
    """Return the ground of a court and a formation."""
    return _ground(court.standard.name, formation)


@lru_cache(maxsize=64)
def _ground(court_name: str, formation: Formation) -> Ground:
    court = half_court(court_name)
    angles = dict(zip(formation.ring, formation.ring_angles, strict=True))
    return Ground(court, formation, places(court, formation), angles)


@dataclass(slots=True)
class Scene:
    """One timeline being made. Spots are those before the present step; ``begin`` goes on to the next."""

    ground: Ground
    changes: Changes
    #: The one run of a cutter whom the second step moves on: from the lane, not by way of his own choice.
    once: Move | None = None
    runs: list[Run] = field(default_factory=list)
    ball: list[BallEvent] = field(default_factory=list)
    base: float = 0.0
    ready: float = 0.0
    number: int = -1
    #: Spot before the present step -> spot before the first step, for players who have moved.
    _who: dict[str, str] = field(default_factory=dict)
    #: Spot before the present step -> the player's last run of an earlier step.
    _under_way: dict[str, Run] = field(default_factory=dict)
    _last: Step | None = None

    def begin(self, step: Step) -> None:
        """Start on ``step``, at the moment the handler is ready after the one before it."""
        if self._last is not None:
            travel = self._last.travel
            last = {run.origin: run for run in self.runs}
            self._who = {travel[spot]: self.origin(spot) for spot in travel}
            self._under_way = {spot: last[who] for spot, who in self._who.items() if who in last}
        self._last = step
        self.base = self.ready
        self.number += 1

    @property
    def settled(self) -> float:
        """When the last run there is so far has ended; 0 without any."""
        return max([start + lasts for _, start, lasts, _, _ in self.runs], default=0.0)

    @property
    def stood(self) -> frozenset[str]:
        """The spots that players stand on, or are on their way to, before the present step."""
        return frozenset() if self._last is None else self._last.before.occupied

    @property
    def left(self) -> frozenset[str]:
        """The spots that somebody leaves in the present step."""
        return frozenset() if self._last is None else frozenset(move.origin for move in self._last.moves)

    def at(self, spot: str) -> Point:
        """Return where a spot lies."""
        return self.ground.places[spot]

    def angle(self, spot: str) -> float:
        """Return the direction of a ring spot in degrees; raise ``KeyError`` for any other."""
        return self.ground.angles[spot]

    def runs_from(self, spot: str) -> str:
        """Return the spot that the player of ``spot`` runs from: the lane, if he is the one who runs once."""
        once = self.once
        return spot if once is None or self.origin(spot) != once.origin else once.origin

    def starts(self, spot: str, reacting: float) -> float:
        """Return when the player of ``spot`` may start: at once, if he runs once, else when he reacts."""
        return 0.0 if self.runs_from(spot) != spot else reacting

    def is_ring(self, spot: str) -> bool:
        """Say whether a spot is one of the ring."""
        return spot in self.ground.angles

    def has_moved(self, spot: str) -> bool:
        """Say whether the player of ``spot`` has come there, or is on his way, from an earlier step."""
        return spot in self._who

    def origin(self, spot: str) -> str:
        """Return who stands on (or is on his way to) ``spot``: his spot before the first step."""
        return self._who.get(spot, spot)

    def free(self, spot: str) -> float:
        """Return when the player of ``spot`` has finished the run of an earlier step; else 0."""
        run = self._under_way.get(spot)
        return 0.0 if run is None else run.end

    def can_catch(self, spot: str) -> float:
        """Return from when on a pass may be thrown to the player of ``spot``."""
        run = self._under_way.get(spot)
        return 0.0 if run is None else run.time_left_with(REACH_M)

    def change(self, spot: str) -> Adjustment:
        """Return the change for the player of ``spot`` in this step."""
        if not self.changes:
            return NO_CHANGE
        return self.changes.get((self.number, spot), NO_CHANGE)

    def run(self, spot: str, start: float, path: Path, pace: Pace, style: Style = "cut") -> Run:
        """Let the player of ``spot`` run along ``path`` from ``start``, or from when he is free."""
        before = self._under_way.get(spot)
        start = max(start, 0.0 if before is None else before.end)
        run = Run(self._who.get(spot, spot), start, duration(pace, path.length), path, style)
        self.runs.append(run)
        return run

    def add(self, run: Run) -> None:
        """Add a run, ``origin`` being a spot before the present step, for the player who stands there."""
        if run.origin in self._who:
            start = max(run.start, self.free(run.origin))
            run = run._replace(origin=self._who[run.origin], start=start)
        self.runs.append(run)

    def throw(self, giver: str, receiver: str, start: float) -> BallEvent:
        """Let the ball fly from spot to spot, once the receiver is near enough to his."""
        start = max(start, self.can_catch(receiver))
        a, b = self.at(giver), self.at(receiver)
        flight = duration(BALL, hypot(b.x - a.x, b.y - a.y))
        return self.event("pass", start, start + flight, giver, receiver)

    def event(self, kind: BallKind, start: float, end: float, giver: str, receiver: str | None) -> BallEvent:
        """Schedule a ball event between the players of two spots."""
        who = None if receiver is None else self.origin(receiver)
        event = BallEvent(kind, start, end, self.origin(giver), who)
        self.ball.append(event)
        return event
