"""Every screen in a made-up language: no word but from the tables, nothing cut off or covered on a phone."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from e2e.conftest import PHONE, NewContext, Troubles, made_board
from e2e.test_new_version import REFRESH
from engine.words.language import english
from tests.made_up import OPENS, SHUTS, TAG, text, write
from tests.server import LiveServer, SharedServers
from tests.webapp.screens import Device

TEAM, BOARD, NAME, PLAY = "Quay Otters", "Practice", "Ada", "Zipper"
CALL, SIGNAL = "Zorro", "fist up"

#: What may stand outside the brackets: what people have written themselves, addresses and codes.
DATA = (
    "Quintet",
    TEAM,
    BOARD,
    NAME,
    PLAY,
    CALL,
    SIGNAL,
    "FIBA",
    "NBA",
    "NCAA",
    "NFHS",
    "English",
    "Linux computer",
)

_LOOK = (Path(__file__).parent / "words_on_screen.js").read_text("utf-8")


def said(key: str, **given: object) -> str:
    """Return a text in the made-up language."""
    template = text(english().text(key, given.get("n")))
    return re.sub(r"\{(\w+)\}", lambda slot: str(given[slot[1]]), template)


@dataclass
class Walk:
    """Somebody who looks at one screen after the other, and what was wrong on them."""

    page: Page
    url: str
    faults: list[str] = field(default_factory=list)

    def look(self, screen: str) -> None:
        """Look at what is on the screen now."""
        found = self.page.evaluate(_LOOK, [OPENS, SHUTS, DATA])
        self.faults += [f"{screen}: {fault}" for fault in found]

    def is_right(self) -> None:
        """Nothing was wrong on any of them."""
        assert not self.faults, "\n" + "\n".join(dict.fromkeys(self.faults))

    def goes(self, path: str, screen: str) -> None:
        """Open a page and look at it."""
        self.page.goto(self.url + path)
        self.look(screen)

    def tap(self, selector: str) -> None:
        """Tap what a selector finds first."""
        self.page.locator(selector).first.tap()


@pytest.fixture(scope="session")
def languages(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with the made-up language."""
    return write(tmp_path_factory.mktemp("languages"))


@pytest.fixture
def speaking(shared_server: SharedServers, languages: Path) -> LiveServer:
    """A server that knows the made-up language too."""
    return shared_server(languages_dir=languages)


@pytest.fixture
def device(new_context: NewContext, speaking: LiveServer) -> BrowserContext:
    """A phone whose browser asks for the made-up language."""
    return new_context(viewport=PHONE, is_mobile=True, locale=TAG)


def team_on(context: BrowserContext, server: LiveServer) -> Device:
    """A team with a squad, made over the wire."""
    board = made_board(context, server)
    coach = Device(server, {c["name"]: c["value"] for c in context.cookies()}, board)
    for number in range(4, 10):
        coach.ask("POST", f"/api/team/players?board={board}", {"number": str(number), "name": NAME})
    calls = {"pass": {"call": CALL, "signal": SIGNAL}, "fill": {"call": CALL, "signal": ""}}
    calls["drive"] = {"call": "", "signal": SIGNAL}
    coach.ask("PUT", f"/api/team/calls?board={board}", calls)
    return coach


@pytest.mark.parametrize(
    ("page", "fault"),
    [
        ("<p>⟦a team⟧</p>", None),
        ("<p>⟦⟦one⟧, ⟦two⟧⟧</p>", None),
        ("<p>⟦tap <b>here</b> now⟧</p>", None),
        ("<p>12</p>", None),
        ("<p>plain words</p>", "not from the tables"),
        ("<p>⟦one⟧ · ⟦two⟧</p>", "put together by code"),
        ("<p>⟦one⟧ ⟦two⟧</p>", "put together by code"),
        ("<p>⟦one⟧.</p>", "put together by code"),
        ("<p>12 ⟦steps⟧</p>", "put together by code"),
        ('<button aria-label="⟦delete⟧: Ada">⟦delete⟧</button>', "put together by code"),
    ],
)
def test_words_that_code_puts_together_are_found(
    new_context: NewContext, page: str, fault: str | None
) -> None:
    shown = new_context().new_page()
    shown.set_content(f"<!doctype html><title>⟦t⟧</title>{page}")
    found = shown.evaluate(_LOOK, [OPENS, SHUTS, DATA])
    assert [fault] * len(found) == [said.split(":")[0] for said in found]
    assert bool(found) == (fault is not None)


