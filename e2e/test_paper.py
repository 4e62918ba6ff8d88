"""Printing from a real browser: choosing, seeing it at once, the files, and a picture that really moves."""

from __future__ import annotations

import re
from pathlib import Path

import pypdfium2
import pytest
from playwright.sync_api import Page, expect

from e2e.axe import check
from e2e.conftest import PHONE, NewContext, Troubles
from e2e.expected import Play
from e2e.people import Coach

#: Where the discs and the ball are ``t`` seconds into the picture, in its own unit.
_PLACES = """t => {
  const root = document.documentElement;
  root.pauseAnimations();
  root.setCurrentTime(t);
  const of = (group) => { const { e, f } = group.transform.animVal.getItem(0).matrix; return [e, f]; };
  return {
    players: Object.fromEntries([...root.querySelectorAll('.player')].map((g) => [g.dataset.of, of(g)])),
    ball: of(root.querySelector('.ball')),
    told: [...root.querySelectorAll('.scene')].filter((g) => getComputedStyle(g).opacity === '1').length,
  };
}"""


@pytest.fixture
def printing(coach: Coach) -> Page:
    """The page for printing a board with two steps on it."""
    play = Play("five_out")
    coach.tap(play.play("pass:right_wing"))
    coach.saved()
    coach.tap(play.play("fill:left_corner"))
    coach.saved()
    coach.page.goto(f"{coach.server.url}/board/{coach.board_id}/print")
    return coach.page


def loaded(page: Page, count: int) -> None:
    """Wait until as many pages are shown, and the first can be seen."""
    images = page.locator(".pages img")
    expect(images).to_have_count(count)
    page.wait_for_function("() => document.querySelector('.pages img').naturalWidth > 0")


def test_a_choice_is_seen_at_once_and_taken_to_the_files(printing: Page, tmp_path: Path) -> None:
    loaded(printing, 1)
    expect(printing.locator("#says")).to_have_text("2 steps on 1 page.")
    printing.get_by_role("radio", name="1", exact=True).check(force=True)
    loaded(printing, 2)
    printing.get_by_role("radio", name="Letter").check(force=True)
    printing.get_by_role("checkbox", name="Large print").check(force=True)
    link = printing.get_by_role("link", name="Sheet to print (PDF)")
    chosen = "/print/sheet.pdf?paper=letter&per=1&large=1&first=1&last=2"
    expect(link).to_have_attribute("href", re.compile(re.escape(chosen)))
    with printing.expect_download() as got:
        link.click()
    assert got.value.suggested_filename.endswith(".pdf")
    file = tmp_path / "sheet.pdf"
    got.value.save_as(file)
    with pypdfium2.PdfDocument(file) as document:
        assert len(document) == 2
        assert "1 fills the left corner" in document[1].get_textpage().get_text_bounded()
    # What was chosen stands in the address: loaded again, or sent on, it is the same.
    printing.reload()
    loaded(printing, 2)
    expect(printing.get_by_role("checkbox", name="Large print")).to_be_checked()


def test_steps_that_are_not_there_are_said_and_nothing_is_lost(printing: Page, troubles: Troubles) -> None:
    troubles.expect(r"400 \(BAD REQUEST\)")
    loaded(printing, 1)
    printing.get_by_label("to", exact=True).fill("7")
    printing.get_by_label("to", exact=True).press("Enter")
    expect(printing.locator("#trouble")).to_contain_text("This chain has the steps 1 to 2")
    loaded(printing, 1)
    printing.get_by_label("to", exact=True).fill("1")
    printing.get_by_label("to", exact=True).press("Enter")
    expect(printing.locator("#trouble")).to_be_hidden()
    expect(printing.locator("#says")).to_have_text("1 of 2 steps on 1 page.")


def test_it_begins_as_the_board_is_looked_at(coach: Coach) -> None:
    coach.page.evaluate("localStorage.setItem('quintet.view', JSON.stringify({mirrored: true}))")
    coach.page.goto(f"{coach.server.url}/board/{coach.board_id}/print")
    expect(coach.page.get_by_role("checkbox", name="Mirror left and right")).to_be_checked()
    expect(coach.page.locator(".pages img").first).to_have_attribute("src", re.compile("mirror=1"))


def test_the_picture_moves_by_itself_in_a_browser(printing: Page) -> None:
    board = printing.url.split("/board/")[1].split("/")[0]
    origin = printing.url.split("/board/")[0]
    printing.goto(f"{origin}/board/{board}/print/moving.svg?show=1")
    start, later = printing.evaluate(_PLACES, 0), printing.evaluate(_PLACES, 60)
    early = printing.evaluate(_PLACES, 2.2)
    assert start["told"] == early["told"] == later["told"] == 1
    assert early["players"]["1"] != start["players"]["1"]
    assert early["players"]["4"] == start["players"]["4"]
    assert early["ball"] != start["ball"]


def test_on_a_phone_everything_is_within_reach(printing: Page, new_context: NewContext) -> None:
    state = printing.context.storage_state()
    phone = new_context(viewport=PHONE, is_mobile=True, storage_state=state).new_page()
    phone.goto(printing.url)
    loaded(phone, 1)
    check(phone)
    assert phone.evaluate("document.documentElement.scrollWidth <= window.innerWidth")
    for box in phone.locator("a, button, .choice, summary, input[type=number]").all():
        size = box.bounding_box()
        if size is not None:
            assert size["height"] >= 47.5, box.inner_text()
