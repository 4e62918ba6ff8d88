"""What an action does: its own part (the ball, who acts) and, by the rule set, everybody's response."""

from __future__ import annotations

from dataclasses import dataclass

from engine.floor.alignment import Alignment
from engine.floor.formations import LANE, PAINT, POSTS, RIM, Formation, side_of
from engine.game.candidates import help_post
from engine.rules.actions import Action
from engine.rules.movements import Plan, drive_side, is_baseline, is_open, roll_order
from engine.rules.responses import Fault, respond
from engine.rules.roles import Situation
from engine.rules.rule_sets import RuleSet


@dataclass(slots=True)
class Effect:
    """Where everybody goes, what the ball does, who has it afterwards (by old spot), and what went wrong."""

    plan: Plan
    ball: str
    holder: str
    faults: tuple[Fault, ...] = ()
    freed: str | None = None


_PASSES = frozenset(("pass", "skip", "post_entry", "kick_out", "high_low", "dump_off"))
#: What the ball does on the actions that team-mates respond to.
_BALL = {
    **dict.fromkeys(_PASSES, "pass"),
    "dribble_at": "dribble",
    "dribble_to": "dribble",
    "dribble_out": "dribble",
    "drive": "dribble",
    "ball_screen": "dribble",
    "face_up": "dribble",
    "hand_off": "hand_off",
    "hub_hand_off": "hand_off",
    "back_cut": "hold",
    "hub_back_cut": "hold",
}


def effect(alignment: Alignment, action: Action, formation: Formation, rules: RuleSet) -> Effect:
    """Return the effect of an action whose own conditions hold (see :mod:`engine.game.candidates`)."""
    scene = scene_of(alignment, action, formation) if action.kind in _BALL else None
    if scene is None:
        return _without_responses(alignment, action, formation, rules)
    plan, faults = respond(scene, rules)
    if action.kind == "ball_screen":
        faults = (*faults, *_screen(plan, alignment, action, scene, rules))
    passes_on = action.kind in _PASSES or action.kind in ("hand_off", "hub_hand_off")
    holder = action.spot if passes_on and action.spot is not None else alignment.ball
    return Effect(plan, _BALL[action.kind], holder, faults)


def scene_of(alignment: Alignment, action: Action, formation: Formation) -> Situation | None:
    """Return the scene the team-mates respond to, or ``None`` for an action that nobody responds to."""
    ball, ring, kind = alignment.ball, formation.ring, action.kind
    b = ring.index(ball) if ball in ring else None
    spot = action.spot if action.spot is not None else ball

    def scene(
        trigger: str,
        goal: int | None,
        given: dict[str, str],
        fixed: Plan,
        after: str,
        left: str | None = None,
    ) -> Situation:
        return Situation(
            formation, trigger, alignment.occupied, b, goal, side_of(after), given, fixed, left=left
        )

    if kind in _PASSES:
        goal = ring.index(spot) if spot in ring else None
        if ball in LANE:
            # A passer in the lane becomes the cutter where he stands.
            return scene(kind, goal, {spot: "receiver"}, {ball: (ball, "wait")}, spot)
        return scene(kind, goal, {ball: "passer", spot: "receiver"}, {}, spot)
    match kind:
        case "dribble_at":
            fixed = {ball: (spot, "dribble")}
            return scene(kind, ring.index(spot), {spot: "dribbled_at"}, fixed, spot, left=ball)
        case "hand_off":
            return scene(kind, b, {ball: "passer"}, {spot: (ball, "take_hand_off")}, ball, left=spot)
        case "dribble_to" | "dribble_out":
            return scene(kind, ring.index(spot), {}, {ball: (spot, "dribble")}, spot)
        case "back_cut":
            return scene("denied", b, {spot: "denied"}, {ball: (ball, "hold")}, ball)
        case "drive" | "ball_screen":
            return _drive(alignment, action, formation)
        case "hub_hand_off" | "hub_back_cut" | "face_up":
            return _from_hub(alignment, action, formation)
    return None


