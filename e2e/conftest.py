"""A real browser and real server processes: a coach's tablet and a player's phone, both by touch."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any, Protocol
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import (
    Browser,
    BrowserContext,
    ConsoleMessage,
    Page,
    Route,
    WebError,
    expect,
    sync_playwright,
)

from e2e.browser import ARGUMENTS, NO_BROWSER, find_browser
from e2e.coverage import Coverage
from e2e.people import Coach, Player
from tests.server import ROOT, LiveServer, SecureSide

#: A loaded test machine is given this long before a thing counts as not happening.
PATIENCE_MS = 20_000
#: Nobody looks on while these tests run: what moves is played so many times as fast, by the browser itself,
#: which changes nothing for the page. Tests that do something while it moves say how fast: ``pace``.
PACE = 120.0
TABLET = {"width": 1180, "height": 820}
PHONE = {"width": 390, "height": 844}
#: Makes a device one of somebody who has seen the first hints on the board.
HINTS_SEEN = """if (location.pathname.startsWith('/board/') && self.origin !== 'null') {
  const view = JSON.parse(localStorage.getItem('quintet.view') ?? '{}');
  view.learned ??= ['tap', 'branch', 'play', 'share'];
  localStorage.setItem('quintet.view', JSON.stringify(view));
}"""
#: What a browser itself writes when a line is down, in tests that cut one.
LINE_DOWN = re.compile(r"WebSocket connection to|net::ERR_CONNECTION_REFUSED|net::ERR_CONNECTION_RESET")


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Mark every test here."""
    here = Path(__file__).parent
    for item in items:
        if here in item.path.parents:
            item.add_marker(pytest.mark.browser)


@pytest.fixture(scope="session")
def browser_path() -> str:
    """Where the browser is."""
    path = find_browser()
    if path is None:
        pytest.fail(NO_BROWSER, pytrace=False)
    return path


@pytest.fixture(scope="session")
def browser(browser_path: str) -> Iterator[Browser]:
    """One browser for the whole run."""
    expect.set_options(timeout=PATIENCE_MS)
    with sync_playwright() as playwright:
        started = playwright.chromium.launch(executable_path=browser_path, args=ARGUMENTS)
        yield started
        started.close()


class Troubles:
    """What went wrong in the pages of a test; anything here fails it."""

    def __init__(self) -> None:
        self.seen: list[str] = []
        self.expected: list[re.Pattern[str]] = []

    def watch(self, context: BrowserContext) -> None:
        """Listen for errors in all pages of ``context``."""
        context.on("weberror", self._failed)
        context.on("console", self._said)

    def expect(self, pattern: str | re.Pattern[str]) -> None:
        """Take errors like this as part of the test."""
        self.expected.append(re.compile(pattern))

    def unexpected(self) -> list[str]:
        """Return what should not have happened."""
        return [text for text in self.seen if not any(each.search(text) for each in self.expected)]

    def _failed(self, error: WebError) -> None:
        self.seen.append(f"page error: {error.error}")

    def _said(self, message: ConsoleMessage) -> None:
        if message.type == "error":
            self.seen.append(f"console: {message.text} ({message.location.get('url', '')})")


@pytest.fixture
def troubles() -> Iterator[Troubles]:
    """The errors of the test's pages; those not expected fail it."""
    found = Troubles()
    yield found
    assert found.unexpected() == []


@pytest.fixture
def no_network(troubles: Troubles) -> None:
    """A test takes the network away, and a browser says so."""
    troubles.expect(LINE_DOWN)
    troubles.expect(r"net::ERR_INTERNET_DISCONNECTED")


class NewContext(Protocol):
    def __call__(self, **options: Any) -> BrowserContext: ...


@pytest.fixture
def pace(request: pytest.FixtureRequest) -> float:
    """How many times as fast as for people everything moves on the screen."""
    mark = request.node.get_closest_marker("pace")
    return PACE if mark is None else float(mark.args[0])


