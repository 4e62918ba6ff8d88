"""Roles: a team-mate's place in an action under way, narrow to wide."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from engine.floor.formations import POSTS, Direction, Formation, Side, side_of
from engine.rules.movements import Plan
from engine.rules.vocabulary import TRIGGERS


@dataclass(slots=True)
class Situation:
    """An action under way, as the team-mates see it.

    ``b``: the ball's ring index before it, or ``None``. ``goal``: the ring index the others close up toward,
    or ``None`` when the ball has left the ring: then they refill ``b``. ``trigger``: what they respond to,
    "" where nobody does. ``side``: the drive's side, else that of the ball afterwards. ``given``: roles
    somebody has by the action itself, by spot. ``fixed``: what the action itself makes people do. ``left``:
    the spot a ``replace`` takes. ``gone``: spots that count as empty from the start.
    """

    formation: Formation
    trigger: str
    occupied: frozenset[str]
    b: int | None
    goal: int | None
    side: Side
    given: dict[str, str]
    fixed: Plan
    direction: Direction | None = None
    baseline: bool = False
    left: str | None = None
    gone: frozenset[str] = frozenset()


def roles_in(scene: Situation) -> frozenset[str]:
    """Return every role that somebody has in a scene."""
    return frozenset(role for spot in scene.occupied - scene.gone for role in roles_of(scene, spot))


def roles_of(scene: Situation, spot: str) -> list[str]:
    """Return the roles of the player on ``spot``, narrow to wide; none for one who acts himself."""
    ring = scene.formation.ring
    if spot in scene.given:
        return [scene.given[spot]]
    if spot in scene.fixed:
        return []
    if spot in ring:
        return [*_ring_roles(scene, ring.index(spot)), "perimeter"]
    return inside_roles(spot, scene.side)


def inside_roles(spot: str, side: Side) -> list[str]:
    """Return the roles, narrow to wide, of a player who stands inside; none in the lane.

    ``side``: the drive's, else that of the ball afterwards.
    """
    if spot not in POSTS:
        return []
    if side_of(spot) == "middle":
        return ["middle_posts", "posts"]
    return ["ball_side_posts" if side_of(spot) == side else "weak_side_posts", "posts"]


def _ring_roles(scene: Situation, index: int) -> list[str]:
    if scene.b is None:
        return []
    if scene.direction is None and (scene.goal is None or "next_player" not in TRIGGERS[scene.trigger]):
        return []
    mates = [i for i, s in enumerate(scene.formation.ring) if s in scene.occupied and i != scene.b]
    if scene.direction is None:
        assert scene.goal is not None
        away = [i for i in mates if (i < scene.b) == (scene.goal > scene.b)]
        return ["next_player"] if away and index == nearest(away, scene.b) else []
    ahead = (index > scene.b) == (scene.direction == "right")
    last = len(scene.formation.ring) - 1
    corner, far = (last, 0) if scene.direction == "right" else (0, last)
    found = ["drive_corner"] * (index == corner) + ["far_corner"] * (index == far)
    same = [i for i in mates if (i > scene.b) == (index > scene.b)]
    if index == nearest(same, scene.b):
        found.append("next_ahead" if ahead else "next_behind")
    return [*found, "ahead" if ahead else "behind"]


def nearest(indices: Sequence[int], index: int) -> int:
    """Return the ring index of ``indices`` nearest to ``index``, the lower of two as near."""
    return min(indices, key=lambda i: abs(i - index))
