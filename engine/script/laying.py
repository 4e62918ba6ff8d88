"""Laying a drawing on a film's clock: everything happens when the drawing says."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import hypot

from engine.floor.markings import Point
from engine.floor.paths import Path
from engine.motion.clock import leave, strayed
from engine.motion.film import STRAIGHT, Cue, Film, Leg, Toss, Who
from engine.motion.guards import keep_to_men
from engine.motion.profile import elapsed
from engine.motion.speeds import GLANCE_S, PLACED_M, SEEN_S, STRAY_S
from engine.script.values import Place, Script


def lay(film: Film, script: Script) -> None:
    """Add a drawing, placed on the film's court, to a film.

    The film's first step finds everybody where it begins; to a later one they go first, and whoever is not in
    it leaves.
    """
    start, cue = film.settled, len(film.cues)
    began = start + STRAY_S if cue else start
    _set_up(film, script, start)
    for who, leg in legs(script, began, cue):
        film.legs[who].append(leg)
    # A drawing says itself where defenders go; whoever it says nothing of goes with his man.
    film.men = {}
    keep_to_men(film, began, cue, {known(run.who) for run in script.runs})
    film.men = {}
    end = max(began + seconds(script.lasts), start + GLANCE_S)
    for i, event in enumerate(script.events):
        _, out = film.ball_after()
        # At least as long as can be seen, if the next leaves room for it.
        until = seconds(event.start) + SEEN_S
        if i + 1 < len(script.events):
            until = min(until, seconds(script.events[i + 1].start))
        until = began + max(seconds(event.end), until)
        place = None if event.place is None else metres(*event.place)
        toss = Toss(
            event.kind, began + seconds(event.start), until, event.giver, event.taker, cue, out, place
        )
        film.tosses.append(toss)
        end = max(end, until)
    film.cues.append(Cue(start, end, end))


def legs(script: Script, began: float = 0.0, cue: int = 0) -> list[tuple[Who, Leg]]:
    """Return everybody's ways, in order, for a drawing that begins at ``began``."""
    at = {who: (x, y) for who, x, y in script.places}
    made: list[tuple[Who, Leg]] = []
    for run in script.runs:
        way = _straight((at[run.who], *run.points))
        leg = Leg(began + seconds(run.start), seconds(run.lasts), way, run.style, STRAIGHT, cue)
        made.append((known(run.who), leg))
        at[run.who] = run.points[-1]
    return made


def corners(path: Path) -> list[float]:
    """Return after which shares of its time a run of straight pieces turns."""
    points = path.controls[::3]
    along, made = 0.0, []
    for (x0, y0), (x1, y1) in pairwise(points[:-1]):
        along += hypot(x1 - x0, y1 - y0) / 100
        made.append(elapsed(along / path.length if path.length else 1.0))
    return made


def known(who: str) -> Who:
    """Return whom an actor's name stands for: players go by their numbers."""
    return int(who) if who.isdecimal() else who


def metres(x: int, y: int) -> Point:
    """Return a place of a script in metres."""
    return Point(x / 100, y / 100)


def seconds(time: int) -> float:
    """Return a time of a script in seconds."""
    return time / 100


def _set_up(film: Film, script: Script, start: float) -> None:
    places = {known(who): metres(x, y) for who, x, y in script.places}
    if film.cues:
        _bring(film, script, start)
    else:
        film.holder = script.ball if isinstance(script.ball, int) else 0
        film.lies = None if isinstance(script.ball, int) else metres(*script.ball)
    leave(film, start, places)
    for who, place in places.items():
        if isinstance(who, str):
            _enter(film, who, place, start)
        elif film.cues:
            _go(film, who, place, start)
        else:
            film.standing[who] = place


def _go(film: Film, who: Who, place: Point, start: float) -> None:
    """To his place, if he is not there."""
    here = film.position(who, start)
    if _apart(here, place) > PLACED_M:
        film.legs[who].append(strayed(here, place, start, len(film.cues)))


def _enter(film: Film, who: str, place: Point, start: float) -> None:
    """An extra comes in, or goes on from where he is."""
    cue, spans, mine = len(film.cues), film.shown.setdefault(who, []), film.legs.setdefault(who, [])
    if spans and spans[-1][1] == float("inf"):
        _go(film, who, place, start)
        return
    if spans:  # nobody sees him change places
        mine.append(Leg(start, 0.0, _straight((_cm(place), _cm(place))), "stray", STRAIGHT, cue))
    else:
        film.standing[who] = place
    spans.append((start if cue else 0.0, float("inf")))


def _bring(film: Film, script: Script, start: float) -> None:
    """The ball comes to who is to have it, or to where it is to lie."""
    holder, lies = film.ball_after()
    to = script.ball if isinstance(script.ball, int) else 0
    place = None if isinstance(script.ball, int) else metres(*script.ball)
    is_same = to == holder if to else bool(lies and place and _apart(lies, place) <= PLACED_M)
    if not is_same:
        film.tosses.append(Toss("stray", start, start + STRAY_S, holder, to, len(film.cues), lies, place))


def _straight(points: Sequence[Place]) -> Path:
    """Return the route of straight pieces through ``points``; standing still is a route of no length."""
    controls = [points[0]]
    for (x0, y0), (x1, y1) in pairwise(points):
        controls += [
            (round(x0 + (x1 - x0) / 3), round(y0 + (y1 - y0) / 3)),
            (round(x0 + 2 * (x1 - x0) / 3), round(y0 + 2 * (y1 - y0) / 3)),
            (x1, y1),
        ]
    return Path(tuple(controls))


def _apart(a: Point, b: Point) -> float:
    return hypot(a.x - b.x, a.y - b.y)


def _cm(place: Point) -> Place:
    return round(place.x * 100), round(place.y * 100)
