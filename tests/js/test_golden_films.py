"""The engine's clock and the browser's, held to films that are written down (``tests/golden_films.py``)."""

from __future__ import annotations

from functools import cache
from typing import Any

import pytest

from engine.floor.alignment import start
from tests.golden_films import Case, kept, times, written
from tests.node import run_node
from webapp.wire.engine_values import floor_wire, position_wire

CASES = kept()
#: What is written down is rounded; a curve is measured by straight pieces, here and there by others.
NEAR_CM = 2.0
NEAR_S = 0.011


@cache
def laid_by_the_browser() -> list[Any]:
    """Return every film as the browser lays it, in the order of the cases."""
    given = []
    for case, line in CASES:
        board = case.board
        given.append(
            {
                "start": position_wire(start(board.shape)),
                "spots": floor_wire(board.court, board.shape)["spots"],
                "steps": case.wires(),
                "times": times(line["end"] / 100),
                "breath": case.breath,
            }
        )
    return list(run_node("films", given))


@pytest.mark.parametrize("number", range(len(CASES)), ids=[case.name for case, _ in CASES])
def test_the_engine_lays_the_film_that_is_written_down(number: int) -> None:
    case, line = CASES[number]
    assert written(case) == {**line, "chain": case.chain}


@pytest.mark.parametrize("number", range(len(CASES)), ids=[case.name for case, _ in CASES])
def test_the_browser_lays_the_film_that_is_written_down(number: int) -> None:
    case, line = CASES[number]
    film = laid_by_the_browser()[number]
    assert [begin * 100 for begin in film["starts"]] == pytest.approx(line["starts"], abs=100 * NEAR_S)
    assert film["end"] * 100 == pytest.approx(line["end"], abs=100 * NEAR_S)
    assert {key: len(spans) for key, spans in film["shown"].items()} == {
        key: len(spans) for key, spans in line["shown"].items()
    }
    assert off(case, line, film) == {}


def off(case: Case, line: dict[str, Any], film: dict[str, Any]) -> dict[str, float]:
    """Return who is too far from where he should be, when, and how far in centimetres."""
    found: dict[str, float] = {}
    for tick, t in enumerate(times(line["end"] / 100)):
        there = {who: places[2 * tick : 2 * tick + 2] for who, places in line["places"].items()}
        there["ball"] = line["ball"][2 * tick : 2 * tick + 2]
        ball = film["ball"][tick]
        here = {**film["places"][tick], "ball": [ball["x"], ball["y"]]}
        for who, (x, y) in there.items():
            gap = max(abs(here[who][0] - x), abs(here[who][1] - y))
            if gap > NEAR_CM:
                found[f"{who} at {t:.1f} s"] = round(gap, 1)
    return found
