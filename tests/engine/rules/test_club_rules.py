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
from engine.game.play import advance
from engine.game.sentences import sentence, words
from engine.rules.rule_sets import RuleSet, read
from tests.engine.checker.broken import data


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
