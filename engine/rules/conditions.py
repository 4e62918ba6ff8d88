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
from engine.words.spoken import Said

#: What an answer depends on besides ball, cutter and the action itself: who is on the action's own spot, who
#: stands on the ring, or who on the posts and in the corners beside them.
Looks = Literal["nothing", "spot", "ring", "posts"]


class Condition(NamedTuple):
    """``holds`` is asked with the view and the action's spot ("" if it has none)."""

    holds: Callable[[View, str], bool]
    refusal: Said
    looks: Looks = "nothing"


# Whose turn it is.
WAITING: Final = Condition(
    lambda view, _: view.cutter is not None, Said("refusals.conditions.no_cutter_waiting_lane")
)
NOBODY_WAITS: Final = Condition(
    lambda view, _: view.cutter is None, Said("refusals.conditions.cutter_lane_must_choose")
)
SCREENS_AS_CUTTER: Final = Condition(
    lambda view, spot: view.cutter in (None, spot), Said("refusals.conditions.while_cutter_lane_only")
)

# What the action's spot is, and who stands there.
RING_SPOT: Final = Condition(
    lambda view, spot: spot in view.formation.ring, Said("refusals.conditions.not_perimeter_spot")
)
POST_SPOT: Final = Condition(lambda _, spot: spot in POSTS, Said("refusals.conditions.not_post_spot"))
SCREENER_SPOT: Final = Condition(
    lambda view, spot: spot not in view.formation.ring,
    Said("refusals.conditions.only_post_player_or"),
)
SOMEBODY: Final = Condition(
    lambda view, spot: spot in view.occupied, Said("refusals.conditions.nobody_stands_on"), "spot"
)
NOT_THE_BALL: Final = Condition(
    lambda view, spot: spot != view.ball, Said("refusals.conditions.player_on_has_ball")
)
EMPTY: Final = Condition(
    lambda view, spot: spot not in view.occupied, Said("refusals.conditions.taken"), "spot"
)
POST_FREE: Final = Condition(
    lambda view, spot: spot not in view.others, Said("refusals.conditions.taken"), "spot"
)
POST_CLEAR: Final = Condition(
    lambda view, spot: is_open(spot, view.others, len(POSTS) + 1),
    Said("refusals.conditions.team_mate_stands_too"),
    "posts",
)
POST_ROOM: Final = Condition(
    lambda view, spot: view.taken_posts() < view.limit,
    Said("refusals.conditions.post_players_already"),
    "posts",
)

# Where the ball is.
BALL_ON_RING: Final = Condition(
    lambda view, _: view.b is not None, Said("refusals.conditions.ball_not_on_perimeter")
)
BALL_INSIDE: Final = Condition(
    lambda view, _: view.b is None, Said("refusals.conditions.ball_on_perimeter_already")
)
BALL_AT_POST: Final = Condition(
    lambda view, _: view.ball in POSTS, Said("refusals.conditions.ball_not_at_post")
)
BALL_IN_LANE: Final = Condition(lambda view, _: view.ball in LANE, Said("refusals.conditions.ball_not_lane"))
BALL_AT_HUB: Final = Condition(
    lambda view, _: view.ball in HUB, Said("refusals.conditions.ball_not_at_elbow")
)

# How far, and on which side.
ONE_PASS: Final = Condition(
    lambda view, spot: not view.has_between(spot),
    Said("refusals.conditions.team_mate_stands_between"),
    "ring",
)
OVER_A_MATE: Final = Condition(
    lambda view, spot: view.has_between(spot), Said("refusals.conditions.no_team_mate_stands"), "ring"
)
NEAREST: Final = Condition(
    lambda view, spot: not view.has_between(spot),
    Said("refusals.conditions.another_team_mate_stands"),
    "ring",
)
FURTHER: Final = Condition(
    lambda view, spot: view.has_between(spot), Said("refusals.conditions.only_one_pass_away"), "ring"
)
NEXT: Final = Condition(
    lambda view, spot: view.b is not None and abs(view.b - view.formation.index(spot)) == 1,
    Said("refusals.conditions.not_next_ball"),
)
SAME_SIDE: Final = Condition(
    lambda view, spot: sides_meet(spot, view.ball), Said("refusals.conditions.on_other_side_from")
)
HUB_SPOT: Final = Condition(lambda _, spot: spot in HUB, Said("refusals.conditions.flash_goes_elbow_or"))
SHORT_ENOUGH: Final = Condition(
    lambda view, spot: not too_long(view.ball, spot), Said("refusals.conditions.pass_from_too_long")
)
NEAR_ENOUGH: Final = Condition(
    lambda _, spot: not spot.endswith("short_corner"), Said("refusals.conditions.short_corner_too_far")
)
HELP_POST: Final = Condition(
    lambda view, spot: view.help_post(spot) is not None,
    Said("refusals.conditions.no_post_spot_on"),
    "posts",
)
