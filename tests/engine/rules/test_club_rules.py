"""Agreements that clubs commonly teach, said as the editor keeps them: what a coach would expect of each on
the floor, in words, and of the checker. All common practice, no source.
"""

from __future__ import annotations

from typing import Any

import pytest

from engine.checker import check
from engine.floor.alignment import Position, start
from engine.floor.court import half_court
from engine.floor.formations import FORMATIONS
from engine.game.lane import default_choice
from engine.game.moves import legal
from engine.game.play import advance, menu
from engine.game.sentences import sentence, words
from engine.rules.compare import differences
from engine.rules.rule_sets import DEFAULT, BadRules, RuleSet, read
from tests.engine.checker.broken import data
from tests.graphs import reach


def agreement(actions: str, lane: str, **responses: dict[str, Any]) -> RuleSet:
    """Return the default set with these actions alone, and other answers to some triggers."""
    made = data() | {"actions": actions.split(), "lane": lane.split(), "stages": [], "known": []}
    return read(made | {"responses": made["responses"] | responses})


def played(rules: RuleSet, formation: str, *taps: str) -> tuple[dict[str, int], dict[int, str]]:
    """Play taps (actions of one tap joined by a space); return who stands where, and what each player of the
    last one is told.
    """
    shape = FORMATIONS[formation]
    position: Position = start(shape)
    for tap in taps:
        before = position
        position, steps = advance(before, tap.split(), shape, rules)
    told = words(before, steps).who
    return dict(position.lineup), {n: sentence("who", phrase) for n, phrase in told.items()}


#: On a drive everybody holds; the corner away from it drifts to the other side if it is free.
_DRIFT = {"far_corner": ["slide", "hold"], "perimeter": "stay", "posts": "stay"}
DRIFT = agreement(
    "pass skip drive kick_out dribble_out shot", "fill", middle_drive=_DRIFT, baseline_drive=_DRIFT
)


@pytest.mark.parametrize("formation", FORMATIONS)
def test_drift_is_checked_without_findings(formation: str) -> None:
    assert check(DRIFT, FORMATIONS[formation], half_court("fiba")).findings == ()


@pytest.mark.parametrize(
    ("formation", "taps", "number", "spot", "told"),
    [
        # 4 stands in the corner the drive goes to: it is no room, so 5 holds.
        ("five_out", ["drive:right"], 5, "left_corner", "5 stays in the left corner."),
        # The driver has left the corner free: along the baseline into it.
        (
            "five_out",
            ["skip:left_corner", "fill:right_corner", "drive:left"],
            1,
            "left_corner",
            "1 runs along the baseline to the left corner.",
        ),
        (
            "four_out_one_in",
            ["pass:right_wing", "fill:right_corner", "drive:left"],
            1,
            "left_corner",
            "1 runs along the baseline to the left corner.",
        ),
        (
            "three_out_two_in",
            ["pass:right_wing", "fill:left_corner", "drive:right"],
            1,
            "right_corner",
            "1 runs along the baseline to the right corner.",
        ),
    ],
)
def test_drift(formation: str, taps: list[str], number: int, spot: str, told: str) -> None:
    where, says = played(DRIFT, formation, *taps)
    assert (where[spot], says[number]) == (number, told)
    assert all("stays" in says[n] or "drives" in says[n] for n in says if n != number)


#: On a drive the wing ahead drifts to the corner, or the corner lifts to the wing the driver has left.
WINGS = agreement(
    "pass skip drive kick_out dribble_out shot",
    "fill",
    middle_drive={"ahead": ["drift", "stay"], "behind": "stay", "posts": "stay"},
    baseline_drive={"drive_corner": ["lift", "hold"], "ahead": "stay", "behind": "stay", "posts": "stay"},
)


@pytest.mark.parametrize(
    ("formation", "taps", "number", "spot", "told"),
    [
        ("five_out", ["drive:right"], 2, "right_wing", "2 stays on the right wing."),
        ("three_out_two_in", ["drive:right"], 2, "right_corner", "2 drifts to the right corner."),
        ("four_out_one_in", ["drive:right"], 2, "right_corner", "2 drifts to the right corner."),
        # A baseline drive leaves the wing free: the corner lifts to it.
        (
            "five_out",
            ["pass:right_wing", "fill:left_corner", "drive:right"],
            4,
            "right_wing",
            "4 lifts to the right wing.",
        ),
    ],
)
def test_wing_and_corner(formation: str, taps: list[str], number: int, spot: str, told: str) -> None:
    where, says = played(WINGS, formation, *taps)
    assert (where[spot], says[number]) == (number, told)


@pytest.mark.parametrize("formation", FORMATIONS)
def test_wing_and_corner_are_checked_without_findings(formation: str) -> None:
    assert check(WINGS, FORMATIONS[formation], half_court("fiba")).findings == ()