def test_pages_before_there_is_a_team(
    device: BrowserContext, speaking: LiveServer, troubles: Troubles
) -> None:
    troubles.expect(r"status of 4\d\d")
    walk = Walk(device.new_page(), speaking.url)
    walk.goes("/", "home")
    expect(walk.page.locator("html")).to_have_attribute("lang", TAG)
    walk.goes("/join", "join")
    walk.page.locator("#code").fill("AAAAAA")
    walk.tap("form button")
    expect(walk.page.get_by_role("alert")).to_be_visible()
    walk.look("join, refused")
    walk.goes("/add", "add")
    walk.goes("/nowhere", "nothing there")
    walk.goes("/c/none", "a link that does not work")
    walk.goes("/v/none", "a viewing link that does not work")
    walk.goes("/check", "check")
    expect(walk.page.locator("main")).not_to_contain_text(said("check.checking"))
    walk.look("check, done")
    walk.goes("/import", "import")
    walk.goes("/offline", "offline")
    walk.goes("/care", "cautions")
    walk.is_right()


def opened(coach: Device, walk: Walk) -> None:
    """Open the board, or open it again."""
    walk.page.goto(f"{coach.server.url}/board/{coach.board_id}")
    expect(walk.page.locator("#status")).to_have_text(said("board.saved"))


def test_the_board(device: BrowserContext, speaking: LiveServer) -> None:
    coach = team_on(device, speaking)
    walk = Walk(device.new_page(), speaking.url)
    page = walk.page
    opened(coach, walk)
    walk.look("board")
    walk.tap("#list .choice")
    expect(page.locator("#chain li")).to_have_count(2)
    expect(page.locator("#status")).to_have_text(said("board.saved"))
    walk.look("a step on")
    walk.tap('[data-do="menu"]')
    expect(page.locator("#menu")).to_be_visible()
    walk.look("menu")
    page.keyboard.press("Escape")
    walk.tap('[data-do="share"]')
    expect(page.locator(".sharing .code span")).to_have_count(2)
    walk.look("share")
    page.locator(".sharing button", has_text=said("share.make_coach")).tap()
    expect(page.locator(".sharing img.qr")).to_have_count(2)
    walk.look("share, a coaching link")
    walk.tap("#tab-devices")
    expect(page.locator(".sharing button", has_text=said("share.sheet_make"))).to_be_visible()
    walk.look("devices")
    page.keyboard.press("Escape")
    walk.tap('[data-do="quick"]:visible')
    expect(page.locator("dialog.quick img")).to_be_visible()
    walk.look("code to follow")
    page.keyboard.press("Escape")
    walk.tap('[data-do="clock"]:visible')
    expect(page.locator(".clock")).to_be_visible()
    walk.look("clock")
    walk.tap(".clock .away")
    walk.tap('[data-do="plays"]')
    page.locator(".plays button", has_text=said("plays.save_play")).first.tap()
    walk.look("saving")
    page.locator("dialog[open] input").first.fill(PLAY)
    page.locator("dialog[open] button", has_text=said("plays.save")).tap()
    walk.look("saved")
    walk.tap('[data-do="plays"]')
    expect(page.locator("li.play")).to_have_count(1)
    walk.look("plays")
    walk.tap("li.play button[aria-expanded]")
    walk.look("a play")
    walk.is_right()


def test_drawing_and_the_bench(device: BrowserContext, speaking: LiveServer) -> None:
    coach = team_on(device, speaking)
    walk = Walk(device.new_page(), speaking.url)
    opened(coach, walk)
    walk.tap(".ink-open")
    walk.look("draw")
    walk.tap(".ink-open")
    walk.tap('[data-do="byHand"]')
    expect(walk.page.locator(".hand-bar")).to_be_visible()
    walk.look("by hand")
    walk.page.keyboard.press("Escape")
    opened(coach, walk)
    walk.tap('[data-do="present"]')
    walk.look("big view")
    walk.is_right()


def test_what_is_drawn_by_hand(device: BrowserContext, speaking: LiveServer) -> None:
    coach = team_on(device, speaking)
    walk = Walk(device.new_page(), speaking.url)
    page = walk.page
    opened(coach, walk)
    walk.tap('[data-do="byHand"]')
    expect(page.locator(".hand-bar")).to_be_visible()
    page.get_by_role("button", name=said("drawn.draw"), exact=True).first.tap()
    grip = page.locator(".grip[data-who='3']").first
    grip.focus()
    for _ in range(6):
        page.keyboard.press("Shift+ArrowDown")
    walk.look("a run is begun")
    page.keyboard.press("Enter")
    page.locator(".grip[data-who='2']").first.focus()
    page.keyboard.press("Enter")
    expect(page.locator(".hand-panel .line, .hand-panel button.line")).to_have_count(2)
    walk.look("two moves")
    page.locator(".hand-panel button.line").first.tap()
    walk.look("one of them is open")
    walk.is_right()


