"""The minute of a time-out: clock, big view, loop, the left hand, and the code to follow by."""

from __future__ import annotations

import io
import math
import time
from collections.abc import Callable
from typing import Any
from urllib.parse import urlsplit

import pytest
import zxingcpp
from PIL import Image
from playwright.sync_api import Page, expect

from e2e.axe import check
from e2e.conftest import PHONE, TABLET, NewContext, Troubles
from e2e.expected import Play
from e2e.people import Coach, Player

UPRIGHT = {"width": 820, "height": 1180}
#: A tablet that shows 1180 by 820 CSS pixels is about 10.2 inches across the diagonal (a common one, from
#: memory); numbers are to be 7 mm tall there.
PIXELS_A_MM = math.hypot(1180, 820) / (10.2 * 25.4)

#: How tall a digit is drawn, CSS pixels.
DIGIT = """() => {
  const digits = document.querySelector('.disc .digits');
  const { fontWeight, fontSize, fontFamily } = getComputedStyle(digits);
  const pen = document.createElement('canvas').getContext('2d');
  pen.font = `${fontWeight} ${fontSize} ${fontFamily}`;
  const ink = pen.measureText(digits.textContent);
  return ink.actualBoundingBoxAscent + ink.actualBoundingBoxDescent;
}"""

#: Counts how often the screen was asked to stay on, and lets go of it as a system does.
AWAKE = """() => {
  window.asked = 0;
  Object.defineProperty(navigator, 'wakeLock', { value: { request: async () => {
    asked++;
    window.lock = new EventTarget();
    return lock;
  } } });
}"""
#: A page whose tab goes behind another, and comes back.
HIDE = """hidden => {
  const value = hidden ? 'hidden' : 'visible';
  Object.defineProperty(document, 'visibilityState', { value, configurable: true });
  if (hidden) lock.dispatchEvent(new Event('release'));
  document.dispatchEvent(new Event('visibilitychange'));
}"""

#: What can be tapped, by its name, and its box; what is scrolled out of sight left out.
BOXES = """() => [...document.querySelectorAll('button, a, summary, input')].flatMap((each) => {
  const box = each.getBoundingClientRect();
  const seen = each.checkVisibility({ visibilityProperty: true });
  if (!box.width || !seen || each.closest('[hidden], dialog')) return [];
  const kind = each.matches('.target') ? 'target' : each.matches('.disc') ? 'disc' : 'control';
  return [{ name: each.ariaLabel || each.textContent, kind, within: each.closest('.sheet') ? 'sheet' : '',
    left: box.left, top: box.top, right: box.right, bottom: box.bottom }];
})"""


def boxes(page: Page) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = page.evaluate(BOXES)
    return found


def over(a: dict[str, Any], b: dict[str, Any]) -> bool:
    return bool(
        min(a["right"], b["right"]) - max(a["left"], b["left"]) > 1
        and min(a["bottom"], b["bottom"]) - max(a["top"], b["top"]) > 1
    )


def court_is_free(page: Page) -> None:
    """Fail where a control lies over something on the court that can be tapped."""
    found = boxes(page)
    controls = [each for each in found if each["kind"] == "control" and not each["within"]]
    marks = [each for each in found if each["kind"] != "control"]
    assert len(marks) > 5
    assert [(c["name"], m["name"]) for c in controls for m in marks if over(c, m)] == []


def each_size(page: Page, look: Callable[[Page], object]) -> None:
    """Look at a page on a tablet, upright and lying, and on a phone, once all stands where it goes there."""
    for size in (PHONE, UPRIGHT, TABLET):
        page.set_viewport_size(size)
        page.evaluate("() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))")
        look(page)


def start(coach: Coach, seconds: int) -> None:
    coach.do("clock")
    coach.touch(f".length[data-seconds='{seconds}']")


def played(coach: Coach, *actions: str) -> Play:
    """Play these on the board, and wait until all stand."""
    play = Play("five_out")
    for action in actions:
        coach.tap(play.play(action))
    coach.stands(play.standing)
    coach.saved()
    return play


