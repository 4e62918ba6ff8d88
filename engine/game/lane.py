"""The default lane choice: what a waiting cutter does when the coach goes straight on with the ball."""

from __future__ import annotations

from collections.abc import Sequence

from engine.floor.alignment import Alignment
from engine.floor.formations import POSTS, Formation, side_of
from engine.game.moves import legal
from engine.rules.actions import Action
from engine.rules.movements import OTHER
from engine.rules.rule_sets import DEFAULT, RuleSet


def default_choice(
    alignment: Alignment, formation: Formation, rules: RuleSet = DEFAULT, tendency: Sequence[str] = ()
) -> Action | None:
    """Return what a cutter does unless told otherwise, or ``None`` when no cutter is waiting.

    That is the first of his own ``tendency`` (text forms or kinds of lane choices) that is legal, else the
    ``fill`` below. Also ``None`` if there is no empty perimeter spot, as a coach's own rules can bring about.
    """
    if alignment.cutter is None or alignment.over:
        return None
    if tendency:
        choices = [action for action in legal(alignment, formation, rules) if action.is_lane_choice]
        for wish in tendency:
            found = next((action for action in choices if wish in (action.text, action.kind)), None)
            if found is not None:
                return found
    empty = [i for i, spot in enumerate(formation.ring) if spot not in alignment.occupied]
    home = [i for i in empty if formation.ring[i] in formation.home]
    candidates = home or empty
    if not candidates:
        return None
    if alignment.ball in POSTS:
        best = min(candidates, key=lambda i: _from_post(i, alignment.ball, formation))
    else:
        best = min(candidates, key=lambda i: _from_ring(i, alignment, formation))
    return Action("fill", formation.ring[best])


def _from_ring(index: int, alignment: Alignment, formation: Formation) -> tuple[int, int, int]:
    side = side_of(formation.ring[index])
    same_side = sum(spot in alignment.occupied and side_of(spot) == side for spot in formation.ring)
    steps = abs(index - formation.index(alignment.ball))
    return steps, 0 if side == "middle" else same_side, index


def _from_post(index: int, ball: str, formation: Formation) -> tuple[bool, float, int]:
    side = side_of(ball)
    opposite = side == "middle" or side_of(formation.ring[index]) == OTHER[side]
    return not opposite, abs(index - (len(formation.ring) - 1) / 2), index
