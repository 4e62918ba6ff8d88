"""Everything a coach does, without touching the court; and what a screen reader is told of it."""

from __future__ import annotations

import pytest
from playwright.sync_api import Locator, expect

from e2e.expected import Play
from e2e.people import Coach

#: More presses of Tab than the whole page has places to stop at.
ENOUGH_TABS = 120


def test_a_chain_by_keyboard_alone(coach: Coach) -> None:
    page, play = coach.page, Play("five_out")
    spoken = page.locator("#live")

    # A number passes to that team-mate; Enter takes the cutter where the rules send him.
    sentence = play.play("pass:right_wing")
    expect(choice(coach, sentence)).to_be_visible()
    page.keyboard.press("2")
    coach.reads(play.sentences)
    expect(spoken).to_have_text(f"{sentence}. " + " ".join(play.told("who").values()))
    default = choice(coach, play.preview("fill:left_corner"))
    expect(default).to_have_class("choice default")
    page.keyboard.press("Enter")
    play.play("fill:left_corner")
    coach.reads(play.sentences)

    # The third from the list, reached with Tab alone.
    sentence = play.play("dribble_at:right_corner")
    tab_to(coach, choice(coach, sentence))
    page.keyboard.press("Enter")
    coach.reads(play.sentences)
    expect(spoken).to_have_text(f"{sentence}. " + " ".join(play.told("who").values()))
    coach.stands(play.standing)

    tab_to(coach, page.get_by_role("button", name="Undo"))
    page.keyboard.press("Enter")
    coach.reads(play.sentences[:2])
    page.keyboard.press("Control+z")
    coach.reads(play.sentences[:1])
    page.keyboard.press("Control+Shift+z")
    page.keyboard.press("Control+y")
    coach.reads(play.sentences)
    coach.stands(play.standing)

    # Wind to the start and to the end again.
    tab_to(coach, page.get_by_role("slider", name="Where in the chain"))
    page.keyboard.press("Home")
    coach.stands(Play("five_out").standing)
    expect(page.locator("#list")).not_to_contain_text("right corner")
    page.keyboard.press("End")
    coach.stands(play.standing)
    # Step back, and watch the last action again.
    page.keyboard.press("Escape")
    tab_to(coach, page.get_by_role("button", name="Step back"))
    page.keyboard.press("Enter")
    coach.stands(Play("five_out", play.taps[:2]).standing)
    expect(page.locator("#chain [aria-current]")).to_have_text(play.sentences[1])
    page.keyboard.press("ArrowRight")
    coach.stands(play.standing)
    with coach.device.coach() as screen:
        assert screen.chain() == play.actions


def test_what_is_not_on_the_court_is_in_the_list(coach: Coach) -> None:
    """Every offer is a button with its whole sentence as its name, a composite to the cutter included."""
    play = Play("five_out", ["pass:right_wing"])
    coach.tap(play.sentences[0])
    coach.saved()
    with coach.device.coach() as screen:
        while screen.offered["seq"] != screen.seq:
            screen.hear()
        offered = [" ".join(offer["a"]) for offer in screen.offered["offers"]]
    expect(coach.page.locator("#list button[data-act]")).to_have_count(len(offered))
    for tap in offered:
        expect(choice(coach, play.preview(tap))).to_have_count(1)
    choice(coach, play.play("fill:left_corner skip:left_corner")).tap()
    coach.reads(play.sentences)
    coach.stands(play.standing)


@pytest.mark.parametrize("name", ["Share", "Menu"])
def test_a_panel_is_opened_and_left_with_keys_and_gives_the_focus_back(coach: Coach, name: str) -> None:
    opener = coach.page.get_by_role("button", name=name)
    tab_to(coach, opener)
    coach.page.keyboard.press("Enter")
    panel = coach.page.get_by_role("dialog")
    expect(panel).to_be_visible()
    coach.page.keyboard.press("2")  # a digit in a panel is no pass
    coach.page.keyboard.press("Escape")
    expect(panel).to_be_hidden()
    expect(opener).to_be_focused()
    coach.reads([])


def choice(coach: Coach, sentence: str) -> Locator:
    """Return the button of the list that a screen reader calls so."""
    return coach.page.locator("#list").get_by_role("button", name=sentence, exact=True)


def tab_to(coach: Coach, wanted: Locator) -> None:
    """Press Tab until ``wanted`` has the focus; it must be seen to have it."""
    expect(wanted).to_be_enabled()
    for _ in range(ENOUGH_TABS):
        if wanted.evaluate("element => element === document.activeElement"):
            break
        coach.page.keyboard.press("Tab")
    expect(wanted).to_be_focused()
    outline = wanted.evaluate(
        "e => getComputedStyle(e).outlineStyle + getComputedStyle(e.parentElement).outlineStyle"
    )
    assert outline != "nonenone", "the focus cannot be seen"
