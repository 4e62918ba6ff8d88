"""Who answers how: the roles team-mates have when somebody acts, and where their movements take them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Final

from engine.actions import Direction
from engine.formations import LANE, POSTS, RIM, Formation, Side, side_of
from engine.movements import OTHER, Plan, is_open
from engine.rules import RuleSet
from engine.vocabulary import LEVELS


@dataclass(frozen=True, slots=True)
class Scene:
    """An action under way, as the team-mates see it.

    ``b``: the ball's ring index before it, or ``None``. ``goal``: the ring index the others close up toward,
    or ``None`` when the ball has left the ring: then they refill ``b``. ``side``: the drive's side, else
    that of the ball afterwards. ``given``: roles somebody has by the action itself, by spot. ``fixed``: what
    the action itself makes people do. ``left``: the spot a ``replace`` takes. ``gone``: spots that count as
    empty from the start.
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


@dataclass(frozen=True, slots=True)
class Fault:
    """Why a rule set cannot say what happens: ``kind`` is no_response, two_responses, nowhere, same_spot."""

    kind: str
    spot: str
    detail: tuple[str, ...] = ()


def roles_in(scene: Scene) -> frozenset[str]:
    """Return every role that somebody has in a scene."""
    return frozenset(role for spot in scene.occupied - scene.gone for role in roles_of(scene, spot))


@dataclass(slots=True)
class _Team:
    """The work in hand for one scene: the plan so far, and who moves as a group."""

    scene: Scene
    posts: int
    plan: Plan
    groups: dict[str, list[int]] = field(default_factory=dict)
    now: set[str] = field(default_factory=set)


def respond(scene: Scene, rules: RuleSet) -> tuple[Plan, tuple[Fault, ...]]:
    """Return where everybody goes, and every fault met on the way (a faulty player stays)."""
    team = _Team(scene, rules.posts_in(scene.formation), dict(scene.fixed))
    faults: list[Fault] = []
    chosen: dict[str, tuple[str, ...]] = {}
    for spot in sorted(scene.occupied - scene.gone):
        roles = roles_of(scene, spot)
        if not roles:
            continue
        found, fault = _pick(tuple(roles), scene.trigger, rules)
        if fault is not None:
            faults.append(Fault(fault, spot, found))
        elif spot not in scene.fixed:
            chosen[spot] = found
    ring = scene.formation.ring
    men = [spot for spot in ring if spot in chosen]
    for spot in men:
        team.groups.setdefault(chosen[spot][0], []).append(ring.index(spot))
    # Perimeter players move first, those who look at the others last among them, the nearest to the ball
    # first; posts then look for what is open to them at that moment.
    goal = _goal(scene) or 0
    men.sort(key=lambda s: (chosen[s][0] == "fill_one", abs(ring.index(s) - goal)))
    for spot in (*men, *_post_order(scene, chosen)):
        if spot in POSTS and not team.now:
            team.now = {team.plan[s][0] if s in team.plan else s for s in scene.occupied - scene.gone}
        target = _first(spot, chosen[spot], team)
        if target is None:
            faults.append(Fault("nowhere", spot, chosen[spot]))
        elif target[0] != spot or target[1] == "roll":
            team.plan[spot] = target
            if spot in POSTS:
                team.now = team.now - {spot} | {target[0]}
    return team.plan, (*faults, *_collisions(scene, team.plan))


def _post_order(scene: Scene, chosen: dict[str, tuple[str, ...]]) -> list[str]:
    posts = [post for post in POSTS if post in chosen]
    rank = {scene.side: 0, "middle": 1}
    return sorted(posts, key=lambda post: (rank.get(side_of(post), 2), POSTS.index(post)))


def _collisions(scene: Scene, plan: Plan) -> list[Fault]:
    """Find two players sent to one spot; the lane counts as one, as only one player may be in it."""
    taken: dict[str, list[str]] = {}
    for spot in sorted(scene.occupied - scene.gone):
        target = plan[spot][0] if spot in plan else spot
        taken.setdefault("lane" if target in LANE else target, []).append(spot)
    return [Fault("same_spot", spot, tuple(who)) for spot, who in taken.items() if len(who) > 1]


@lru_cache(maxsize=4096)
def _pick(roles: tuple[str, ...], trigger: str, rules: RuleSet) -> tuple[tuple[str, ...], str | None]:
    """Return the movements of the narrowest of ``roles``, and ``None``; or the roles, and the fault."""
    table = rules.responses.get(trigger, {})
    for level in LEVELS:
        here = tuple(role for role in roles if role in level and role in table)
        if len({table[role] for role in here}) > 1:
            return here, "two_responses"
        if here:
            return table[here[0]], None
    return roles, "no_response"


def roles_of(scene: Scene, spot: str) -> list[str]:
    """Return the roles of the player on ``spot``, narrow to wide; none for one who acts himself."""
    ring = scene.formation.ring
    if spot in scene.given:
        return [scene.given[spot]]
    if spot in scene.fixed:
        return []
    if spot in ring:
        return [*_ring_roles(scene, ring.index(spot)), "perimeter"]
    if spot in POSTS:
        side = side_of(spot)
        if side == "middle":
            return ["middle_posts", "posts"]
        return ["ball_side_posts" if side == scene.side else "weak_side_posts", "posts"]
    return []


