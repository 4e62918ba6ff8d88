"""Speed and pace: all arrive before the next action, unless game pace is chosen; and what a pause shows."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect

from e2e.axe import check
from e2e.conftest import PHONE
from e2e.expected import Play
from e2e.people import Coach, Player

LINE = ["pass:right_wing", "fill:left_corner pass:top", "fill:right_corner drive:left"]
CHAIN = Play("five_out", LINE)

SAYS = "Speed {}, {} pace. Change speed and pace"
#: Counts what a button hears.
HEARD = """() => {
  window.heard = 0;
  addEventListener('click', ({ target }) => { if (target.closest('button')) window.heard++; }, true);
}"""
#: Somebody has been on his way for a while.
UNDER_WAY = "() => document.getAnimations().some((one) => Number(one.currentTime) > 500)"


def played(coach: Coach) -> None:
    for sentence in CHAIN.sentences:
        coach.tap(sentence)
    coach.reads(CHAIN.sentences)
    coach.stands(CHAIN.standing)
    # Laid anew, from its start.
    coach.do("replay")
    coach.do("play")


def lasts(page: Page) -> float:
    """How long the film on show is, seconds."""
    return float(page.locator("#scrub").get_attribute("max") or 0)


def choose(person: Coach | Player, button: str, *names: str) -> None:
    person.page.locator(button).tap()
    panel = person.page.get_by_role("dialog", name="Speed and pace")
    for name in names:
        panel.get_by_role("button", name=re.compile(f"^{name}")).tap()
    panel.get_by_role("button", name="Close").tap()
    expect(panel).to_have_count(0)


def test_taught_pace_is_the_default_and_game_pace_a_choice_for_this_sitting(coach: Coach) -> None:
    played(coach)
    taught = lasts(coach.page)
    expect(coach.page.locator("#lasts")).to_have_text(f"{round(taught)} s")
    choose(coach, '[data-do="speed"]', "Game")
    coach.page.wait_for_function("taught => scrub.max < taught - 1", arg=taught)
    expect(coach.page.locator("#lasts")).to_have_text(f"{round(lasts(coach.page))} s")
    expect(coach.page.get_by_role("button", name=SAYS.format("1×", "Game"))).to_be_visible()
    coach.page.reload()
    coach.saved()
    coach.page.wait_for_function("taught => Math.abs(scrub.max - taught) < 0.05", arg=taught)


def test_half_the_speed_takes_twice_as_long_and_says_so(coach: Coach) -> None:
    played(coach)
    whole = lasts(coach.page)
    choose(coach, '[data-do="speed"]', "½×")
    expect(coach.page.locator("#lasts")).to_have_text(f"{round(2 * whole)} s")


def test_at_taught_pace_everybody_stands_before_each_action(coach: Coach) -> None:
    played(coach)
    steps = [Play("five_out", LINE[:count]) for count in range(len(LINE) + 1)]
    for count in range(len(LINE), -1, -1):
        coach.stands(steps[count].standing)
        if count:
            coach.do("back")


@pytest.mark.pace(1)
def test_a_tap_is_played_at_once_at_either_pace(coach: Coach) -> None:
    coach.tap(CHAIN.sentences[0])
    # Well before everybody has arrived: an arrow beside the ball handler, who stands.
    coach.tap("1 fills the left corner, then 2 drives right")
    coach.page.wait_for_function("() => document.querySelectorAll('.ticks i').length === 2")
    second = coach.page.locator(".ticks i").nth(1).evaluate("tick => parseFloat(tick.style.left)")
    assert second / 100 * lasts(coach.page) < 2.0


def test_in_big_view_three_actions_run_twice_within_twenty_five_seconds(coach: Coach) -> None:
    played(coach)
    with_breath = lasts(coach.page)
    coach.do("present")
    coach.page.wait_for_function("before => scrub.max < before - 0.9", arg=with_breath)
    assert 2 * lasts(coach.page) <= 25


def test_what_is_chosen_in_one_time_out_does_not_surprise_in_the_next(coach: Coach) -> None:
    played(coach)
    before = lasts(coach.page)
    coach.do("present")
    choose(coach, '[data-do="speed"]', "½×", "Game")
    coach.page.keyboard.press("Escape")
    coach.page.wait_for_function("before => Math.abs(scrub.max - before) < 0.05", arg=before)
    expect(coach.page.get_by_role("button", name=SAYS.format("1×", "Taught"))).to_be_visible()


def test_leaving_the_big_view_with_two_taps_starts_nothing(coach: Coach) -> None:
    """The second one hit the button that lay where Close had been."""
    played(coach)
    coach.do("present")
    box = coach.page.locator('[data-do="leave"]').bounding_box()
    assert box
    coach.page.evaluate(HEARD)
    for _ in range(2):
        coach.page.touchscreen.tap(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    expect(coach.page.locator("body")).not_to_have_class(re.compile("leaving|presenting"))
    assert coach.page.evaluate("window.heard") == 1
    expect(coach.page.get_by_role("dialog")).to_have_count(0)
    coach.reads(CHAIN.sentences)


@pytest.mark.pace(1)
def test_a_pause_on_the_way_shows_nothing_to_tap(coach: Coach) -> None:
    """The targets of where everybody was about to stand lay on the floor while they ran."""
    played(coach)
    coach.do("replay")
    coach.page.wait_for_function(UNDER_WAY)
    coach.do("play")
    expect(coach.page.locator("#list")).to_contain_text("Paused while they run.")
    expect(coach.page.locator("#court .target")).to_have_count(0)
    expect(coach.page.locator("#court .disc.can")).to_have_count(0)
    coach.do("back")
    expect(coach.page.locator("#court .target").first).to_be_visible()


def test_a_player_looks_back_at_taught_pace_and_may_choose_the_game_s(coach: Coach, player: Player) -> None:
    for sentence in CHAIN.sentences:
        coach.tap(sentence)
    player.reads(CHAIN.sentences)
    player.page.set_viewport_size(PHONE)
    button = player.page.locator("#rate")
    expect(button).to_have_accessible_name("Full speed, Taught pace. Change speed and pace")
    expect(button).to_have_text("Full speedTaught")
    choose(player, "#rate", "½×", "Game")
    expect(button).to_have_accessible_name("Half speed, Game pace. Change speed and pace")
    expect(button).to_have_text("Half speedGame")


def test_the_panel_is_accessible(coach: Coach) -> None:
    played(coach)
    coach.do("speed")
    expect(coach.page.get_by_role("dialog", name="Speed and pace")).to_contain_text("The whole chain takes")
    check(coach.page)
