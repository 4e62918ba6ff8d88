"""Each kind of finding is found, its chain shows it, and no shorter chain does (networkx searches again)."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from itertools import product
from math import dist

import networkx as nx
import pytest

from engine.checker import Finding, Report, check
from engine.floor.alignment import Alignment, start
from engine.floor.court import half_court
from engine.floor.formations import FORMATIONS, LANE, Formation
from engine.game.moves import legal, outcomes
from engine.game.play import advance
from engine.motion import timeline
from engine.motion.clock import film_of
from engine.motion.report import of_film
from engine.rules.actions import Action, parse
from engine.rules.rule_sets import SHIPPED, RuleSet, shipped
from tests.depth import deep
from tests.engine.checker.broken import BROKEN
from tests.graphs import reach

FIBA = half_court("fiba")


@cache
def reported(rules: RuleSet, formation: Formation, court: str = "fiba") -> Report:
    """Return what the checker says, looked for once for all tests."""
    return check(rules, formation, half_court(court))


@cache
def found(kind: str) -> tuple[Finding, RuleSet, Formation]:
    rules, formation = BROKEN[kind]
    report = reported(rules, formation)
    return next(finding for finding in report.findings if finding.kind == kind), rules, formation


def shortest(formation: Formation, rules: RuleSet, shows: Callable[[Alignment], bool]) -> int:
    """Return how many actions away the nearest alignment is that shows something (networkx)."""
    graph = nx.DiGraph()
    graph.add_node(start(formation).alignment)
    graph.add_edges_from((step.before, step.after) for step in reach(formation, rules=rules).steps)
    away = nx.single_source_shortest_path_length(graph, start(formation).alignment)
    return min(length for alignment, length in away.items() if not alignment.over and shows(alignment))


def fails(alignment: Alignment, action: Action, formation: Formation, rules: RuleSet, kind: str) -> bool:
    faults = outcomes(alignment, formation, rules)[1]
    return any(failed == action and fault.kind == kind for failed, fault in faults)


@pytest.mark.parametrize("kind", ["no_response", "two_responses", "same_spot", "off_spots"])
def test_an_action_without_one_clear_response_is_found_by_its_shortest_chain(kind: str) -> None:
    finding, rules, formation = found(kind)
    fault = "nowhere" if kind == "off_spots" else kind
    *before, last = finding.chain
    position, _ = advance(start(formation), before, formation, rules)
    action = parse(last)
    assert fails(position.alignment, action, formation, rules, fault)
    assert action not in legal(position.alignment, formation, rules)
    assert action.kind == finding.about["action"]

    def shows(alignment: Alignment) -> bool:
        return any(
            found.kind == fault and failed.kind == action.kind
            for failed, found in outcomes(alignment, formation, rules)[1]
        )

    assert len(before) == shortest(formation, rules, shows)


def test_a_position_with_nothing_but_a_shot_is_found() -> None:
    finding, rules, formation = found("only_shot")
    position, _ = advance(start(formation), finding.chain, formation, rules)
    assert [action.kind for action in legal(position.alignment, formation, rules)] == ["shot"]

    def shows(alignment: Alignment) -> bool:
        return len(legal(alignment, formation, rules)) == 1

    assert len(finding.chain) == shortest(formation, rules, shows) == 1


def test_a_cutter_who_cannot_leave_the_lane_is_found() -> None:
    finding, rules, formation = found("stuck_cutter")
    position, _ = advance(start(formation), finding.chain, formation, rules)
    cutter = position.alignment.cutter
    assert cutter in LANE
    kinds = {action.kind for action in legal(position.alignment, formation, rules)}
    assert kinds == {"cutter_pass", "shot"}
    assert len(finding.chain) == 1


def test_an_action_that_can_never_happen_is_named() -> None:
    finding, rules, formation = found("never")
    assert finding.about["action"] == "high_low"
    assert not any(step.action.kind == "high_low" for step in reach(formation, rules=rules).steps)


def test_a_route_through_a_team_mate_is_found() -> None:
    finding, rules, formation = found("through")
    assert finding.chain in (("drive:left",), ("drive:right",))
    _, (step,) = advance(start(formation), finding.chain, formation, rules)
    line = timeline((step,), FIBA, formation)
    nearest = min(
        dist(line.position("left_corner", t / 50), line.position("right_corner", t / 50))
        for t in range(int(line.end * 50))
    )
    # Both corners run the baseline at once, toward each other.
    assert nearest < 0.6


def longest_stay(actions: tuple[str, ...], formation: Formation, rules: RuleSet) -> float:
    """Play a chain on the clock and return the longest anybody is in the lane without the ball, seconds."""
    _, steps = advance(start(formation), actions, formation, rules)
    film = film_of(start(formation), [(step,) for step in steps], FIBA, formation)
    return max(lane.longest for lane in of_film(film, FIBA).lane.values())


def sequences(formation: Formation, rules: RuleSet, length: int) -> list[tuple[str, ...]]:
    """Every legal sequence of ``length`` actions that ends with a cutter's choice, without a shot."""
    found: list[tuple[str, ...]] = [()]
    for _ in range(length):
        found = [
            (*actions, action.text)
            for actions in found
            for action in legal(
                advance(start(formation), actions, formation, rules)[0].alignment, formation, rules
            )
            if action.kind != "shot"
        ]
    return [actions for actions in found if parse(actions[-1]).is_lane_choice]


