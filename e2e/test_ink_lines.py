"""What is left of a stroke on its way: within tolerance of what was drawn, and the same when read again."""

from __future__ import annotations

import math
import random
from typing import Any

import pytest
from playwright.sync_api import Page
from shapely.geometry import LineString, Point

from e2e.conftest import NewContext
from tests.server import LiveServer

MODEL = "const m = await import('/static/js/ink/model.js');"


@pytest.fixture
def page(new_context: NewContext, server: LiveServer) -> Page:
    page: Page = new_context().new_page()
    page.goto(server.url)
    return page


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


def run(page: Page, script: str, *given: Any) -> Any:
    return page.evaluate(f"async (given) => {{ {MODEL} return {script}; }}", list(given))


@pytest.mark.parametrize("seed", range(8))
def test_no_point_that_was_drawn_is_further_from_the_stroke_than_the_tolerance(page: Page, seed: int) -> None:
    drawn = scribble(seed)
    kept = run(page, "m.simplify(given[0], given[1])", drawn, 1.5)
    line = LineString([point[:2] for point in kept])
    assert max(line.distance(Point(point[:2])) for point in drawn) <= 1.5 + 1e-9
    assert kept[0] == drawn[0]
    assert kept[-1] == drawn[-1]
    assert len(kept) < 0.8 * len(drawn)
    assert all(point in drawn for point in kept)


def test_a_straight_line_is_its_two_ends(page: Page) -> None:
    assert run(page, "m.simplify(given[0])", [[5 * i, 3 * i, 50] for i in range(200)]) == [
        [0, 0, 50],
        [995, 597, 50],
    ]


def test_however_long_a_stroke_is_it_fits_what_a_message_may_hold(page: Page) -> None:
    drawn = scribble(3, 5000)
    kept = run(page, "m.bounded(given[0])", drawn)
    assert 100 < len(kept) <= 240


def test_points_are_the_same_once_they_have_crossed_the_wire(page: Page) -> None:
    drawn = scribble(1)
    assert run(page, "m.decode(m.encode(given[0]))", drawn) == drawn
    again = "m.decode(m.encode(given[0].slice(100), given[0][99]), given[0][99])"
    assert run(page, again, drawn) == drawn[100:]


def test_doing_the_same_twice_is_doing_it_once(page: Page) -> None:
    found = run(
        page,
        """(() => {
          const at = {chain: 'c', line: [['pass:top']]};
          const put = (s) => ({do: 'put', ...at, s, tool: 0, colour: 0, p: [0, 0, 50]});
          const ops = [put('a'), put('b'), {do: 'rub', ...at, ss: ['a']}, {do: 'back', ...at, ss: ['a']},
            {do: 'rub', ...at, ss: ['b']}];
          const all = [...ops, ...ops].reduce(m.apply, new Map());
          return m.seen(all.get(m.keyOf(at))).map(({id}) => id);
        })()""",
    )
    assert found == ["a"]
