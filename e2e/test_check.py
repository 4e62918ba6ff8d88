"""The page that tells a coach whether the device is ready: with the server, without it, and what to do."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest
from playwright.sync_api import Locator, Page, expect

from e2e.axe import check
from e2e.conftest import LINE_DOWN, PHONE, NewContext, Troubles
from e2e.people import Coach
from e2e.test_offline import away, ready
from tests.server import LiveServer

pytestmark = pytest.mark.ends_server

#: A device whose clock is two hours slow.
SLOW_CLOCK = """const now = Date.now;
Date.now = () => now() - 2 * 3600 * 1000;"""
#: A browser that promises to keep what it is given, and one that allows no copying.
PROMISES = "if (navigator.storage) navigator.storage.persisted = async () => true;"
NO_COPYING = "() => { navigator.clipboard.writeText = async () => { throw new Error('no'); }; }"


def line(page: Page, name: str) -> Locator:
    """Return one line, by what it is about."""
    return page.locator("#lines li").filter(has=page.get_by_role("heading", name=name, exact=True))


def says(page: Page, name: str, state: str, text: str) -> None:
    expect(line(page, name)).to_have_attribute("data-state", state)
    expect(line(page, name)).to_contain_text(text)


def open_check(coach: Coach) -> Page:
    """Go from the board's menu to the page, and wait until all is told."""
    coach.do("menu")
    coach.page.get_by_role("link", name="Check this device").tap()
    coach.page.wait_for_url("**/check")
    told(coach.page)
    return coach.page


def told(page: Page) -> None:
    expect(page.locator('#lines li[data-state="wait"]')).to_have_count(0)


def test_a_tablet_that_has_been_on_its_board_is_told_what_is_here(new_coach: Callable[..., Coach]) -> None:
    coach = new_coach(service_workers="allow")
    ready(coach)
    page = open_check(coach)
    says(page, "Connection", "fine", "boards are live")
    says(page, "Address", "fine", "can be saved here")
    says(page, "Your key", "fine", "a head coach's")
    says(page, "The app", "fine", "it is the newest")
    says(page, "Playing without a network", "fine", "Ready offline: 3 formations. ")
    says(page, "Boards and plays", "fine", "1 board and 0 plays")
    says(page, "Waiting to be sent", "fine", "Nothing waits")
    says(page, "Clock", "fine", "agrees")
    expect(line(page, "Smooth movement")).to_contain_text("frames a second")
    check(page)


def test_without_a_server_it_opens_and_tells_what_plays_on(
    new_coach: Callable[..., Coach], server: LiveServer, troubles: Troubles
) -> None:
    troubles.expect(LINE_DOWN)
    troubles.expect(r"net::ERR_INTERNET_DISCONNECTED")
    coach = new_coach(service_workers="allow")
    ready(coach)
    away(coach, server)
    coach.tap("1 passes to 2")
    expect(coach.status).to_have_text(re.compile("offline · 1"))
    page = open_check(coach)
    says(page, "Connection", "todo", "No answer from the server")
    says(page, "Your key", "fine", "coached when the server was last there")
    says(page, "The app", "fine", "only the server knows")
    says(page, "Playing without a network", "fine", "Ready offline: 3 formations")
    says(page, "Waiting to be sent", "todo", "1 change is saved on this device only")
    # What there is to do stands first.
    expect(page.locator("#lines li").first).to_have_attribute("data-state", "todo")
    expect(page.locator("#lines li").last).to_have_attribute("data-state", "fine")


def test_it_tells_what_to_do(new_context: NewContext, server: LiveServer) -> None:
    context = new_context(viewport=PHONE, is_mobile=True)
    context.add_init_script(SLOW_CLOCK + PROMISES)
    page = context.new_page()
    page.goto(f"{server.url}/check")
    told(page)
    says(page, "Clock", "todo", "2 hours behind the server's")
    says(page, "Your key", "todo", "no key to a team yet")
    says(page, "Boards and plays", "todo", "Open your board once")
    says(page, "Storage", "fine", "has promised to keep")
    left = page.locator('#lines li[data-state="todo"]').count()
    expect(page.get_by_role("status").first).to_have_text(f"{left} things to do before the game.")


def test_a_pencil_is_told_from_a_finger(new_context: NewContext, server: LiveServer) -> None:
    context = new_context(viewport=PHONE)
    page = context.new_page()
    page.goto(f"{server.url}/check")
    told(page)
    says(page, "Pencil", "fine", "Without one, fingers draw")
    pad = page.locator("#pad")
    pad.scroll_into_view_if_needed()
    pad.tap()
    says(page, "Pencil", "fine", "Fingers draw as well")
    box = pad.bounding_box()
    assert box
    pen = {"x": box["x"] + 40, "y": box["y"] + 40, "button": "left", "pointerType": "pen", "force": 0.7}
    cdp = context.new_cdp_session(page)
    for kind in ("mousePressed", "mouseReleased"):
        cdp.send("Input.dispatchMouseEvent", {**pen, "type": kind, "clickCount": 1})
    says(page, "Pencil", "fine", "how hard it presses")


def test_the_result_can_be_taken_along(new_context: NewContext, server: LiveServer) -> None:
    context = new_context(viewport=PHONE)
    context.grant_permissions(["clipboard-read", "clipboard-write"])
    page = context.new_page()
    page.goto(f"{server.url}/check")
    told(page)
    page.get_by_role("button", name="Copy the result").tap()
    expect(page.locator("#copied")).to_have_text("Copied.")
    text = page.evaluate("navigator.clipboard.readText()")
    assert "to do - Your key: This device has no key" in text
    assert "fine - Clock: It agrees" in text
    # Where the browser lets nobody copy, the text stands there, marked.
    page.evaluate(NO_COPYING)
    page.get_by_role("button", name="Copy the result").tap()
    expect(page.locator("#copied")).to_contain_text("by hand")
    assert page.evaluate("getSelection().toString()").count("Clock") == 1
