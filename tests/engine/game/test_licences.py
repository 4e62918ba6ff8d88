"""Green lights, tendencies and teaching stages: what is offered, to whom, and why not."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.checker import check
from engine.floor.alignment import start
from engine.floor.court import half_court
from engine.floor.formations import FORMATIONS
from engine.game.licences import Licence
from engine.game.play import BadSequence, advance, menu
from engine.rules.actions import BALL_ACTIONS, LANE_CHOICES
from engine.rules.rule_sets import DEFAULT, at_stage, shipped

FIVE = FORMATIONS["five_out"]


def kinds(licences: dict[int, Licence], *played: str) -> tuple[set[str], set[tuple[str, int]]]:
    position, _ = advance(start(FIVE), played, FIVE)
    found = menu(position, FIVE, DEFAULT, licences)
    return (
        {offer.actions[-1].kind for offer in found.offers},
        {(held.action.kind, held.number) for held in found.withheld},
    )


def test_what_a_player_may_not_do_yet_is_withheld_and_says_who() -> None:
    offered, withheld = kinds({1: Licence(frozenset(("pass",)))})
    # A back cut is the choice of the mate who cuts, who is not limited here.
    assert offered == {"pass", "back_cut", "shot"}
    assert withheld == {("skip", 1), ("dribble_at", 1), ("hand_off", 1), ("drive", 1)}


def test_a_back_cut_needs_the_licence_of_the_player_who_cuts() -> None:
    offered, withheld = kinds({3: Licence(frozenset(("pass",))), 2: Licence()})
    assert "back_cut" in offered
    assert ("back_cut", 3) in withheld


def test_a_cutter_may_always_fill_and_the_ball_may_always_be_shot() -> None:
    nobody = {number: Licence(frozenset()) for number in range(1, 6)}
    assert kinds(nobody)[0] == {"shot"}
    offered, _ = kinds({1: Licence(frozenset())}, "pass:right_wing")
    assert {"fill", "shot"} <= offered
    assert not offered & {"post_up", "back_screen"}


def test_an_action_without_a_licence_is_refused_by_name() -> None:
    with pytest.raises(BadSequence, match="'drive:left' is not for 1 yet"):
        advance(start(FIVE), ["drive:left"], FIVE, DEFAULT, {1: Licence(frozenset(("pass",)))})


@pytest.mark.parametrize(
    ("lane", "choice"),
    [
        ((), "fill:left_corner"),
        (("post_up",), "post_up:left_block"),
        (("post_up:right_block",), "post_up:right_block"),
        # the first wish is not legal (4 stands too close), the second counts
        (("post_up:right_short_corner", "post_up:high_post"), "post_up:high_post"),
        # he has no licence for it
        (("back_screen",), "fill:left_corner"),
    ],
)
def test_a_tendency_goes_before_the_default_choice_where_it_is_legal(
    lane: tuple[str, ...], choice: str
) -> None:
    position, _ = advance(start(FIVE), ["pass:right_wing"], FIVE)
    licence = Licence(frozenset(("fill", "post_up", "pass")), lane)
    found = menu(position, FIVE, DEFAULT, {1: licence})
    assert found.default is not None
    assert found.default.text == choice
    composites = [offer for offer in found.offers if offer.is_composite]
    assert composites
    assert {offer.actions[0].text for offer in composites} == {choice}


def test_stages_add_up_to_the_whole_rule_set() -> None:
    rules = shipped("pass_and_cut")
    installed = [at_stage(rules, stage) for stage in range(len(rules.stages))]
    assert installed[0].actions | installed[0].lane == {"pass", "skip", "fill", "shot"}
    for earlier, later in pairwise(installed):
        assert earlier.actions | earlier.lane < later.actions | later.lane
    assert installed[-1].actions == rules.actions
    assert installed[-1].lane == rules.lane
    assert at_stage(rules, None) is rules


def test_at_a_stage_only_what_it_has_is_offered() -> None:
    first = at_stage(DEFAULT, 0)
    found = menu(start(FIVE), FIVE, first)
    assert {offer.actions[-1].kind for offer in found.offers} == {"pass", "skip", "shot"}
    with pytest.raises(BadSequence, match="the team's rules do not have it"):
        advance(start(FIVE), ["drive:left"], FIVE, first)


licences = st.dictionaries(
    st.integers(1, 5),
    st.builds(Licence, st.frozensets(st.sampled_from([*BALL_ACTIONS, *LANE_CHOICES]), max_size=8)),
)


@given(licences)
def test_offered_and_withheld_are_together_all_that_is_legal(given_licences: dict[int, Licence]) -> None:
    whole = menu(start(FIVE), FIVE)
    found = menu(start(FIVE), FIVE, DEFAULT, given_licences)
    both = [offer.actions[-1] for offer in found.offers] + [held.action for held in found.withheld]
    assert sorted(a.text for a in both) == sorted(offer.actions[-1].text for offer in whole.offers)


def test_the_checker_obeys_green_lights_by_groups_of_equal_players() -> None:
    court, rules = half_court("fiba"), shipped("first_steps")
    free = check(rules, FIVE, court)
    same = {number: Licence(frozenset(("pass", "dribble_at"))) for number in range(1, 6)}
    assert check(rules, FIVE, court, same).positions == free.positions
    passers = {number: Licence(frozenset(("pass",))) for number in range(1, 6)}
    limited = check(rules, FIVE, court, passers)
    assert {f.about["action"] for f in limited.findings if f.kind == "never"} == {"dribble_at"}
    two_groups = {1: Licence(frozenset(("pass",)))}
    assert check(rules, FIVE, court, two_groups).positions > free.positions
