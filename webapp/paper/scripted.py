"""A scripted step in the engine's own terms of time, so that it is drawn and played as any other step is."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import hypot
from typing import Final

from engine.floor.markings import Point
from engine.floor.paths import Path
from engine.motion.profile import elapsed
from engine.motion.values import BallEvent, BallKind, Run, Timeline
from engine.script import Script
from webapp.paper.marks import Who

#: Times of a script are hundredths of a second, lengths centimetres.
_PARTS: Final = 100


def known(who: str) -> Who:
    """Return whom an actor's name stands for: players go by their numbers."""
    return int(who) if who.isdecimal() else who


def metres(x: int, y: int) -> Point:
    """Return a place of a script in metres."""
    return Point(x / _PARTS, y / _PARTS)


def seconds(time: int) -> float:
    """Return a time of a script in seconds."""
    return time / _PARTS


def runs(script: Script) -> list[Run]:
    """Return everybody's ways, an actor's name standing for the spot he began on."""
    at = {who: (x, y) for who, x, y in script.places}
    made = []
    for run in script.runs:
        way = _straight((at[run.who], *run.points))
        made.append(Run(run.who, seconds(run.start), seconds(run.lasts), way, run.style))
        at[run.who] = run.points[-1]
    return made


def timeline(script: Script) -> Timeline:
    """Return a script as a timeline, without a ball that is left on the floor or picked up from there."""
    thrown = []
    kinds: dict[str, BallKind] = {"pass": "pass", "hand": "hand", "shot": "shot"}
    for event in script.events:
        if event.kind in kinds:
            taker = str(event.taker) if event.taker else None
            times = seconds(event.start), seconds(event.end)
            thrown.append(BallEvent(kinds[event.kind], *times, str(event.giver), taker))
    places = {who: metres(x, y) for who, x, y in script.places}
    end = seconds(script.lasts)
    holder = str(script.ball) if isinstance(script.ball, int) else ""
    return Timeline(end, end, tuple(runs(script)), tuple(thrown), holder, places)


def corners(run: Run) -> list[float]:
    """Return after which shares of its time a run of straight pieces turns."""
    points = run.path.controls[::3]
    along, made = 0.0, []
    for (x0, y0), (x1, y1) in pairwise(points[:-1]):
        along += hypot(x1 - x0, y1 - y0) / _PARTS
        made.append(elapsed(along / run.path.length if run.path.length else 1.0))
    return made


def extent(script: Script) -> list[Point]:
    """Return every place that a drawing of the script has to show."""
    points = [(x, y) for _, x, y in script.places]
    points += [point for run in script.runs for point in run.points]
    points += [event.place for event in script.events if event.place is not None]
    if not isinstance(script.ball, int):
        points.append(script.ball)
    return [metres(x, y) for x, y in points]


def _straight(points: Sequence[tuple[int, int]]) -> Path:
    """Return the route of straight pieces through ``points``; standing still is a route of no length."""
    controls = [points[0]]
    for (x0, y0), (x1, y1) in pairwise(points):
        controls += [
            (round(x0 + (x1 - x0) / 3), round(y0 + (y1 - y0) / 3)),
            (round(x0 + 2 * (x1 - x0) / 3), round(y0 + 2 * (y1 - y0) / 3)),
            (x1, y1),
        ]
    return Path(tuple(controls))
