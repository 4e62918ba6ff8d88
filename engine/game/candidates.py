"""Which actions' own conditions hold in an alignment, whatever the responses to them."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Final

from engine.floor.alignment import Alignment
from engine.floor.formations import POSTS, Formation, side_of
from engine.rules.actions import DIRECTIONS, Action
from engine.rules.movements import is_open
from engine.rules.rule_sets import RuleSet

#: There are few different actions: each is made once.
_action: Final = lru_cache(maxsize=4096)(Action)

#: Posts from which a player with the ball can hand off, find a back cut or face up.
HUB = ("left_elbow", "right_elbow", "high_post")

#: Where a screener on the help side ends, first open first, by side.
HELP_POSTS = {
    "left": ("left_block", "left_short_corner", "left_elbow"),
    "right": ("right_block", "right_short_corner", "right_elbow"),
    "middle": ("high_post", "left_elbow", "right_elbow"),
}


@dataclass(slots=True)
class RingView:
    """An alignment seen from the ring: the ball's ring index, mates on the ring, mates on posts."""

    b: int | None
    mates: tuple[int, ...]
    posts: tuple[str, ...]

    def between(self, index: int) -> bool:
        """Whether a mate stands strictly between the ball, which is on the ring, and ``index``."""
        assert self.b is not None
        low, high = (self.b, index) if self.b < index else (index, self.b)
        return any(low < mate < high for mate in self.mates)


def view_of(alignment: Alignment, formation: Formation) -> RingView:
    """Return the view of an alignment."""
    occupied, ball = alignment.occupied, alignment.ball
    mates = tuple(i for i, spot in enumerate(formation.ring) if spot in occupied and spot != ball)
    posts = tuple(post for post in POSTS if post in occupied and post != ball)
    return RingView(formation.ring.index(ball) if ball in formation.ring else None, mates, posts)


def sides_meet(one: str, other: str) -> bool:
    """Whether two spots are on one side, or either is in the middle."""
    return side_of(one) == side_of(other) or "middle" in (side_of(one), side_of(other))


def too_long(passer: str, post: str) -> bool:
    """Whether a post entry is too long a pass."""
    return (passer.endswith("corner") and post == "high_post") or (
        passer == "top" and post.endswith("short_corner")
    )


def candidates(alignment: Alignment, formation: Formation, rules: RuleSet) -> list[Action]:
    """Return the installed actions whose own conditions hold, in a fixed order, ``shot`` last."""
    view = view_of(alignment, formation)
    if alignment.cutter is not None:
        found = _with_cutter(alignment, view, formation, rules)
    elif view.b is not None:
        found = _from_ring(alignment, view, formation)
    else:
        found = _from_inside(alignment, view, formation)
    return [*(action for action in found if rules.has(action.kind)), _action("shot")]


def help_post(spot: str, alignment: Alignment, posts: int) -> str | None:
    """Return the post a cutter ends on who screens the help-side defender of the mate on ``spot``."""
    others = alignment.occupied - {alignment.cutter}
    return next((post for post in HELP_POSTS[side_of(spot)] if is_open(post, others, posts)), None)


def _with_cutter(alignment: Alignment, view: RingView, formation: Formation, rules: RuleSet) -> list[Action]:
    cutter, ring, ball = alignment.cutter, formation.ring, alignment.ball
    assert cutter is not None
    posts = rules.posts_in(formation)
    others = alignment.occupied - {cutter}
    open_posts = [post for post in POSTS if is_open(post, others, posts)]
    found = [_action("fill", spot) for spot in ring if spot not in alignment.occupied]
    found += [_action("post_up", post) for post in open_posts]
    found += [_action("back_screen", ring[mate]) for mate in view.mates]
    found += [_action("post_screen", post) for post in view.posts]
    if view.b is not None:
        found += [_action("flash", post) for post in open_posts if post in HUB and sides_meet(post, ball)]
        found += [
            _action("help_screen", ring[mate])
            for mate in view.mates
            if view.between(mate) and help_post(ring[mate], alignment, posts) is not None
        ]
        found.append(_action("follow"))
    found.append(_action("cutter_pass"))
    if view.b is not None:
        found += [_action("ball_screen", cutter, direction) for direction in DIRECTIONS]
    return found


def _from_ring(alignment: Alignment, view: RingView, formation: Formation) -> list[Action]:
    ring, b = formation.ring, view.b
    assert b is not None
    spot = ring[b]
    near = {mate for mate in view.mates if not view.between(mate)}
    beside = [index for index in (b - 1, b + 1) if 0 <= index < len(ring)]
    reachable = [post for post in view.posts if sides_meet(post, spot)]
    found = [_action("pass" if mate in near else "skip", ring[mate]) for mate in view.mates]
    found += [_action("post_entry", post) for post in reachable if not too_long(spot, post)]
    for kind in ("dribble_at", "hand_off"):
        found += [_action(kind, ring[index]) for index in beside if index in view.mates]
    found += [_action("dribble_to", ring[index]) for index in beside if index not in view.mates]
    found += [_action("back_cut", ring[mate]) for mate in view.mates if mate in near]
    found += [_action("drive", None, direction) for direction in DIRECTIONS]
    found += [
        _action("ball_screen", post, direction)
        for post in reachable
        if not post.endswith("short_corner")
        for direction in DIRECTIONS
    ]
    return found


def _from_inside(alignment: Alignment, view: RingView, formation: Formation) -> list[Action]:
    ring, ball = formation.ring, alignment.ball
    found = [_action("kick_out", ring[mate]) for mate in view.mates]
    if ball not in POSTS:
        found += [_action("dump_off", post) for post in view.posts]
        return found + [_action("dribble_out", spot) for spot in ring if spot not in alignment.occupied]
    found += [_action("high_low", post) for post in view.posts]
    if ball in HUB:
        beside = [ring[mate] for mate in view.mates if sides_meet(ring[mate], ball)]
        found += [_action(kind, spot) for kind in ("hub_hand_off", "hub_back_cut") for spot in beside]
        found += [_action("face_up", None, direction) for direction in DIRECTIONS]
    return found
