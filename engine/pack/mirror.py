"""Left and right changed over: spots, actions, alignments, and what is done in a step."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Final

from engine.floor.alignment import Alignment
from engine.floor.court import Court, spots
from engine.floor.formations import Formation
from engine.floor.markings import Point
from engine.game.rebounding import Role, Task
from engine.game.steps import BallMove, Move
from engine.rules.actions import Action
from engine.rules.movements import OTHER

#: Spots this near to each other's mirror image count as mirrored, metres.
_SAME_M = 1e-6

_ROLES: Final[Mapping[Role, Role]] = {"left_block": "right_block", "right_block": "left_block"}


@cache
def spot(name: str) -> str:
    """Return the spot on the other side; one in the middle is its own."""
    return "_".join(OTHER.get(part, part) for part in name.split("_"))


@cache
def action(given: Action) -> Action:
    """Return the action the other way round."""
    direction = None if given.direction is None else OTHER[given.direction]
    return Action(given.kind, None if given.spot is None else spot(given.spot), direction)


def maybe(name: str | None) -> str | None:
    """Return the spot on the other side of one there may be."""
    return None if name is None else spot(name)


def alignment(given: Alignment) -> Alignment:
    """Return the alignment the other way round."""
    return Alignment(
        frozenset(map(spot, given.occupied)),
        spot(given.ball),
        maybe(given.cutter),
        given.over,
        maybe(given.freed),
    )


@cache
def _move(given: Move) -> Move:
    return Move(spot(given.origin), spot(given.target), given.manner)


def moves(given: tuple[Move, ...]) -> tuple[Move, ...]:
    """Return the moves the other way round, again in the order of their spots' names."""
    return tuple(sorted(map(_move, given)))


@cache
def ball(given: BallMove) -> BallMove:
    """Return what the ball does the other way round."""
    return BallMove(given.kind, spot(given.origin), spot(given.target))


@cache
def task(given: Task) -> Task:
    """Return the task of the player on the other side."""
    return Task(_ROLES.get(given.role, given.role), Point(-given.point.x, given.point.y))


def is_symmetric(court: Court, formation: Formation) -> bool:
    """Whether each spot lies where the mirror image of the spot on the other side lies."""
    places = spots(court, formation)
    return all(
        spot(name) in places
        and abs(places[spot(name)].x + place.x) < _SAME_M
        and abs(places[spot(name)].y - place.y) < _SAME_M
        for name, place in places.items()
    )
