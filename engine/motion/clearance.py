"""Whether team-mates keep clear of one another, and where they do not."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import combinations
from math import ceil
from typing import Final

from engine.motion.values import Timeline
from engine.moves import Step

#: No two team-mates come nearer than this, metres from centre to centre.
CLEAR_M: Final = 0.6

#: Screener and user, giver and receiver come shoulder to shoulder, but not through each other.
SHOULDER_M: Final = 0.4


@dataclass(frozen=True, slots=True)
class Clash:
    """Two players, by origin, who are ``metres`` apart at ``time`` seconds; the nearest moment of the two."""

    one: str
    other: str
    time: float
    metres: float


def exempt(steps: Sequence[Step]) -> frozenset[frozenset[str]]:
    """Return the pairs, by origin, that are meant to be close: screener and user, giver and receiver."""
    origin = {spot: spot for spot in steps[0].before.occupied}
    found = set()
    for step in steps:
        ball, by = step.ball.origin, {move.manner: move.origin for move in step.moves}
        if step.action.kind == "ball_screen" and step.action.spot is not None:
            found.add(frozenset((origin[step.action.spot], origin[ball])))
        if step.ball.kind == "hand_off":
            found.add(frozenset((origin[ball], origin[by["take_hand_off"]])))
        for setter, user in (("set_screen", "screened_cut"), ("screen_away", "come_off")):
            if setter in by and user in by:
                found.add(frozenset((origin[by[setter]], origin[by[user]])))
        travel = {move.origin: move.target for move in step.moves}
        origin = {travel.get(spot, spot): who for spot, who in origin.items()}
    return frozenset(found)


def clashes(
    line: Timeline,
    standing: Iterable[str],
    allowed: frozenset[frozenset[str]],
    clear: float = CLEAR_M,
    every: float = 0.05,
) -> list[Clash]:
    """Return every pair that comes nearer than ``clear`` metres, looked at ``every`` so many seconds.

    ``allowed``: pairs that may come as near as SHOULDER_M (see :func:`exempt`).

    ``standing``: the spots of players who do not run, each checked against everybody who runs.
    """
    ticks = ceil(line.end / every) + 1
    tracks = {who: _track(line, who, ticks, every) for who in line.runs_of}
    found = []
    limits = {True: SHOULDER_M * SHOULDER_M, False: clear * clear}
    for one, other in combinations(tracks, 2):
        limit = limits[frozenset((one, other)) in allowed]
        found += _nearest(one, other, tracks[one], tracks[other], limit, every)
    for spot in standing:
        if spot in tracks:
            continue
        track = _track(line, spot, ticks, every)
        for who in tracks:
            limit = limits[frozenset((who, spot)) in allowed]
            found += _nearest(who, spot, tracks[who], track, limit, every)
    return found


def clashes_of(
    line: Timeline, one: str, other: str, allowed: frozenset[frozenset[str]], clear: float, every: float
) -> list[Clash]:
    """Return the clash of two players, if they come nearer than they may; see :func:`clashes`."""
    ticks = ceil(line.end / every) + 1
    limit = SHOULDER_M if frozenset((one, other)) in allowed else clear
    tracks = (_track(line, one, ticks, every), _track(line, other, ticks, every))
    return _nearest(one, other, *tracks, limit * limit, every)


_Track = tuple[list[float], list[float]]


def _track(line: Timeline, who: str, ticks: int, every: float) -> _Track:
    """Return x and y of a player at each tick."""
    runs = line.runs_of.get(who)
    if runs is None:
        x, y = line.places[who]
        return [x] * ticks, [y] * ticks
    xs: list[float] = []
    ys: list[float] = []
    at = 0
    for tick in range(ticks):
        t = tick * every
        while at + 1 < len(runs) and runs[at + 1].start <= t:
            at += 1
        x, y = runs[at].at(t)
        xs.append(x)
        ys.append(y)
    return xs, ys


def _nearest(one: str, other: str, a: _Track, b: _Track, limit: float, every: float) -> list[Clash]:
    squares = [
        (x - u) * (x - u) + (y - v) * (y - v) for x, y, u, v in zip(a[0], a[1], b[0], b[1], strict=True)
    ]
    least = min(squares)
    if least >= limit:
        return []
    return [Clash(one, other, squares.index(least) * every, least**0.5)]
