"""Who answers how: picks the movement of everybody's narrowest role and puts them together to one plan."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Final, NamedTuple

from engine.floor.formations import LANE, POSTS, Side, side_of
from engine.rules.answers import MOVES, TO_A_SPOT, Work, goal_of
from engine.rules.movements import Plan
from engine.rules.roles import Situation, inside_roles, roles_of
from engine.rules.rule_sets import RuleSet
from engine.rules.vocabulary import LEVELS

_INSIDE: Final = frozenset((*POSTS, *LANE))

#: Movements of those who stay where they are, whatever the others do.
_STANDS: Final = frozenset(("stay", "hold"))

Movements = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Fault:
    """Why a rule set cannot say what happens: ``kind`` is no_response, two_responses, nowhere, same_spot."""

    kind: str
    spot: str
    detail: tuple[str, ...] = ()


class Near(NamedTuple):
    """What those do whom an action is about, and the perimeter players.

    ``plan``: where they go. ``groups``: by movement the ring indices of who makes it. ``inside``: movements
    of those of them who stand inside, still to be made. ``unsaid``: faults of players with no response, or
    two. ``stuck``: of those with nowhere to go (all who are at fault stay).
    """

    plan: Plan
    groups: dict[str, list[int]]
    inside: dict[str, Movements]
    unsaid: tuple[Fault, ...]
    stuck: tuple[Fault, ...]


class Inside(NamedTuple):
    """What the posts do, ``unsaid`` and ``stuck`` as in :class:`Near`."""

    plan: Plan
    unsaid: tuple[Fault, ...] = ()
    stuck: tuple[Fault, ...] = ()


def respond_near(scene: Situation, rules: RuleSet) -> Near:
    """Return what those near an action do; they alone are ``occupied`` in its scene.

    Perimeter players do not look at who stands inside, unless the action itself is about him. A spot that
    somebody else then stands on is no room: who has another movement for that case makes it.
    """
    formation, fixed = scene.formation, scene.fixed
    ring = formation.ring
    roles = {spot: roles_of(scene, spot) for spot in sorted(scene.occupied)}
    chosen, unsaid = _chosen(roles, scene.trigger, rules)
    men = [spot for spot in ring if spot in chosen and spot not in fixed]
    groups: dict[str, list[int]] = {}
    for spot in men:
        groups.setdefault(chosen[spot][0], []).append(ring.index(spot))
    # Those who look at the others last, the nearest to the ball first; posts then look for what is open to
    # them at that moment.
    nearest = goal_of(scene) or 0
    men.sort(key=lambda s: (chosen[s][0] == "fill_one", abs(ring.index(s) - nearest)))
    left = {spot: chosen[spot] for spot in men}
    while True:
        team = Work(scene, rules.posts_in(formation), dict(fixed), groups)
        stuck = []
        for spot in men:
            found = _first(spot, left[spot], team)
            if found is None:
                stuck.append(Fault("nowhere", spot, chosen[spot]))
                continue
            left[spot], target = found
            if target[0] != spot or target[1] == "roll":
                team.plan[spot] = target
        late = _without_room(men, left, team)
        if late is None:
            break
        left[late] = left[late][1:]
    inside = {s: do for s, do in chosen.items() if s in _INSIDE and s not in fixed and do[0] not in _STANDS}
    return Near(team.plan, groups, inside, unsaid, tuple(stuck))


def _without_room(men: Sequence[str], left: Mapping[str, Movements], team: Work) -> str | None:
    """Return who goes to a spot of his own on which somebody else then stands, and has another movement for
    that case; of several the one furthest from the ball.
    """
    scene, plan = team.scene, team.plan
    if not any(len(left[spot]) > 1 and left[spot][0] in TO_A_SPOT for spot in men):
        return None
    ends = Counter(plan[spot][0] if spot in plan else spot for spot in scene.occupied - scene.gone)
    return next(
        (
            spot
            for spot in reversed(men)
            if len(left[spot]) > 1 and left[spot][0] in TO_A_SPOT and spot in plan and ends[plan[spot][0]] > 1
        ),
        None,
    )


def respond_inside(
    scene: Situation, near: Near, others: frozenset[str], now: frozenset[str], rules: RuleSet
) -> Inside:
    """Return what the posts do: those of ``near``, and the ``others``, whom the action is not about.

    ``now``: where everybody stands once those near have moved, as far as posts look at it.
    """
    roles = {spot: inside_roles(spot, scene.side) for spot in sorted(others)}
    chosen, unsaid = _chosen(roles, scene.trigger, rules)
    chosen = near.inside | {spot: do for spot, do in chosen.items() if do[0] not in _STANDS}
    plan: Plan = {}
    stuck: list[Fault] = []
    team = Work(scene, rules.posts_in(scene.formation), near.plan, near.groups, set(now))
    for spot in _post_order(scene, chosen):
        found = _first(spot, chosen[spot], team)
        if found is None:
            stuck.append(Fault("nowhere", spot, chosen[spot]))
            continue
        _, target = found
        if target[0] != spot or target[1] == "roll":
            plan[spot] = target
            team.now = team.now - {spot} | {target[0]}
    return Inside(plan, unsaid, tuple(stuck))


def all_stand(trigger: str, side: Side, rules: RuleSet) -> bool:
    """Whether every post whom an action is not about stays where he is, and the rules say so."""
    chosen, unsaid = _chosen({post: inside_roles(post, side) for post in POSTS}, trigger, rules)
    return not unsaid and all(do[0] in _STANDS for do in chosen.values())


def _chosen(
    roles_at: Mapping[str, Sequence[str]], trigger: str, rules: RuleSet
) -> tuple[dict[str, Movements], tuple[Fault, ...]]:
    chosen: dict[str, Movements] = {}
    faults: list[Fault] = []
    for spot, roles in roles_at.items():
        if roles:
            found, fault = _pick(tuple(roles), trigger, rules)
            if fault is None:
                chosen[spot] = found
            else:
                faults.append(Fault(fault, spot, found))
    return chosen, tuple(faults)


def _post_order(scene: Situation, chosen: dict[str, Movements]) -> list[str]:
    posts = [post for post in POSTS if post in chosen]
    if len(posts) < 2:
        return posts
    rank = {scene.side: 0, "middle": 1}
    return sorted(posts, key=lambda post: (rank.get(side_of(post), 2), POSTS.index(post)))


def collisions(there: frozenset[str], plan: Plan) -> list[Fault]:
    """Find players sent to one spot; the lane counts as one, as only one player may be in it."""
    taken: dict[str, list[str]] = {}
    for spot in sorted(there):
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


def _first(spot: str, movements: Movements, team: Work) -> tuple[Movements, tuple[str, str]] | None:
    """Return the first movement that has somewhere to go, with those after it, and where it goes."""
    for at, movement in enumerate(movements):
        target = MOVES[movement](spot, team, movement)
        if target is not None:
            return movements[at:], target
    return None
