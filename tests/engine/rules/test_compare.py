"""Comparing two rule sets, and short chains that show a trigger."""

from __future__ import annotations

import pytest

from engine.checker.samples import sample, spots_with
from engine.floor.alignment import start
from engine.floor.formations import FORMATIONS, Formation
from engine.game.effects import scene_of
from engine.game.play import advance
from engine.rules.compare import differences
from engine.rules.rule_sets import DEFAULT, SHIPPED, shipped
from tests.engine.checker.broken import changed
from tests.graphs import reach


def test_a_rule_set_does_not_differ_from_itself() -> None:
    for name in SHIPPED:
        assert differences(shipped(name), shipped(name)) == ()


def test_one_changed_response_is_the_only_difference() -> None:
    found = differences(DEFAULT, changed(dribble_at={"dribbled_at": "replace"}))
    assert found == (
        ("response",
         {"trigger": "dribble_at", "role": "dribbled_at", "one": "back_cut", "other": "replace"}),
    )  # fmt: skip


def test_what_only_one_has_is_named_both_ways() -> None:
    few = shipped("first_steps")
    only_one = {about["action"] for key, about in differences(DEFAULT, few) if key == "only_one"}
    only_other = {about["action"] for key, about in differences(few, DEFAULT) if key == "only_other"}
    assert only_one == only_other
    assert "drive" in only_one


@pytest.mark.parametrize("formation", FORMATIONS.values(), ids=list(FORMATIONS))
@pytest.mark.parametrize(
    "trigger", ["pass", "skip", "dribble_at", "hand_off", "denied", "middle_drive", "shot"]
)
def test_a_sample_ends_with_its_trigger(trigger: str, formation: Formation) -> None:
    chain = sample(trigger, formation, DEFAULT)
    kind = {"denied": "back_cut", "middle_drive": "drive"}.get(trigger, trigger)
    assert chain[-1].split(":")[0] == kind
    advance(start(formation), chain, formation)


def test_a_trigger_that_never_happens_has_no_sample() -> None:
    assert sample("drive", FORMATIONS["five_out"], shipped("first_steps")) == ()


@pytest.mark.parametrize(
    ("trigger", "role", "spots"),
    [
        ("pass", "passer", {"top"}),
        ("pass", "next_player", {"right_wing"}),
        ("middle_drive", "behind", {"right_wing", "right_corner"}),
        ("ball_screen", "screener", {"rim"}),
        ("shot", "others", set()),
    ],
)
def test_who_has_a_role_in_a_sample(trigger: str, role: str, spots: set[str]) -> None:
    formation = FORMATIONS["five_out"]
    chain = sample(trigger, formation, DEFAULT, role)
    _, steps = advance(start(formation), chain, formation)
    assert spots_with(role, steps[-1], formation) == spots


@pytest.mark.parametrize("formation", FORMATIONS.values(), ids=list(FORMATIONS))
def test_what_happens_on_an_action_is_what_the_vocabulary_says(formation: Formation) -> None:
    for step in reach(formation).steps:
        scene = scene_of(step.before, step.action, formation)
        if scene.trigger:
            assert scene.trigger in step.action.about.triggers
        else:
            assert step.action.about.triggers in ((), ("shot",))


@pytest.mark.parametrize(
    ("trigger", "role"), [("pass", "posts"), ("middle_drive", "far_corner"), ("baseline_drive", "posts")]
)
def test_a_sample_of_a_role_goes_on_until_somebody_has_it(trigger: str, role: str) -> None:
    formation = FORMATIONS["five_out"]
    plain, chain = sample(trigger, formation, DEFAULT), sample(trigger, formation, DEFAULT, role)
    _, steps = advance(start(formation), chain, formation)
    assert spots_with(role, steps[-1], formation)
    assert len(plain) <= len(chain)
    assert sample(trigger, formation, DEFAULT, "nobody's") == plain


def test_the_sample_of_a_role_that_comes_late_is_longer() -> None:
    formation = FORMATIONS["five_out"]
    assert len(sample("pass", formation, DEFAULT)) < len(sample("pass", formation, DEFAULT, "posts"))
