"""One act of a chain laid on a film's clock."""

from __future__ import annotations

from typing import TYPE_CHECKING

from engine.floor.court import Point, half_court, places
from engine.floor.formations import Formation
from engine.motion import timeline
from engine.motion.clock import append, get_back
from engine.motion.film import Film
from engine.script.laying import lay

if TYPE_CHECKING:
    from webapp.paper.sheet import Act


def add(film: Film, act: Act, court_name: str, formation: Formation, level: float) -> None:
    """Add what one act shows to a film of those before it."""
    court = half_court(court_name)
    if act.script is not None:
        lay(film, act.script)
    elif act.back is not None:
        get_back(film, act.back, places(court, formation), act.before.player(act.before.alignment.ball))
    else:
        append(film, timeline(act.steps, court, formation, level), dict(act.before.lineup))


def staying(film: Film) -> dict[str, Point]:
    """Return where extras stand who are still there when all of a film is over."""
    there = [who for who, spans in film.shown.items() if spans[-1][1] == float("inf")]
    return {who: film.position(who, film.end) for who in there}


def begin(film: Film, extras: dict[str, Point]) -> None:
    """Let extras stand in a film from its beginning on."""
    for who, place in extras.items():
        film.standing[who] = place
        film.legs[who] = []
        film.shown[who] = [(0.0, float("inf"))]
