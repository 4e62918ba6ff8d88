"""Rebounding and balance: where everybody goes when a shot is taken."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from itertools import permutations
from math import cos, hypot, radians, sin
from typing import Final, Literal

from engine.floor.alignment import Alignment
from engine.floor.court import Court, half_court, places
from engine.floor.formations import Formation, Side, side_of
from engine.floor.markings import Point

Role = Literal["left_block", "right_block", "front", "middle", "ball_side"]

#: How far short of the half-way line the deepest player gets back to, and how far above the three-point
#: line the other one does, metres.
BACK_M: Final = 1.5

#: In which direction, from the basket, "the ball's side above the three-point line" lies: degrees from the
#: right along the baseline, for a ball on the right. That of a slot; common practice, no source.
BALL_SIDE_ANGLE: Final = 70.0

#: The place in front of the basket, on the mid-line, metres from the basket's centre.
FRONT_M: Final = 1.8


@dataclass(frozen=True, slots=True)
class Task:
    """What a player does on a shot: rebounding on a block or in ``front``, or getting back.

    ``middle``: to the middle of the court near the half-way line. ``ball_side``: above the three-point line.
    ``point`` in metres.
    """

    role: Role
    point: Point

    @property
    def gets_back(self) -> bool:
        """Whether he looks after the basket behind him rather than the rebound."""
        return self.role in ("middle", "ball_side")


_ORDERS: Final = tuple(permutations(range(3)))


def tasks(alignment: Alignment, court: Court, formation: Formation) -> Mapping[str, Task]:
    """Return each player's task on a shot by the ball handler of ``alignment``, by the spot he stands on.

    Of the four without the ball the two furthest from the baseline get back, the furthest to the middle;
    at equal distances the one further left is first. The other two and the shooter take the two blocks and
    the place in front by the least total running, in straight lines.
    """
    return _tasks(alignment.ball, alignment.occupied, court.standard.name, formation)


@lru_cache(maxsize=8192)
def _tasks(ball: str, occupied: frozenset[str], court_name: str, formation: Formation) -> Mapping[str, Task]:
    middle, aside, *near = sorted(occupied - {ball}, key=_depths(court_name, formation).__getitem__)
    back, aside_back = _back(side_of(ball), court_name)
    rebounders = *near, ball
    found = {middle: back, aside: aside_back}
    found.update(zip(rebounders, _nearest(rebounders, court_name, formation), strict=True))
    return found


@lru_cache(maxsize=64)
def _depths(court_name: str, formation: Formation) -> Mapping[str, tuple[float, float, str]]:
    """Return what spots are sorted by: the furthest from the baseline first, then the one further left."""
    at = places(half_court(court_name), formation)
    return {spot: (-point.y, point.x, spot) for spot, point in at.items()}


def backs(alignment: Alignment, court: Court, formation: Formation) -> tuple[str, ...]:
    """Return the spots of the two who get back on a shot, the one who goes to the middle first."""
    found = tasks(alignment, court, formation)
    return tuple(sorted((s for s in found if found[s].gets_back), key=lambda s: found[s].role != "middle"))


@lru_cache(maxsize=64)
def _back(side: Side, court_name: str) -> tuple[Task, Task]:
    """Return the tasks of those who get back, for a ball on a side."""
    court = half_court(court_name)
    along = court.standard.three_point_radius + BACK_M
    x, y = along * cos(radians(BALL_SIDE_ANGLE)), along * sin(radians(BALL_SIDE_ANGLE))
    aside = x if side == "right" else -x
    return Task("middle", Point(0.0, court.half_way - BACK_M)), Task("ball_side", Point(aside, y))


@lru_cache(maxsize=64)
def _under(court_name: str, formation: Formation) -> tuple[Task, Task, Task]:
    at = places(half_court(court_name), formation)
    return (
        Task("left_block", at["left_block"]),
        Task("front", Point(0.0, FRONT_M)),
        Task("right_block", at["right_block"]),
    )


@lru_cache(maxsize=8192)
def _nearest(rebounders: tuple[str, ...], court_name: str, formation: Formation) -> tuple[Task, ...]:
    """Return the tasks in the order of ``rebounders`` that make the least total running."""
    at = places(half_court(court_name), formation)
    wanted = _under(court_name, formation)
    far = [
        [hypot(at[spot].x - task.point.x, at[spot].y - task.point.y) for task in wanted]
        for spot in rebounders
    ]
    one, other, last = far
    # To a tenth of a millimetre, so that mirror images tie exactly and the first order wins.
    i, j, k = min(_ORDERS, key=lambda order: round(one[order[0]] + other[order[1]] + last[order[2]], 4))
    return wanted[i], wanted[j], wanted[k]
