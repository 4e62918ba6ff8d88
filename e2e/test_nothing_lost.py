"""Nothing leaves for good: whatever replaced a chain, undo brings it back, and it stays one tap away."""

from __future__ import annotations

import pytest
from playwright.sync_api import Locator, expect

from e2e.axe import check
from e2e.expected import Play
from e2e.people import Coach
from e2e.test_playbook import QUICK, save, saving, sync

FIRST = Play("five_out", ["pass:right_wing", "fill:left_corner drive:right"])


@pytest.fixture
def with_a_chain(coach: Coach) -> Coach:
    for sentence in FIRST.sentences:
        coach.tap(sentence)
    coach.reads(FIRST.sentences)
    coach.saved()
    return coach


def fresh(coach: Coach) -> None:
    coach.do("menu")
    coach.page.get_by_role("button", name="Start again").tap()
    coach.reads([])


def earlier(coach: Coach) -> Locator:
    """Open the earlier chains."""
    coach.do("plays")
    plays = coach.page.get_by_role("dialog", name="Plays")
    plays.get_by_text("Earlier chains").tap()
    return plays.locator(".earlier-chains .open")


def test_start_again_says_where_the_chain_is_and_is_undone_with_one_tap(with_a_chain: Coach) -> None:
    coach = with_a_chain
    fresh(coach)
    expect(coach.page.locator("#toast")).to_contain_text(
        "The chain before is in Plays, under Earlier chains."
    )
    coach.page.locator("#toast").get_by_role("button", name="Undo").tap()
    coach.reads(FIRST.sentences)
    coach.stands(FIRST.standing)


def test_undo_crosses_from_chain_to_chain_and_goes_on_in_each(with_a_chain: Coach) -> None:
    coach = with_a_chain
    second = Play("five_out", ["pass:left_wing"])
    fresh(coach)
    coach.tap(second.sentences[0])
    coach.reads(second.sentences)
    fresh(coach)
    for left in (second.sentences, [], FIRST.sentences, FIRST.sentences[:1], []):
        coach.do("undo")
        coach.reads(left)
    coach.saved()


def test_another_formation_is_undone_too(with_a_chain: Coach) -> None:
    coach = with_a_chain
    coach.choose("Formation", "four out, one in")
    coach.reads([])
    coach.do("undo")
    coach.reads(FIRST.sentences)
    coach.stands(FIRST.standing)


def test_undo_after_opening_a_play_goes_back_and_does_not_shorten_it(with_a_chain: Coach) -> None:
    """It took the last step off the play that had just been opened."""
    coach = with_a_chain
    sync(coach, saving(coach, QUICK, "Otter"))
    coach.page.reload()
    coach.saved()
    coach.do("plays")
    plays = coach.page.get_by_role("dialog", name="Plays")
    plays.get_by_role("button", name="Otter", exact=False).first.tap()
    coach.reads(QUICK.sentences)
    coach.saved()
    coach.do("undo")
    coach.reads(FIRST.sentences)
    coach.saved()
    # Loaded again in between it is the same.
    coach.do("plays")
    plays.get_by_role("button", name="Otter", exact=False).first.tap()
    coach.reads(QUICK.sentences)
    coach.saved()
    coach.page.reload()
    coach.saved()
    coach.do("undo")
    coach.reads(FIRST.sentences)


def test_one_tap_brings_an_earlier_chain_back_by_its_first_words(with_a_chain: Coach) -> None:
    coach = with_a_chain
    fresh(coach)
    coach.saved()
    coach.page.reload()
    coach.saved()
    rows = earlier(coach)
    expect(rows).to_have_count(1)
    expect(rows.locator("strong")).to_have_text("Pass right wing, drive right")
    expect(rows.locator(".facts")).to_contain_text("2 steps · ")
    check(coach.page)
    rows.first.tap()
    coach.reads(FIRST.sentences)
    coach.stands(FIRST.standing)


def test_a_saved_chain_is_called_by_its_name_there(with_a_chain: Coach) -> None:
    coach = with_a_chain
    save(coach, "Heron")
    fresh(coach)
    coach.saved()
    coach.page.reload()
    coach.saved()
    expect(earlier(coach).locator("strong")).to_have_text("Heron")


def test_two_coaches_share_what_was_there(with_a_chain: Coach) -> None:
    coach = with_a_chain
    fresh(coach)
    coach.saved()
    other = coach.context.new_page()
    other.goto(coach.page.url)
    expect(other.locator("#status")).to_have_text("saved")
    other.locator('[data-do="undo"]').tap()
    coach.reads(FIRST.sentences)
