"""Conditions of actions: each a question to the floor, and what is said where the answer is no.

They are asked in the order an action lists them, so that each may rely on those before it. A refusal is a
template: ``spot`` and ``ball`` are places, ``formation`` its name, ``posts`` the number allowed.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Final, Literal, NamedTuple

from engine.floor.formations import LANE, POSTS
from engine.rules.movements import is_open
from engine.rules.views import HUB, View, sides_meet, too_long

#: What an answer depends on besides ball, cutter and the action itself: who is on the action's own spot, who
#: stands on the ring, or who on the posts and in the corners beside them.
Looks = Literal["nothing", "spot", "ring", "posts"]


class Condition(NamedTuple):
    """``holds`` is asked with the view and the action's spot ("" if it has none)."""

    holds: Callable[[View, str], bool]
    refusal: str
    looks: Looks = "nothing"


# Whose turn it is.
WAITING: Final = Condition(lambda view, _: view.cutter is not None, "no cutter is waiting in the lane.")
NOBODY_WAITS: Final = Condition(
    lambda view, _: view.cutter is None, "the cutter in the lane must choose first."
)
SCREENS_AS_CUTTER: Final = Condition(
    lambda view, spot: view.cutter in (None, spot), "while a cutter is in the lane, only he may screen."
)

# What the action's spot is, and who stands there.
RING_SPOT: Final = Condition(
    lambda view, spot: spot in view.formation.ring, "{spot} is not a perimeter spot of {formation}."
)
POST_SPOT: Final = Condition(lambda _, spot: spot in POSTS, "{spot} is not a post spot.")
SCREENER_SPOT: Final = Condition(
    lambda view, spot: spot not in view.formation.ring,
    "only a post player or the cutter may screen the ball.",
)
SOMEBODY: Final = Condition(lambda view, spot: spot in view.occupied, "nobody stands on the {spot}.", "spot")
NOT_THE_BALL: Final = Condition(
    lambda view, spot: spot != view.ball, "the player on the {spot} has the ball."
)
EMPTY: Final = Condition(lambda view, spot: spot not in view.occupied, "the {spot} is taken.", "spot")
POST_FREE: Final = Condition(lambda view, spot: spot not in view.others, "the {spot} is taken.", "spot")
POST_CLEAR: Final = Condition(
    lambda view, spot: is_open(spot, view.others, len(POSTS) + 1),
    "a team-mate stands too close to the {spot}.",
    "posts",
)
POST_ROOM: Final = Condition(
    lambda view, spot: view.taken_posts() < view.limit, "{posts} post players are there already.", "posts"
)

# Where the ball is.
BALL_ON_RING: Final = Condition(lambda view, _: view.b is not None, "the ball is not on the perimeter.")
BALL_INSIDE: Final = Condition(lambda view, _: view.b is None, "the ball is on the perimeter already.")
BALL_AT_POST: Final = Condition(lambda view, _: view.ball in POSTS, "the ball is not at a post.")
BALL_IN_LANE: Final = Condition(lambda view, _: view.ball in LANE, "the ball is not in the lane.")
BALL_AT_HUB: Final = Condition(
    lambda view, _: view.ball in HUB, "the ball is not at an elbow or the high post."
)

# How far, and on which side.
ONE_PASS: Final = Condition(
    lambda view, spot: not view.has_between(spot), "a team-mate stands between, so it is a skip.", "ring"
)
OVER_A_MATE: Final = Condition(
    lambda view, spot: view.has_between(spot), "no team-mate stands between, so it is a pass.", "ring"
)
NEAREST: Final = Condition(
    lambda view, spot: not view.has_between(spot),
    "another team-mate stands nearer to the ball on that side.",
    "ring",
)
FURTHER: Final = Condition(
    lambda view, spot: view.has_between(spot), "the {spot} is only one pass away.", "ring"
)
NEXT: Final = Condition(
    lambda view, spot: view.b is not None and abs(view.b - view.formation.index(spot)) == 1,
    "the {spot} is not next to the ball.",
)
SAME_SIDE: Final = Condition(
    lambda view, spot: sides_meet(spot, view.ball), "the {spot} is on the other side from the ball."
)
HUB_SPOT: Final = Condition(lambda _, spot: spot in HUB, "he flashes to an elbow or the high post.")
SHORT_ENOUGH: Final = Condition(
    lambda view, spot: not too_long(view.ball, spot), "the pass from the {ball} to the {spot} is too long."
)
NEAR_ENOUGH: Final = Condition(
    lambda _, spot: not spot.endswith("short_corner"), "a short corner is too far away to screen from."
)
HELP_POST: Final = Condition(
    lambda view, spot: view.help_post(spot) is not None,
    "no post spot on that side would be open to him.",
    "posts",
)
