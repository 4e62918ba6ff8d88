"""Every row of the default rule set by example, worked out by hand from its written rules.

What the trade agrees on in them (the passer cuts, the player dribbled at cuts behind, cover behind a baseline
drive, the far corner filled) is common practice, no source.
"""

from __future__ import annotations

import pytest

from engine.floor.formations import Formation
from engine.game.moves import legal
from engine.rules.actions import parse
from tests.engine.boards import FIVE, FOUR, SHORT, THREE, board, long, step, travel

# formation, before, action, who goes where, where the ball ends, where a new cutter waits
EXAMPLES: list[tuple[Formation, str, str, dict[str, str], str, str | None]] = [
    # pass: the passer cuts, the rest close up toward the receiver
    (FIVE, "LC LW T* RW RC", "pass:RW", {"T": "rim", "LW": "T", "LC": "LW"}, "RW", "rim"),
    (FIVE, "LC LW T RW* RC", "pass:T", {"RW": "rim", "RC": "RW"}, "T", "rim"),
    (FIVE, "LC LW* RW RC RB", "pass:RW", {"LW": "rim", "LC": "T"}, "RW", "rim"),
    (FOUR, "LW LS RS* RW RB", "pass:RW", {"RS": "rim", "LS": "RS", "LW": "LS"}, "RW", "rim"),
    (FOUR, "LC LS RS* RW RB", "pass:RW", {"RS": "rim", "LS": "RS", "LC": "LS"}, "RW", "rim"),
    # skip: as a pass, over a team-mate between
    (FIVE, "LC LW T* RW RC", "skip:RC", {"T": "rim", "RW": "RW", "LW": "T", "LC": "LW"}, "RC", "rim"),
    (FIVE, "LC* LW T RW RC", "skip:T", {"LC": "rim"}, "T", "rim"),
    (FOUR, "LW* LS RS RW HP", "skip:RS", {"LW": "rim"}, "RS", "rim"),
    # post entry: the larger group's nearest refills, then the rest close up
    (FOUR, "LW LS RS RW* RB", "post_entry:RB",
     {"RW": "rim", "RS": "RW", "LS": "RS", "LW": "LS"}, "RB", "rim"),
    (FOUR, "LC LS RS* RW RE", "post_entry:RE", {"RS": "rim", "LS": "RS", "LC": "LS"}, "RE", "rim"),
    # a tie goes to the group away from the post's side ...
    (THREE, "LW T* RW LB RB", "post_entry:RB", {"T": "rim", "LW": "T"}, "RB", "rim"),
    (THREE, "LW T* RW LB RB", "post_entry:LB", {"T": "rim", "RW": "T"}, "LB", "rim"),
    # ... with the post in the middle, away from the ball's side; both in the middle, those before
    (THREE, "LW T RW* HP LB", "post_entry:HP", {"RW": "rim", "T": "RW", "LW": "T"}, "HP", "rim"),
    (THREE, "LW T* RW HP LB", "post_entry:HP", {"T": "rim", "LW": "T"}, "HP", "rim"),
    (FOUR, "LW RS* RW HP LB", "post_entry:HP", {"RS": "rim", "LW": "RS"}, "HP", "rim"),
    (FOUR, "LW LS* RW HP LB", "post_entry:HP", {"LS": "rim", "RW": "LS"}, "HP", "rim"),
    # dribble at: the mate on the next spot cuts, the handler takes it
    (FIVE, "LC LW T* RW RC", "dribble_at:RW", {"T": "RW", "RW": "rim", "LW": "T", "LC": "LW"}, "RW", "rim"),
    (FOUR, "LW LS RS* RW RB", "dribble_at:LS", {"RS": "LS", "LS": "rim", "RW": "RS"}, "LS", "rim"),
    # hand-off: the mate takes ball and spot, the giver cuts
    (FIVE, "LC LW T* RW RC", "hand_off:RW", {"RW": "T", "T": "rim", "RC": "RW"}, "T", "rim"),
    (FOUR, "LW LS RS* RW RB", "hand_off:LS", {"LS": "RS", "RS": "rim", "LW": "LS"}, "RS", "rim"),
    # dribble to an open spot
    (FOUR, "LW LS RS RW* RB", "dribble_to:RC", {"RW": "RC", "RS": "RW", "LS": "RS", "LW": "LS"}, "RC", None),
    (FIVE, "LW T* RC LB RB", "dribble_to:RW", {"T": "RW", "LW": "T"}, "RW", None),
    # back cut of a denied mate, nearest on either side
    (FIVE, "LC LW T* RW RC", "back_cut:LW", {"LW": "rim", "LC": "LW"}, "T", "rim"),
    (FIVE, "LC T* RC LB RB", "back_cut:RC", {"RC": "rim", "LC": "LW"}, "T", "rim"),
    # middle drive: everybody rotates one spot, past the last corner along the baseline
    (FIVE, "LC LW T* RW RC", "drive:right",
     {"T": "paint", "LC": "LW", "LW": "T", "RW": "RC", "RC": "LC"}, "paint", None),
    (FIVE, "LC LW T RW* RC", "drive:left",
     {"RW": "paint", "LC": "RC", "LW": "LC", "T": "LW", "RC": "RW"}, "paint", None),
    (FOUR, "LW LS RS* RW RB", "drive:right",
     {"RS": "paint", "LW": "LS", "LS": "RS", "RW": "RC"}, "paint", None),
    (FOUR, "LC LW LS RS* RB", "drive:right",
     {"RS": "paint", "LC": "LW", "LW": "LS", "LS": "RS", "RB": "RSC"}, "paint", None),
    (FOUR, "LW LS* RS RW HP", "drive:right",
     {"LS": "paint", "LW": "LS", "RS": "RW", "RW": "RC", "HP": "LE"}, "paint", None),
    # baseline drive: the nearest fills in behind the driver, the far corner is filled if two were there
    (FIVE, "LC LW T RW* RC", "drive:right", {"RW": "rim_right", "T": "RW"}, "rim_right", None),
    (FIVE, "LW T RW* RC HP", "drive:right", {"RW": "rim_right", "T": "RW", "LW": "LC"}, "rim_right", None),
    (FIVE, "LC* RW RC LB RB", "drive:left", {"LC": "rim_left", "RW": "LC", "LB": "LE"}, "rim_left", None),
    (FIVE, "LW* T RW LB RB", "drive:left",
     {"LW": "rim_left", "T": "LW", "RW": "RC", "LB": "LE"}, "rim_left", None),
    (THREE, "LC RC* LW LB RB", "drive:right", {"RC": "rim_right", "LW": "RC", "RB": "RE"}, "rim_right", None),
    # posts make room only where the place is open to them
    (THREE, "LW T* RC LB RB", "drive:right",
     {"T": "paint", "LW": "T", "RC": "LC", "RB": "RSC"}, "paint", None),
    (THREE, "LW T* RW LB RB", "drive:right", {"T": "paint", "LW": "T", "RW": "RC"}, "paint", None),
    (THREE, "LW T RW* RB RE", "drive:right", {"RW": "rim_right", "T": "RW", "LW": "LC"}, "rim_right", None),
    # ball screen: as a drive, then the screener rolls to the first open spot
    (FOUR, "LW LS RS RW* RB", "ball_screen:RB:left",
     {"RW": "paint", "LW": "LC", "LS": "LW", "RS": "LS", "RB": "RB"}, "paint", None),
    (FOUR, "LW LS RS RW* RB", "ball_screen:RB:right",
     {"RW": "rim_right", "RS": "RW", "LW": "LC", "RB": "LB"}, "rim_right", None),
    (THREE, "LW T* RW LB HP", "ball_screen:HP:left",
     {"T": "paint", "LW": "LC", "RW": "T", "LB": "LB", "HP": "RB"}, "paint", None),
    # ... the cutter may screen too
    (FIVE, "LW T RW* RC rim^", "ball_screen:rim:left",
     {"RW": "paint", "LW": "LC", "T": "LW", "RC": "RW", "rim": "RB"}, "paint", None),
    # kick-out from the lane: the passer becomes the cutter where he is; from a post he stays
    (FIVE, "LC LW RW RC paint*", "kick_out:LC", {"RW": "T", "RC": "RW"}, "LC", "paint"),
    (FOUR, "LS RS RW LW RB*", "kick_out:LS", {}, "LS", None),
    (FOUR, "LC LS RC LW RB*", "kick_out:LS", {"RC": "RS"}, "LS", None),
    # high-low and dump-off: nobody moves
    (THREE, "LW T RW HP* RB", "high_low:RB", {}, "RB", None),
    (THREE, "LW T RW LB paint*", "dump_off:LB", {}, "LB", "paint"),
    # dribble out of the lane
    (FIVE, "LC LW RW RC paint*", "dribble_out:T", {"paint": "T"}, "T", None),
    (FIVE, "LC LW T RC rim*", "dribble_out:RW", {"rim": "RW"}, "RW", None),
    # with a cutter waiting
    (FIVE, "LW T RW* RC rim^", "cutter_pass", {}, "rim", None),
    (FIVE, "LW T RW* RC rim^", "fill:LC", {"rim": "LC"}, "RW", None),
    (FIVE, "LW T RW* RC rim^", "post_up:LB", {"rim": "LB"}, "RW", None),
    (FIVE, "LW T RW* RC rim^", "back_screen:LW", {"rim": "LW", "LW": "rim"}, "RW", "rim"),
    (FIVE, "LC* LW RW T paint^", "back_screen:T", {"paint": "T", "T": "rim"}, "LC", "rim"),
    (FIVE, "LW T RW* RC rim^", "shot", {}, "RW", "rim"),
]  # fmt: skip


