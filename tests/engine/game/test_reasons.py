"""Why something is not legal here: the sentence names what stands in the way, not something else."""

from __future__ import annotations

import pytest

from engine.errors import AmbiguousAction, UnreadableAction
from engine.floor.alignment import Alignment, problems, start
from engine.floor.formations import Formation
from engine.game.moves import find, why_not
from engine.rules.actions import BALL_ACTIONS, LANE_CHOICES, parse
from engine.rules.rule_sets import DEFAULT, read, shipped
from tests.engine.boards import FIVE, FOUR, THREE, board, long
from tests.engine.checker.broken import changed, data

EVERYTHING = read({**data(), "actions": [*BALL_ACTIONS], "lane": [*LANE_CHOICES], "stages": []})

REASONS = [
    # the cutter
    (FIVE, "LC LW T* RW RC", "fill:LC", "no cutter is waiting in the lane."),
    (FIVE, "LC LW T* RW RC", "cutter_pass", "no cutter is waiting in the lane."),
    (FIVE, "LW T RW* RC rim^", "pass:T", "the cutter in the lane must choose first."),
    (
        *(FOUR, "LS RS RW* RB rim^", "ball_screen:RB:left"),
        "while a cutter is in the lane, only the cutter may screen.",
    ),
    # where it goes
    (FIVE, "LC LW T* RW RC", "pass:LS", "left slot is not a perimeter spot of five out."),
    (FIVE, "LW T RW* RC rim^", "fill:LB", "left block is not a perimeter spot of five out."),
    (FIVE, "LC LW T* RW RC", "post_entry:RW", "right wing is not a post spot."),
    (FIVE, "LW T RW* RC rim^", "post_up:LC", "left corner is not a post spot."),
    (FIVE, "LC LW T* RW RC", "ball_screen:RW:left", "only a post player or the cutter may screen the ball."),
    (FIVE, "LC LW RW* RC RB", "pass:T", "nobody stands at the top."),
    (FIVE, "LC LW T* RW RC", "post_entry:RB", "nobody stands on the right block."),
    (FIVE, "LC LW T* RW RC", "pass:T", "the player at the top has the ball."),
    (FIVE, "LC LW T* RW RC", "dribble_to:RW", "the right wing is taken."),
    (FIVE, "LW T RW* RC rim^", "fill:LW", "the left wing is taken."),
    (THREE, "LW RW* RC LB rim^", "post_up:LB", "the left block is taken."),
    (THREE, "LW RW* RC LB rim^", "post_up:LSC", "a team-mate stands too close to the left short corner."),
    (FIVE, "RW* RC LB RE rim^", "post_up:RB", "2 post players are there already."),
    # where the ball is
    (FIVE, "LC LW RW RC paint*", "pass:LC", "the ball is not on the perimeter."),
    (FIVE, "LC LW T* RW RC", "kick_out:LC", "the ball is on the perimeter already."),
    (THREE, "LW T* RW LB RB", "high_low:RB", "the ball is not at a post."),
    (THREE, "LW T* RW LB RB", "dump_off:RB", "the ball is not in the lane."),
    (FIVE, "LC LW RW* RC RB", "dribble_out:T", "the ball is not in the lane."),
    (THREE, "LW T RW LB RB*", "hub_hand_off:RW", "the ball is not at an elbow or the high post."),
    # how far, and on which side
    (FIVE, "LW RW* RC LB RB", "post_entry:LB", "the left block is on the other side from the ball."),
    (FIVE, "LW T* LC HP RSC", "post_entry:RSC",
     "the pass from the top to the right short corner is too long."),
    (FIVE, "LW RW* LC HP RSC", "ball_screen:RSC:left", "a short corner is too far away to screen from."),
    (FIVE, "LC LW T* RW RC", "pass:RC", "a team-mate stands between, so it is a skip."),
    (FIVE, "LC LW T* RW RC", "skip:RW", "no team-mate stands between, so it is a pass."),
    (FIVE, "LC LW T* RW RC", "hand_off:LC", "the left corner is not next to the ball."),
    (FIVE, "LW RW* RC LB RB", "dribble_at:LW", "the left wing is not next to the ball."),
    (FIVE, "LC LW T* RW RC", "back_cut:RC", "another team-mate stands nearer to the ball on that side."),
    (FIVE, "LW T RW* RC rim^", "help_screen:T", "the top is only one pass away."),
]  # fmt: skip


