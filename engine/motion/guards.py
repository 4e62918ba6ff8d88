"""Defenders who stand in a drawing: each keeps to his man, unless it is drawn where he goes.

No more than that: until defenders play by rule they neither help nor hurry. Each begins where the drawing has
him; where his man ends he is between him and the basket.
"""

from __future__ import annotations

from collections.abc import Collection
from itertools import permutations
from math import hypot
from typing import Final

from engine.floor.markings import Point
from engine.motion.film import Film, Leg, Who
from engine.motion.speeds import GUARD_M, GUARD_SHARE

#: How defenders are called in a drawing: x1 to x5.
DEFENDER: Final = "x"
#: What a run seems to begin too early by, as times are added up.
_EARLY_S: Final = 1e-6


def keep_to_men(film: Film, start: float, cue: int, drawn: Collection[Who] = ()) -> None:
    """Add to a film what defenders do in the step ``cue``, which begins at ``start``; not those ``drawn``."""
    shown = film.shown.items()
    there = [who for who, spans in shown if who[0] == DEFENDER and spans[-1][1] == float("inf")]
    if not film.men.keys() >= set(there):
        film.men = _men(film, sorted(there), start)
    for who in sorted(set(there).difference(drawn)):
        for leg in film.legs[film.men[who]]:
            if leg.cue == cue and leg.start > start - _EARLY_S:
                film.legs[who].append(_along(film, who, leg, cue))


def _men(film: Film, defenders: list[str], t: float) -> dict[str, int]:
    """Return whom each keeps to: all together as near as they can be, the lower number where it is equal."""
    far = {
        who: {
            man: hypot(a.x - b.x, a.y - b.y)
            for man, b in ((man, film.position(man, t)) for man in film.players)
        }
        for who, a in ((who, film.position(who, t)) for who in defenders)
    }
    best = min(
        permutations(film.players, len(defenders)),
        key=lambda men: sum(far[who][man] for who, man in zip(defenders, men, strict=True)),
    )
    return dict(zip(defenders, best, strict=True))


def _along(film: Film, who: str, leg: Leg, cue: int) -> Leg:
    here, begin, end = film.position(who, leg.start), leg.path.start, leg.path.end
    far = hypot(end.x, end.y)
    off = min(GUARD_M, GUARD_SHARE * far) / far if far else 0.0
    bend, aside = Point(here.x - begin.x, here.y - begin.y), Point(-end.x * off, -end.y * off)
    return Leg(leg.start, leg.duration, leg.path, "guard", bend, cue, aside)
