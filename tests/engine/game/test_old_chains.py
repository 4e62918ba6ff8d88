"""Chains that were stored when every drive ended in the paint play on, as they were meant."""

from __future__ import annotations

import pytest

from engine.floor.alignment import start
from engine.floor.formations import FIVE_OUT, FORMATIONS
from engine.game.moves import meant
from engine.game.play import advance
from engine.rules.actions import parse
from tests.engine.boards import board

BASELINE = ["pass:right_wing", "fill:left_corner", "drive:right", "kick_out:right_wing"]


@pytest.mark.parametrize("spot", ["rim", "paint", "rim_left", "rim_right"])
def test_a_screen_by_a_lane_spot_means_the_cutter_wherever_in_the_lane_he_stands(spot: str) -> None:
    before, _ = advance(start(FIVE_OUT), BASELINE, FIVE_OUT)
    assert before.alignment.cutter == "rim_right"
    after, (step,) = advance(before, [f"ball_screen:{spot}:left"], FIVE_OUT)
    expected, _ = advance(before, ["ball_screen:rim_right:left"], FIVE_OUT)
    assert after == expected
    assert step.action == parse("ball_screen:rim_right:left")


def test_a_middle_drive_still_ends_in_the_paint_and_is_screened_from_there() -> None:
    line = ["drive:right", "kick_out:right_corner", "ball_screen:paint:left"]
    after, _ = advance(start(FIVE_OUT), line, FIVE_OUT)
    assert after.alignment.ball == "paint"


def test_nothing_else_is_taken_for_the_cutter() -> None:
    waiting = board("LC LW T RW* rim^")
    for text in ("fill:right_corner", "back_screen:top", "shot", "ball_screen:left_block:left"):
        assert meant(parse(text), waiting) == parse(text)
    assert meant(parse("ball_screen:paint:left"), board("LC LW T RW* LB")) == parse("ball_screen:paint:left")


@pytest.mark.parametrize("name", FORMATIONS)
def test_a_position_with_somebody_in_the_paint_is_played_from_as_before(name: str) -> None:
    formation = FORMATIONS[name]
    after, _ = advance(start(formation), ["drive:left"], formation)
    assert after.alignment.ball == "paint"
    kicked = next(spot for spot in formation.ring if spot in after.alignment.occupied)
    then, _ = advance(after, [f"kick_out:{kicked}"], formation)
    assert then.alignment.cutter == "paint"
