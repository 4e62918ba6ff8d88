"""The movements everything is made of: how team-mates move when somebody acts.

Each function is pure and answers a *plan*: where the players it speaks for go, as ``{origin: (target,
manner)}``. Spots that do not appear stay. Perimeter players are given as ring indices in rising order.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Final

from engine.actions import Direction
from engine.formations import CROWDS, POSTS, Formation, Side, side_of

Plan = dict[str, tuple[str, str]]

OTHER: Final[dict[str, Direction]] = {"left": "right", "right": "left"}
STEP: Final[dict[str, int]] = {"left": -1, "right": 1}
_POST_SPOTS: Final = frozenset(POSTS)


def fill_toward(men: Iterable[int], index: int, formation: Formation) -> Plan:
    """Perimeter players close up toward ring ``index``, nearest first; one already on it stays."""
    men, ring, plan = sorted(men), formation.ring, Plan()
    for place, man in enumerate(reversed([man for man in men if man < index]), start=1):
        if man != index - place:
            plan[ring[man]] = (ring[index - place], "fill")
    for place, man in enumerate((man for man in men if man > index), start=1):
        if man != index + place:
            plan[ring[man]] = (ring[index + place], "fill")
    return plan


def rotate(men: Iterable[int], direction: Direction, formation: Formation) -> Plan:
    """Every perimeter player moves one ring index; past the last corner, along the baseline to the other."""
    ring, plan = formation.ring, Plan()
    for man in men:
        target = man + STEP[direction]
        if 0 <= target < len(ring):
            plan[ring[man]] = (ring[target], "rotate")
        else:
            plan[ring[man]] = (ring[target % len(ring)], "slide")
    return plan


def cover(men: Sequence[int], behind: int, direction: Direction, formation: Formation) -> Plan:
    """Cover behind a baseline drive from ring index ``behind``, and fill the far corner if two are there."""
    ring = formation.ring
    if direction == "right":
        side, corner = sorted((m for m in men if m < behind), reverse=True), 0
    else:
        side, corner = sorted(m for m in men if m > behind), len(ring) - 1
    if not side:
        return {}
    plan: Plan = {ring[side[0]]: (ring[behind], "cover")}
    left_behind = set(men) - {side[0]}
    if len(side) >= 2 and corner not in left_behind:
        plan[ring[side[-1]]] = (ring[corner], "fill")
    return plan


def refill(men: Sequence[int], behind: int, post_side: Side, formation: Formation) -> Plan:
    """After a post entry from ring index ``behind``: the larger group's nearest takes it, others close up."""
    before, after = [m for m in men if m < behind], [m for m in men if m > behind]
    if not before and not after:
        return {}
    if len(before) != len(after):
        from_before = len(before) > len(after)
    else:
        away_from = post_side if post_side != "middle" else side_of(formation.ring[behind])
        from_before = away_from != "left"
    nearest = before[-1] if from_before else after[0]
    plan = fill_toward((m for m in men if m != nearest), behind, formation)
    plan[formation.ring[nearest]] = (formation.ring[behind], "fill")
    return plan


def is_open(post: str, others: set[str] | frozenset[str], posts: int) -> bool:
    """Whether a post spot is open to a player, ``others`` being the spots of everybody else."""
    if post in others or not CROWDS[post].isdisjoint(others):
        return False
    return sum(spot in _POST_SPOTS for spot in others) < posts


def drive_side(spot: str, direction: Direction) -> Direction:
    """Return the drive's side: the spot's own, or from the top and the slots the direction."""
    if spot.endswith(("wing", "corner")):
        return "left" if side_of(spot) == "left" else "right"
    return direction


def is_baseline(spot: str, direction: Direction) -> bool:
    """Whether a drive from ``spot`` is a baseline drive (else it is a middle drive)."""
    return spot.endswith(("wing", "corner")) and side_of(spot) == direction


def relocate(occupied: set[str], side: Direction, baseline: bool, posts: int) -> Plan:
    """Post players make room for a drive, one after the other; ``occupied`` is after the perimeter moved."""
    now, plan = set(occupied), Plan()
    wanted = f"{side}_elbow" if baseline else f"{side}_short_corner"
    movers = [(post, wanted) for post in POSTS if post in now and side_of(post) == side]
    if not baseline and "high_post" in now:
        movers.append(("high_post", f"{OTHER[side]}_elbow"))
    for post, target in movers:
        if target != post and is_open(target, now - {post}, posts):
            now = now - {post} | {target}
            plan[post] = (target, "relocate")
    return plan


def roll_order(side: Direction, baseline: bool) -> tuple[str, ...]:
    """Return the spots a screener looks for, first to last."""
    near, far = f"{side}_block", f"{OTHER[side]}_block"
    blocks = (far, near) if baseline else (near, far)
    return (
        *blocks,
        f"{side}_elbow",
        f"{OTHER[side]}_elbow",
        "high_post",
        f"{side}_short_corner",
        f"{OTHER[side]}_short_corner",
    )
