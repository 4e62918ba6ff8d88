"""What is drawn by hand is as fast as the engine has it, and whatever is drawn is a step the engine reads."""

from __future__ import annotations

import pytest

from engine.floor.formations import FORMATIONS
from engine.motion import speeds
from engine.script import read
from tests.node import run_node

#: Centimetres.
LENGTHS = (40, 150, 299, 550, 812, 1300)
LEVELS = (0.75, 0.8, 1.0)
DRAFTS = 3000


@pytest.mark.parametrize("level", LEVELS)
def test_paces_are_those_of_the_engine(level: float) -> None:
    found = run_node("paces", {"lengths": LENGTHS, "level": level})
    paces = {"run": speeds.OFF_BALL, "dribble": speeds.DRIBBLE, "ball": speeds.BALL}
    for how, pace in paces.items():
        for length, time in zip(LENGTHS, found[how], strict=True):
            assert time == pytest.approx(max(5, speeds.duration(pace, length / 100) * 100 / level), abs=0.51)


def test_whatever_is_drawn_can_be_played_and_changed() -> None:
    made = run_node("drafts", {"seeds": DRAFTS})
    assert len(made) > DRAFTS / 3
    for text, again in made:
        drawn = read(text, FORMATIONS["five_out"])
        changed = read(again, FORMATIONS["five_out"])
        # As good as the same times, however its moves were timed when they were drawn.
        assert [run.who for run in changed.runs] == [run.who for run in drawn.runs]
        assert [event.kind for event in changed.events] == [event.kind for event in drawn.events]
        for one, other in zip((*drawn.runs, *drawn.events), (*changed.runs, *changed.events), strict=True):
            assert abs(one.start - other.start) <= 3, (text, again)
            assert abs(one.end - other.end) <= 4, (text, again)