def test_a_cutter_too_long_in_the_lane_is_found_on_the_play_clock() -> None:
    """Three seconds: FIBA Official Basketball Rules, Art. 26 (second-hand)."""
    finding, rules, formation = found("three_seconds")
    assert finding.about == {"action": "post_screen"}
    assert longest_stay(finding.chain, formation, rules) > 3.0
    for shorter in sequences(formation, rules, len(finding.chain) - 1):
        assert longest_stay(shorter, formation, rules) <= 3.0, shorter
    # The rule set that ships stays within it, whatever is played.
    assert not [f for f in reported(shipped("pass_and_cut"), formation).findings if f.kind == finding.kind]


def test_nobody_back_on_a_shot_is_found() -> None:
    finding, _, _ = found("no_balance")
    assert finding.chain == ("shot",)


def test_spots_too_near_at_rest_are_found_where_they_are() -> None:
    four = FORMATIONS["four_out_one_in"]
    # Whatever the rules are; by these there is the least to play.
    near = [f for f in reported(shipped("first_steps"), four, "nfhs").findings if f.kind == "close"]
    assert {(f.about["first"], f.about["second"]) for f in near} == {
        ("left_corner", "left_wing"), ("right_wing", "right_corner")
    }  # fmt: skip


#: The default set in every formation, and each of the others in one of its own.
QUICK = [
    *(("pass_and_cut", formation) for formation in FORMATIONS),
    ("pass_and_screen_away", "five_out"),
    ("first_steps", "four_out_one_in"),
    ("drive_and_kick", "three_out_two_in"),
]


def test_every_shipped_set_and_formation_is_among_those_checked() -> None:
    assert {name for name, _ in QUICK} == set(SHIPPED)


@pytest.mark.parametrize(("name", "where"), deep(QUICK, list(product(SHIPPED, FORMATIONS))))
def test_shipped_rule_sets_check_clean_but_for_what_they_explain(name: str, where: str) -> None:
    formation = FORMATIONS[where]
    report = reported(shipped(name), formation)
    assert [finding for finding in report.findings if finding.why is None] == []
    # Nor is anything too near at rest, explained or not, in the formation that is so on another court.
    if formation == FORMATIONS["four_out_one_in"]:
        assert not [finding for finding in report.findings if finding.kind == "close"]


@pytest.mark.parametrize("formation", FORMATIONS.values(), ids=list(FORMATIONS))
def test_the_checker_looks_at_all_there_is(formation: Formation) -> None:
    report = reported(shipped("pass_and_cut"), formation)
    graph = reach(formation)
    assert (report.positions, report.steps) == (len(graph.alignments), len(graph.steps))


def test_a_wrong_rule_is_told_once_with_both_players_and_the_spot() -> None:
    finding, rules, formation = found("same_spot")
    before, _ = advance(start(formation), finding.chain[:-1], formation, rules)
    faults = outcomes(before.alignment, formation, rules)[1]
    fault = next(it for action, it in faults if action.text == finding.chain[-1] and it.kind == "same_spot")
    two = {finding.about["player"], finding.about["mate"]}
    assert two == {str(before.player(spot)) for spot in fault.detail[:2]}
    assert finding.about["spot"] == fault.spot
    about_it = [
        each.kind for each in reported(rules, formation).findings if each.about.get("action") == "drive"
    ]
    assert about_it == ["same_spot"]
