"""What an action itself does: the player with the ball and those it names; and how the others see it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from engine.floor.formations import BESIDE_RIM, LANE, PAINT, RIM, side_of
from engine.rules.movements import Plan, drive_side, is_baseline
from engine.rules.roles import Situation
from engine.rules.views import View

if TYPE_CHECKING:
    from engine.rules.actions import Action


def _scene(
    view: View,
    trigger: str,
    goal: str | None,
    given: dict[str, str],
    fixed: Plan,
    after: str,
    left: str | None = None,
) -> Situation:
    """Return a scene; ``goal``: the spot the others close up toward, ``after``: where the ball is then."""
    ring = view.formation.ring
    to = ring.index(goal) if goal in ring else None
    return Situation(
        view.formation, trigger, view.occupied, view.b, to, side_of(after), given, fixed, left=left
    )


def _spot(action: Action) -> str:
    assert action.spot is not None
    return action.spot


def alone(view: View, plan: Plan) -> Situation:
    """Return the scene of an action that nobody responds to."""
    return _scene(view, "", None, {}, plan, view.ball)


def passed(view: View, action: Action) -> Situation:
    """A pass to the mate on the spot. A passer in the lane becomes the cutter where he stands."""
    ball, spot = view.ball, _spot(action)
    if ball in LANE:
        return _scene(view, action.kind, spot, {spot: "receiver"}, {ball: (ball, "wait")}, spot)
    return _scene(view, action.kind, spot, {ball: "passer", spot: "receiver"}, {}, spot)


def dribbled_at(view: View, action: Action) -> Situation:
    """The handler takes a mate's spot."""
    ball, spot = view.ball, _spot(action)
    given, fixed = {spot: "dribbled_at"}, {ball: (spot, "dribble")}
    return _scene(view, action.kind, spot, given, fixed, spot, left=ball)


def dribbled(view: View, action: Action) -> Situation:
    """The handler takes an empty spot."""
    ball, spot = view.ball, _spot(action)
    return _scene(view, action.kind, spot, {}, {ball: (spot, "dribble")}, spot)


def handed_off(view: View, action: Action) -> Situation:
    """A mate takes the ball, and the spot it is on."""
    ball, spot = view.ball, _spot(action)
    given, fixed = {ball: "passer"}, {spot: (ball, "take_hand_off")}
    return _scene(view, action.kind, ball, given, fixed, ball, left=spot)


def denied(view: View, action: Action) -> Situation:
    """A mate cuts while the handler holds the ball."""
    ball = view.ball
    return _scene(view, "denied", ball, {_spot(action): "denied"}, {ball: (ball, "hold")}, ball)


def driven(view: View, action: Action) -> Situation:
    """The handler goes to the basket; a screener, if there is one, is on his way and counts as gone.

    A baseline drive ends beside the basket on its own side, a middle drive in front of it, by every rule set.
    """
    ball, direction, screener = view.ball, action.direction, action.spot
    assert direction is not None
    baseline, side = is_baseline(ball, direction), drive_side(ball, direction)
    return Situation(
        view.formation,
        "baseline_drive" if baseline else "middle_drive",
        view.occupied,
        view.b,
        None,
        side,
        {},
        {ball: (BESIDE_RIM[side] if baseline else PAINT, "drive")},
        direction,
        baseline,
        gone=frozenset() if screener is None else frozenset((screener,)),
    )


def _around_hub(view: View, action: Action, given: dict[str, str], fixed: Plan) -> Situation:
    """A mate on the ring acts with the hub: the others respond as if the ball had left his spot."""
    left = view.formation.index(_spot(action))
    side = side_of(view.ball)
    return Situation(view.formation, action.kind, view.occupied, left, None, side, given, fixed)


def hub_handed_off(view: View, action: Action) -> Situation:
    """A mate comes off the hub with the ball, into the lane."""
    return _around_hub(view, action, {view.ball: "passer"}, {_spot(action): (PAINT, "take_hand_off")})


def hub_denied(view: View, action: Action) -> Situation:
    """A mate cuts while the hub holds the ball."""
    return _around_hub(view, action, {_spot(action): "denied"}, {view.ball: (view.ball, "hold")})


def faced_up(view: View, action: Action) -> Situation:
    """The hub turns and goes to the basket."""
    side, fixed = side_of(f"{action.direction}_"), {view.ball: (PAINT, "drive")}
    return Situation(view.formation, action.kind, view.occupied, None, None, side, {}, fixed)


def shot(view: View, action: Action) -> Situation:
    """The possession ends: everybody stays where he is in the alignment."""
    return alone(view, {})


def cutter_passed(view: View, action: Action) -> Situation:
    """The waiting cutter gets the ball where he stands; the ball's side stays that of the passer."""
    ball, cutter = view.ball, _cutter(view)
    fixed = {cutter: (cutter, "hold")}
    return _scene(view, "cutter_catch", None, {ball: "passer"}, fixed, ball)


def _cutter(view: View) -> str:
    assert view.cutter is not None
    return view.cutter


def goes(view: View, action: Action) -> Situation:
    """The cutter goes to the spot."""
    return alone(view, {_cutter(view): (_spot(action), action.kind)})


def screens_for(view: View, action: Action) -> Situation:
    """The cutter screens for a mate and takes his spot; the mate cuts."""
    spot = _spot(action)
    return alone(view, {_cutter(view): (spot, "set_screen"), spot: (RIM, "screened_cut")})


def screens_help(view: View, action: Action) -> Situation:
    """The cutter screens the help-side defender of a mate, and ends on a post near by."""
    post = view.help_post(_spot(action))
    assert post is not None
    return alone(view, {_cutter(view): (post, "help_screen")})


def follows(view: View, action: Action) -> Situation:
    """The cutter comes back to the ball for a hand-off; the giver cuts."""
    return alone(view, {_cutter(view): (view.ball, "take_hand_off"), view.ball: (RIM, "cut")})
