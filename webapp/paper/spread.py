"""Players who were put on top of one another, moved apart so that every number can be read."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import combinations
from math import cos, hypot, sin
from typing import Final

from webapp.paper.floor import Plan
from webapp.paper.marks import XY

#: Rounds of moving apart; five in one corner take fewer than a hundred.
_ROUNDS: Final = 400


def spread(stand: Mapping[int, XY], seen: Plan, radius: float) -> dict[int, XY]:
    """Return the places, within the picture, moved apart no more than discs of ``radius`` need."""
    places = {n: seen.inside(place, radius) for n, place in stand.items()}
    for _ in range(_ROUNDS):
        close = [
            (a, b)
            for a, b in combinations(sorted(places), 2)
            if hypot(places[a][0] - places[b][0], places[a][1] - places[b][1]) < 2 * radius - 0.01
        ]
        if not close:
            break
        for a, b in close:
            (x0, y0), (x1, y1) = places[a], places[b]
            far = hypot(x1 - x0, y1 - y0)
            # On one spot there is no direction to move them in: each pair takes one of its own.
            turn = 0.7 * a + 1.9 * b
            dx, dy = ((x1 - x0) / far, (y1 - y0) / far) if far > 0.01 else (cos(turn), sin(turn))
            push = (2 * radius - far) / 2 + 0.5
            places[a] = seen.inside((x0 - dx * push, y0 - dy * push), radius)
            places[b] = seen.inside((x1 + dx * push, y1 + dy * push), radius)
    return places
