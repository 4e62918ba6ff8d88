"""Changes that keep team-mates apart: later, or by a way bent further."""

from __future__ import annotations

from math import hypot

import pytest

from engine.floor.court import half_court
from engine.game.moves import resolve
from engine.motion.scene import Adjustment
from engine.motion.timeline import build
from engine.motion.values import Run
from engine.rules.actions import parse
from tests.engine.boards import FIVE, board, long
from tests.engine.checker.broken import changed

FIBA = half_court("fiba")


def run_of(spot: str, action: str, change: Adjustment | None, **responses: dict[str, str]) -> Run:
    """Return the first run of who stands on ``spot`` in one step, with a change for him."""
    step = resolve(board("LC LW T* RW RC"), parse(long(action)), FIVE, changed(**responses))
    line = build((step,), FIBA, FIVE, {} if change is None else {(0, spot): change})
    return line.runs_of[spot][0]


def from_basket(run: Run) -> float:
    return hypot(*run.path.point(run.path.length / 2))


def test_a_bend_takes_who_changes_places_further_inside() -> None:
    rules = {"dribble_at": {"dribbled_at": "replace", "perimeter": "stay"}}
    plain, bent, less = (
        run_of("right_wing", "dribble_at:RW", change, **rules)
        for change in (None, Adjustment(0.0, 1.0, 0.0), Adjustment(0.0, -1.0, 0.0))
    )
    assert from_basket(bent) < from_basket(plain) - 0.4 < from_basket(less) - 0.8


def test_a_bend_takes_who_runs_along_the_ring_further_outside() -> None:
    plain = run_of("left_wing", "pass:RW", None)
    bent = run_of("left_wing", "pass:RW", Adjustment(0.0, 1.0, 0.0))
    assert from_basket(bent) > from_basket(plain) + 0.3


@pytest.mark.parametrize("delay", [0.1, 0.5])
def test_a_delay_starts_a_run_so_much_later_and_leaves_it_as_it_is(delay: float) -> None:
    for spot, action in (("left_wing", "pass:RW"), ("top", "pass:RW"), ("right_corner", "drive:left")):
        plain, late = run_of(spot, action, None), run_of(spot, action, Adjustment(delay, 0.0, 0.0))
        assert late.start == pytest.approx(plain.start + delay)
        assert (late.duration, late.path) == (plain.duration, plain.path)
