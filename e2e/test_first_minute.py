"""The first minute of who has never seen the board: the front page, the demo, and four hints."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Locator, Page, expect

from e2e.axe import check
from e2e.conftest import PHONE, TABLET, NewContext
from e2e.expected import Play
from e2e.people import Coach
from tests.server import LiveServer
from webapp.boards.demo import DEMO_PLAYS

UPRIGHT = {"width": 820, "height": 1180}
SIZES = [PHONE, UPRIGHT, TABLET]
PASS = "pass:right_wing"

#: What can be tapped and has something else over it, or lies behind the hints: there is to be none.
COVERED = """() => {
  const hints = document.querySelector('.hints').getBoundingClientRect();
  const home = document.querySelector('.sheet').getBoundingClientRect();
  const tappable = ':is(.bar, .shelf, .controls, .court) button, #court .target, #court .disc';
  const seen = [...document.querySelectorAll(tappable)].filter((each) => each.getBoundingClientRect().width);
  const found = seen.filter((each) => {
    const {left, top, right, bottom} = each.getBoundingClientRect();
    return left < hints.right && right > hints.left && top < hints.bottom && bottom > hints.top;
  });
  const within = hints.left >= home.left && hints.right <= home.right && hints.top >= home.top
    && hints.bottom <= home.bottom;
  return {looked: seen.length > 10, within, covered: found.map((each) => each.ariaLabel ?? each.textContent)};
}"""
REMEMBERED = "() => JSON.parse(localStorage.getItem('quintet.view') ?? '{}').learned ?? null"


@pytest.fixture
def demo(tmp_path: Path) -> Iterator[LiveServer]:
    """A server as it is when it has just been started for the first time."""
    server = LiveServer(tmp_path / "data").start()
    yield server
    server.stop()


@pytest.fixture
def newcomer(demo: LiveServer, new_context: NewContext) -> Coach:
    """Who opens the link that the first start prints. The server goes after the page."""
    context = new_context(viewport=TABLET, newcomer=True)
    page = context.new_page()
    page.goto(demo.coach_url)
    page.wait_for_url("**/board/*")
    coach = Coach(demo, context, page, board_id=page.url.rsplit("/", 1)[1])
    coach.saved()
    return coach


def hints(page: Page) -> Locator:
    return page.get_by_role("region", name="Hints")


def says(page: Page, number: int, word: str) -> None:
    """Wait until a hint is told, to a screen reader too."""
    told = hints(page).get_by_role("status")
    expect(told).to_contain_text(f"Hint {number} of 4")
    expect(told).to_contain_text(word)


@pytest.mark.parametrize("size", [PHONE, TABLET])
def test_the_front_page_shows_a_new_board_first_and_where_codes_go_below_it(
    new_context: NewContext, server: LiveServer, size: dict[str, int]
) -> None:
    """Both within the first screen: a coach who is new, and a player with a code, scroll nowhere."""
    page = new_context(viewport=size, newcomer=True).new_page()
    page.goto(server.url)
    new = page.get_by_role("button", name="Open a new board").bounding_box()
    code = page.get_by_role("link", name="Join with a code").bounding_box()
    assert new is not None
    assert code is not None
    assert new["y"] + new["height"] < code["y"] < code["y"] + code["height"] <= size["height"]
    assert page.evaluate("document.documentElement.scrollWidth") <= size["width"]
    check(page)


def test_the_demo_opens_at_the_start_with_a_play_to_run(newcomer: Coach) -> None:
    page, shown = newcomer.page, DEMO_PLAYS[0]
    whole = Play("five_out", [text for step in shown.line for text in step])
    newcomer.stands(Play("five_out").standing)
    expect(page.get_by_role("button", name="Play", exact=True)).to_be_enabled()
    expect(page.get_by_role("button", name="Step back")).to_be_disabled()
    expect(page.locator("#list")).to_contain_text("This is the start.")
    expect(page.locator("#chain")).to_contain_text(shown.name)
    newcomer.do("play")
    newcomer.stands(whole.standing)


def test_an_opened_play_is_at_its_start_after_a_reload_and_one_played_on_at_its_end(newcomer: Coach) -> None:
    newcomer.page.reload()
    newcomer.stands(Play("five_out").standing)
    play = Play("five_out")
    newcomer.tap(play.play(PASS))
    newcomer.saved()
    newcomer.page.reload()
    newcomer.stands(play.standing)


def test_a_newcomer_finds_the_four_plays(newcomer: Coach) -> None:
    newcomer.do("plays")
    for play in DEMO_PLAYS:
        expect(newcomer.page.get_by_role("dialog")).to_contain_text(play.name)


@pytest.mark.parametrize("size", SIZES)
def test_the_hints_go_on_as_the_coach_does_what_they_say_and_cover_nothing(
    new_coach: Callable[..., Coach], size: dict[str, int]
) -> None:
    coach = new_coach(viewport=size, newcomer=True)
    page, play = coach.page, Play("five_out")
    says(page, 1, "Tap a team-mate")
    assert page.evaluate(COVERED) == {"looked": True, "within": True, "covered": []}
    coach.tap(play.play(PASS))
    says(page, 2, "Step back")
    coach.saved()
    assert page.evaluate(COVERED) == {"looked": True, "within": True, "covered": []}
    check(page)
    coach.do("back")
    says(page, 2, "Step back")  # half of it
    other = Play("five_out")
    coach.tap(other.play("pass:left_wing"))
    says(page, 3, "Press Play")
    coach.stands(other.standing)
    coach.do("play")
    says(page, 4, "Share")
    coach.do("share")
    expect(hints(page)).to_have_count(0)
    page.reload()
    coach.saved()
    expect(hints(page)).to_have_count(0)


def test_the_same_action_again_is_no_branch(new_coach: Callable[..., Coach]) -> None:
    coach = new_coach(newcomer=True)
    coach.tap(Play("five_out").play(PASS))
    coach.do("back")
    coach.tap(Play("five_out").play(PASS))
    coach.saved()
    says(coach.page, 2, "Step back")


def test_what_was_done_before_its_hint_came_is_not_asked_for_again(new_coach: Callable[..., Coach]) -> None:
    coach = new_coach(newcomer=True)
    coach.do("share")
    coach.page.get_by_role("dialog").get_by_role("button", name="Close", exact=True).tap()
    says(coach.page, 1, "Tap a team-mate")
    for number in (2, 3):
        hints(coach.page).get_by_role("button", name="Next").tap()
        says(coach.page, number, "")
    # It is the last one: there is nothing next.
    expect(hints(coach.page).get_by_role("button")).to_have_text(["Close"])
    hints(coach.page).get_by_role("button", name="Close").tap()
    expect(hints(coach.page)).to_have_count(0)


@pytest.mark.parametrize("seen", [1, 3])
def test_the_hints_are_left_at_any_moment_and_never_come_back(
    new_coach: Callable[..., Coach], new_context: NewContext, seen: int
) -> None:
    """By touch; on another board of the same device too."""
    coach = new_coach(newcomer=True)
    for number in range(1, seen):
        hints(coach.page).get_by_role("button", name="Next").tap()
        says(coach.page, number + 1, "")
    hints(coach.page).get_by_role("button", name="Close").tap()
    expect(hints(coach.page)).to_have_count(0)
    coach.page.reload()
    coach.saved()
    coach.tap(Play("five_out").play(PASS))
    expect(hints(coach.page)).to_have_count(0)
    coach.page.goto(coach.server.url)
    coach.page.get_by_role("button", name="Open a new board").tap()
    coach.page.wait_for_url("**/board/*")
    coach.saved()
    expect(hints(coach.page)).to_have_count(0)


def test_the_hints_work_by_keyboard_alone(new_coach: Callable[..., Coach]) -> None:
    coach = new_coach(newcomer=True)
    page = coach.page
    says(page, 1, "Tap a team-mate")
    hints(page).get_by_role("button", name="Next").focus()
    page.keyboard.press("Enter")
    says(page, 2, "Step back")
    page.keyboard.press("Space")  # where one is, one stays
    says(page, 3, "Press Play")
    page.keyboard.press("Tab")
    expect(hints(page).get_by_role("button", name="Close")).to_be_focused()
    page.keyboard.press("Enter")
    expect(hints(page)).to_have_count(0)
    expect(page.locator("#list button").first).to_be_focused()
    expect(coach.chain).to_have_count(0)  # neither key was taken for the board


def test_a_reload_in_the_middle_goes_on_where_it_was(new_coach: Callable[..., Coach]) -> None:
    coach = new_coach(newcomer=True)
    hints(coach.page).get_by_role("button", name="Next").tap()
    says(coach.page, 2, "Step back")
    coach.page.reload()
    says(coach.page, 2, "Step back")


def test_who_has_coached_here_before_sees_no_hints(new_coach: Callable[..., Coach]) -> None:
    """The device knows a board, and was never asked about hints, as they are newer than it."""
    coach = new_coach(newcomer=True)
    says(coach.page, 1, "Tap a team-mate")
    coach.tap(Play("five_out").play(PASS))
    coach.saved()
    coach.page.evaluate("localStorage.removeItem('quintet.view')")
    coach.page.reload()
    coach.page.wait_for_function(f"({REMEMBERED})()?.length === 4")
    expect(hints(coach.page)).to_have_count(0)