def clock(coach: Coach) -> Any:
    return coach.page.locator("#clock")


def hold(page: Page) -> None:
    """Let the page's time pass only when it is told to."""
    page.clock.install()
    page.clock.pause_at(page.evaluate("Date.now()") / 1000 + 1)


def left(coach: Coach) -> int:
    minutes, seconds = coach.page.get_by_role("timer").inner_text().strip().lstrip("▲■ ").split(":")
    return int(minutes) * 60 + int(seconds)


def reads(coach: Coach, figure: str, level: str) -> None:
    expect(coach.page.get_by_role("timer")).to_have_text(figure)
    expect(clock(coach)).to_have_attribute("data-level", level)


def test_the_clock_counts_changes_its_look_and_says_so(coach: Coach) -> None:
    page = coach.page
    hold(page)
    court = page.locator("#court").bounding_box()
    # FIBA 60; NBA 75; NFHS 30 and 60 (5-12); NCAA 30 and 60, and 75 on television (from memory).
    coach.do("clock")
    expect(page.locator(".length")).to_have_text(
        ["30 sNCAA, NFHS", "60 sFIBA, NCAA, NFHS", "75 sNBA, NCAA on TV"]
    )
    coach.touch(".length[data-seconds='75']")
    reads(coach, "1:15", "run")
    page.clock.fast_forward(59_000)
    reads(coach, "0:16", "run")
    plain = colour(coach)
    page.clock.fast_forward(1_000)
    reads(coach, "0:15", "late")
    expect(page.get_by_role("status").filter(has_text="15 seconds left")).to_have_count(1)
    expect(clock(coach)).to_contain_text("Last 15")
    late = colour(coach)
    page.clock.fast_forward(10_000)
    reads(coach, "0:05", "last")
    expect(clock(coach)).to_contain_text("Last 5")
    assert len({plain, late, colour(coach)}) == 3
    assert page.locator("#court").bounding_box() == court
    page.clock.fast_forward(5_000)
    reads(coach, "0:00", "over")
    expect(page.get_by_role("status").filter(has_text="Time is up")).to_have_count(1)
    word, button = (page.locator(f"#clock .strip {each}").bounding_box() for each in (".word", ".go"))
    assert word
    assert button
    assert word["width"] > 20  # the whole of it, and beside the button
    assert word["x"] + word["width"] <= button["x"]
    coach.touch("#clock .go")  # reset
    reads(coach, "1:15", "run")
    coach.touch("#clock .go")
    page.clock.fast_forward(5_000)
    reads(coach, "1:10", "run")
    coach.touch("#clock .go")  # stop
    page.clock.fast_forward(30_000)
    reads(coach, "1:10", "run")
    coach.touch("#clock .go")  # go on
    page.clock.fast_forward(2_000)
    reads(coach, "1:08", "run")


def colour(coach: Coach) -> str:
    return str(clock(coach).locator(".strip").evaluate("e => getComputedStyle(e).backgroundColor"))


def test_the_clock_goes_on_while_the_page_is_loaded_again_or_out_of_sight(coach: Coach) -> None:
    page = coach.page
    page.clock.install()
    start(coach, 60)
    page.clock.fast_forward(10_000)
    page.reload()
    coach.saved()
    expect(clock(coach)).to_be_visible()
    assert 30 < left(coach) <= 50
    # A tab out of sight has its timers held back: the time passes at once when it is seen again.
    page.clock.set_system_time(page.evaluate("Date.now()") / 1000 + 20)
    page.evaluate("document.dispatchEvent(new Event('visibilitychange'))")
    assert 5 < left(coach) <= 30
    coach.touch("#clock .go")
    coach.touch("#clock .plain")  # reset
    reads(coach, "1:00", "run")
    page.reload()
    coach.saved()
    reads(coach, "1:00", "run")  # what was chosen last is one tap away
    expect(page.locator(".length[data-last]")).to_have_attribute("data-seconds", "60")
    coach.touch("#clock .away")
    expect(clock(coach)).to_be_hidden()


