"""Who answers how: picks the movement of everybody's narrowest role and puts them together to one plan."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from engine.answers import MOVES, Team, goal_of
from engine.formations import LANE, POSTS, side_of
from engine.movements import Plan
from engine.roles import Scene, roles_of
from engine.rules import RuleSet
from engine.vocabulary import LEVELS


@dataclass(frozen=True, slots=True)
class Fault:
    """Why a rule set cannot say what happens: ``kind`` is no_response, two_responses, nowhere, same_spot."""

    kind: str
    spot: str
    detail: tuple[str, ...] = ()


def respond(scene: Scene, rules: RuleSet) -> tuple[Plan, tuple[Fault, ...]]:
    """Return where everybody goes, and every fault met on the way (a faulty player stays)."""
    team = Team(scene, rules.posts_in(scene.formation), dict(scene.fixed))
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
    goal = goal_of(scene) or 0
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
    there = scene.occupied - scene.gone
    ends = {plan[spot][0] if spot in plan else spot for spot in there}
    if len(ends) == len(there) and len(ends.intersection(LANE)) < 2:
        return []
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


def _first(spot: str, movements: tuple[str, ...], team: Team) -> tuple[str, str] | None:
    for movement in movements:
        target = MOVES[movement](spot, team, movement)
        if target is not None:
            return target
    return None
