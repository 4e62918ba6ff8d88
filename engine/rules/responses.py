"""Who answers how: picks the movement of everybody's narrowest role and puts them together to one plan."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Final, NamedTuple

from engine.floor.formations import LANE, POSTS, Formation, Side, side_of
from engine.rules.actions import Direction
from engine.rules.answers import MOVES, Work, goal_of
from engine.rules.movements import Plan
from engine.rules.roles import Situation, inside_roles, roles_of
from engine.rules.rule_sets import RuleSet
from engine.rules.vocabulary import LEVELS

_INSIDE: Final = frozenset((*POSTS, *LANE))

#: Movements of those who stay where they are, whatever the others do.
_STANDS: Final = frozenset(("stay", "hold"))


@dataclass(frozen=True, slots=True)
class Fault:
    """Why a rule set cannot say what happens: ``kind`` is no_response, two_responses, nowhere, same_spot."""

    kind: str
    spot: str
    detail: tuple[str, ...] = ()


def respond(scene: Situation, rules: RuleSet) -> tuple[Plan, tuple[Fault, ...]]:
    """Return where everybody goes, and every fault met on the way (a faulty player stays)."""
    given, fixed = scene.given, scene.fixed
    # Perimeter players do not look at who stands inside, unless the action itself is about him.
    near = scene.occupied.difference(_INSIDE).union(given, fixed)
    ring = _on_ring(
        scene.formation,
        scene.trigger,
        near,
        scene.b,
        scene.goal,
        scene.side,
        tuple(given.items()),
        tuple(fixed.items()),
        scene.direction,
        scene.baseline,
        scene.left,
        scene.gone & near,
        rules,
    )
    there = scene.occupied - scene.gone
    others = there - near
    inside, unsaid = _inside(others, scene.trigger, scene.side, rules)
    plan, stuck, ends = dict(ring.plan), ring.stuck, ring.ends | others
    if ring.inside or inside:
        team = Work(scene, rules.posts_in(scene.formation), plan, ring.groups)
        stuck = (*stuck, *_move_posts(team, {**ring.inside, **inside}, there))
        ends = frozenset(plan[spot][0] if spot in plan else spot for spot in there)
    if ring.unsaid and unsaid:
        unsaid = tuple(sorted((*ring.unsaid, *unsaid), key=lambda fault: fault.spot))
    faults = (*(unsaid or ring.unsaid), *stuck)
    # Two who are sent to one spot; the lane counts as one, as only one player may be in it.
    if len(ends) < len(there) or len(ends.intersection(LANE)) > 1:
        faults = (*faults, *_collisions(there, plan))
    return plan, faults


class _Ring(NamedTuple):
    """What the perimeter players do: the plan so far, and by movement the ring indices of who makes it.

    ``ends``: where they and those the action is about then stand. ``inside``: movements of those of them who
    stand inside, still to be made. ``unsaid``: faults of players with no response, or two. ``stuck``: of
    those with nowhere to go.
    """

    plan: Plan
    groups: dict[str, list[int]]
    ends: frozenset[str]
    inside: dict[str, tuple[str, ...]]
    unsaid: tuple[Fault, ...]
    stuck: tuple[Fault, ...]


@lru_cache(maxsize=16384)
def _on_ring(
    formation: Formation,
    trigger: str,
    occupied: frozenset[str],
    b: int | None,
    goal: int | None,
    side: Side,
    given: tuple[tuple[str, str], ...],
    fixed: tuple[tuple[str, tuple[str, str]], ...],
    direction: Direction | None,
    baseline: bool,
    left: str | None,
    gone: frozenset[str],
    rules: RuleSet,
) -> _Ring:
    """Return what the perimeter players of a scene do; it is not to be changed."""
    scene = Situation(
        formation, trigger, occupied, b, goal, side, dict(given), dict(fixed), direction, baseline, left, gone
    )
    ring = formation.ring
    there = occupied - gone
    chosen, unsaid = _choose(scene, there, rules)
    plan, stuck = dict(fixed), []
    team = Work(scene, rules.posts_in(formation), plan)
    men = [spot for spot in ring if spot in chosen]
    for spot in men:
        team.groups.setdefault(chosen[spot][0], []).append(ring.index(spot))
    # Those who look at the others last, the nearest to the ball first; posts then look for what is open to
    # them at that moment.
    nearest = goal_of(scene) or 0
    men.sort(key=lambda s: (chosen[s][0] == "fill_one", abs(ring.index(s) - nearest)))
    for spot in men:
        target = _first(spot, chosen[spot], team)
        if target is None:
            stuck.append(Fault("nowhere", spot, chosen[spot]))
        elif target[0] != spot or target[1] == "roll":
            plan[spot] = target
    ends = frozenset(plan[spot][0] if spot in plan else spot for spot in there)
    inside = {spot: found for spot, found in chosen.items() if spot in _INSIDE and found[0] not in _STANDS}
    return _Ring(plan, team.groups, ends, inside, unsaid, tuple(stuck))


@lru_cache(maxsize=4096)
def _inside(
    spots: frozenset[str], trigger: str, side: Side, rules: RuleSet
) -> tuple[dict[str, tuple[str, ...]], tuple[Fault, ...]]:
    """Return the movements still to be made by those inside whom the action is not about, and the faults."""
    roles = {spot: inside_roles(spot, side) for spot in sorted(spots)}
    chosen, unsaid = _chosen(roles, trigger, rules)
    return {spot: found for spot, found in chosen.items() if found[0] not in _STANDS}, unsaid


def _move_posts(team: Work, chosen: dict[str, tuple[str, ...]], there: frozenset[str]) -> list[Fault]:
    """Put the movements of the posts into the plan; return a fault for each who has nowhere to go."""
    stuck, plan = [], team.plan
    team.now = {plan[spot][0] if spot in plan else spot for spot in there}
    for spot in _post_order(team.scene, chosen):
        target = _first(spot, chosen[spot], team)
        if target is None:
            stuck.append(Fault("nowhere", spot, chosen[spot]))
        elif target[0] != spot or target[1] == "roll":
            plan[spot] = target
            team.now = team.now - {spot} | {target[0]}
    return stuck


def _choose(
    scene: Situation, spots: frozenset[str], rules: RuleSet
) -> tuple[dict[str, tuple[str, ...]], tuple[Fault, ...]]:
    """Return the movements of the players on ``spots`` who do not act themselves, and the faults."""
    roles = {spot: roles_of(scene, spot) for spot in sorted(spots)}
    chosen, faults = _chosen(roles, scene.trigger, rules)
    return {spot: found for spot, found in chosen.items() if spot not in scene.fixed}, faults


def _chosen(
    roles_at: Mapping[str, Sequence[str]], trigger: str, rules: RuleSet
) -> tuple[dict[str, tuple[str, ...]], tuple[Fault, ...]]:
    chosen: dict[str, tuple[str, ...]] = {}
    faults: list[Fault] = []
    for spot, roles in roles_at.items():
        if roles:
            found, fault = _pick(tuple(roles), trigger, rules)
            if fault is None:
                chosen[spot] = found
            else:
                faults.append(Fault(fault, spot, found))
    return chosen, tuple(faults)


def _post_order(scene: Situation, chosen: dict[str, tuple[str, ...]]) -> list[str]:
    posts = [post for post in POSTS if post in chosen]
    if len(posts) < 2:
        return posts
    rank = {scene.side: 0, "middle": 1}
    return sorted(posts, key=lambda post: (rank.get(side_of(post), 2), POSTS.index(post)))


def _collisions(there: frozenset[str], plan: Plan) -> list[Fault]:
    """Find two players sent to one spot; the lane counts as one, as only one player may be in it."""
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


def _first(spot: str, movements: tuple[str, ...], team: Work) -> tuple[str, str] | None:
    for movement in movements:
        target = MOVES[movement](spot, team, movement)
        if target is not None:
            return target
    return None
