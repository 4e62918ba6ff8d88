"""Playing: a position, a few actions in their text form, and where that leads; and what is on offer next."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from engine.errors import IllegalAction, QuintetError
from engine.floor.alignment import Position
from engine.floor.formations import Formation
from engine.game.lane import default_choice
from engine.game.licences import FREE, Licences, missing
from engine.game.moves import meant, resolve, steps
from engine.game.steps import Step
from engine.rules.actions import Action, parse
from engine.rules.rule_sets import DEFAULT, RuleSet
from engine.words.spoken import Said, say

#: Why nothing by rule is legal where a scripted step has left somebody off spots.
OFF_SPOTS: Final = Said("refusals.play.everybody_has_get_back")
#: No player is limited in what he may choose.
NOBODY_LIMITED: Final[Licences] = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class Offer:
    """Something that may be tapped: one action, or the default lane choice with the ball action after it."""

    actions: tuple[Action, ...]
    steps: tuple[Step, ...]

    @property
    def is_composite(self) -> bool:
        """Whether it holds a lane choice and a ball action, played and undone together."""
        return len(self.actions) == 2


@dataclass(frozen=True, slots=True)
class Withheld:
    """A legal action that is not offered because player ``number`` has no licence for it yet."""

    action: Action
    number: int


@dataclass(frozen=True, slots=True)
class Menu:
    """What may be tapped, what is withheld, and the waiting cutter's default choice, if there is one."""

    offers: tuple[Offer, ...]
    withheld: tuple[Withheld, ...]
    default: Action | None


class BadSequence(QuintetError):
    """An action of a sequence cannot be read or is not legal; ``at`` is its index from 0."""

    def __init__(self, sentence: str, at: int) -> None:
        super().__init__(sentence)
        self.at = at


def advance(
    position: Position,
    actions: Sequence[str | Action],
    formation: Formation,
    rules: RuleSet = DEFAULT,
    licences: Licences = NOBODY_LIMITED,
) -> tuple[Position, tuple[Step, ...]]:
    """Play ``actions`` one after the other and return the position they lead to and their steps.

    Raises ``BadSequence`` at the first one that cannot be read, is not legal, or that the player whose choice
    it is has no licence for; nothing is half done, as
    positions are values.
    """
    made = []
    for at, given in enumerate(actions):
        try:
            action = parse(given) if isinstance(given, str) else given
            if position.off:
                raise IllegalAction(str(OFF_SPOTS))
            action = meant(action, position.alignment)
            step = resolve(position.alignment, action, formation, rules)
            number = missing(position, action, licences) if licences else None
            if number is not None:
                raise IllegalAction(say("refusals.play.not_for_yet", text=repr(action.text), number=number))
        except QuintetError as error:
            raise BadSequence(str(error), at) from error
        position = follow(position, step)
        made.append(step)
    return position, tuple(made)


def follow(position: Position, step: Step) -> Position:
    """Return the position after ``step``, the players carried along."""
    return position.carried(step.after, step.travel)


def offers(
    position: Position, formation: Formation, rules: RuleSet = DEFAULT, licences: Licences = NOBODY_LIMITED
) -> tuple[Offer, ...]:
    """Return all that may be tapped: every legal action, then, while a cutter waits, the composites.

    A composite's ball action is one that is not legal until the cutter has chosen.
    """
    return menu(position, formation, rules, licences).offers


def menu(
    position: Position, formation: Formation, rules: RuleSet = DEFAULT, licences: Licences = NOBODY_LIMITED
) -> Menu:
    """Return what may be tapped and what is withheld because somebody has no licence for it.

    Where a scripted step has left everybody off spots, that is nothing.
    """
    if position.off:
        return Menu((), (), None)
    alignment = position.alignment
    now = steps(alignment, formation, rules)
    found = [Offer((step.action,), (step,)) for step in now]
    choice = _default(position, formation, rules, licences)
    if choice is not None:
        first = resolve(alignment, choice, formation, rules)
        known = {step.action for step in now}
        found += [
            Offer((choice, step.action), (first, step))
            for step in steps(first.after, formation, rules)
            if step.action not in known
        ]
    allowed, withheld = [], []
    for offer in found:
        number = _unlicensed(position, offer, licences) if licences else None
        if number is None:
            allowed.append(offer)
        else:
            withheld.append(Withheld(offer.actions[-1], number))
    return Menu(tuple(allowed), tuple(withheld), choice)


def _default(position: Position, formation: Formation, rules: RuleSet, licences: Licences) -> Action | None:
    cutter = position.alignment.cutter
    if cutter is None or position.alignment.over:
        return None
    licence = licences.get(position.player(cutter), FREE)
    wishes = tuple(wish for wish in licence.lane if licence.allows(wish.split(":")[0]))
    return default_choice(position.alignment, formation, rules, wishes)


def _unlicensed(position: Position, offer: Offer, licences: Licences) -> int | None:
    for step in offer.steps:
        number = missing(position, step.action, licences)
        if number is not None:
            return number
        position = follow(position, step)
    return None
