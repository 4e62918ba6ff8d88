"""A step without names: what it says of everybody and where it leads, by spots before it.

Words are kept as *templates*: a phrase's key, and for each of its parameters how to find it. Players are
found by the spot they stand on before the step: ``b`` the ball's, ``c`` the cutter's, ``a`` the action's
spot, ``r`` who has the ball afterwards, ``o`` the player himself. Spots likewise: ``t`` where he goes, ``a``
the action's, ``o`` his own, ``r`` where the ball goes. ``d`` is the action's direction. Where none of these
fits, the spot itself follows a ``=``.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import NamedTuple

from engine.floor.alignment import Alignment, Position
from engine.floor.formations import RING_NAMES
from engine.game.sentences import MORE_SAID, Phrase, words
from engine.game.steps import BallMove, Step
from engine.rules.actions import Action


class Record(NamedTuple):
    """``parts``: (spot before, spot after, template) of everybody who moves or of whom something is said.

    ``ball``: whose spot after the step has the ball. ``cutter``, ``freed``: as in an alignment, afterwards.
    """

    action: Action
    parts: tuple[tuple[str, str, str], ...]
    ball: str
    cutter: str | None
    freed: str | None
    say: str
    ball_says: str


def record(step: Step, backs: tuple[str, ...] = ()) -> Record:
    """Return the record of a step; ``backs``: on a shot, the spots of the two who get back."""
    before, after = step.before, step.after
    action, ball, more = step.action, step.ball, [m for m in step.moves if m.manner in MORE_SAID]
    named = {before.ball, ball.origin, ball.target, action.spot, before.cutter, after.cutter}
    named.update(spot for move in more for spot in move[:2])
    named.update(move.origin for move in step.moves if move.target == ball.target)
    # Of the others, nothing is said of who stands, and of who moves always the same.
    moved = [move for move in step.moves if move.origin not in named]
    parts = [(move.origin, move.target, f"{move.manner} s=t p=o") for move in moved]
    spots = before.occupied if step.is_shot else before.occupied & named
    lineup = tuple((spot, number) for number, spot in enumerate(sorted(spots), start=1))
    stands_on: dict[object, str] = {number: spot for spot, number in lineup}
    target = step.travel
    said = words(Position(before, lineup), (step,), backs)
    find = _Finder(step, stands_on)
    for number, phrase in said.who.items():
        origin = stands_on[number]
        where = target.get(origin, origin)
        if phrase[0] == "stay" and where == origin:
            continue
        template = find.template(phrase, origin, where)
        parts.append((origin, where, template))
    return Record(
        step.action,
        tuple(sorted(parts)),
        after.ball,
        after.cutter,
        after.freed,
        find.template(said.chain[0]),
        find.template(said.ball),
    )


def shot_record(step: Step, backs: tuple[str, ...]) -> Record:
    """Return the record of a shot, which is the same for all but who stands where: see :func:`record`."""
    before, after = step.before, step.after
    shoots, gets_back, rebounds, say, ball_says = _said_on_shot()
    parts = tuple(
        (spot, spot, shoots if spot == before.ball else gets_back if spot in backs else rebounds)
        for spot in sorted(before.occupied)
    )
    return Record(step.action, parts, after.ball, after.cutter, after.freed, say, ball_says)


@cache
def _said_on_shot() -> tuple[str, str, str, str, str]:
    """Return what is said of the shooter, who gets back, who rebounds, the chain and the ball on a shot."""
    spots = shooter, back, rebounder, *_ = RING_NAMES[:5]
    before = Alignment(frozenset(spots), shooter)
    step = Step(before, Action("shot"), before._replace(over=True), (), BallMove("shot", shooter, shooter))
    one = record(step, (back,))
    said = {origin: template for origin, _, template in one.parts}
    return said[shooter], said[back], said[rebounder], one.say, one.ball_says


def acts(action: Action) -> str:
    """Return whose choice an action is, as in a template: ``a``, ``b`` or ``c``."""
    return {"mate": "a", "handler": "b", "cutter": "c"}[action.about.chooser]


def needs(action: Action) -> str:
    """Return the licence an action needs, "" for none."""
    return "" if action.about.is_always else action.kind


class _Finder:
    """Puts the phrases of one step into templates."""

    def __init__(self, step: Step, stands_on: Mapping[object, str]) -> None:
        before, action = step.before, step.action
        self._stands_on = stands_on
        self._direction = action.direction
        travel = step.travel
        holder = next(s for s in before.occupied if travel.get(s, s) == step.after.ball)
        self._players = _letters({"b": before.ball, "c": before.cutter, "a": action.spot, "r": holder})
        self._spots = _letters({"a": action.spot, "r": step.ball.target})

    def template(self, phrase: Phrase, origin: str | None = None, target: str | None = None) -> str:
        """Return a phrase's template; ``origin`` and ``target`` are of the player it is about, if one is."""
        key, given = phrase
        if origin is not None and self._stands_on.get(given.get("p")) == origin:
            # Most phrases are of a player himself and no more than where he goes.
            if len(given) == 1:
                return f"{key} p=o"
            if len(given) == 2 and given.get("s") == target != origin:
                return f"{key} s=t p=o"
        parts = [key]
        for name, value in sorted(given.items(), reverse=True):
            if name == "d":
                assert value == self._direction
                parts.append("d=d")
            elif name in "pm":
                spot = self._stands_on[value]
                parts.append(f"{name}={'o' if spot == origin else self._players.get(spot, spot)}")
            elif value == origin:
                parts.append(f"{name}=o")
            else:
                spot = str(value)
                parts.append(f"{name}={'t' if spot == target else self._spots.get(spot, spot)}")
        return " ".join(parts)


def _letters(how: Mapping[str, str | None]) -> dict[str, str]:
    """Return by which letter each spot is found: the first that says it."""
    found: dict[str, str] = {}
    for letter, spot in how.items():
        if spot is not None:
            found.setdefault(spot, letter)
    return found
