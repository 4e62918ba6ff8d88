"""Why an action is not legal here, in one sentence a coach can follow."""

from __future__ import annotations

from engine.floor.alignment import Alignment
from engine.floor.formations import LANE, POSTS, Formation
from engine.floor.spot_names import spot_words
from engine.game.candidates import HUB, sides_meet, too_long, view_of
from engine.rules.actions import Action
from engine.rules.movements import is_open
from engine.rules.rule_sets import RuleSet

_FROM_RING = frozenset(
    ("pass", "skip", "post_entry", "dribble_at", "hand_off", "dribble_to", "back_cut", "drive", "ball_screen")
)
_FROM_HUB = frozenset(("hub_hand_off", "hub_back_cut", "face_up"))
_TO_RING_MATE = frozenset(
    ("pass", "skip", "dribble_at", "hand_off", "back_cut", "kick_out", "back_screen", "help_screen")
) | (_FROM_HUB - {"face_up"})
_TO_EMPTY_RING = frozenset(("dribble_to", "dribble_out", "fill"))
_TO_POST_MATE = frozenset(("post_entry", "high_low", "dump_off", "post_screen"))


def reason(alignment: Alignment, action: Action, formation: Formation, rules: RuleSet) -> str:
    """Return why ``action``, known not to be legal, is not."""
    return f"{action.text!r} is not legal here: {_why(alignment, action, formation, rules)}"


def _why(alignment: Alignment, action: Action, formation: Formation, rules: RuleSet) -> str:
    if alignment.over:
        return "the possession ended with a shot."
    if not rules.has(action.kind):
        return "the team's rules do not have it."
    return (
        _why_not_now(alignment, action)
        or _why_not_there(alignment, action, formation, rules)
        or _why_not_from_here(alignment, action, formation)
        or "the team's rules have no clear response to it."
    )


def _why_not_now(alignment: Alignment, action: Action) -> str | None:
    cutter = alignment.cutter
    if cutter is None and (action.is_lane_choice or action.kind == "cutter_pass"):
        return "no cutter is waiting in the lane."
    if cutter is not None and action.kind == "ball_screen" and action.spot != cutter:
        return "while a cutter is in the lane, only he may screen."
    if cutter is not None and not action.is_lane_choice and action.kind != "ball_screen":
        return "the cutter in the lane must choose first."
    return None


def _why_not_there(alignment: Alignment, action: Action, formation: Formation, rules: RuleSet) -> str | None:
    spot, kind = action.spot, action.kind
    if spot is None:
        return None
    if kind in _TO_RING_MATE | _TO_EMPTY_RING and spot not in formation.ring:
        return f"{spot_words(spot)} is not a perimeter spot of {spot_words(formation.name)}."
    if kind in _TO_POST_MATE or kind in ("post_up", "flash"):
        if spot not in POSTS:
            return f"{spot_words(spot)} is not a post spot."
    elif kind == "ball_screen" and spot in formation.ring:
        return "only a post player or the cutter may screen the ball."
    if kind in _TO_RING_MATE | _TO_POST_MATE | {"ball_screen"}:
        if spot not in alignment.occupied:
            return f"nobody stands on the {spot_words(spot)}."
        if spot == alignment.ball:
            return f"the player on the {spot_words(spot)} has the ball."
    if kind in _TO_EMPTY_RING and spot in alignment.occupied:
        return f"the {spot_words(spot)} is taken."
    if kind in ("post_up", "flash"):
        return _why_not_post(alignment, spot, rules.posts_in(formation))
    return None


def _why_not_post(alignment: Alignment, spot: str, posts: int) -> str | None:
    others = alignment.occupied - {alignment.cutter}
    if spot in others:
        return f"the {spot_words(spot)} is taken."
    if not is_open(spot, others, 99):
        return f"a team-mate stands too close to the {spot_words(spot)}."
    if not is_open(spot, others, posts):
        return f"{posts} post players are there already."
    return None


def _why_not_from_here(alignment: Alignment, action: Action, formation: Formation) -> str | None:
    ball, kind, spot = alignment.ball, action.kind, action.spot
    on_ring = ball in formation.ring
    if kind in _FROM_RING | {"flash", "help_screen", "follow"} and not on_ring:
        return "the ball is not on the perimeter."
    if kind == "kick_out" and on_ring:
        return "the ball is on the perimeter already."
    if kind == "high_low" and ball not in POSTS:
        return "the ball is not at a post."
    if kind in ("dump_off", "dribble_out") and ball not in LANE:
        return "the ball is not in the lane."
    if kind in _FROM_HUB and ball not in HUB:
        return "the ball is not at an elbow or the high post."
    if spot is None:
        return None
    if kind in ("pass", "skip", "help_screen", "dribble_at", "hand_off", "dribble_to", "back_cut"):
        return _why_not_along_ring(kind, spot, alignment, formation)
    if kind in ("post_entry", "ball_screen", "flash", *_FROM_HUB) and not sides_meet(spot, ball):
        return f"the {spot_words(spot)} is on the other side from the ball."
    if kind == "flash" and spot not in HUB:
        return "he flashes to an elbow or the high post."
    if kind == "post_entry" and too_long(ball, spot):
        return f"the pass from the {spot_words(ball)} to the {spot_words(spot)} is too long."
    if kind == "ball_screen" and spot.endswith("short_corner"):
        return "a short corner is too far away to screen from."
    if kind == "ball_screen":
        return "no spot would be open for the screener to go to."
    return None


def _why_not_along_ring(kind: str, spot: str, alignment: Alignment, formation: Formation) -> str | None:
    view = view_of(alignment, formation)
    assert view.b is not None
    index = formation.index(spot)
    if kind == "pass" and view.between(index):
        return "a team-mate stands between, so it is a skip."
    if kind == "skip" and not view.between(index):
        return "no team-mate stands between, so it is a pass."
    if kind in ("dribble_at", "hand_off", "dribble_to") and abs(view.b - index) != 1:
        return f"the {spot_words(spot)} is not next to the ball."
    if kind == "back_cut" and view.between(index):
        return "another team-mate stands nearer to the ball on that side."
    if kind == "help_screen" and not view.between(index):
        return f"the {spot_words(spot)} is only one pass away."
    if kind == "help_screen":
        return "no post spot on that side would be open to him."
    return None
