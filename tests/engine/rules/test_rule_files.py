"""Rule sets as files: every problem at once, each with its place."""

from __future__ import annotations

import copy

import pytest

from engine.floor.formations import FORMATIONS
from engine.game.graph import perft
from engine.rules.rule_sets import SHIPPED, BadRules, read, shipped
from tests.engine.checker.broken import data


@pytest.mark.parametrize("name", SHIPPED)
def test_what_ships_can_be_read_and_says_what_it_is(name: str) -> None:
    rules = shipped(name)
    assert rules.name == name
    assert rules.title
    assert rules.about.endswith(".")
    assert all(known.why.endswith(".") for known in rules.known)
    staged = frozenset().union(*(stage.adds for stage in rules.stages))
    assert staged | {"shot"} >= rules.actions | rules.lane


def test_a_copy_plays_the_same() -> None:
    copied = read(copy.deepcopy(data()))
    for formation in FORMATIONS.values():
        assert perft(formation, 3, copied) == perft(formation, 3)


def test_every_problem_is_listed_with_its_place() -> None:
    made = data()
    made["version"] = 9
    made["actions"].append("dunk")
    made["lane"].append("nap")
    made["stages"][0]["adds"].append("flash")
    made["responses"]["halftime"] = {"passer": "cut"}
    made["responses"]["pass"]["screener"] = "roll"
    made["responses"]["pass"]["perimeter"] = ["fill", "fly"]
    made["responses"]["shot"]["others"] = "roll"
    with pytest.raises(BadRules) as refusal:
        read(made)
    assert dict(refusal.value.problems).keys() == {
        "version",
        "actions",
        "lane",
        "stages.0",
        "responses.halftime",
        "responses.pass.screener",
        "responses.pass.perimeter",
        "responses.shot.others",
    }
    assert all(sentence.endswith(".") for _, sentence in refusal.value.problems)
    assert all(f"{place}: {sentence}" in str(refusal.value) for place, sentence in refusal.value.problems)


def test_what_does_not_ship_is_no_rule_set() -> None:
    with pytest.raises(KeyError, match="grand_tour"):
        shipped("grand_tour")
