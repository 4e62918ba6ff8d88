"""The default lane choice: what a waiting cutter does when the coach goes straight on with the ball."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from types import MappingProxyType
from typing import Final

from engine.floor.alignment import Alignment
from engine.floor.formations import POSTS, Formation, Side, side_of
from engine.game.moves import legal
from engine.rules.actions import Action
from engine.rules.movements import OTHER
from engine.rules.rule_sets import DEFAULT, RuleSet


def default_choice(
    alignment: Alignment, formation: Formation, rules: RuleSet = DEFAULT, tendency: Sequence[str] = ()
) -> Action | None:
    """Return what a cutter does unless told otherwise, or ``None`` when no cutter is waiting.

    That is the first of his own ``tendency`` (text forms or kinds of lane choices) that is legal, else the
    first place of the set that is free (``cutter`` of :class:`RuleSet`). Also ``None`` if there is no empty
    perimeter spot, as a coach's own rules can bring about.
    """
    if alignment.cutter is None or alignment.over:
        return None
    if tendency:
        choices = [action for action in legal(alignment, formation, rules) if action.is_lane_choice]
        for wish in tendency:
            found = next((action for action in choices if wish in (action.text, action.kind)), None)
            if found is not None:
                return found
    for place in (*rules.cutter, "near_ball"):
        choice = _PLACES[place](alignment, formation, rules)
        if choice is not None:
            return choice
    return None


def _near_ball(alignment: Alignment, formation: Formation, rules: RuleSet) -> Action | None:
    """To an empty home spot, else to any empty one: the nearest to the ball."""
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


def _ball_corner(alignment: Alignment, formation: Formation, rules: RuleSet) -> Action | None:
    """To the corner on the ball's side; a ball in the middle has none."""
    return _to_corner(side_of(alignment.ball), alignment, formation)


def _far_corner(alignment: Alignment, formation: Formation, rules: RuleSet) -> Action | None:
    """To the corner away from the ball."""
    return _to_corner(_weak(alignment, formation), alignment, formation)


def _to_corner(side: Side, alignment: Alignment, formation: Formation) -> Action | None:
    corner = f"{side}_corner"
    return Action("fill", corner) if corner in formation.ring and corner not in alignment.occupied else None


def _weak_side(alignment: Alignment, formation: Formation, rules: RuleSet) -> Action | None:
    """To an empty spot of the side away from the ball: a home spot first, then the nearest to the corner."""
    ring, side = formation.ring, _weak(alignment, formation)
    empty = [spot for spot in ring if side_of(spot) == side and spot not in alignment.occupied]
    if side == "right":
        empty.reverse()  # from the corner on
    empty.sort(key=lambda spot: spot not in formation.home)
    return Action("fill", empty[0]) if empty else None


def _post(alignment: Alignment, formation: Formation, rules: RuleSet) -> Action | None:
    """To the first post that is open, the ball's side first."""
    side = side_of(alignment.ball)
    open_posts = [action for action in legal(alignment, formation, rules) if action.kind == "post_up"]
    return min(open_posts, key=lambda action: side_of(action.spot or "") != side, default=None)


def _weak(alignment: Alignment, formation: Formation) -> Side:
    """Return the side away from the ball; from the middle that with fewer players, then the left."""
    ball = side_of(alignment.ball)
    if ball != "middle":
        return OTHER[ball]
    ring = [side_of(spot) for spot in formation.ring if spot in alignment.occupied]
    return "left" if ring.count("left") <= ring.count("right") else "right"


_PLACES: Final[Mapping[str, Callable[[Alignment, Formation, RuleSet], Action | None]]] = MappingProxyType(
    {
        "near_ball": _near_ball,
        "ball_corner": _ball_corner,
        "far_corner": _far_corner,
        "weak_side": _weak_side,
        "post": _post,
    }
)


def _from_ring(index: int, alignment: Alignment, formation: Formation) -> tuple[int, int, int]:
    side = side_of(formation.ring[index])
    same_side = sum(spot in alignment.occupied and side_of(spot) == side for spot in formation.ring)
    steps = abs(index - formation.index(alignment.ball))
    return steps, 0 if side == "middle" else same_side, index


def _from_post(index: int, ball: str, formation: Formation) -> tuple[bool, float, int]:
    side = side_of(ball)
    opposite = side == "middle" or side_of(formation.ring[index]) == OTHER[side]
    return not opposite, abs(index - (len(formation.ring) - 1) / 2), index
