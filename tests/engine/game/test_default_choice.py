"""Where a waiting cutter goes when the coach goes straight on with the ball."""

from __future__ import annotations

import pytest

from engine.floor.formations import Formation
from engine.game.lane import default_choice
from tests.engine.boards import FIVE, FOUR, SHORT, THREE, board

CHOICES = [
    # an empty home spot before any other: left corner is home in five out
    (FIVE, "LW T RW* RC rim^", "LC"),
    # fewest steps from the ball
    (FIVE, "LC T* RC LB rim^", "LW"),
    (FIVE, "LC LW RW* HP rim^", "T"),
    # as near: the side with fewer players, the handler counted
    (FIVE, "LC T* HP LB rim^", "RW"),
    (FIVE, "RC T* HP RB rim^", "LW"),
    # a middle spot counts none, so it comes before a side with somebody on it
    (FIVE, "RC RW* LB RB rim^", "T"),
    (FIVE, "LC LW* LB RB rim^", "T"),
    # as near and as few: the lower index
    (FIVE, "T* HP LB RB rim^", "LW"),
    # not home, if no home spot is empty
    (FOUR, "LW LS RS RW* rim^", "RC"),
    (THREE, "LW T RW* LB rim^", "RC"),
    (THREE, "LW T* RW LB rim^", "LC"),
    # the ball at a post: the other side first, then nearest the middle, then the lower index
    (FOUR, "LC RS RW RB* rim^", "LS"),
    (FOUR, "LS RS LW RB* rim^", "RW"),
    (FIVE, "LC RW RC RB* rim^", "LW"),
    (FIVE, "LC T RC HP* rim^", "LW"),
    (FIVE, "LW RW RC HP* rim^", "T"),
]


@pytest.mark.parametrize(("formation", "before", "spot"), CHOICES)
def test_default_choice(formation: Formation, before: str, spot: str) -> None:
    text = before
    if len(before.split()) == 4:
        pytest.fail("a board has five players")
    choice = default_choice(board(text), formation)
    assert choice is not None
    assert choice.text == f"fill:{SHORT[spot]}"
