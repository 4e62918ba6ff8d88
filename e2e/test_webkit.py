"""A smoke test in WebKit, the engine of every iPad: a board is opened and played on, and others follow.

It needs the driver of WebKitGTK and a screen that is only in memory; `.ci/run` installs both. Without them
it is skipped, and says so.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import warnings
from collections.abc import Iterator
from pathlib import Path

import pytest
from selenium import webdriver
from selenium.webdriver.common.action_chains import ActionChains
from selenium.webdriver.common.by import By
from selenium.webdriver.support.wait import WebDriverWait
from selenium.webdriver.webkitgtk.options import Options
from selenium.webdriver.webkitgtk.service import Service

from e2e.conftest import PACE
from e2e.expected import Play
from tests.server import LiveServer
from tests.webapp.screens import Device

DRIVER = shutil.which("WebKitWebDriver")
SCREEN = shutil.which("Xvfb")
BROWSERS = list(Path("/usr/lib").glob("*/webkit2gtk-4.*/MiniBrowser"))
PATIENCE_S = 40
TAPS = ["pass:right_wing", "fill:left_corner pass:top", "fill:right_corner drive:left"]

pytestmark = pytest.mark.skipif(
    not (DRIVER and SCREEN and BROWSERS),
    reason="WebKit is not looked at: install webkit2gtk-driver and xvfb (Debian) to have it tested.",
)


@pytest.fixture(scope="session")
def screen() -> Iterator[str]:
    """A screen in memory; the number it has is free, as it says itself."""
    reader, writer = os.pipe()
    size = ["-screen", "0", "1300x1000x24"]
    running = subprocess.Popen([str(SCREEN), "-displayfd", str(writer), *size], pass_fds=[writer])
    os.close(writer)
    with os.fdopen(reader) as told:
        number = told.readline().strip()
    assert number, "Xvfb has not started."
    yield f":{number}"
    running.terminate()
    running.wait()


@pytest.fixture(scope="session")
def webkit(screen: str) -> Iterator[webdriver.WebKitGTK]:
    """One browser for all tests here: it is slow to start."""
    options = Options()
    options.binary_location = str(BROWSERS[0])
    options.add_argument("--automation")
    environment = {**os.environ, "DISPLAY": screen, "LIBGL_ALWAYS_SOFTWARE": "1", "GDK_BACKEND": "x11"}
    service = Service(str(DRIVER), env=environment)
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", DeprecationWarning)  # of selenium by selenium
        driver = webdriver.WebKitGTK(options, service)
    driver.set_script_timeout(PATIENCE_S)
    driver.set_window_size(1180, 820)
    yield driver
    driver.quit()


class Board:
    """A coach's board in WebKit."""

    def __init__(self, driver: webdriver.WebKitGTK) -> None:
        self.driver = driver

    def until(self, script: str, *given: object) -> None:
        """Wait until ``script`` says yes in the page."""
        WebDriverWait(self.driver, PATIENCE_S).until(lambda at: at.execute_script(script, *given), script)

    def tap(self, sentence: str) -> None:
        """Click on what means ``sentence`` on the court."""
        selector = f'#court :is(.target, .disc.can)[aria-label="{sentence}"]'
        self.until("return Boolean(document.querySelector(arguments[0]))", selector)
        self.driver.find_element(By.CSS_SELECTOR, selector).click()

    def do(self, name: str) -> None:
        self.until("return !document.querySelector(arguments[0]).disabled", f'[data-do="{name}"]')
        self.driver.find_element(By.CSS_SELECTOR, f'[data-do="{name}"]').click()

    def reads(self, sentences: list[str]) -> None:
        """Wait until the chain reads like this."""
        said = "[...document.querySelectorAll('#chain li.action button')].map((each) => each.textContent)"
        self.until(f"return JSON.stringify({said}) === JSON.stringify(arguments[0])", sentences)

    def draw(self) -> None:
        """Draw a stroke over the bare floor, as the tool that is chosen does."""
        court = self.driver.find_element(By.ID, "court")
        across, down = court.size["width"] // 2, court.size["height"] // 2
        hand = ActionChains(self.driver, duration=20)
        hand.move_to_element_with_offset(court, int(-0.7 * across), int(0.8 * down)).click_and_hold()
        for _ in range(8):
            hand.move_by_offset(20, 4)
        hand.release().perform()

    def strokes(self, count: int) -> None:
        """Wait until so many strokes are on show."""
        shown = "document.querySelector('svg.ink')?.dataset.strokes"
        self.until(f"return {shown} === arguments[0]", str(count))

    def saved(self) -> None:
        self.until("return document.getElementById('status').textContent === 'saved'")

    def rests(self) -> None:
        """Wait until nothing moves; what still does is hurried."""
        self.until(
            "const going = document.getAnimations().filter((each) => each.playState === 'running');"
            "going.forEach((each) => each.updatePlaybackRate(arguments[0])); return !going.length",
            PACE,
        )


def test_three_actions_in_webkit_are_saved_and_followed(
    webkit: webdriver.WebKitGTK, server: LiveServer
) -> None:
    webkit.get(server.url)
    webkit.find_element(By.CSS_SELECTOR, "form[action='/teams'] button").click()
    board = Board(webkit)
    board.until("return location.pathname.startsWith('/board/') && document.readyState === 'complete'")
    board.saved()
    device = Device(server, {each["name"]: each["value"] for each in webkit.get_cookies()})
    device.board_id = webkit.current_url.rsplit("/", 1)[1]

    play = Play("five_out")
    with device.coach() as other:
        for tap in TAPS:
            board.tap(play.play(tap))
            board.reads(play.sentences)
            board.rests()
            assert other.wait("step")["step"]["a"] == tap.split()
        board.saved()
        assert device_chain(device) == play.actions
        # What the other screen does is seen here, and the chain can be run.
        board.do("undo")
        board.reads(play.sentences[:-1])
        board.do("replay")
        board.rests()
        board.do("redo")
        board.reads(play.sentences)
        board.saved()
        # What is drawn over it is seen as it is drawn, and stays with its step.
        board.until("return Boolean(document.querySelector('.ink-open'))")
        board.driver.find_element(By.CSS_SELECTOR, ".ink-open").click()
        pen = ".ink-tools button[aria-label='Pen']"
        # It is in the hand as soon as Draw is open.
        board.until("return document.querySelector(arguments[0])?.ariaPressed === 'true'", pen)
        board.draw()
        board.strokes(1)
        drawn = [other.wait("ink")]
        while drawn[-1]["do"] != "put":
            drawn.append(other.wait("ink"))
        assert [each["do"] for each in drawn[:2]] == ["begin", "more"]
        board.do("undo")
        board.strokes(0)
        board.do("redo")
        board.strokes(1)
    board.saved()

    # A phone follows the link.
    webkit.get(device.share()["url"])
    board.until("return document.getElementById('state').textContent === 'Live'")
    board.until("return document.querySelectorAll('#chain li button').length === arguments[0]", len(TAPS) + 1)
    board.strokes(1)
    errors = webkit.execute_script("return document.querySelector('.toast:not([hidden])')?.textContent ?? ''")
    assert errors == ""


def device_chain(device: Device) -> list[list[str]]:
    with device.coach() as screen:
        return screen.chain()


def test_the_check_of_the_device_works_in_webkit(webkit: webdriver.WebKitGTK, server: LiveServer) -> None:
    webkit.get(f"{server.url}/check")
    board = Board(webkit)
    board.until("return !document.querySelector('#lines li[data-state=\"wait\"]')")
    board.until("return document.querySelectorAll('#lines li').length > 10")
