"""What movements ask about the floor: open posts, a drive's side, where a screener rolls to.

A *plan* says where players go, as ``{origin: (target, manner)}``; spots that do not appear stay.
"""

from __future__ import annotations

from typing import Final

from engine.floor.formations import CROWDS, POSTS, Direction, side_of

Plan = dict[str, tuple[str, str]]

OTHER: Final[dict[str, Direction]] = {"left": "right", "right": "left"}
STEP: Final[dict[str, int]] = {"left": -1, "right": 1}
_POST_SPOTS: Final = frozenset(POSTS)


def is_open(post: str, others: set[str] | frozenset[str], posts: int) -> bool:
    """Whether a post spot is open to a player, ``others`` being the spots of everybody else."""
    if post in others or not CROWDS[post].isdisjoint(others):
        return False
    return len(_POST_SPOTS & others) < posts


def drive_side(spot: str, direction: Direction) -> Direction:
    """Return the drive's side: the spot's own, or from the top and the slots the direction."""
    if spot.endswith(("wing", "corner")):
        return "left" if side_of(spot) == "left" else "right"
    return direction


def is_baseline(spot: str, direction: Direction) -> bool:
    """Whether a drive from ``spot`` is a baseline drive (else it is a middle drive)."""
    return spot.endswith(("wing", "corner")) and side_of(spot) == direction


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
