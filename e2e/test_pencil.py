"""The stroke under the coach's own pencil: while it grows a worker draws it, on a canvas over the ink."""

from __future__ import annotations

import io
from collections.abc import Callable

import pytest
from PIL import Image, ImageChops
from playwright.sync_api import Locator, expect

from e2e.conftest import Troubles
from e2e.hand import ACROSS, Hand, act, ink, open_tools, strokes, tool
from e2e.people import Coach

#: Grey levels by which a pixel may differ without that anybody sees it: edges are smoothed in two ways.
ALIKE = 64


WITHOUT = "delete HTMLCanvasElement.prototype.transferControlToOffscreen"


def canvas(coach: Coach) -> Locator:
    return coach.page.locator("canvas.pencil.wet")


def ready(coach: Coach) -> Hand:
    """Return the coach's hand, once the worker can draw: until then strokes grow as on any other screen."""
    open_tools(coach)
    coach.page.locator("canvas.pencil").wait_for(state="attached")
    return Hand(coach)


def floor(coach: Coach) -> Image.Image:
    """Return the picture of the empty floor that is drawn on."""
    box = coach.page.locator("#court").bounding_box()
    assert box
    clip = {"x": box["x"] + 0.25 * box["width"], "y": box["y"] + 0.82 * box["height"]}
    shot = coach.page.screenshot(clip={**clip, "width": 0.4 * box["width"], "height": 0.1 * box["height"]})
    return Image.open(io.BytesIO(shot)).convert("L")


def unlike(one: Image.Image, other: Image.Image) -> int:
    """Return how many pixels differ to the eye."""
    return sum(ImageChops.difference(one, other).point(lambda value: int(value > ALIKE)).histogram()[1:])


@pytest.mark.parametrize(("name", "colour"), [("Pen", 0), ("Pen", 2), ("Highlighter", 1)])
def test_a_stroke_looks_while_it_grows_as_it_does_once_it_is_done(
    coach: Coach, name: str, colour: int
) -> None:
    hand = ready(coach)
    tool(coach, name)
    coach.page.locator(".ink-tools .pick").nth(colour).tap()
    empty = floor(coach)
    hand.draw()
    strokes(coach, 1)
    expect(canvas(coach)).to_have_count(0)
    done = floor(coach)
    inked = unlike(done, empty)
    assert inked > 200
    act(coach, "Undo the last stroke")
    strokes(coach, 0)
    hand.begin(ACROSS)
    expect(canvas(coach)).to_be_visible()
    # The worker has its own time.
    grown = (unlike(floor(coach), done) < inked / 20 for _ in range(100))
    assert any(grown)
    expect(ink(coach).locator("path")).to_have_count(0)


def test_a_stroke_the_system_takes_away_leaves_the_canvas(coach: Coach) -> None:
    hand = ready(coach)
    tool(coach, "Pen")
    hand.touch("touchStart", 1, ACROSS[0])
    hand.touch("touchMove", 1, ACROSS[5])
    expect(canvas(coach)).to_be_visible()
    hand.touch("touchCancel", 1)
    expect(canvas(coach)).to_have_count(0)
    strokes(coach, 0)


def test_where_a_worker_has_no_canvas_strokes_grow_all_the_same(new_coach: Callable[..., Coach]) -> None:
    coach = new_coach(lambda coach: coach.page.add_init_script(WITHOUT))
    open_tools(coach)
    hand = Hand(coach)
    hand.begin(ACROSS)
    expect(ink(coach).locator("path.fill")).to_have_count(2)
    expect(canvas(coach)).to_have_count(0)
    hand.pencil("mouseReleased", ACROSS[-1], buttons=0, force=0)
    strokes(coach, 1)


def test_a_worker_that_fails_leaves_the_stroke_to_the_page(coach: Coach, troubles: Troubles) -> None:
    hand = ready(coach)
    troubles.expect("no more")
    hand.begin(ACROSS[:6])
    expect(canvas(coach)).to_be_visible()
    coach.page.workers[0].evaluate("() => void setTimeout(() => { throw new Error('no more'); })")
    expect(canvas(coach)).to_have_count(0)
    for spot in ACROSS[6:]:
        hand.pencil("mouseMoved", spot)
    expect(ink(coach).locator("path.fill")).to_have_count(2)
    hand.pencil("mouseReleased", ACROSS[-1], buttons=0, force=0)
    strokes(coach, 1)