def test_a_page_that_is_not_on_the_device_says_so_in_its_language(
    new_context: NewContext, speaking: LiveServer, troubles: Troubles
) -> None:
    troubles.expect(r"status of 503|ERR_INTERNET_DISCONNECTED")
    context = new_context(viewport=PHONE, is_mobile=True, locale=TAG, service_workers="allow")
    walk = Walk(context.new_page(), speaking.url)
    opened(team_on(context, speaking), walk)
    walk.page.wait_for_function("() => navigator.serviceWorker.controller !== null")
    context.set_offline(True)
    walk.goes("/join", "offline")
    expect(walk.page.get_by_role("heading", name=said("pages.offline.heading"))).to_be_visible()
    expect(walk.page.locator("html")).to_have_attribute("lang", TAG)
    expect(walk.page.locator("html")).to_have_attribute("dir", "ltr")
    walk.is_right()


def test_the_page_without_a_network_follows_the_team_to_another_language(
    new_context: NewContext, speaking: LiveServer, troubles: Troubles
) -> None:
    troubles.expect(r"status of 503|ERR_INTERNET_DISCONNECTED")
    context = new_context(viewport=PHONE, is_mobile=True, service_workers="allow")
    coach = team_on(context, speaking)
    page = context.new_page()
    page.goto(f"{speaking.url}/board/{coach.board_id}")
    page.wait_for_function("() => navigator.serviceWorker.controller !== null")
    coach.ask("PUT", f"/api/team/language?board={coach.board_id}", {"language": TAG})
    assert page.evaluate(REFRESH) == "refreshed"
    context.set_offline(True)
    page.goto(f"{speaking.url}/join")
    expect(page.locator("html")).to_have_attribute("lang", TAG)
    expect(page.get_by_role("heading", name=said("pages.offline.heading"))).to_be_visible()


def test_the_phone(device: BrowserContext, new_context: NewContext, speaking: LiveServer) -> None:
    coach = team_on(device, speaking)
    walk = Walk(new_context(viewport=PHONE, is_mobile=True, locale=TAG).new_page(), speaking.url)
    walk.page.goto(coach.share()["url"])
    expect(walk.page.locator("#state")).to_have_text(said("viewer.live"))
    walk.look("which number")
    walk.tap('#picker [data-choice="place 2"]')
    with coach.coach() as screen:
        screen.act("pass:right_wing")
        screen.act("fill:left_corner", "drive:right")
    expect(walk.page.locator("#chain li")).to_have_count(3)
    walk.look("following")
    walk.tap("#back")
    expect(walk.page.locator("#behind")).to_be_visible()
    walk.look("looking back")
    walk.is_right()


def test_the_team(device: BrowserContext, speaking: LiveServer) -> None:
    coach = team_on(device, speaking)
    board = coach.board_id
    walk = Walk(device.new_page(), speaking.url)
    page = walk.page
    for place in (
        "rules",
        "formations",
        "squad",
        "words",
        "rules/pass_and_cut/moves",
        "rules/pass_and_cut/installed",
        "rules/pass_and_cut/stages",
        "rules/first_steps/check",
        "formations/five_out",
    ):
        page.goto("about:blank")
        page.goto(f"{speaking.url}/team?board={board}#{place}")
        expect(page.locator("main h1, main h2").first).to_be_visible()
        expect(page.locator("main")).not_to_contain_text(said("general.one_moment"))
        walk.look(place)
    walk.is_right()


def test_paper(device: BrowserContext, speaking: LiveServer) -> None:
    coach = team_on(device, speaking)
    walk = Walk(device.new_page(), speaking.url)
    with coach.coach() as screen:
        screen.act("pass:right_wing")
        screen.act("fill:left_corner", "drive:right")
    walk.goes(f"/board/{coach.board_id}/print", "print")
    walk.goes(f"/sheet/{coach.board_id}", "recovery sheet")
    walk.tap("form button")
    expect(walk.page.locator(".paper .code")).to_be_visible()
    walk.look("a new recovery sheet")
    walk.goes(f"/import?board={coach.board_id}", "import into a team")
    for path in ("page.svg?page=1", "moving.svg"):
        asked = device.request.get(
            f"{speaking.url}/board/{coach.board_id}/print/{path}", headers={"Accept-Language": TAG}
        )
        walk.page.set_content(asked.text())
        walk.look(path)
    walk.is_right()


def test_a_team_chooses_what_it_is_spoken_to_in(new_context: NewContext, speaking: LiveServer) -> None:
    context = new_context(viewport=PHONE, is_mobile=True)
    coach = team_on(context, speaking)
    page = context.new_page()
    page.goto(f"{speaking.url}/team?board={coach.board_id}#words")
    choice = page.get_by_label("Language")
    expect(choice).to_have_value("")
    choice.select_option(TAG)
    expect(page.locator("html")).to_have_attribute("lang", TAG)
    expect(page.locator("label.pick select")).to_have_value(TAG)
    page.goto(f"{speaking.url}/board/{coach.board_id}")
    expect(page.locator("#status")).to_have_text(said("board.saved"))
