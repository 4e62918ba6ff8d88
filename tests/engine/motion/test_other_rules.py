"""A coach's own rules make timelines too, without a table of their own."""

from __future__ import annotations

import json
from importlib.resources import files

import pytest

from engine.floor.court import half_court
from engine.floor.formations import FORMATIONS
from engine.motion import timeline
from engine.motion.clearance import clashes, exempt
from engine.motion.table import standing
from engine.rules.actions import BALL_ACTIONS, LANE_CHOICES
from engine.rules.rule_sets import SHIPPED, RuleSet, read, shipped
from tests.engine.motion.reachable import distance
from tests.graphs import reach

FIBA = half_court("fiba")


def everything() -> RuleSet:
    """Return the default rules with every action and every lane choice installed, and screeners who pop."""
    data = json.loads(files("engine.rules").joinpath("rulesets", "pass_and_cut.json").read_text("utf-8"))
    data |= {"name": "everything", "actions": list(BALL_ACTIONS), "lane": list(LANE_CHOICES), "stages": []}
    data["responses"]["ball_screen"] = {"screener": ["pop", "roll"]}
    return read(data)


RULES = [*map(shipped, SHIPPED[1:]), everything()]


@pytest.mark.parametrize("formation", FORMATIONS.values(), ids=FORMATIONS)
@pytest.mark.parametrize("rules", RULES, ids=lambda rules: rules.name)
def test_everybody_gets_where_the_rules_send_him_and_nearly_always_clear(formation, rules) -> None:
    steps = reach(formation, rules=rules).steps
    some = steps[:: max(1, len(steps) // 250)]
    crowded = 0
    for step in some:
        line = timeline((step,), FIBA, formation)
        assert 0.0 < line.ready <= line.end
        for move in step.moves:
            assert distance(line.position(move.origin, line.end), line.places[move.target]) < 0.02, step
        holder = line.holder_at(line.end)
        if step.action.kind != "shot":
            assert holder is not None
            assert distance(line.position(holder, line.end), line.places[step.after.ball]) < 0.02, step
        crowded += bool(clashes(line, standing((step,)), exempt((step,))))
    # Cleared on the spot by a short search, which is not promised to succeed.
    assert crowded <= 0.04 * len(some)
