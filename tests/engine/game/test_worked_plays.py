"""The worked plays of the written default rules, names and all."""

from __future__ import annotations

import pytest

from engine.errors import AmbiguousAction, IllegalAction
from engine.floor.alignment import start
from engine.floor.formations import FORMATIONS
from engine.game.lane import default_choice
from engine.game.moves import find, legal
from engine.game.play import BadSequence, advance
from tests.engine.boards import long

# formation, actions ("default" is the default lane choice), where 1 to 5 stand, who has the ball
PLAYS = [
    ("five_out", "pass:RW", "rim RW T RC LW", 2),
    ("four_out_one_in", "pass:RW default", "LW RW LS RS RB", 2),
    ("four_out_one_in", "pass:RW default post_entry:RB default", "LS LW RS RW RB", 5),
    ("four_out_one_in", "pass:RW default post_entry:RB default kick_out:LS", "LS LW RS RW RB", 1),
    ("four_out_one_in", "pass:RW default post_entry:RB default kick_out:LS drive:left",
     "paint LC LS RS RB", 1),
    ("four_out_one_in", "pass:RW default post_entry:RB default kick_out:LS drive:left kick_out:LC",
     "paint LC LW LS RB", 2),
    ("four_out_one_in", "pass:RW default post_entry:RB default kick_out:LS drive:left kick_out:LC default",
     "RS LC LW LS RB", 2),
    ("five_out", "pass:RW default drive:right", "LC rim_right RW RC LW", 2),
    ("four_out_one_in", "pass:RW default drive:right", "LC rim_right LS RW RE", 2),
]  # fmt: skip


@pytest.mark.parametrize(("name", "actions", "where", "ball"), PLAYS)
def test_worked_plays(name: str, actions: str, where: str, ball: int) -> None:
    formation = FORMATIONS[name]
    position = start(formation)
    for word in actions.split():
        action = default_choice(position.alignment, formation) if word == "default" else long(word)
        assert action is not None
        position, _ = advance(position, [action], formation)
    expected = [long("x:" + word)[2:] for word in where.split()]
    assert list(position.where().values()) == expected
    assert position.player(position.alignment.ball) == ball


def test_fourteen_actions_after_the_first_pass_of_five_out() -> None:
    formation = FORMATIONS["five_out"]
    position, _ = advance(start(formation), ["pass:right_wing"], formation)
    texts = {action.text for action in legal(position.alignment, formation)}
    assert texts == {
        "fill:left_corner",
        *(f"post_up:{post}" for post in
          ["left_block", "right_block", "left_elbow", "right_elbow", "high_post", "left_short_corner"]),
        "back_screen:top", "back_screen:left_wing", "back_screen:right_corner",
        "cutter_pass", "ball_screen:rim:left", "ball_screen:rim:right", "shot",
    }  # fmt: skip
    assert len(texts) == 14


def test_a_bad_sequence_names_the_first_bad_action_and_its_place() -> None:
    formation = FORMATIONS["five_out"]
    with pytest.raises(BadSequence, match="the cutter in the lane must choose first") as error:
        advance(start(formation), ["pass:right_wing", "pass:top", "moon"], formation)
    assert error.value.at == 1


def test_a_shortened_action_is_found_refused_or_could_mean_two_things() -> None:
    formation = FORMATIONS["five_out"]
    alignment = start(formation).alignment
    assert find("shot", alignment, formation).text == "shot"
    with pytest.raises(AmbiguousAction, match="'drive' could mean drive:left or drive:right"):
        find("drive", alignment, formation)
    with pytest.raises(IllegalAction, match="No legal action here begins with 'kick_out'"):
        find("kick_out", alignment, formation)
