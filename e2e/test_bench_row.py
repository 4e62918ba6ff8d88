"""The bench row: the pinned plays, by when they are called, and starting again, always one tap away."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import Locator, expect

from e2e.axe import check
from e2e.expected import Play
from e2e.people import Coach
from e2e.test_playbook import chain_of, listed, more, saving, sheet, sync

OTTER = Play("five_out", ["pass:right_wing", "fill:left_corner drive:right"])
HERON = Play("five_out", ["pass:left_wing", "fill:right_corner pass:top"])
KITE = Play("five_out", ["dribble_at:left_wing"])


def stocked(coach: Coach) -> Coach:
    """Give the team three pinned plays: one for any time, one for the sideline, one for the last shot."""
    plays = [(OTTER, "Otter", "last_shot"), (HERON, "Heron", ""), (KITE, "Kite", "sideline")]
    sync(coach, *(saving(coach, play, name, occasion=when) for play, name, when in plays))
    pins = [
        {"op": "edit", "chain": chain_of(coach, name), "pinned": True, "rank": rank}
        for rank, (_, name, _) in enumerate(plays)
    ]
    sync(coach, *pins)
    coach.page.reload()
    coach.saved()
    expect(row(coach).get_by_role("button")).to_have_count(3)
    return coach


def row(coach: Coach) -> Locator:
    return coach.page.locator("#pinned")


@pytest.fixture
def with_plays(coach: Coach) -> Coach:
    return stocked(coach)


def test_plays_stand_by_when_they_are_called(with_plays: Coach) -> None:
    row_ = row(with_plays)
    expect(row_.locator(".chip")).to_have_text(["Heron", "Kite", "Otter"])
    expect(row_.locator(".when")).to_have_text(["Sideline", "Last shot"])
    expect(row_.get_by_role("list", name="Sideline").get_by_role("button")).to_have_text(["Kite"])
    check(with_plays.page)


def test_when_and_where_are_set_where_plays_are(with_plays: Coach) -> None:
    coach = with_plays
    plays = sheet(coach)
    more(plays, "Otter", "Name, note, tags, when")
    plays.get_by_label("When you call it").select_option("Any time")
    plays.get_by_role("button", name="Save", exact=True).tap()
    expect(row(coach).locator(".chip")).to_have_text(["Otter", "Heron", "Kite"])
    plays.get_by_role("button", name="Move down").tap()
    expect(row(coach).locator(".chip")).to_have_text(["Heron", "Otter", "Kite"])
    expect(plays.locator(".play strong")).to_have_text(["pinned: Heron", "pinned: Otter", "pinned: Kite"])
    plays.get_by_role("button", name="Close").tap()
    coach.saved()
    coach.page.reload()
    coach.saved()
    expect(row(coach).locator(".chip")).to_have_text(["Heron", "Otter", "Kite"])
    assert (listed(coach)["Otter"]["occasion"], listed(coach)["Otter"]["rank"]) == ("", 1)


def in_the_middle(coach: Coach) -> None:
    coach.tap(KITE.sentences[0])
    coach.reads(KITE.sentences)


def looking_back(coach: Coach) -> None:
    in_the_middle(coach)
    coach.do("back")


def running(coach: Coach) -> None:
    in_the_middle(coach)
    coach.do("replay")


def inking(coach: Coach) -> None:
    coach.page.locator(".ink-open").tap()


def in_big_view(coach: Coach) -> None:
    coach.do("present")
    expect(coach.page.locator(".presenting")).to_be_visible()
    coach.page.wait_for_function("() => !document.body.classList.contains('touched')")


STATES: list[Callable[[Coach], None]] = [in_the_middle, looking_back, running, inking]


@pytest.mark.parametrize("state", STATES, ids=lambda state: state.__name__)
def test_from_any_state_two_taps_run_a_pinned_play_in_big_view(
    with_plays: Coach, state: Callable[[Coach], None]
) -> None:
    coach = with_plays
    state(coach)
    coach.touch("#pinned [data-play]:nth-child(1)")
    coach.do("present")
    expect(coach.page.locator(".presenting")).to_be_visible()
    coach.reads(HERON.sentences)
    coach.stands(HERON.standing)


def test_in_big_view_the_row_comes_with_the_buttons(with_plays: Coach) -> None:
    coach = with_plays
    coach.do("present")
    # The row lies over the floor for as long as the buttons do, and leaves it to the play that is called.
    coach.touch("#pinned [data-play]")
    expect(coach.page.locator(".presenting")).to_be_visible()
    coach.reads(HERON.sentences)
    coach.stands(HERON.standing)


def test_starting_again_is_one_tap_on_the_board(with_plays: Coach) -> None:
    coach = with_plays
    expect(coach.page.locator("[data-do=fresh]")).to_be_disabled()
    in_the_middle(coach)
    coach.do("fresh")
    coach.reads([])
    coach.stands(Play("five_out").standing)


def test_an_open_play_marks_what_comes_next_on_the_court_and_in_the_list(with_plays: Coach) -> None:
    coach = with_plays
    plays = sheet(coach)
    plays.get_by_role("button", name="Otter", exact=False).first.tap()
    coach.reads(OTTER.sentences)
    page = coach.page
    first, second = OTTER.sentences
    mark = page.locator("#court :is(.target, .disc).next")
    expect(mark).to_have_attribute("aria-label", first)
    expect(page.locator("#list .choice:has(.next-mark)")).to_have_attribute("aria-label", first)
    coach.tap(first)
    expect(mark).to_have_attribute("aria-label", second)
    expect(page.locator("#list .choice:has(.next-mark)")).to_have_attribute("aria-label", second)
    coach.tap(second)
    expect(mark).to_have_count(0)
    coach.reads(OTTER.sentences)
    # Anything else branches.
    coach.do("undo")
    other = Play("five_out", OTTER.taps[:1]).play("fill:left_corner drive:left")
    coach.tap(other)
    coach.reads([first, other])
    expect(page.locator("#chain .tick")).to_have_count(1)
