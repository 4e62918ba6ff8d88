"""Playing: a position, a few actions in their text form, and where that leads; and what is on offer next."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from engine.actions import Action, parse
from engine.alignment import Position
from engine.errors import QuintetError
from engine.formations import Formation
from engine.lane import default_choice
from engine.moves import Step, apply, legal, resolve


@dataclass(frozen=True, slots=True)
class Offer:
    """Something that may be tapped: one action, or the default lane choice with the ball action after it."""

    actions: tuple[Action, ...]
    steps: tuple[Step, ...]

    @property
    def is_composite(self) -> bool:
        """Whether it holds a lane choice and a ball action, played and undone together."""
        return len(self.actions) == 2


class BadSequence(QuintetError):
    """An action of a sequence cannot be read or is not legal; ``at`` is its index from 0."""

    def __init__(self, sentence: str, at: int) -> None:
        super().__init__(sentence)
        self.at = at


def advance(
    position: Position, actions: Sequence[str | Action], formation: Formation
) -> tuple[Position, tuple[Step, ...]]:
    """Play ``actions`` one after the other and return the position they lead to and their steps.

    Raises ``BadSequence`` at the first one that cannot be read or is not legal; nothing is half done, as
    positions are values.
    """
    steps = []
    for at, given in enumerate(actions):
        try:
            action = parse(given) if isinstance(given, str) else given
            step = resolve(position.alignment, action, formation)
        except QuintetError as error:
            raise BadSequence(str(error), at) from error
        position = follow(position, step)
        steps.append(step)
    return position, tuple(steps)


def follow(position: Position, step: Step) -> Position:
    """Return the position after ``step``, the players carried along."""
    return position.carried(step.after, {move.origin: move.target for move in step.moves})


def offers(position: Position, formation: Formation) -> tuple[Offer, ...]:
    """Return all that may be tapped: every legal action, then, while a cutter waits, the composites.

    A composite's ball action is one that is not legal until the cutter has chosen.
    """
    alignment = position.alignment
    now = legal(alignment, formation)
    single = [Offer((action,), (apply(alignment, action, formation),)) for action in now]
    choice = default_choice(alignment, formation)
    if choice is None:
        return tuple(single)
    first = apply(alignment, choice, formation)
    following = [action for action in legal(first.after, formation) if action not in now]
    composite = [Offer((choice, a), (first, apply(first.after, a, formation))) for a in following]
    return (*single, *composite)
