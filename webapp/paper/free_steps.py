"""A step that goes by no rule on a clock of its own: a drawing, or everybody getting back on spots.

Whoever stands elsewhere than the step begins first goes there, as on the screen.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from math import hypot
from typing import Final

from engine.floor.court import Point
from engine.floor.paths import line
from engine.game.recover import Recovery
from engine.motion.chain import Cue
from engine.motion.speeds import OFF_BALL, duration
from engine.motion.values import BASKET, Run
from engine.script import Script
from webapp.paper import scripted
from webapp.paper.marks import LYING, Who

#: How long everybody takes to where the step begins, seconds: as on the screen.
STRAY_S: Final = 0.4

#: A ball that is handed over is shown on its way so long, seconds.
HAND_S: Final = 0.12

#: Times so near to each other are one, seconds.
_AT_ONCE: Final = 1e-6

#: Who is so near to a place is there, metres.
_THERE: Final = 0.01

#: Where everybody is, the ball among them where it lies on the floor.
Standing = Mapping[Who, Point]


@dataclass(frozen=True, slots=True)
class Flight:
    """The ball from one place to another, times in seconds. ``giver`` and ``taker``: players, 0 for nobody.

    ``out``: where it lay before; ``place``: where it comes to lie, or the basket.
    """

    start: float
    end: float
    giver: int
    taker: int
    out: Point | None = None
    place: Point | None = None


@dataclass(frozen=True)
class FreeStep:
    """A step on its clock. ``standing``: where everybody begins, before he goes to where the step begins.

    ``holder``: who has the ball then, 0 if it lies where ``lying`` says.
    """

    standing: Mapping[Who, Point]
    holder: int
    lying: Point | None
    runs: Mapping[Who, tuple[Run, ...]]
    flights: tuple[Flight, ...]
    cues: tuple[Cue, ...]

    @cached_property
    def end(self) -> float:
        """When all of it is over."""
        return max(self.cues[0].end, *(flight.end for flight in self.flights), 0.0)

    def position(self, who: Who, t: float) -> Point:
        """Return where somebody is at ``t`` seconds; ``KeyError`` for nobody who is in it."""
        current = None
        for run in self.runs.get(who, ()):
            if current is None or run.start <= t:
                current = run
        return self.standing[who] if current is None else current.at(t)

    def ball_position(self, t: float) -> Point:
        """Return where the ball is at ``t`` seconds."""
        flight = self._flight(t)
        if flight is None:
            return self.lying or self.position(self.holder, t)
        end = flight.place or (self.position(flight.taker, max(t, flight.end)) if flight.taker else BASKET)
        if t >= flight.end - _AT_ONCE:
            return end
        x0, y0 = flight.out or self.position(flight.giver, flight.start)
        part = (t - flight.start) / (flight.end - flight.start)
        return Point(x0 + part * (end[0] - x0), y0 + part * (end[1] - y0))

    def is_lying(self, t: float) -> bool:
        """Whether the ball is on the floor at ``t`` seconds, or just leaves it."""
        flight = self._flight(t)
        if flight is None:
            return self.lying is not None
        if t >= flight.end - _AT_ONCE:
            return flight.place is not None
        return flight.out is not None and t <= flight.start + _AT_ONCE

    def _flight(self, t: float) -> Flight | None:
        return next((flight for flight in reversed(self.flights) if flight.start <= t + _AT_ONCE), None)


def laid(script: Script, before: Standing | None, holder: int) -> FreeStep:
    """Return a drawing on its clock; ``before``: where everybody was, ``None`` if it begins the film.

    ``holder``: who had the ball before, 0 for nobody.
    """
    began = 0.0 if before is None else STRAY_S
    places: dict[Who, Point] = {scripted.known(who): scripted.metres(x, y) for who, x, y in script.places}
    has = script.ball if isinstance(script.ball, int) else 0
    lies = None if isinstance(script.ball, int) else scripted.metres(*script.ball)
    standing = dict(places)
    flights: list[Flight] = []
    lay = lies
    if before is None:
        holder = has
    else:
        standing |= {who: place for who, place in before.items() if who in places}
        lay = None if holder else before.get(LYING)
        if (has != holder or _apart(lay, lies)) and (holder or lay is not None):
            flights.append(Flight(0.0, STRAY_S, holder, has, lay, lies))
    runs = {who: _stray(standing[who], place) for who, place in places.items()} if began else {}
    for run in scripted.runs(script):
        who = scripted.known(run.origin)
        way = Run(run.origin, began + run.start, run.duration, run.path, run.style)
        runs[who] = (*runs.get(who, ()), way)
    flights += _flights(script, began, lies)
    end = began + scripted.seconds(script.lasts)
    return FreeStep(
        standing, holder, lay if holder == 0 else None, runs, tuple(flights), (Cue(0.0, end, end),)
    )


def _flights(script: Script, began: float, lies: Point | None) -> list[Flight]:
    made = []
    for i, event in enumerate(script.events):
        start, end = began + scripted.seconds(event.start), began + scripted.seconds(event.end)
        # At least as long as can be seen, if the next leaves room for it.
        after = script.events[i + 1].start if i + 1 < len(script.events) else None
        least = start + HAND_S
        end = max(end, least if after is None else min(least, began + scripted.seconds(after)))
        place = None if event.place is None else scripted.metres(*event.place)
        made.append(Flight(start, end, event.giver, event.taker, None if event.giver else lies, place))
        lies = place
    return made


def back_on_spots(back: Recovery, homes: Mapping[int, Point], before: Standing, holder: int) -> FreeStep:
    """Return a recovery: everybody to where he was put by hand, then straight home; all in metres.

    A ball that lay on the floor (in ``before``) is picked up by ``holder`` meanwhile.
    """
    runs: dict[Who, tuple[Run, ...]] = {}
    end = STRAY_S
    for number, x, y in back.where:
        put = scripted.metres(x, y)
        way = line(put, homes[number])
        lasts = duration(OFF_BALL, way.length) if way.length > 0.05 else 0.0
        home = Run("", STRAY_S, lasts, way, "cut")
        runs[number] = (*_stray(before[number], put), home)
        end = max(end, STRAY_S + lasts)
    lay = before.get(LYING)
    flights = () if lay is None else (Flight(0.0, STRAY_S, 0, holder, lay),)
    standing: dict[Who, Point] = {number: before[number] for number, _, _ in back.where}
    return FreeStep(standing, 0 if lay else holder, lay, runs, flights, (Cue(0.0, end, end),))


def _stray(here: Point, there: Point) -> tuple[Run, ...]:
    return (Run("", 0.0, STRAY_S, line(here, there), "cut"),)


def _apart(a: Point | None, b: Point | None) -> bool:
    if a is None or b is None:
        return a is not b
    return hypot(a[0] - b[0], a[1] - b[1]) > _THERE