def test_a_length_of_ones_own(coach: Coach) -> None:
    coach.do("clock")
    for _ in range(3):
        coach.page.get_by_role("button", name="5 seconds less").tap()
    coach.page.get_by_role("button", name="Start 0:45").tap()
    expect(coach.page.get_by_role("timer")).to_have_text("0:45")
    expect(coach.page.locator("#clock .set")).to_be_hidden()


def test_neither_clock_nor_corner_buttons_cover_what_is_tapped(coach: Coach) -> None:
    start(coach, 60)
    each_size(coach.page, court_is_free)
    played(coach, "pass:right_wing")
    each_size(coach.page, court_is_free)
    coach.do("turn")
    each_size(coach.page, court_is_free)


def test_the_big_view(coach: Coach) -> None:
    page = coach.page
    played(coach, "pass:right_wing", "fill:left_corner")
    before = page.evaluate(DIGIT)
    start(coach, 60)
    coach.do("present")
    controls = page.get_by_role("group", name="Playing the chain")
    expect(controls).to_be_visible()
    expect(controls).to_be_hidden()  # by themselves
    for gone in ("header.bar", ".sheet", ".story", ".shelf"):
        expect(page.locator(gone)).to_be_hidden()
    expect(page.get_by_role("timer")).to_be_visible()
    after = page.evaluate(DIGIT)
    assert after > before * 1.15
    assert after / PIXELS_A_MM >= 7
    page.touchscreen.tap(*floor(page, 0.5, 0.02))
    expect(controls).to_be_visible()
    assert [each["name"] for each in boxes(page) if each["kind"] == "control" and small(each)] == []
    court_is_free(page)
    page.touchscreen.tap(*floor(page, 0.5, 0.02))
    expect(controls).to_be_hidden()
    page.keyboard.press("Escape")
    expect(page.locator(".sheet")).to_be_visible()
    assert page.evaluate(DIGIT) == pytest.approx(before)


def test_the_buttons_of_the_big_view_have_room(coach: Coach) -> None:
    page = coach.page
    played(coach, "pass:right_wing")
    expect(page.get_by_role("button", name="Draw", exact=True)).to_be_visible()

    def look(page: Page) -> None:
        coach.do("present")
        page.get_by_role("button", name="Close", exact=True).focus()  # as long as a key has it, they stay
        page.keyboard.press("Tab")
        buttons_have_room(page)
        page.keyboard.press("Escape")
        page.wait_for_function("() => document.fullscreenElement === null")

    each_size(page, look)


def test_the_buttons_below_the_court_have_room_beside_the_bench_s(new_coach: Callable[..., Coach]) -> None:
    def with_a_bench(coach: Coach) -> None:
        for number in range(4, 11):
            coach.device.ask("POST", f"/api/team/players?board={coach.board_id}", {"number": str(number)})

    coach = new_coach(with_a_bench)
    expect(coach.page.get_by_role("button", name="Subs")).to_be_visible()
    expect(coach.page.get_by_role("button", name="Draw", exact=True)).to_be_visible()

    def look(page: Page) -> None:
        beyond = page.locator(".controls button:visible").evaluate_all(
            "all => all.filter((e) => e.getBoundingClientRect().right > innerWidth).map((e) => e.textContent)"
        )
        assert beyond == []

    each_size(coach.page, look)


def buttons_have_room(page: Page) -> None:
    size = page.viewport_size
    assert size
    buttons = [each for each in boxes(page) if each["kind"] == "control" and each["name"] != ""]
    assert len(buttons) > 5
    assert [each["name"] for each in buttons if small(each)] == []
    assert [
        each["name"]
        for each in buttons
        if each["left"] < 0 or each["right"] > size["width"] or each["bottom"] > size["height"]
    ] == []
    assert [(a["name"], b["name"]) for a in buttons for b in buttons if a is not b and over(a, b)] == []
    court_is_free(page)


