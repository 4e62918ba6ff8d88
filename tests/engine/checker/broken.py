"""Rule sets made wrong on purpose, one kind of finding each."""

from __future__ import annotations

import copy
import json
from importlib.resources import files
from typing import Any

from engine.floor.formations import FORMATIONS, Formation
from engine.rules.rule_sets import RuleSet, read

FIVE = FORMATIONS["five_out"]
THREE = FORMATIONS["three_out_two_in"]

#: Three perimeter spots, one post, and the ball already in the paint: a kick-out fills the place up.
CRAMPED = Formation(
    name="cramped",
    ring=("left_wing", "top", "right_wing"),
    ring_angles=(145.0, 90.0, 35.0),
    home=frozenset(("left_wing", "top", "right_wing")),
    posts=1,
    start=((1, "paint"), (2, "right_wing"), (3, "left_wing"), (4, "top"), (5, "left_block")),
    ball=1,
)


def data(name: str = "pass_and_cut") -> dict[str, Any]:
    text = files("engine.rules").joinpath("rulesets", f"{name}.json").read_text("utf-8")
    found: dict[str, Any] = json.loads(text)
    return found


def changed(base: dict[str, Any] | None = None, **responses: dict[str, Any]) -> RuleSet:
    """Return the default rule set with the responses to some triggers changed; ``None`` takes a role out.

    ``base``: another set to change.
    """
    made = copy.deepcopy(base or data())
    for trigger, roles in responses.items():
        for role, do in roles.items():
            if do is None:
                del made["responses"][trigger][role]
            else:
                made["responses"][trigger][role] = do
    return read(made)


def only(actions: list[str], lane: list[str]) -> RuleSet:
    """Return the default rule set with only some actions and lane choices installed."""
    return read(few(actions, lane))


def few(actions: list[str], lane: list[str]) -> dict[str, Any]:
    return {**data(), "actions": actions, "lane": lane, "stages": []}


#: What shows in the first step needs no more to be looked at.
FEW = few(["pass", "drive", "kick_out", "shot"], ["fill"])

#: kind of finding: the rule set that has it, and the formation it shows in
BROKEN: dict[str, tuple[RuleSet, Formation]] = {
    "no_response": (changed(FEW, **{"pass": {"perimeter": None}}), FIVE),
    "two_responses": (changed(middle_drive={"drive_corner": "hold", "next_ahead": "rotate"}), THREE),
    "same_spot": (changed(FEW, middle_drive={"drive_corner": "hold"}), FIVE),
    "off_spots": (changed(baseline_drive={"ball_side_posts": "to_elbow"}), THREE),
    "stuck_cutter": (only(["kick_out", "cutter_pass", "shot"], ["fill"]), CRAMPED),
    "only_shot": (only(["pass", "drive", "shot"], ["fill"]), FIVE),
    "never": (only(["pass", "high_low", "shot"], ["fill"]), FIVE),
    "through": (
        changed(
            FEW,
            middle_drive={"drive_corner": "slide", "far_corner": "slide", "perimeter": "stay"},
        ),
        FIVE,
    ),
    "three_seconds": (
        only(["pass", "post_entry", "skip", "shot"], ["fill", "post_up", "post_screen"]),
        FIVE,
    ),
    "no_balance": (changed(few(["pass", "shot"], ["fill"]), shot={"deepest_two": "rebound"}), FIVE),
}
