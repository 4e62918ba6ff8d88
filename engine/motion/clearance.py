"""Whether team-mates keep clear of one another, and where they do not."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import combinations
from math import ceil
from typing import Final

from engine.motion.values import Run, Timeline
from engine.moves import Step

#: No two team-mates come nearer than this, metres from centre to centre.
CLEAR_M: Final = 0.6

#: Screener and user, giver and receiver come shoulder to shoulder, but not through each other.
SHOULDER_M: Final = 0.4


_Track = tuple[list[float], list[float]]

#: By origin, x and y at each look.
Tracks = dict[str, _Track]


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


#: Single runs at each look, by path, start and duration; see :func:`tracks_of`.
Memory = dict[tuple[int, float, float], tuple[Run, _Track]]


def clashes(
    line: Timeline,
    standing: Iterable[str],
    allowed: frozenset[frozenset[str]],
    clear: float = CLEAR_M,
    every: float = 0.05,
    memory: Memory | None = None,
) -> list[Clash]:
    """Return every pair that comes nearer than ``clear`` metres, looked at ``every`` so many seconds.

    ``allowed``: pairs that may come as near as SHOULDER_M (see :func:`exempt`).

    ``standing``: the spots of players who do not run, each checked against everybody who runs.
    ``memory``: see :func:`tracks_of`.
    """
    tracks = tracks_of(line, every, memory)
    return [
        *among(tracks, allowed, clear, every),
        *beside(tracks, line, standing, allowed, clear, every),
    ]


def tracks_of(line: Timeline, every: float, memory: Memory | None = None) -> Tracks:
    """Return x and y of everybody who runs, ``every`` so many seconds.

    ``memory`` (always used with the same ``every``) keeps single runs: many timelines share them.
    """
    ticks = ceil(line.end / every) + 1
    found: Tracks = {}
    for who, runs in line.runs_of.items():
        if memory is None or len(runs) > 1:
            found[who] = _track(line, who, ticks, every)
            continue
        run = runs[0]
        key = id(run.path), run.start, run.duration
        if key not in memory:
            # The run is kept with its track, so that the path's identity stays its own.
            memory[key] = run, _track(line, who, ceil(run.end / every) + 1, every)
        xs, ys = memory[key][1]
        more = ticks - len(xs)
        found[who] = (xs[:ticks] + xs[-1:] * more, ys[:ticks] + ys[-1:] * more)
    return found


def among(tracks: Tracks, allowed: frozenset[frozenset[str]], clear: float, every: float) -> list[Clash]:
    """Return the clashes of those who run with one another; see :func:`clashes`."""
    found = []
    for one, other in combinations(tracks, 2):
        limit = SHOULDER_M if frozenset((one, other)) in allowed else clear
        found += _nearest(one, other, tracks[one], tracks[other], limit * limit, every)
    return found


def beside(
    tracks: Tracks,
    line: Timeline,
    standing: Iterable[str],
    allowed: frozenset[frozenset[str]],
    clear: float,
    every: float,
) -> list[Clash]:
    """Return the clashes of those who run with those who stand; see :func:`clashes`."""
    found = []
    for spot in standing:
        if spot in tracks:
            continue
        x, y = line.places[spot]
        for who, (xs, ys) in tracks.items():
            limit = SHOULDER_M if frozenset((who, spot)) in allowed else clear
            still = [x] * len(xs), [y] * len(ys)
            found += _nearest(who, spot, (xs, ys), still, limit * limit, every)
    return found


def clashes_of(
    line: Timeline, one: str, other: str, allowed: frozenset[frozenset[str]], clear: float, every: float
) -> list[Clash]:
    """Return the clash of two players, if they come nearer than they may; see :func:`clashes`."""
    ticks = ceil(line.end / every) + 1
    limit = SHOULDER_M if frozenset((one, other)) in allowed else clear
    tracks = (_track(line, one, ticks, every), _track(line, other, ticks, every))
    return _nearest(one, other, *tracks, limit * limit, every)


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
