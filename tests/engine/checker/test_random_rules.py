"""Random rule sets: nothing crashes, and what the checker says agrees with random play."""

from __future__ import annotations

import random
from typing import Any

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from engine.checker import check
from engine.floor.alignment import problems, start
from engine.floor.court import half_court
from engine.floor.formations import FORMATIONS, Formation
from engine.game.moves import legal, resolve
from engine.game.play import advance, follow
from engine.rules.actions import BALL_ACTIONS, LANE_CHOICES
from engine.rules.rule_sets import RuleSet, find_problems, read
from engine.rules.vocabulary import MOVEMENTS, TRIGGERS
from tests.depth import deep
from tests.engine.checker.broken import data

FIBA = half_court("fiba")


@st.composite
def rule_sets(draw: st.DrawFn) -> RuleSet:
    """The default set with some responses changed at random, and a random part of everything installed."""
    made: dict[str, Any] = data()
    made["stages"] = []
    # The more of them the more positions: with all seven it may take half a minute to see them all.
    actions = st.lists(st.sampled_from(sorted(BALL_ACTIONS)), min_size=1, max_size=deep(5, 7), unique=True)
    made["actions"] = draw(actions)
    made["lane"] = draw(st.lists(st.sampled_from(sorted(LANE_CHOICES)), max_size=3, unique=True))
    made["posts"] = draw(st.sampled_from([None, None, 1, 2, 3]))
    for _ in range(draw(st.integers(0, 5))):
        trigger = draw(st.sampled_from(sorted(TRIGGERS)))
        role = draw(st.sampled_from(TRIGGERS[trigger]))
        fitting = sorted(name for name, roles in MOVEMENTS.items() if role in roles)
        if fitting:
            wishes = draw(st.lists(st.sampled_from(fitting), min_size=1, max_size=2, unique=True))
            made["responses"].setdefault(trigger, {})[role] = wishes
    assert find_problems(made) == []
    return read(made)


formations = st.sampled_from(list(FORMATIONS.values()))


@settings(max_examples=deep(8, 300), deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(rule_sets(), formations, st.integers(0, 2**32))
def test_play_never_crashes_and_agrees_with_the_checker(
    rules: RuleSet, formation: Formation, seed: int
) -> None:
    report = check(rules, formation, FIBA)
    kinds = {finding.kind for finding in report.findings}
    never = {finding.about["action"] for finding in report.findings if finding.kind == "never"}
    chance = random.Random(seed)
    position = start(formation)
    for _ in range(60):
        available = legal(position.alignment, formation, rules)
        if position.alignment.over:
            position = start(formation)
            continue
        if len(available) == 1:
            assert "only_shot" in kinds
        action = chance.choice(available)
        assert action.kind not in never
        step = resolve(position.alignment, action, formation, rules)
        position = follow(position, step)
        ours = [p for p in problems(position.alignment, formation) if "posts are taken" not in p]
        assert ours == []
        assert sorted(number for _, number in position.lineup) == [1, 2, 3, 4, 5]


@settings(max_examples=deep(4, 100), deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(rule_sets(), formations)
def test_every_chain_of_a_finding_can_be_played_up_to_its_last_action(
    rules: RuleSet, formation: Formation
) -> None:
    for finding in check(rules, formation, FIBA).findings:
        if finding.chain:
            advance(start(formation), finding.chain[:-1], formation, rules)