def test_acting_and_winding_in_the_big_view(coach: Coach) -> None:
    page = coach.page
    play = played(coach, "pass:right_wing", "fill:left_corner")
    coach.do("present")
    # The window takes its new size a little later, and a finger that is down just then does nothing.
    page.wait_for_function("() => document.fullscreenElement !== null")
    page.evaluate("() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))")
    coach.tap(play.play("pass:top"))
    coach.stands(play.standing)
    chain = page.locator("#chain li.action button")
    expect(chain).to_have_count(3)
    page.touchscreen.tap(*floor(page, 0.03, 0.6))  # the left edge
    expect(page.locator("#chain [aria-current]")).to_have_text(play.sentences[1])
    page.touchscreen.tap(*floor(page, 0.97, 0.6))  # the right edge
    coach.stands(play.standing)
    page.keyboard.press("ArrowLeft")
    expect(page.locator("#chain [aria-current]")).to_have_text(play.sentences[1])
    page.keyboard.press("ArrowRight")
    coach.stands(play.standing)
    # The buttons go by themselves; a tap on the floor brings them back, and would send them away.
    expect(page.locator('[data-do="leave"]')).to_be_hidden()
    page.touchscreen.tap(*floor(page, 0.5, 0.02))
    page.get_by_role("button", name="Close", exact=True).tap()
    expect(page.locator(".story")).to_be_visible()
    coach.reads(play.sentences)


def small(box: dict[str, Any]) -> bool:
    return bool(min(box["right"] - box["left"], box["bottom"] - box["top"]) < 47.9 and box["name"] != "")


def floor(page: Page, across: float, along: float) -> tuple[float, float]:
    """A place on the court, as shares of its width and height."""
    box = page.locator("#court").bounding_box()
    assert box
    return box["x"] + across * box["width"], box["y"] + along * box["height"]


def test_the_screen_is_asked_to_stay_on_and_asked_again_on_return(coach: Coach) -> None:
    page = coach.page
    page.evaluate(AWAKE)
    coach.do("present")
    page.wait_for_function("() => asked === 1")
    page.evaluate(HIDE, True)
    assert page.evaluate("asked") == 1
    page.evaluate(HIDE, False)
    page.wait_for_function("() => asked === 2")


@pytest.mark.parametrize("motion", ["no-preference", "reduce"])
@pytest.mark.pace(3)
def test_a_chain_plays_again_and_again_until_it_is_stopped(coach: Coach, motion: Any) -> None:
    page = coach.page
    page.emulate_media(reduced_motion=motion)
    # Without movement a chain is shown step by step, and one step would be the end of it.
    play = played(coach, "pass:right_wing", *(["fill:left_corner"] if motion == "reduce" else []))
    coach.do("loop")
    loop = page.get_by_role("button", name="Loop")
    expect(loop).to_have_attribute("aria-pressed", "true")
    scrub = page.locator("#scrub")
    for _ in range(2):
        page.wait_for_function("() => Number(scrub.value) < Number(scrub.max) / 2")
        page.wait_for_function("() => scrub.max - scrub.value < 0.1")
    coach.do("play")
    expect(page.get_by_role("button", name="Play", exact=True)).to_be_visible()
    coach.do("loop")
    expect(loop).to_have_attribute("aria-pressed", "false")
    coach.do("replay")
    coach.stands(play.standing)
    expect(page.get_by_role("button", name="Play", exact=True)).to_be_visible()
    assert float(scrub.input_value()) == pytest.approx(float(scrub.get_attribute("max") or 0), abs=0.1)


def test_controls_for_the_left_hand(coach: Coach) -> None:
    page = coach.page
    play = played(coach, "pass:right_wing")
    menu = page.locator("[data-do='menu']")
    right: dict[int, Any] = {}
    each_size(page, lambda page: right.update({width(page): menu.bounding_box()}))
    coach.choose("Hand you tap with", "Left")
    coach.stands(play.standing)  # the court is as it was
    left: dict[int, Any] = {}

    def look(page: Page) -> None:
        left[width(page)] = box = menu.bounding_box()
        assert box
        assert box["x"] + box["width"] == pytest.approx(width(page) - right[width(page)]["x"], abs=8)
        assert [each["name"] for each in boxes(page) if each["kind"] == "control" and small(each)] == []
        court_is_free(page)
        assert page.evaluate("document.documentElement.scrollWidth") <= width(page)

    each_size(page, look)
    page.reload()
    coach.saved()
    assert menu.bounding_box() == left[width(page)]