def _drive(alignment: Alignment, action: Action, formation: Formation) -> Situation:
    ball, direction, screener = alignment.ball, action.direction, action.spot
    assert direction is not None
    baseline = is_baseline(ball, direction)
    return Situation(
        formation,
        "baseline_drive" if baseline else "middle_drive",
        alignment.occupied,
        formation.index(ball),
        None,
        drive_side(ball, direction),
        {},
        {ball: (PAINT, "drive")},
        direction,
        baseline,
        gone=frozenset() if screener is None else frozenset((screener,)),
    )


def _from_hub(alignment: Alignment, action: Action, formation: Formation) -> Situation:
    """Return the scene of an action by the player with the ball at an elbow or the high post.

    When a mate on the ring acts, the others respond as if the ball had left his spot.
    """
    ball, spot = alignment.ball, action.spot
    if action.kind == "face_up":
        side = side_of(f"{action.direction}_")
        fixed: Plan = {ball: (PAINT, "drive")}
        return Situation(formation, action.kind, alignment.occupied, None, None, side, {}, fixed)
    assert spot is not None
    if action.kind == "hub_hand_off":
        given, fixed = {ball: "passer"}, {spot: (PAINT, "take_hand_off")}
    else:
        given, fixed = {spot: "denied"}, {ball: (ball, "hold")}
    left = formation.index(spot)
    return Situation(formation, action.kind, alignment.occupied, left, None, side_of(ball), given, fixed)


def _without_responses(alignment: Alignment, action: Action, formation: Formation, rules: RuleSet) -> Effect:
    ball, cutter, spot = alignment.ball, alignment.cutter, action.spot
    if action.kind == "shot":
        return Effect({}, "shot", ball)
    assert cutter is not None
    match action.kind:
        case "cutter_pass":
            return Effect({}, "pass", cutter)
        case "follow":
            return Effect({cutter: (ball, "take_hand_off"), ball: (RIM, "cut")}, "hand_off", cutter)
    assert spot is not None
    match action.kind:
        case "back_screen" | "post_screen":
            return Effect({cutter: (spot, "set_screen"), spot: (RIM, "screened_cut")}, "hold", ball)
        case "help_screen":
            post = help_post(spot, alignment, rules.posts_in(formation))
            assert post is not None
            return Effect({cutter: (post, "help_screen")}, "hold", ball, freed=spot)
    return Effect({cutter: (spot, action.kind)}, "hold", ball)


def _screen(
    plan: Plan, alignment: Alignment, action: Action, scene: Situation, rules: RuleSet
) -> tuple[Fault, ...]:
    """Add where the screener goes, the first of his movements that has somewhere to go, to the plan."""
    screener, formation = action.spot, scene.formation
    assert screener is not None
    now = {plan[s][0] if s in plan else s for s in alignment.occupied if s != screener}
    posts = rules.posts_in(formation)
    for movement in rules.responses.get("ball_screen", {}).get("screener", ()):
        target = _after_screen(movement, screener, now, scene, posts)
        if target is not None:
            plan[screener] = target, "roll" if target in POSTS else "pop"
            return (Fault("same_spot", target, (screener,)),) if target in now else ()
    return (Fault("nowhere", screener, ("roll",)),)


def _after_screen(movement: str, screener: str, now: set[str], scene: Situation, posts: int) -> str | None:
    ring, home = scene.formation.ring, scene.formation.home
    if movement == "roll":
        side = scene.side
        assert side != "middle"
        order = roll_order(side, scene.baseline)
        return next((post for post in order if is_open(post, now, posts)), None)
    if movement == "pop":
        # To an empty perimeter spot: home spots first, then the nearest to the middle of the ring.
        middle = (len(ring) - 1) / 2
        empty = [i for i, spot in enumerate(ring) if spot not in now]
        empty.sort(key=lambda i: (ring[i] not in home, abs(i - middle), i))
        return ring[empty[0]] if empty else None
    return screener if screener in POSTS and is_open(screener, now, posts) else None
