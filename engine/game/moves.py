"""What is legal in an alignment, and what each action does: pure functions of immutable values."""

from __future__ import annotations

from functools import lru_cache
from typing import Final, NamedTuple

from engine.errors import AmbiguousAction, IllegalAction
from engine.floor.alignment import Alignment
from engine.floor.formations import LANE, Formation
from engine.game.candidates import candidates
from engine.game.effects import Effect, effect
from engine.rules.actions import Action
from engine.rules.responses import Fault
from engine.rules.rule_sets import DEFAULT, RuleSet


class Move(NamedTuple):
    """One player's part in a step: from a spot to a spot, and in what manner (see ``Step``)."""

    origin: str
    target: str
    manner: str


class BallMove(NamedTuple):
    """What the ball does: ``kind`` is pass, hand_off, dribble, hold or shot; spots are the holders'."""

    kind: str
    origin: str
    target: str


class Step(NamedTuple):
    """An action and all it causes.

    ``moves`` holds only those who leave their spot, in the order of their spots' names. Manners: cut,
    back_cut, screened_cut, fill, rotate, slide (along the baseline), cover, lift, drive, dribble,
    take_hand_off, replace, screen_away, come_off, relocate, roll, pop, post_up, flash, set_screen.
    """

    before: Alignment
    action: Action
    after: Alignment
    moves: tuple[Move, ...]
    ball: BallMove

    @property
    def is_freed(self) -> bool:
        """Whether the ball is caught by a mate whose defender was screened the action before."""
        return self.ball.kind == "pass" and self.before.freed == self.ball.target


@lru_cache(maxsize=65536)
def steps(alignment: Alignment, formation: Formation, rules: RuleSet = DEFAULT) -> tuple[Step, ...]:
    """Return the step of every legal action, in a fixed order: lane choices, ball actions, ``shot``."""
    return generate(alignment, formation, rules)


def generate(alignment: Alignment, formation: Formation, rules: RuleSet = DEFAULT) -> tuple[Step, ...]:
    """Work out what :func:`steps` answers, without its cache.

    An action to which the rule set gives no clear response is not legal; the checker reports it.
    """
    return outcomes(alignment, formation, rules)[0]


def outcomes(
    alignment: Alignment, formation: Formation, rules: RuleSet
) -> tuple[tuple[Step, ...], tuple[tuple[Action, Fault], ...]]:
    """Return the steps of the legal actions, and the faults of those that fail for want of a response."""
    if alignment.over:
        return (), ()
    made: list[Step] = []
    faults: list[tuple[Action, Fault]] = []
    for action in candidates(alignment, formation, rules):
        found = effect(alignment, action, formation, rules)
        if found.faults:
            faults += [(action, fault) for fault in found.faults]
        else:
            made.append(_step(alignment, action, found))
    return tuple(made), tuple(faults)


def legal(alignment: Alignment, formation: Formation, rules: RuleSet = DEFAULT) -> tuple[Action, ...]:
    """Return every legal action, in the order of :func:`steps`."""
    return tuple(step.action for step in steps(alignment, formation, rules))


def why_not(
    alignment: Alignment, action: Action, formation: Formation, rules: RuleSet = DEFAULT
) -> str | None:
    """Return ``None`` if ``action`` is legal, else one sentence that says why it is not."""
    if action in legal(alignment, formation, rules):
        return None
    from engine.game.reasons import reason

    return reason(alignment, action, formation, rules)


def find(text: str, alignment: Alignment, formation: Formation, rules: RuleSet = DEFAULT) -> Action:
    """Return the one legal action that ``text``, a text form or the beginning of one, can mean.

    Raises ``AmbiguousAction`` naming the candidates, or ``IllegalAction`` when there is none.
    """
    parts = text.split(":")
    matches = [a for a in legal(alignment, formation, rules) if a.text.split(":")[: len(parts)] == parts]
    if len(matches) > 1:
        names = " or ".join(match.text for match in matches)
        raise AmbiguousAction(f"{text!r} could mean {names}: say which.")
    if not matches:
        raise IllegalAction(f"No legal action here begins with {text!r}.")
    return matches[0]


def resolve(alignment: Alignment, action: Action, formation: Formation, rules: RuleSet = DEFAULT) -> Step:
    """Return the step that ``action`` causes; raise ``IllegalAction``, saying why, if it is not legal."""
    for step in steps(alignment, formation, rules):
        if step.action == action:
            return step
    raise IllegalAction(why_not(alignment, action, formation, rules))


def apply(alignment: Alignment, action: Action, formation: Formation, rules: RuleSet = DEFAULT) -> Step:
    """Return the step of an action known to be legal (unchecked: what it does with others is undefined)."""
    return _step(alignment, action, effect(alignment, action, formation, rules))


def _step(alignment: Alignment, action: Action, made: Effect) -> Step:
    plan, holder = made.plan, made.holder
    moves: list[Move] = []
    for origin in sorted(plan):
        target, manner = plan[origin]
        if origin != target or manner == "roll":
            moves.append(_MOVE(origin, target, manner))
    occupied = alignment.occupied
    if moves:
        occupied = occupied.difference([move[0] for move in moves]).union([move[1] for move in moves])
    ball = plan[holder][0] if holder in plan else holder
    if action.kind == "shot":
        after = Alignment(occupied, ball, alignment.cutter, True)
    else:
        # Whoever is in the lane without the ball is the cutter.
        cutter = None
        for spot in LANE:
            if spot in occupied and spot != ball:
                cutter = spot
                break
        after = Alignment(occupied, ball, cutter, False, made.freed)
    return Step(alignment, action, after, tuple(moves), _BALL_MOVE(made.ball, alignment.ball, ball))


#: Makers of values of which there are few: each is made once.
_MOVE: Final = lru_cache(maxsize=4096)(Move)
_BALL_MOVE: Final = lru_cache(maxsize=4096)(BallMove)