def width(page: Page) -> int:
    assert page.viewport_size
    return page.viewport_size["width"]


def test_the_light_follows_the_device_at_once(coach: Coach) -> None:
    ground = "() => getComputedStyle(document.body).backgroundColor"
    coach.choose("Light", "As the device")
    coach.page.emulate_media(color_scheme="dark")
    dark = coach.page.evaluate(ground)
    coach.page.emulate_media(color_scheme="light")
    assert coach.page.evaluate(ground) != dark
    coach.choose("Light", "Dark gym")
    assert coach.page.evaluate(ground) == dark


@pytest.mark.parametrize("viewport", [TABLET, PHONE])
def test_a_phone_follows_by_the_picture_on_the_screen(
    new_coach: Callable[..., Coach], new_context: NewContext, viewport: dict[str, int]
) -> None:
    coach = new_coach(viewport=viewport)
    page = coach.page
    coach.do("quick")
    panel = page.get_by_role("dialog", name="Follow on your phone")
    expect(panel.locator(".code span")).to_have_count(2)
    for light in ("dark", "light"):
        page.emulate_media(color_scheme=light)
        picture = Image.open(io.BytesIO(page.screenshot()))
        (found,) = zxingcpp.read_barcodes(picture)
        assert found.format == zxingcpp.BarcodeFormat.QRCode
        assert urlsplit(found.text).path.startswith("/v/")

    context = new_context(viewport=PHONE, is_mobile=True)
    phone = context.new_page()
    began = time.monotonic()
    phone.goto(found.text)
    player = Player(coach.server, context, phone)
    player.live()
    print(f"from the address to live: {time.monotonic() - began:.2f} s")
    expect(panel.get_by_role("status")).to_have_text("1 phone following")
    code = "".join(panel.locator(".code span").all_text_contents())
    panel.get_by_role("button", name="Close").tap()
    expect(panel).to_be_hidden()
    play = Play("five_out")
    coach.tap(play.play("pass:right_wing"))
    player.reads(play.sentences)

    typed = new_context(viewport=PHONE, is_mobile=True).new_page()
    typed.goto(f"{coach.server.url}/join")
    typed.get_by_label("Six letters and digits").fill(code)
    typed.get_by_role("button", name="Follow").tap()
    Player(coach.server, typed.context, typed).live()


def test_without_a_line_it_says_what_is_needed_and_comes_back_by_itself(
    coach: Coach, troubles: Troubles
) -> None:
    troubles.expect(r"net::ERR_INTERNET_DISCONNECTED|WebSocket")
    # What the panel is made of is on an installed device; here it is fetched before the line goes.
    coach.do("quick")
    panel = coach.page.get_by_role("dialog", name="Follow on your phone")
    expect(panel.locator(".code span")).to_have_count(2)
    coach.context.set_offline(True)
    expect(panel).to_contain_text("has no connection just now")
    expect(panel.get_by_role("img", name="QR code to follow the board")).to_be_visible()
    coach.context.set_offline(False)
    expect(panel.locator(".code span")).to_have_count(2)


def test_it_is_accessible(coach: Coach) -> None:
    page = coach.page
    played(coach, "pass:right_wing")
    page.clock.install()
    coach.do("clock")
    check(page)
    coach.touch(".length[data-seconds='30']")
    for passing in (1_000, 15_000, 10_000, 5_000):
        page.clock.fast_forward(passing)
        check(page, colours_alone=passing != 1_000)
    coach.do("present")
    check(page)
    page.keyboard.press("Escape")
    coach.do("quick")
    expect(page.locator(".quick .code span")).to_have_count(2)
    check(page)
