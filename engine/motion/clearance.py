"""Whether team-mates keep clear of one another, and where they do not."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from itertools import combinations
from math import ceil
from typing import Final

from engine.floor.markings import Point
from engine.game.steps import Step
from engine.motion.values import Run, Timeline

#: No two team-mates come nearer than this, metres from centre to centre.
CLEAR_M: Final = 0.6

#: Screener and user, giver and receiver come shoulder to shoulder, but not through each other.
SHOULDER_M: Final = 0.4


@dataclass(frozen=True, slots=True)
class Track:
    """Where a player is at each look, until the end of his last run: there he stays.

    ``low`` and ``high``: opposite corners of the box he keeps to.
    """

    xs: tuple[float, ...]
    ys: tuple[float, ...]
    low: Point
    high: Point


#: By origin, the tracks of those who run.
Tracks = dict[str, Track]


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
        if step.action.about.has_screener and step.action.spot is not None:
            found.add(frozenset((origin[step.action.spot], origin[ball])))
        if step.ball.kind == "hand_off":
            found.add(frozenset((origin[ball], origin[by["take_hand_off"]])))
        for setter, user in (("set_screen", "screened_cut"), ("screen_away", "come_off")):
            if setter in by and user in by:
                found.add(frozenset((origin[by[setter]], origin[by[user]])))
        travel = step.travel
        origin = {travel.get(spot, spot): who for spot, who in origin.items()}
    return frozenset(found)


#: The runs of one player, by path, start and duration.
_Runs = tuple[tuple[int, float, float], ...]
#: Of two tracks: the least square of their distance, and the look it is seen at first.
_Least = tuple[float, int]


@dataclass(slots=True)
class Memory:
    """What many timelines share: tracks, and how near to one another and to places they come.

    Always to be used with the same ``every``. ``tracks`` by runs, which are kept with them, so that the
    identities of paths stay their own; ``pairs`` by two tracks, ``places`` by a track and a place.
    ``inside``: by court and path, whether it keeps in the court.
    """

    tracks: dict[_Runs, tuple[tuple[Run, ...], Track]] = field(default_factory=dict)
    pairs: dict[tuple[int, int], _Least] = field(default_factory=dict)
    places: dict[tuple[int, Point], _Least] = field(default_factory=dict)
    inside: dict[tuple[str, tuple[tuple[int, int], ...]], bool] = field(default_factory=dict)


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
        *among(tracks, allowed, clear, every, memory),
        *beside(tracks, line, standing, allowed, clear, every, memory),
    ]


def tracks_of(line: Timeline, every: float, memory: Memory | None = None) -> Tracks:
    """Return the track of everybody who runs, with a look ``every`` so many seconds.

    ``memory`` (always used with the same ``every``) keeps all of them: many timelines share runs. Without it
    the last few thousand are kept.
    """
    if memory is None:
        return {who: _lately(runs, every) for who, runs in line.runs_of.items()}
    found: Tracks = {}
    for who, runs in line.runs_of.items():
        key = tuple([(id(run.path), run.start, run.duration) for run in runs])
        known = memory.tracks.get(key)
        if known is None:
            known = memory.tracks[key] = runs, _track(runs, every)
        found[who] = known[1]
    return found


def among(
    tracks: Tracks,
    allowed: frozenset[frozenset[str]],
    clear: float,
    every: float,
    memory: Memory | None = None,
) -> list[Clash]:
    """Return the clashes of those who run with one another; see :func:`clashes`.

    ``memory``: the one that ``tracks`` are kept in.
    """
    found = []
    most = max(clear, SHOULDER_M)
    for (one, a), (other, b) in combinations(tracks.items(), 2):
        if _are_apart(a, b.low, b.high, most):
            continue
        limit = SHOULDER_M if frozenset((one, other)) in allowed else clear
        if memory is None:
            least, look = _nearest(a, b)
        else:
            key = id(a), id(b)
            if key not in memory.pairs:
                memory.pairs[key] = _nearest(a, b)
            least, look = memory.pairs[key]
        if least < limit * limit:
            found.append(Clash(one, other, look * every, least**0.5))
    return found


def beside(
    tracks: Tracks,
    line: Timeline,
    standing: Iterable[str],
    allowed: frozenset[frozenset[str]],
    clear: float,
    every: float,
    memory: Memory | None = None,
) -> list[Clash]:
    """Return the clashes of those who run with those who stand; see :func:`clashes` and :func:`among`."""
    found = []
    most = max(clear, SHOULDER_M)
    for spot in standing:
        if spot in tracks:
            continue
        place = line.places[spot]
        for who, track in tracks.items():
            if _are_apart(track, place, place, most):
                continue
            limit = SHOULDER_M if frozenset((who, spot)) in allowed else clear
            if memory is None:
                least, look = _nearest_to(track, place)
            else:
                key = id(track), place
                if key not in memory.places:
                    memory.places[key] = _nearest_to(track, place)
                least, look = memory.places[key]
            if least < limit * limit:
                found.append(Clash(who, spot, look * every, least**0.5))
    return found


def clashes_of(
    line: Timeline, one: str, other: str, allowed: frozenset[frozenset[str]], clear: float, every: float
) -> list[Clash]:
    """Return the clash of two players, if they come nearer than they may; see :func:`clashes`."""
    tracks = {
        who: _track(line.runs_of[who], every) if who in line.runs_of else _still(line.places[who])
        for who in (one, other)
    }
    return among(tracks, allowed, clear, every)


def _track(runs: tuple[Run, ...], every: float) -> Track:
    """Return the track of a player who runs."""
    xs: list[float] = []
    ys: list[float] = []
    looks = [look * every for look in range(ceil(runs[-1].end / every) + 1)]
    begin = 0
    for at, run in enumerate(runs):
        # A run holds from its start, the first from the beginning, until the next one starts.
        until = len(looks) if at + 1 == len(runs) else bisect_left(looks, runs[at + 1].start, begin)
        run_xs, run_ys = run.along(looks[begin:until])
        xs += run_xs
        ys += run_ys
        begin = until
    return Track(tuple(xs), tuple(ys), Point(min(xs), min(ys)), Point(max(xs), max(ys)))


#: The tracks of late, by the runs themselves.
_lately: Final = lru_cache(maxsize=2048)(_track)


def _still(place: Point) -> Track:
    """Return the track of a player who stands."""
    return Track((place.x,), (place.y,), place, place)


def _are_apart(track: Track, low: Point, high: Point, clear: float) -> bool:
    """Say whether a track's box is so far from another that none come within ``clear`` metres.

    If not, they may come so near, or may not.
    """
    (left, below), (right, above) = track.low, track.high
    return (
        low[0] - right >= clear
        or left - high[0] >= clear
        or low[1] - above >= clear
        or below - high[1] >= clear
    )


def _nearest(a: Track, b: Track) -> _Least:
    more = len(b.xs) - len(a.xs)
    if more > 0:
        a_xs, a_ys, b_xs, b_ys = a.xs + a.xs[-1:] * more, a.ys + a.ys[-1:] * more, b.xs, b.ys
    else:
        a_xs, a_ys, b_xs, b_ys = a.xs, a.ys, b.xs + b.xs[-1:] * -more, b.ys + b.ys[-1:] * -more
    squares = [
        (x - u) * (x - u) + (y - v) * (y - v) for x, y, u, v in zip(a_xs, a_ys, b_xs, b_ys, strict=True)
    ]
    least = min(squares)
    return least, squares.index(least)


def _nearest_to(track: Track, place: Point) -> _Least:
    u, v = place
    squares = [(x - u) * (x - u) + (y - v) * (y - v) for x, y in zip(track.xs, track.ys, strict=True)]
    least = min(squares)
    return least, squares.index(least)
