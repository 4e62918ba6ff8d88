"""Where each movement of the vocabulary takes its player.

A movement is asked with the player's spot and the team's work in hand, and answers the spot he goes to and in
what manner, or ``None`` if it has nowhere to go for him.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Final

from engine.floor.formations import RIM, side_of
from engine.rules.movements import OTHER, Plan, is_open
from engine.rules.roles import Situation, nearest


@dataclass(slots=True)
class Work:
    """The work in hand for one scene.

    ``plan``: so far. ``groups``: ring indices of those who make a movement together. ``now``: who stands
    where at this moment, once posts look for room. ``posts``: how many posts may be taken.
    """

    scene: Situation
    posts: int
    plan: Plan
    groups: dict[str, list[int]] = field(default_factory=dict)
    now: set[str] = field(default_factory=set)


Target = tuple[str, str] | None


def _stay(spot: str, team: Work, name: str) -> Target:
    return spot, name


def _cut(spot: str, team: Work, name: str) -> Target:
    return RIM, name


def _fill(spot: str, team: Work, name: str) -> Target:
    """Close up toward the goal, nearest first; or refill the spot the ball has left."""
    scene = team.scene
    ring = scene.formation.ring
    if spot not in ring:
        return None  # a passer on a post
    here = ring.index(spot)
    # Who comes to it because his first movement has nowhere to go for him is not of the group yet.
    group = sorted({*team.groups.get(name, ()), here})
    goal = scene.goal
    if goal is None:
        if scene.b is None:
            return spot, "stay"
        goal = scene.b
        first = _refills(group, scene)
        if here == first:
            return ring[goal], "fill"
        group = [man for man in group if man != first]
    if here == goal:
        return spot, "stay"
    # Whoever stands on the goal stays there and takes nobody's place.
    same = [man for man in group if man != goal and (man < goal) == (here < goal)]
    place = sorted(same, key=lambda man: abs(man - goal)).index(here) + 1
    return ring[goal - place if here < goal else goal + place], "fill"


def _refills(group: Sequence[int], scene: Situation) -> int | None:
    assert scene.b is not None
    before, after = [m for m in group if m < scene.b], [m for m in group if m > scene.b]
    if len(before) != len(after):
        from_before = len(before) > len(after)
    else:
        away = scene.side if scene.side != "middle" else side_of(scene.formation.ring[scene.b])
        from_before = away != "left"
    nearest = before[-1:] if from_before else after[:1]
    return nearest[0] if nearest else None


def _fill_one(spot: str, team: Work, name: str) -> Target:
    """Move one spot toward the ball if it is free once the others, and those in front, have moved."""
    scene = team.scene
    ring, here = scene.formation.ring, scene.formation.ring.index(spot)
    goal = goal_of(scene)
    if goal is None or here == goal:
        return spot, "stay"
    target = ring[here + (1 if goal > here else -1)]
    plan = team.plan
    free = target not in {plan[s][0] if s in plan else s for s in scene.occupied - scene.gone - {spot}}
    return (target, "fill") if free else (spot, "stay")


def goal_of(scene: Situation) -> int | None:
    """Return the ring index that players close up toward."""
    return scene.goal if scene.goal is not None else scene.b


#: Further along the ring than this, two players are too far apart for one to screen for the other.
SCREEN_STEPS: Final = 2


def _exchange(spot: str, team: Work, name: str) -> Target:
    """Passer and next player away from the ball change places (a screen away), if he is near enough."""
    scene = team.scene
    ring = scene.formation.ring
    if scene.b is None or scene.goal is None:
        return None
    away = [
        i for i, s in enumerate(ring)
        if s in scene.occupied and i != scene.b and (i < scene.b) == (scene.goal > scene.b)
    ]  # fmt: skip
    if not away or abs(nearest(away, scene.b) - scene.b) > SCREEN_STEPS:
        return None
    if scene.given.get(spot) == "passer":
        return ring[nearest(away, scene.b)], "screen_away"
    return ring[scene.b], "come_off"


def _replace(spot: str, team: Work, name: str) -> Target:
    return None if team.scene.left is None else (team.scene.left, "replace")


def _rotate(spot: str, team: Work, name: str) -> Target:
    ring = team.scene.formation.ring
    to = ring.index(spot) + (1 if team.scene.direction == "right" else -1)
    return ring[to % len(ring)], "rotate" if 0 <= to < len(ring) else "slide"


def _cover(spot: str, team: Work, name: str) -> Target:
    """The group's nearest takes the driver's spot; its furthest fills the far corner if then empty."""
    scene = team.scene
    ring, b = scene.formation.ring, scene.b
    if b is None:
        return None
    group = sorted(team.groups.get(name, []), key=lambda man: abs(man - b))
    here = ring.index(spot)
    if not group or here == group[0]:
        return ring[b], "cover"
    corner = 0 if scene.direction == "right" else len(ring) - 1
    empty = ring[corner] not in scene.occupied or corner == group[0]
    return (ring[corner], "fill") if here == group[-1] and empty else (spot, "stay")


def _slide(spot: str, team: Work, name: str) -> Target:
    ring = team.scene.formation.ring
    return ring[len(ring) - 1 - ring.index(spot)], "slide"


def _lift(spot: str, team: Work, name: str) -> Target:
    ring = team.scene.formation.ring
    return ring[1 if ring.index(spot) == 0 else len(ring) - 2], "lift"


def _drift(spot: str, team: Work, name: str) -> Target:
    """One spot further from the driver, toward the corner; who is in it has nowhere to drift."""
    ring, b = team.scene.formation.ring, team.scene.b
    here = ring.index(spot)
    if b is None or here in (0, len(ring) - 1):
        return None
    return ring[here + (1 if here > b else -1)], "drift"


def _post_spot(kind: str, far: bool = False) -> Callable[[str, Work, str], Target]:
    def move(spot: str, team: Work, name: str) -> Target:
        side = side_of(spot) if side_of(spot) != "middle" else team.scene.side
        if side == "middle":
            return None
        target = f"{OTHER[side] if far else side}_{kind}"
        return (target, "relocate") if is_open(target, team.now - {spot}, team.posts) else None

    return move


def _to_high_post(spot: str, team: Work, name: str) -> Target:
    return ("high_post", "flash") if is_open("high_post", team.now - {spot}, team.posts) else None


def _dive(spot: str, team: Work, name: str) -> Target:
    """To the block on the ball's side; a ball in the middle has none."""
    if team.scene.side == "middle":
        return None
    block = f"{team.scene.side}_block"
    return (block, "dive") if is_open(block, team.now - {spot}, team.posts) else None


def _re_post(spot: str, team: Work, name: str) -> Target:
    return (spot, "roll" if team.scene.given.get(spot) == "screener" else "stay")


#: Every movement, by name.
MOVES: Final[Mapping[str, Callable[[str, Work, str], Target]]] = MappingProxyType(
    {
        "stay": _stay,
        "hold": _stay,
        "cut": _cut,
        "back_cut": _cut,
        "fill": _fill,
        "fill_one": _fill_one,
        "exchange": _exchange,
        "replace": _replace,
        "rotate": _rotate,
        "cover": _cover,
        "slide": _slide,
        "lift": _lift,
        "drift": _drift,
        "to_elbow": _post_spot("elbow"),
        "to_far_elbow": _post_spot("elbow", far=True),
        "to_short_corner": _post_spot("short_corner"),
        "to_opposite_block": _post_spot("block", far=True),
        "to_high_post": _to_high_post,
        "dive": _dive,
        "re_post": _re_post,
    }
)

#: Movements to one spot of the perimeter, whoever stands there: taken, it is no room.
TO_A_SPOT: Final = frozenset(("rotate", "slide", "lift", "drift", "exchange", "replace"))
