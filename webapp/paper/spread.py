"""Those who were put on top of one another, moved apart so that every number can be read."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from itertools import combinations
from math import cos, hypot, sin
from typing import Final

from webapp.paper.floor import Plan
from webapp.paper.marks import XY, Who

#: Rounds of moving apart; five in one corner take fewer than a hundred.
_ROUNDS: Final = 400
_SLACK: Final = 0.01

Room = Callable[[Who], float]


def spread(stand: Mapping[Who, XY], seen: Plan, room: Room) -> dict[Who, XY]:
    """Return the places, within the picture, moved apart no more than is needed.

    ``room``: how far from his middle others have to keep, for each. Where it can be done, players stay where
    they stand and only who else is on the floor makes way.
    """
    players: dict[Who, XY] = {who: place for who, place in stand.items() if isinstance(who, int)}
    found = _apart(players, {}, seen, room)
    if len(found) == len(stand):
        return found
    others = {who: place for who, place in stand.items() if who not in players}
    placed = found | _apart(others, found, seen, room)
    return placed if not _close(placed, room) else _apart(placed, {}, seen, room)


def _apart(stand: Mapping[Who, XY], fixed: Mapping[Who, XY], seen: Plan, room: Room) -> dict[Who, XY]:
    """Return the places moved apart from each other, and away from those who are ``fixed``."""
    places = {who: seen.inside(place, room(who)) for who, place in stand.items()}
    order = {who: at for at, who in enumerate(stand, start=1)}
    for _ in range(_ROUNDS):
        close = _close({**fixed, **places}, room)
        if not close:
            break
        for a, b in close:
            here = {**fixed, **places}
            (x0, y0), (x1, y1) = here[a], here[b]
            far = hypot(x1 - x0, y1 - y0)
            # On one spot there is no direction to move them in: each pair takes one of its own.
            turn = 0.7 * order.get(a, 0) + 1.9 * order.get(b, 0)
            dx, dy = ((x1 - x0) / far, (y1 - y0) / far) if far > _SLACK else (cos(turn), sin(turn))
            push = room(a) + room(b) - far + 1.0
            if a in places and b in places:
                push /= 2
            if a in places:
                places[a] = seen.inside((x0 - dx * push, y0 - dy * push), room(a))
            if b in places:
                places[b] = seen.inside((x1 + dx * push, y1 + dy * push), room(b))
    return places


def _close(places: Mapping[Who, XY], room: Room) -> list[tuple[Who, Who]]:
    return [
        (a, b)
        for a, b in combinations(places, 2)
        if hypot(places[a][0] - places[b][0], places[a][1] - places[b][1]) < room(a) + room(b) - _SLACK
    ]
