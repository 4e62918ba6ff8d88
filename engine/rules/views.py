"""An alignment as the conditions of actions look at it: the ball, who stands on the ring, what is open."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from engine.floor.alignment import Alignment
from engine.floor.formations import POSTS, Formation, side_of
from engine.rules.movements import is_open

#: Posts from which a player with the ball can hand off, find a back cut or face up.
HUB: Final = ("left_elbow", "right_elbow", "high_post")

#: Where a screener on the help side ends, first open first, by side.
HELP_POSTS: Final = {
    "left": ("left_block", "left_short_corner", "left_elbow"),
    "right": ("right_block", "right_short_corner", "right_elbow"),
    "middle": ("high_post", "left_elbow", "right_elbow"),
}


@dataclass(slots=True)
class View:
    """``b``: the ball's ring index, if it is on the ring. ``mates``: ring indices of the others there.

    ``others``: the spots of everybody but the cutter. ``limit``: how many posts may be taken at once.
    """

    formation: Formation
    occupied: frozenset[str]
    ball: str
    cutter: str | None
    b: int | None
    mates: tuple[int, ...]
    others: frozenset[str]
    limit: int

    def has_between(self, spot: str) -> bool:
        """Whether a mate stands on the ring strictly between the ball, which is on it, and ``spot``."""
        assert self.b is not None
        low, high = sorted((self.b, self.formation.index(spot)))
        return any(low < mate < high for mate in self.mates)

    def taken_posts(self) -> int:
        """Return how many posts are taken by others than the cutter."""
        return sum(post in self.others for post in POSTS)

    def help_post(self, spot: str) -> str | None:
        """Return the post a cutter ends on who screens the help-side defender of the mate on ``spot``."""
        wanted = HELP_POSTS[side_of(spot)]
        return next((post for post in wanted if is_open(post, self.others, self.limit)), None)


def view_of(alignment: Alignment, formation: Formation, limit: int) -> View:
    """Return the view of an alignment; ``limit``: how many posts may be taken at once."""
    occupied, ball, cutter, *_ = alignment
    ring = formation.ring
    mates = tuple(i for i, spot in enumerate(ring) if spot in occupied and spot != ball)
    b = ring.index(ball) if ball in ring else None
    return View(formation, occupied, ball, cutter, b, mates, occupied - {cutter}, limit)


def sides_meet(one: str, other: str) -> bool:
    """Whether two spots are on one side, or either is in the middle."""
    return side_of(one) == side_of(other) or "middle" in (side_of(one), side_of(other))


def too_long(passer: str, post: str) -> bool:
    """Whether a post entry is too long a pass."""
    return (passer.endswith("corner") and post == "high_post") or (
        passer == "top" and post.endswith("short_corner")
    )