# ---- where a cutter goes who chooses nothing: straight on with the ball


def sent(rules: RuleSet, formation: str, *taps: str) -> str:
    """Play taps; return the choice with which the ball then goes straight on."""
    shape = FORMATIONS[formation]
    position = start(shape)
    for tap in taps:
        position, _ = advance(position, tap.split(), shape, rules)
    choice = menu(position, shape, rules).default
    assert choice is not None
    return choice.text


def going(*places: str) -> RuleSet:
    return read(data() | {"cutter": list(places)})


@pytest.mark.parametrize(
    ("places", "formation", "taps", "expected"),
    [
        # Five out, ball on the right wing: the left corner alone is empty.
        (["far_corner"], "five_out", ["pass:right_wing"], "fill:left_corner"),
        (["ball_corner"], "five_out", ["pass:right_wing"], "fill:left_corner"),
        (["post"], "five_out", ["pass:right_wing"], "post_up:right_block"),
        # Four out: both corners are empty, and the left wing.
        ([], "four_out_one_in", ["pass:right_wing"], "fill:left_wing"),
        (["far_corner"], "four_out_one_in", ["pass:right_wing"], "fill:left_corner"),
        (["ball_corner"], "four_out_one_in", ["pass:right_wing"], "fill:right_corner"),
        (["weak_side"], "four_out_one_in", ["pass:right_wing"], "fill:left_wing"),
        # 5 is on the right block: the left one is next, and the right elbow comes before it.
        (["post"], "four_out_one_in", ["pass:right_wing"], "post_up:right_elbow"),
        # Both posts are taken, so it is the corner.
        (["post", "far_corner"], "three_out_two_in", ["pass:right_wing"], "fill:left_corner"),
        # The corner is taken: what comes next in the list, then what always comes last.
        (["ball_corner", "post"], "five_out", ["pass:right_wing"], "post_up:right_block"),
        (["ball_corner"], "three_out_two_in", ["pass:right_wing", "fill:right_corner", "pass:top"], None),
    ],
)
def test_the_set_says_where_a_cutter_goes(
    places: list[str], formation: str, taps: list[str], expected: str | None
) -> None:
    rules = going(*places)
    # A set that says nothing, and one none of whose places is free, sends a cutter as ever.
    assert sent(rules, formation, *taps) == (expected or sent(going(), formation, *taps))


@pytest.mark.parametrize("formation", FORMATIONS)
@pytest.mark.parametrize("places", [["far_corner"], ["ball_corner", "far_corner"], ["weak_side"], ["post"]])
def test_wherever_a_cutter_is_sent_play_goes_on(formation: str, places: list[str]) -> None:
    rules, shape = going(*places), FORMATIONS[formation]
    for alignment in reach(shape, rules=rules).alignments:
        choice = default_choice(alignment, shape, rules)
        if alignment.cutter is not None and not alignment.over:
            assert choice in legal(alignment, shape, rules)
            assert choice is not None


def test_a_place_that_there_is_not_is_named() -> None:
    with pytest.raises(BadRules, match="There is no place 'moon' for a cutter"):
        going("moon")


def test_where_a_cutter_goes_is_compared() -> None:
    assert differences(going(), going("post", "far_corner")) == (
        ("cutter", {"one": "", "other": "post,far_corner"}),
    )


# ---- the cutter's catch is answered


def caught(**roles: Any) -> dict[str, dict[str, Any]]:
    return {"cutter_catch": {"passer": "stay", "perimeter": "stay", "posts": "stay", **roles}}


CATCH = agreement(
    "pass skip post_entry kick_out dump_off high_low cutter_pass dribble_out shot",
    "fill post_up",
    **caught(ball_side_posts=["to_short_corner", "stay"], weak_side_posts=["to_elbow", "stay"]),
)


def test_posts_make_room_where_the_cutter_catches() -> None:
    where, says = played(CATCH, "three_out_two_in", "pass:right_wing", "cutter_pass")
    assert where == {"rim": 1, "right_wing": 2, "top": 3, "left_elbow": 4, "right_short_corner": 5}
    assert says[5] == "5 makes room and goes to the right short corner."
    assert says[2] == "2 passes to 1 and stays on the right wing."


def test_a_set_that_does_not_speak_of_the_catch_has_everybody_stay() -> None:
    where, _ = played(DEFAULT, "three_out_two_in", "pass:right_wing", "cutter_pass")
    assert where == {"rim": 1, "right_wing": 2, "top": 3, "left_block": 4, "right_block": 5}


@pytest.mark.parametrize("formation", FORMATIONS)
def test_answers_to_the_catch_are_checked_without_findings(formation: str) -> None:
    found = check(CATCH, FORMATIONS[formation], half_court("fiba")).findings
    # What some of these formations have no post for is not there to be found fault with.
    assert [finding for finding in found if finding.kind != "never"] == []
