"""A phone with its text made larger: everything can be read and reached, and nothing lies over a button."""

from __future__ import annotations

import itertools
from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect

from e2e.expected import Play
from e2e.people import Coach, Player

SCREENS = [(320, 568), (390, 844), (568, 320), (844, 390)]
#: Of the 16 px a browser begins with.
SIZES = {"100 %": 16.0, "130 %": 20.8, "150 %": 24.0, "200 %": 32.0}

#: What is wrong with how the page lies: what lies over the middle of a button that was brought into sight,
#: what is too small for a finger; texts that do not fit where they stand, and what scrolls the page sideways.
_WRONG = """() => {
  const wrong = [];
  const unseen = '.unseen, [aria-hidden]';
  const shown = (e) => e.checkVisibility() && !e.closest(unseen) && e.getBoundingClientRect().width > 1;
  const read = 'p, h1, h2, h3, button, li, b, small, #state, #since';
  const modal = document.querySelector('dialog[open]');
  for (const button of (modal ?? document).querySelectorAll('button')) {
    if (!shown(button)) continue;
    button.scrollIntoView({ block: 'nearest', behavior: 'instant' });
    const { left, right, top, bottom } = button.getBoundingClientRect();
    const hit = document.elementFromPoint((left + right) / 2, (top + bottom) / 2);
    const name = button.ariaLabel || button.textContent.trim();
    if (!hit || !button.contains(hit)) wrong.push(`${name}: under ${hit?.outerHTML.slice(0, 80)}`);
    if (left < 0 || right > innerWidth + 1) wrong.push(`${name}: beyond the edge`);
    if (button.scrollHeight > button.clientHeight + 1) wrong.push(`${name}: too low for its text`);
    if (Math.min(right - left, bottom - top) < 48) wrong.push(`${name}: small`);
  }
  for (const text of (modal ?? document).querySelectorAll(read)) {
    if (!shown(text) || text.closest('#court')) continue;
    const inline = getComputedStyle(text).display === 'inline';
    if (text.scrollWidth > text.clientWidth + 1 && !inline) wrong.push(`clipped: ${text.textContent}`);
    const { left, right } = text.getBoundingClientRect();
    if (left < -1 || right > innerWidth + 1) wrong.push(`beyond the edge: ${text.textContent}`);
  }
  const { scrollWidth } = document.documentElement;
  if (scrollWidth > innerWidth) wrong.push(`the page is ${scrollWidth} px wide`);
  return wrong;
}"""


def _right(page: Page, looks: str) -> list[str]:
    """Return what is wrong with the page, each with what it ``looks`` like just now."""
    return [f"{looks}: {each}" for each in page.evaluate(_WRONG)]


@pytest.mark.parametrize("size", SIZES.values(), ids=SIZES)
def test_everything_on_a_phone_is_reached_whatever_the_size_of_its_text(
    coach: Coach, new_player: Callable[..., Player], size: float
) -> None:
    play = Play("five_out")
    for tap in ("pass:right_wing", "fill:left_corner", "drive:left"):
        coach.tap(play.play(tap))
    coach.saved()
    found: list[str] = []
    for (width, height), by_page in itertools.product(SCREENS, (False, True)):
        player = new_player(viewport={"width": width, "height": height})
        page, looks = player.page, f"{width}×{height}"
        if by_page:  # a page's own setting; else the browser's, which media queries know of as well
            page.add_init_script(
                "addEventListener('DOMContentLoaded',"
                f" () => document.documentElement.style.fontSize = '{size}px')"
            )
        else:
            tools = player.context.new_cdp_session(page)
            tools.send("Page.setFontSizes", {"fontSizes": {"standard": round(size), "fixed": 13}})
        page.reload()
        player.live()
        assert page.evaluate("parseFloat(getComputedStyle(document.documentElement).fontSize)") >= int(size)
        player.reads(play.sentences)
        found += _right(page, f"{looks}, which number")
        page.get_by_role("button", name="I am 2").tap()
        found += _right(page, f"{looks}, following")
        page.get_by_role("button", name="Step back").tap()
        expect(page.locator("#behind")).to_be_visible()
        found += _right(page, f"{looks}, looking back")
        page.locator("#rate").tap()
        found += _right(page, f"{looks}, speed and pace")
        player.context.close()
    assert not found, "\n".join(dict.fromkeys(found))


def test_a_phone_with_large_text_shows_the_court_while_its_words_are_read(
    new_player: Callable[..., Player],
) -> None:
    player = new_player(viewport={"width": 320, "height": 568})
    tools = player.context.new_cdp_session(player.page)
    tools.send("Page.setFontSizes", {"fontSizes": {"standard": 32, "fixed": 13}})
    player.page.reload()
    player.page.get_by_role("button", name="I am 2").tap()
    player.page.locator("#chain button").first.scroll_into_view_if_needed()
    player.page.mouse.wheel(0, 2000)
    player.page.wait_for_function("() => scrollY > 100")
    for part in ("#court", "#play"):
        expect(player.page.locator(part)).to_be_in_viewport(ratio=1)


@pytest.mark.parametrize("height", [568, 640, 667])
def test_a_low_phone_keeps_the_way_back_to_the_coach_in_sight(
    coach: Coach, new_player: Callable[..., Player], height: int
) -> None:
    coach.tap(Play("five_out").play("pass:right_wing"))
    coach.saved()
    player = new_player(viewport={"width": 360, "height": height})
    player.page.get_by_role("button", name="I am 2").tap()
    player.page.get_by_role("button", name="Step back").tap()
    for part in ("#live", "#court", "#mine", "#play"):
        expect(player.page.locator(part)).to_be_in_viewport(ratio=1)
    player.touch("#live")
    player.live()
