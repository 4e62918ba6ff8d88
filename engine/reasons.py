"""Why an action is not legal here, in one sentence a coach can follow."""

from __future__ import annotations

from engine.actions import Action
from engine.alignment import Alignment
from engine.formations import POSTS, Formation, side_of
from engine.movements import is_open

_FROM_RING = frozenset(
    ("pass", "skip", "post_entry", "dribble_at", "hand_off", "dribble_to", "back_cut", "drive", "ball_screen")
)
_TO_RING_MATE = frozenset(("pass", "skip", "dribble_at", "hand_off", "back_cut", "kick_out", "back_screen"))
_TO_EMPTY_RING = frozenset(("dribble_to", "dribble_out", "fill"))
_TO_POST_MATE = frozenset(("post_entry", "high_low", "dump_off"))


def words(spot: str) -> str:
    """Return a spot's name as it is said: ``left_short_corner`` is "left short corner"."""
    return spot.replace("_", " ")


def reason(alignment: Alignment, action: Action, formation: Formation) -> str:
    """Return why ``action``, known not to be legal, is not."""
    return f"{action.text!r} is not legal here: {_why(alignment, action, formation)}"


def _why(alignment: Alignment, action: Action, formation: Formation) -> str:
    if alignment.over:
        return "the possession ended with a shot."
    return (
        _why_not_now(alignment, action)
        or _why_not_there(alignment, action, formation)
        or _why_not_from_here(alignment, action, formation)
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


def _why_not_there(alignment: Alignment, action: Action, formation: Formation) -> str | None:
    spot, kind = action.spot, action.kind
    if spot is None:
        return None
    if kind in _TO_RING_MATE | _TO_EMPTY_RING and spot not in formation.ring:
        return f"{words(spot)} is not a perimeter spot of {words(formation.name)}."
    if kind in _TO_POST_MATE or kind == "post_up":
        if spot not in POSTS:
            return f"{words(spot)} is not a post spot."
    elif kind == "ball_screen" and spot in formation.ring:
        return "only a post player or the cutter may screen the ball."
    if kind in _TO_RING_MATE | _TO_POST_MATE | {"ball_screen"}:
        if spot not in alignment.occupied:
            return f"nobody stands on the {words(spot)}."
        if spot == alignment.ball:
            return f"the player on the {words(spot)} has the ball."
    if kind in _TO_EMPTY_RING and spot in alignment.occupied:
        return f"the {words(spot)} is taken."
    if kind == "post_up":
        return _why_not_post(alignment, spot, formation)
    return None


def _why_not_post(alignment: Alignment, spot: str, formation: Formation) -> str:
    others = alignment.occupied - {alignment.cutter}
    if spot in others:
        return f"the {words(spot)} is taken."
    if not is_open(spot, others, 99):
        return f"a team-mate stands too close to the {words(spot)}."
    return f"{formation.posts} post players are there already."


def _why_not_from_here(alignment: Alignment, action: Action, formation: Formation) -> str:
    ball, kind, spot = alignment.ball, action.kind, action.spot
    if kind in _FROM_RING and ball not in formation.ring:
        return "the ball is not on the perimeter."
    if kind == "kick_out":
        return "the ball is on the perimeter already."
    if kind == "high_low":
        return "the ball is not at a post."
    if kind in ("dump_off", "dribble_out"):
        return "the ball is not in the lane."
    assert spot is not None
    if kind == "pass":
        return "a team-mate stands between, so it is a skip."
    if kind == "skip":
        return "no team-mate stands between, so it is a pass."
    if kind in ("dribble_at", "hand_off", "dribble_to"):
        return f"the {words(spot)} is not next to the ball."
    if kind == "back_cut":
        return "another team-mate stands nearer to the ball on that side."
    if kind == "ball_screen":
        return _why_no_screen(ball, spot)
    if side_of(spot) != side_of(ball) and "middle" not in (side_of(spot), side_of(ball)):
        return f"the {words(spot)} is on the other side from the ball."
    return f"the pass from the {words(ball)} to the {words(spot)} is too long."


def _why_no_screen(ball: str, spot: str) -> str:
    if spot.endswith("short_corner"):
        return "a short corner is too far away to screen from."
    if side_of(spot) != side_of(ball) and "middle" not in (side_of(spot), side_of(ball)):
        return f"the {words(spot)} is on the other side from the ball."
    return "no post spot would be open to roll to."
