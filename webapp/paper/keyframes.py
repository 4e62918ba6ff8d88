"""The film of a chain's papers, and the times between which everything in it moves evenly."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from engine.floor.court import Point
from engine.motion.film import THROWN, Film, Who, standing
from engine.script import ACTORS
from engine.script.laying import corners, metres
from webapp.paper.filming import add, begin
from webapp.paper.sheet import Sheet

#: Pieces a run is sampled in: enough that straight lines between them stay within 3 cm of it.
PIECES: Final = 20

#: Times so near to each other are one, seconds.
_AT_ONCE: Final = 1e-6


def film(sheet: Sheet, breath: float | None = None) -> Film:
    """Return the film of a sheet's steps; ``breath``: as in ``Film``."""
    stood = sheet.stood(sheet.start)
    made = standing(
        {who: place for who, place in stood.items() if isinstance(who, int)}, sheet.holder(None), breath
    )
    if sheet.acts and sheet.acts[0].lies is not None:
        made.holder, made.lies = 0, metres(*sheet.acts[0].lies)
    if sheet.acts:
        begin(made, dict(sheet.acts[0].extras))
    for act in sheet.acts:
        add(made, act, sheet.court, sheet.formation, sheet.level)
    return made


def extras(film: Film) -> tuple[str, ...]:
    """Return whoever is in a drawing beside the five: defenders, a coach, cones."""
    return tuple(who for who in ACTORS if who in film.shown)


def keys(film: Film, who: Who) -> list[tuple[float, Point]]:
    """Return times and places between which somebody moves evenly; of an extra only while he is there."""
    times = {0.0, film.end}.union(*(_times(film, who)))
    if isinstance(who, str):
        spans = [(begin, min(end, film.end)) for begin, end in film.shown[who]]
        times = times.union(*spans)
        times = {t for t in times if any(begin <= t <= end for begin, end in spans)}
    return [(t, film.position(who, t)) for t in sorted(times)]


def ball_keys(film: Film) -> list[tuple[float, Point]]:
    """Return the times and places between which the ball moves evenly."""
    times = {t for player in film.players for t, _ in keys(film, player)}
    for toss in film.tosses:
        if toss.kind in THROWN:
            times = {t for t in times if not toss.start < t < toss.end}
        times |= {toss.start, min(toss.end, film.end)}
    return [(t, film.ball_position(t)) for t in sorted(times)]


def is_lying(film: Film, t: float) -> bool:
    """Whether the ball is on the floor at ``t``, or just leaves it."""
    leaves = any(toss.out is not None and abs(toss.start - t) < _AT_ONCE for toss in film.tosses)
    return leaves or film.lying(t) is not None


def _times(film: Film, who: Who) -> Iterable[set[float]]:
    for leg in film.legs[who]:
        yield {leg.start + leg.duration * i / PIECES for i in range(PIECES + 1)}
        yield {leg.start + leg.duration * part for part in corners(leg.path)}
