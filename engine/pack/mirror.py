"""Left and right changed over: spots, actions, alignments and steps."""

from __future__ import annotations

from functools import cache

from engine.floor.alignment import Alignment
from engine.floor.court import Court, spots
from engine.floor.formations import Formation
from engine.game.steps import BallMove, Move, Step
from engine.rules.actions import Action
from engine.rules.movements import OTHER

#: Spots this near to each other's mirror image count as mirrored, metres.
_SAME_M = 1e-6


@cache
def spot(name: str) -> str:
    """Return the spot on the other side; one in the middle is its own."""
    return "_".join(OTHER.get(part, part) for part in name.split("_"))


@cache
def action(given: Action) -> Action:
    """Return the action the other way round."""
    direction = None if given.direction is None else OTHER[given.direction]
    return Action(given.kind, None if given.spot is None else spot(given.spot), direction)


def _maybe(name: str | None) -> str | None:
    return None if name is None else spot(name)


def alignment(given: Alignment) -> Alignment:
    """Return the alignment the other way round."""
    return Alignment(
        frozenset(map(spot, given.occupied)),
        spot(given.ball),
        _maybe(given.cutter),
        given.over,
        _maybe(given.freed),
    )


def step(given: Step) -> Step:
    """Return the step the other way round."""
    moves = sorted(
        (Move(spot(move.origin), spot(move.target), move.manner) for move in given.moves),
        key=lambda move: move.origin,
    )
    ball = BallMove(given.ball.kind, spot(given.ball.origin), spot(given.ball.target))
    return Step(alignment(given.before), action(given.action), alignment(given.after), tuple(moves), ball)


def is_symmetric(court: Court, formation: Formation) -> bool:
    """Whether each spot lies where the mirror image of the spot on the other side lies."""
    places = spots(court, formation)
    return all(
        spot(name) in places
        and abs(places[spot(name)].x + place.x) < _SAME_M
        and abs(places[spot(name)].y - place.y) < _SAME_M
        for name, place in places.items()
    )