@pytest.mark.parametrize(("formation", "before", "action", "why"), REASONS)
def test_a_refusal_says_what_stands_in_the_way(
    formation: Formation, before: str, action: str, why: str
) -> None:
    given = parse(long(action))
    assert why_not(board(before), given, formation, EVERYTHING) == f"{given.text!r} is not legal here: {why}"


def test_what_the_team_does_not_have_or_a_shot_has_ended_is_said_first() -> None:
    first = shipped("first_steps")
    here = start(FIVE).alignment
    sentence = why_not(here, parse("drive:left"), FIVE, first)
    assert sentence == "'drive:left' is not legal here: the team's rules do not have it."
    over = here._replace(over=True)
    sentence = why_not(over, parse("pass:left_wing"), FIVE, DEFAULT)
    assert sentence == "'pass:left_wing' is not legal here: the possession ended with a shot."


@pytest.mark.parametrize(
    ("before", "entry"), [("LW LS RS RW* RB", "post_entry:RB"), ("LW* LS RS RW LB", "post_entry:LB")]
)
def test_where_the_rules_send_two_to_one_spot_they_have_no_clear_response(before: str, entry: str) -> None:
    # The passer who fills stands on the very spot that the nearest of the others refills.
    rules = changed(post_entry={"passer": "fill"})
    sentence = why_not(board(before), parse(long(entry)), FOUR, rules)
    assert sentence is not None
    assert sentence.endswith("the team's rules have no clear response to it.")


def test_a_beginning_that_fits_several_names_them() -> None:
    with pytest.raises(AmbiguousAction) as refusal:
        find("fill", board("RW* RC LB RE rim^"), FIVE)
    assert str(refusal.value) == "'fill' could mean fill:left_corner, fill:left_wing or fill:top: say which."


WHOLE = Alignment(frozenset(("left_corner", "left_wing", "top", "right_wing", "rim")), "top", "rim")


@pytest.mark.parametrize(
    ("change", "sentence"),
    [
        ({"occupied": WHOLE.occupied - {"left_corner"}}, "There must be five players on five spots, not 4."),
        (
            {"occupied": WHOLE.occupied - {"left_corner"} | {"left_slot"}},
            "left_slot is not a spot of five_out.",
        ),
        ({"ball": "right_corner"}, "The ball is at right_corner, where nobody stands."),
        (
            {"occupied": WHOLE.occupied - {"left_corner"} | {"paint"}},
            "Two players are in the lane. The player at paint is in the lane without the ball and is not the "
            "cutter.",
        ),
        ({"cutter": None}, "The player at rim is in the lane without the ball and is not the cutter."),
        ({"ball": "rim"}, "The cutter who has not chosen cannot have the ball."),
        ({"cutter": "top", "ball": "rim"}, "A cutter stands in the lane, not at top."),
        (
            {"occupied": WHOLE.occupied - {"rim"} | {"right_corner"}},
            "There is a cutter, but nobody stands there.",
        ),
        (
            {"occupied": frozenset(("left_block", "right_block", "high_post", "top", "rim"))},
            "More than 2 posts are taken.",
        ),
    ],
)
def test_what_is_no_position_is_told_in_a_sentence(change: dict[str, object], sentence: str) -> None:
    assert problems(WHOLE, FIVE) == ()
    assert " ".join(problems(WHOLE._replace(**change), FIVE)) == sentence  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("", "There is no action here: write one such as 'pass:right_wing'."),
        ("fly:top", "'fly:top' cannot be read: there is no action of that name."),
        ("drive", "'drive' cannot be read: write it as drive:DIRECTION."),
        ("shot:top", "'shot:top' cannot be read: write it as shot."),
        ("ball_screen:top", "'ball_screen:top' cannot be read: write it as ball_screen:SPOT:DIRECTION."),
        ("pass:moon", "'pass:moon' cannot be read: there is no spot named 'moon'."),
        ("drive:up", "'drive:up' cannot be read: a direction is left or right."),
        ("x" * 40, f"'{'x' * 40}' cannot be read: there is no action of that name."),
        ("x" * 41, f"'{'x' * 37}...' cannot be read: there is no action of that name."),
    ],
)
def test_what_cannot_be_read_is_quoted_with_what_was_expected(text: str, sentence: str) -> None:
    with pytest.raises(UnreadableAction) as refusal:
        parse(text)
    assert str(refusal.value) == sentence