@pytest.mark.parametrize(
    ("formation", "before", "action", "moves", "ball", "cutter"),
    EXAMPLES,
    ids=lambda value: value if isinstance(value, str) else None,
)
def test_an_action_moves_everybody_as_agreed(
    formation: Formation, before: str, action: str, moves: dict[str, str], ball: str, cutter: str | None
) -> None:
    made = step(before, action, formation)
    expected = {origin: target for origin, target in moves.items() if origin != target}
    moved = {origin: target for origin, target in travel(made).items() if origin != target}
    assert moved == expected
    assert made.after.ball == SHORT[ball]
    assert made.after.cutter == (None if cutter is None else SHORT[cutter])
    assert made.after.over == (action == "shot")


# what must, and what must not, be on offer
LEGAL = [
    (FIVE, "LC LW T* RW RC", "pass:LW pass:RW skip:LC skip:RC", "skip:LW pass:LC pass:T"),
    (FIVE, "LW RW* RC LB RB", "pass:LW pass:RC back_cut:LW back_cut:RC", "skip:LW hand_off:LW dribble_at:LW"),
    (FIVE, "LC LW T* RW RC", "back_cut:LW back_cut:RW", "back_cut:LC back_cut:RC"),
    (FIVE, "LC LW T* RW RC", "dribble_at:LW hand_off:RW", "dribble_at:LC dribble_to:LW dribble_to:LC"),
    (FIVE, "LW RW* RC LB RB", "dribble_to:T dribble_at:RC", "dribble_to:RC dribble_to:LC"),
    # a post entry: same side or the middle, and not too long a pass
    (FIVE, "LW RW* RC LB RB", "post_entry:RB", "post_entry:LB"),
    (FIVE, "LW T* RC LB RB", "post_entry:RB post_entry:LB", "post_entry:HP"),
    (FIVE, "LW T* LC HP RSC", "post_entry:HP", "post_entry:RSC"),
    (FIVE, "LW RC* LC HP RB", "post_entry:RB", "post_entry:HP"),
    (FIVE, "LW RW* LC HP RSC", "post_entry:HP post_entry:RSC", ""),
    # a ball screen: no such limit on length, but not from a short corner, and the same sides
    (FIVE, "LW RC* LC HP RB", "ball_screen:HP:left ball_screen:RB:right", ""),
    (FIVE, "LW RW* LC HP RSC", "ball_screen:HP:left", "ball_screen:RSC:left ball_screen:RSC:right"),
    (FIVE, "LW RW* RC LB RB", "ball_screen:RB:left", "ball_screen:LB:left"),
    # while a cutter is in the lane
    (FIVE, "LW T RW* RC rim^", "fill:LC cutter_pass ball_screen:rim:left ball_screen:rim:right shot",
     "pass:T drive:left fill:LW post_up:RSC back_screen:RW kick_out:T"),
    # the cutter, the third post of two, may neither post up nor roll
    (FIVE, "RW* RC LB RE rim^", "fill:T fill:LC back_screen:RC",
     "post_up:LE post_up:RB ball_screen:rim:left"),
    # crowded pairs: block and short corner, corner and short corner, elbow and high post
    (FIVE, "LW T RW* LB rim^", "post_up:RB post_up:LE post_up:RSC", "post_up:LSC post_up:LB"),
    (FIVE, "LC T RW* HP rim^", "post_up:RB post_up:LB", "post_up:LE post_up:RE post_up:LSC post_up:HP"),
    # a corner may be filled beside a short corner
    (FIVE, "LW T RW* RSC rim^", "fill:RC", "post_up:RB"),
    # the ball at a post: no screen by the cutter, no pass before he has chosen
    (FOUR, "LS RS RW RB* rim^", "fill:LW cutter_pass", "ball_screen:rim:left kick_out:RW high_low:LB"),
    (FOUR, "LS RS RW LB RB*", "kick_out:RW high_low:LB", "dump_off:LB drive:left dribble_out:LW pass:RW"),
    (FOUR, "LS RS RW LB paint*", "kick_out:RW dump_off:LB dribble_out:LW dribble_out:LC",
     "high_low:LB dribble_out:RW drive:left post_entry:LB"),
]  # fmt: skip


@pytest.mark.parametrize(("formation", "before", "must", "must_not"), LEGAL)
def test_what_is_legal_and_what_is_not(formation: Formation, before: str, must: str, must_not: str) -> None:
    offered = legal(board(before), formation)
    for text in must.split():
        assert parse(long(text)) in offered, text
    for text in must_not.split():
        assert parse(long(text)) not in offered, text
    assert parse("shot") in offered


def test_a_shot_ends_the_possession() -> None:
    over = step("LW T RW* RC rim^", "shot", FIVE).after
    assert over.over
    assert legal(over, FIVE) == ()
    assert over.cutter == "rim"