def _ring_roles(scene: Scene, index: int) -> list[str]:
    if scene.b is None:
        return []
    mates = [i for i, s in enumerate(scene.formation.ring) if s in scene.occupied and i != scene.b]
    if scene.direction is None:
        if scene.goal is None or scene.trigger not in ("pass", "skip"):
            return []
        away = [i for i in mates if (i < scene.b) == (scene.goal > scene.b)]
        return ["next_player"] if away and index == _nearest(away, scene.b) else []
    ahead = (index > scene.b) == (scene.direction == "right")
    last = len(scene.formation.ring) - 1
    corner, far = (last, 0) if scene.direction == "right" else (0, last)
    found = ["drive_corner"] * (index == corner) + ["far_corner"] * (index == far)
    same = [i for i in mates if (i > scene.b) == (index > scene.b)]
    if index == _nearest(same, scene.b):
        found.append("next_ahead" if ahead else "next_behind")
    return [*found, "ahead" if ahead else "behind"]


def _nearest(indices: Sequence[int], index: int) -> int:
    return min(indices, key=lambda i: abs(i - index))


def _first(spot: str, movements: tuple[str, ...], team: _Team) -> tuple[str, str] | None:
    for movement in movements:
        target = _MOVE[movement](spot, team, movement)
        if target is not None:
            return target
    return None


_Target = tuple[str, str] | None


def _stay(spot: str, team: _Team, name: str) -> _Target:
    return spot, name


def _cut(spot: str, team: _Team, name: str) -> _Target:
    return RIM, name


def _fill(spot: str, team: _Team, name: str) -> _Target:
    """Close up toward the goal, nearest first; or refill the spot the ball has left."""
    scene = team.scene
    ring, group = scene.formation.ring, team.groups.get(name, [])
    here = ring.index(spot)
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
    same = sorted((man for man in group if (man < goal) == (here < goal)), key=lambda man: abs(man - goal))
    place = same.index(here) + 1
    return ring[goal - place if here < goal else goal + place], "fill"


def _refills(group: Sequence[int], scene: Scene) -> int | None:
    assert scene.b is not None
    before, after = [m for m in group if m < scene.b], [m for m in group if m > scene.b]
    if len(before) != len(after):
        from_before = len(before) > len(after)
    else:
        away = scene.side if scene.side != "middle" else side_of(scene.formation.ring[scene.b])
        from_before = away != "left"
    nearest = before[-1:] if from_before else after[:1]
    return nearest[0] if nearest else None


def _fill_one(spot: str, team: _Team, name: str) -> _Target:
    """Move one spot toward the ball if it is free once the others, and those in front, have moved."""
    scene = team.scene
    ring, here = scene.formation.ring, scene.formation.ring.index(spot)
    goal = _goal(scene)
    if goal is None or here == goal:
        return spot, "stay"
    target = ring[here + (1 if goal > here else -1)]
    plan = team.plan
    free = target not in {plan[s][0] if s in plan else s for s in scene.occupied - scene.gone - {spot}}
    return (target, "fill") if free else (spot, "stay")


def _goal(scene: Scene) -> int | None:
    return scene.goal if scene.goal is not None else scene.b


#: Further along the ring than this, two players are too far apart for one to screen for the other.
SCREEN_STEPS: Final = 2


def _exchange(spot: str, team: _Team, name: str) -> _Target:
    """Passer and next player away from the ball change places (a screen away), if he is near enough."""
    scene = team.scene
    ring = scene.formation.ring
    if scene.b is None or scene.goal is None:
        return None
    away = [
        i for i, s in enumerate(ring)
        if s in scene.occupied and i != scene.b and (i < scene.b) == (scene.goal > scene.b)
    ]  # fmt: skip
    if not away or abs(_nearest(away, scene.b) - scene.b) > SCREEN_STEPS:
        return None
    if scene.given.get(spot) == "passer":
        return ring[_nearest(away, scene.b)], "screen_away"
    return ring[scene.b], "come_off"


def _replace(spot: str, team: _Team, name: str) -> _Target:
    return None if team.scene.left is None else (team.scene.left, "replace")


def _rotate(spot: str, team: _Team, name: str) -> _Target:
    ring = team.scene.formation.ring
    to = ring.index(spot) + (1 if team.scene.direction == "right" else -1)
    return ring[to % len(ring)], "rotate" if 0 <= to < len(ring) else "slide"


def _cover(spot: str, team: _Team, name: str) -> _Target:
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


def _slide(spot: str, team: _Team, name: str) -> _Target:
    ring = team.scene.formation.ring
    return ring[len(ring) - 1 - ring.index(spot)], "slide"


def _lift(spot: str, team: _Team, name: str) -> _Target:
    ring = team.scene.formation.ring
    return ring[1 if ring.index(spot) == 0 else len(ring) - 2], "lift"


def _post_spot(kind: str, far: bool = False) -> Callable[[str, _Team, str], _Target]:
    def move(spot: str, team: _Team, name: str) -> _Target:
        side = side_of(spot) if side_of(spot) != "middle" else team.scene.side
        if side == "middle":
            return None
        target = f"{OTHER[side] if far else side}_{kind}"
        return (target, "relocate") if is_open(target, team.now - {spot}, team.posts) else None

    return move


def _re_post(spot: str, team: _Team, name: str) -> _Target:
    return (spot, "roll" if team.scene.given.get(spot) == "screener" else "stay")


_MOVE: dict[str, Callable[[str, _Team, str], _Target]] = {
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
    "to_elbow": _post_spot("elbow"),
    "to_far_elbow": _post_spot("elbow", far=True),
    "to_short_corner": _post_spot("short_corner"),
    "to_opposite_block": _post_spot("block", far=True),
    "re_post": _re_post,
}
