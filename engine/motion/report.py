"""What a movement amounts to: how long it takes, how far each player runs, and the time spent in the lane."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Final, Generic, TypeVar

from engine.floor.court import Court
from engine.floor.markings import Point
from engine.motion.film import Film, Leg
from engine.motion.values import Run, Timeline

#: Players are spots (of a timeline) or numbers (of a film).
Who = TypeVar("Who", str, int)

#: How finely the clock is looked at for time in the lane, seconds.
TICK_S: Final = 0.02


@dataclass(frozen=True, slots=True)
class Lane:
    """Seconds in the lane without the ball: all together, and the longest stay."""

    total: float
    longest: float


@dataclass(frozen=True, slots=True)
class Figures(Generic[Who]):
    """``seconds``: the duration on the play clock. ``metres``, ``lane``: by player."""

    seconds: float
    metres: dict[Who, float]
    lane: dict[Who, Lane]


def of_timeline(line: Timeline, players: Iterable[str], court: Court) -> Figures[str]:
    """Report on one timeline; ``players``: the spots of all five before it."""
    everybody = sorted(players)
    runs = {origin: line.runs_of.get(origin, ()) for origin in everybody}
    return Figures(line.end, _metres(runs), _lane(everybody, line.position, line.holder_at, line.end, court))


def of_film(film: Film, court: Court) -> Figures[int]:
    """Report on a film of steps by rule, by player number."""
    everybody = film.players
    lane = _lane(everybody, film.position, film.holder_at, film.end, court)
    return Figures(film.end, _metres({who: film.legs[who] for who in everybody}), lane)


def _metres(runs: Mapping[Who, Sequence[Run] | Sequence[Leg]]) -> dict[Who, float]:
    return {who: sum(run.path.length for run in his) for who, his in runs.items()}


def _lane(
    players: Sequence[Who],
    position: Callable[[Who, float], Point],
    holder: Callable[[float], Who | None],
    end: float,
    court: Court,
) -> dict[Who, Lane]:
    ticks = int(end / TICK_S) + 1
    holders = [holder(tick * TICK_S) for tick in range(ticks)]
    found = {}
    for who in players:
        total = longest = stay = 0
        for tick in range(ticks):
            if holders[tick] != who and court.in_lane(position(who, tick * TICK_S)):
                total, stay = total + 1, stay + 1
                longest = max(longest, stay)
            else:
                stay = 0
        found[who] = Lane(total * TICK_S, longest * TICK_S)
    return found
