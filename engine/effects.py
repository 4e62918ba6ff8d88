"""What an action does: its own part (the ball, who acts) and, by the rule set, everybody's response."""

from __future__ import annotations

from dataclasses import dataclass

from engine.actions import Action, Direction
from engine.alignment import Alignment
from engine.candidates import help_post
from engine.formations import LANE, PAINT, POSTS, RIM, Formation, side_of
from engine.movements import Plan, drive_side, is_baseline, is_open, roll_order
from engine.responses import Fault, Scene, respond
from engine.rules import RuleSet


@dataclass(frozen=True, slots=True)
class Effect:
    """Where everybody goes, what the ball does, who has it afterwards (by old spot), and what went wrong."""

    plan: Plan
    ball: str
    holder: str
    faults: tuple[Fault, ...] = ()
    freed: str | None = None


def effect(alignment: Alignment, action: Action, formation: Formation, rules: RuleSet) -> Effect:
    """Return the effect of an action whose own conditions hold (see :mod:`engine.moves`)."""
    ball, ring = alignment.ball, formation.ring
    b = ring.index(ball) if ball in ring else None
    spot = action.spot if action.spot is not None else ball
    match action.kind:
        case "pass" | "skip" | "post_entry" | "kick_out" | "high_low" | "dump_off":
            goal = ring.index(spot) if spot in ring else None
            given = {ball: "passer", spot: "receiver"}
            fixed: Plan = {}
            if ball in LANE:
                # A passer in the lane becomes the cutter where he stands.
                del given[ball]
                fixed = {ball: (ball, "wait")}
            return _answer(alignment, action.kind, formation, rules, "pass", spot, goal, given, fixed)
        case "dribble_at":
            return _answer(
                alignment, "dribble_at", formation, rules, "dribble", ball, ring.index(spot),
                {spot: "dribbled_at"}, {ball: (spot, "dribble")}, left=ball,
            )  # fmt: skip
        case "hand_off":
            return _answer(
                alignment, "hand_off", formation, rules, "hand_off", spot, b,
                {ball: "passer"}, {spot: (ball, "take_hand_off")}, left=spot,
            )  # fmt: skip
        case "dribble_to" | "dribble_out":
            fixed = {ball: (spot, "dribble")}
            return _answer(
                alignment, action.kind, formation, rules, "dribble", ball, ring.index(spot), {}, fixed
            )
        case "back_cut":
            return _answer(
                alignment,
                "denied",
                formation,
                rules,
                "hold",
                ball,
                b,
                {spot: "denied"},
                {ball: (ball, "hold")},
            )
        case "drive" | "ball_screen":
            return _drive(alignment, action, formation, rules)
        case "cutter_pass":
            assert alignment.cutter is not None
            return Effect({}, "pass", alignment.cutter)
        case "shot":
            return Effect({}, "shot", ball)
        case "fill" | "post_up":
            assert alignment.cutter is not None
            return Effect({alignment.cutter: (spot, action.kind)}, "hold", ball)
        case "back_screen" | "post_screen":
            assert alignment.cutter is not None
            return Effect(_swap(alignment.cutter, spot), "hold", ball)
        case "flash":
            assert alignment.cutter is not None
            return Effect({alignment.cutter: (spot, "flash")}, "hold", ball)
        case "help_screen":
            assert alignment.cutter is not None
            post = help_post(spot, alignment, rules.posts_in(formation))
            assert post is not None
            return Effect({alignment.cutter: (post, "help_screen")}, "hold", ball, freed=spot)
        case "follow":
            assert alignment.cutter is not None
            plan = {alignment.cutter: (ball, "take_hand_off"), ball: (RIM, "cut")}
            return Effect(plan, "hand_off", alignment.cutter)
        case "hub_hand_off" | "hub_back_cut" | "face_up":
            return _from_hub(alignment, action, formation, rules)
    raise AssertionError(action.kind)


def _swap(cutter: str, spot: str) -> Plan:
    return {cutter: (spot, "set_screen"), spot: (RIM, "screened_cut")}