def paced(page: Page, pace: float) -> Page:
    """Let the browser play the animations of a page so many times as fast; timers go as ever."""
    tools = page.context.new_cdp_session(page)
    tools.send("Animation.enable")
    tools.send("Animation.setPlaybackRate", {"playbackRate": pace})
    return page


@pytest.fixture
def new_context(browser: Browser, troubles: Troubles, pace: float) -> Iterator[NewContext]:
    """Make a device of its own; closed after the test. ``newcomer``: nobody has coached on it before."""
    made: list[tuple[BrowserContext, Coverage]] = []

    def make(*, sources: bool = True, newcomer: bool = False, **options: Any) -> BrowserContext:
        # A kept shell would hide what the server says; the tests that are about it let the worker in.
        context = browser.new_context(**{"service_workers": "block", "has_touch": True, **options})
        context.set_default_timeout(PATIENCE_MS)
        troubles.watch(context)
        if not newcomer:
            context.add_init_script(HINTS_SEEN)
        if sources and options.get("service_workers") == "allow":
            context.route("**/static/js/**", _source)
        made.append((context, Coverage(context)))
        if pace != 1.0:
            open_page = context.new_page
            context.new_page = lambda: paced(open_page(), pace)  # type: ignore[method-assign]
        return context

    yield make
    for context, coverage in made:
        coverage.keep()
        context.close()


def _source(route: Route) -> None:
    """Give a test a module as it was written, for its own looks at the page, without a network too.

    A browser whose requests are looked at does without its cache: ``sources=False`` leaves it alone.
    """
    route.fulfill(path=ROOT / urlsplit(route.request.url).path.lstrip("/"), content_type="text/javascript")


@pytest.fixture
def new_coach(new_context: NewContext, server: LiveServer) -> Callable[..., Coach]:
    """Open a tablet on a new board of a new team; ``before`` may prepare it over the wire."""

    def make(before: Callable[[Coach], object] | None = None, **options: Any) -> Coach:
        context = new_context(**{"viewport": TABLET, **options})
        board_id = made_board(context, server)
        coach = Coach(server, context, context.new_page(), board_id=board_id)
        if before is not None:
            before(coach)
        coach.page.goto(f"{server.url}/board/{board_id}")
        coach.saved()
        return coach

    return make


@pytest.fixture
def coach(new_coach: Callable[..., Coach]) -> Coach:
    """A coach at a tablet, on a new board."""
    return new_coach()


@pytest.fixture
def new_player(new_context: NewContext, coach: Coach) -> Callable[..., Player]:
    """Open a phone on the coach's board, by a viewing link of its own."""

    def make(**options: Any) -> Player:
        context = new_context(**{"viewport": PHONE, "is_mobile": True, **options})
        page = context.new_page()
        page.goto(coach.device.share()["url"])
        player = Player(coach.server, context, page)
        player.live()
        return player

    return make


@pytest.fixture
def player(new_player: Callable[..., Player]) -> Player:
    """A player with a phone that follows the coach's board."""
    return new_player()


def made_board(context: BrowserContext, server: LiveServer) -> str:
    """Make a team and a board as the form on the first page does, without showing that page."""
    answer = context.request.post(
        f"{server.url}/teams",
        form={"team": "Quay Otters", "board": "Practice"},
        headers={"Origin": server.url},
        max_redirects=0,
    )
    assert answer.status == 303, answer.text()
    return answer.headers["location"].rsplit("/", 1)[1]


def new_board(page: Page, server: LiveServer | SecureSide) -> str:
    """Make a team and a board with the form on the first page; the page is then the board's."""
    page.goto(server.url)
    page.get_by_label("Team").fill("Quay Otters")
    page.get_by_role("button", name="Open a new board").tap()
    page.wait_for_url("**/board/*")
    return page.url.rsplit("/", 1)[1]
