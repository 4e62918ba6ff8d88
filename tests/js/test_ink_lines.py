"""What is left of a stroke on its way is within tolerance of what was drawn."""

from __future__ import annotations

import math
import random
from typing import Any

import pytest
from shapely.geometry import LineString, Point

from tests.node import run_node

TOLERANCE_CM = 1.5
STROKES = 60


def scribble(seed: int, count: int = 300) -> list[list[int]]:
    """A hand's way over the floor: turns slowly, presses unevenly; whole centimetres."""
    chance = random.Random(seed)
    x, y, way, pressure = 0.0, 500.0, 0.0, 50.0
    points = []
    for _ in range(count):
        way += chance.gauss(0, 0.25)
        x, y = x + 6 * math.cos(way), y + 6 * math.sin(way)
        pressure = min(100.0, max(1.0, pressure + chance.gauss(0, 4)))
        points.append([round(x), round(y), round(pressure)])
    return points


@pytest.fixture(scope="module")
def kept() -> Any:
    strokes = [scribble(seed) for seed in range(STROKES)]
    return run_node("simplify", {"strokes": strokes, "tolerance": TOLERANCE_CM})


@pytest.mark.parametrize("seed", range(STROKES))
def test_no_point_that_was_drawn_is_further_from_the_stroke_than_the_tolerance(kept: Any, seed: int) -> None:
    drawn, stroke = scribble(seed), kept[seed]
    line = LineString([point[:2] for point in stroke])
    assert max(line.distance(Point(point[:2])) for point in drawn) <= TOLERANCE_CM + 1e-9
    assert stroke[0] == drawn[0]
    assert stroke[-1] == drawn[-1]
    assert len(stroke) < 0.8 * len(drawn)
    assert all(point in drawn for point in stroke)