def _from_hub(alignment: Alignment, action: Action, formation: Formation, rules: RuleSet) -> Effect:
    """Return the effect of an action by the player with the ball at an elbow or the high post."""
    ball, spot = alignment.ball, action.spot
    if action.kind == "face_up":
        assert action.direction is not None
        fixed: Plan = {ball: (PAINT, "drive")}
        given: dict[str, str] = {}
        left: int | None = None
        holder, side = ball, side_of(f"{action.direction}_")
    else:
        assert spot is not None
        left = formation.index(spot)
        side = side_of(ball)
        if action.kind == "hub_hand_off":
            fixed, given, holder = {spot: (PAINT, "take_hand_off")}, {ball: "passer"}, spot
        else:
            fixed, given, holder = {ball: (ball, "hold")}, {spot: "denied"}, ball
    scene = Scene(formation, action.kind, alignment.occupied, left, None, side, given, fixed)
    plan, faults = respond(scene, rules)
    kind = {"face_up": "dribble", "hub_hand_off": "hand_off"}.get(action.kind, "hold")
    return Effect(plan, kind, holder, faults)


def _answer(
    alignment: Alignment,
    trigger: str,
    formation: Formation,
    rules: RuleSet,
    ball: str,
    holder: str,
    goal: int | None,
    given: dict[str, str],
    fixed: Plan,
    left: str | None = None,
) -> Effect:
    ring = formation.ring
    b = ring.index(alignment.ball) if alignment.ball in ring else None
    after = fixed[holder][0] if holder in fixed else holder
    scene = Scene(
        formation, trigger, alignment.occupied, b, goal, side_of(after), given, fixed, left=left
    )  # fmt: skip
    plan, faults = respond(scene, rules)
    return Effect(plan, ball, holder, faults)


def _drive(alignment: Alignment, action: Action, formation: Formation, rules: RuleSet) -> Effect:
    ball, direction, screener = alignment.ball, action.direction, action.spot
    assert direction is not None
    side, baseline = drive_side(ball, direction), is_baseline(ball, direction)
    scene = Scene(
        formation,
        "baseline_drive" if baseline else "middle_drive",
        alignment.occupied,
        formation.index(ball),
        None,
        side,
        {},
        {ball: (PAINT, "drive")},
        direction,
        baseline,
        gone=frozenset() if screener is None else frozenset((screener,)),
    )
    plan, faults = respond(scene, rules)
    if screener is not None:
        now = {plan[s][0] if s in plan else s for s in alignment.occupied if s != screener}
        target = _after_screen(screener, now, side, baseline, formation, rules)
        if target is None:
            faults = (*faults, Fault("nowhere", screener, ("roll",)))
        else:
            plan[screener] = target
            if target[0] in now:
                faults = (*faults, Fault("same_spot", target[0], (screener,)))
    return Effect(plan, "dribble", ball, faults)


def _after_screen(
    screener: str, now: set[str], side: Direction, baseline: bool, formation: Formation, rules: RuleSet
) -> tuple[str, str] | None:
    """Return where the screener goes: the first of his movements that has somewhere to go."""
    posts = rules.posts_in(formation)
    for movement in rules.responses.get("ball_screen", {}).get("screener", ()):
        if movement == "roll":
            order: tuple[str, ...] = roll_order(side, baseline)
            found = next((p for p in order if is_open(p, now, posts)), None)
        elif movement == "pop":
            # To the nearest empty perimeter spot, home before the rest, counted from the top of the ring.
            middle = (len(formation.ring) - 1) / 2
            empty = [i for i, s in enumerate(formation.ring) if s not in now]
            empty.sort(key=lambda i: (formation.ring[i] not in formation.home, abs(i - middle), i))
            found = formation.ring[empty[0]] if empty else None
        else:
            found = screener if screener in POSTS and is_open(screener, now, posts) else None
        if found is not None:
            return found, "roll" if found in POSTS else "pop"
    return None
