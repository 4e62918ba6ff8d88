"""Nothing leaves for good: whatever replaced a chain, undo brings it back, and it stays one tap away."""

from __future__ import annotations

import pytest
from playwright.sync_api import Locator, Page, expect

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
    coach.do("fresh")
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


def test_the_way_back_goes_once_something_else_is_done(with_a_chain: Coach) -> None:
    """Its Undo stayed on the court, and would have taken back what had been done since."""
    coach = with_a_chain
    fresh(coach)
    expect(coach.page.locator("#toast")).to_be_visible()
    coach.tap(Play("five_out", ["pass:left_wing"]).sentences[0])
    expect(coach.page.locator("#toast")).to_be_hidden(timeout=1500)


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


def test_redo_crosses_them_again(with_a_chain: Coach) -> None:
    """It was grey after an undone Start again."""
    coach = with_a_chain
    second = Play("five_out", ["pass:left_wing"])
    fresh(coach)
    coach.tap(second.sentences[0])
    fresh(coach)
    undone: list[list[str]] = [second.sentences, [], FIRST.sentences, FIRST.sentences[:1]]
    for left in undone:
        coach.do("undo")
        coach.reads(left)
    for there in [*undone[-2::-1], []]:
        coach.do("redo")
        coach.reads(there)
    expect(coach.page.get_by_role("button", name="Redo", exact=True)).to_be_disabled()
    coach.do("undo")
    coach.tap(Play("five_out", ["pass:left_wing", "fill:right_corner pass:top"]).sentences[1])
    expect(coach.page.get_by_role("button", name="Redo", exact=True)).to_be_disabled()  # it goes on otherwise
    coach.saved()


def test_undo_after_going_to_another_branch_goes_back_to_the_one_before(with_a_chain: Coach) -> None:
    """It took the last step off the branch that had just been chosen."""
    coach = with_a_chain
    other = Play("five_out", ["pass:right_wing", "fill:left_corner drive:left"])
    coach.do("undo")
    coach.tap(other.sentences[1])
    coach.saved()
    coach.page.locator("#chain .fork button").tap()
    coach.page.get_by_role("dialog").get_by_role("button").filter(has_text="drives").last.tap()
    coach.reads(FIRST.sentences)
    coach.do("undo")
    coach.reads(other.sentences)
    coach.do("redo")
    coach.reads(FIRST.sentences)
    coach.do("undo")
    coach.do("undo")
    coach.reads(other.sentences[:1])
    coach.saved()


def test_undo_takes_back_what_was_done_last_not_a_branch_of_long_ago(with_a_chain: Coach) -> None:
    """Played again to where a branch had once been chosen, undo went to that branch."""
    coach = with_a_chain
    other = Play("five_out", ["pass:right_wing", "fill:left_corner drive:left"])
    coach.do("undo")
    coach.tap(other.sentences[1])
    coach.saved()
    coach.page.locator("#chain .fork button").tap()
    coach.page.get_by_role("dialog").get_by_role("button").filter(has_text="drives").last.tap()
    coach.reads(FIRST.sentences)
    coach.do("undo")
    coach.do("redo")
    coach.reads(FIRST.sentences)
    fresh(coach)
    coach.do("undo")
    coach.reads(FIRST.sentences)
    coach.do("undo")
    coach.reads(FIRST.sentences[:1])
    coach.tap(FIRST.sentences[1])
    coach.do("undo")
    coach.reads(FIRST.sentences[:1])
    coach.saved()


def test_what_comes_next_stands_in_the_row_and_is_played_from_there(with_a_chain: Coach) -> None:
    """A play tapped on from its start was shorter at once, and the rest of it nowhere to be seen."""
    coach = with_a_chain
    undone = coach.page.locator("#chain .undone button")
    expect(undone).to_have_count(0)
    coach.do("undo")
    coach.do("undo")
    expect(undone).to_have_text(FIRST.sentences)
    check(coach.page)
    undone.last.tap()
    coach.reads(FIRST.sentences)
    expect(undone).to_have_count(0)
    coach.stands(FIRST.standing)
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


OTHERWISE = Play("five_out", ["pass:left_wing"])


def branched(coach: Coach) -> Page:
    """Make a second branch on the board, go back to the first, and open the board on a second screen."""
    coach.page.locator("#chain .begin button").tap()
    coach.tap(OTHERWISE.sentences[0])
    coach.reads(OTHERWISE.sentences)
    coach.saved()
    turn(coach.page)
    coach.reads(FIRST.sentences)
    coach.saved()
    other = coach.context.new_page()
    other.goto(coach.page.url)
    expect(other.locator("#status")).to_have_text("saved")
    return other


def turn(page: Page) -> None:
    """Go to the other branch."""
    page.locator("#chain .fork button").first.tap()
    page.locator("dialog.others .way").first.tap()


def test_another_coach_going_to_another_branch_is_told_and_drags_nobody_along(with_a_chain: Coach) -> None:
    coach = with_a_chain
    other = branched(coach)
    turn(other)
    expect(other.locator("#chain .action")).to_have_count(1)
    notice = coach.page.locator("#apart")
    expect(notice).to_contain_text("Another coach went to another branch.")
    coach.reads(FIRST.sentences)
    coach.stands(Play("five_out", ["pass:right_wing"]).standing)
    # What the others do there goes on without this screen, until it is asked for.
    other.locator("#court .disc.can, #court .target").first.tap()
    expect(other.locator("#chain .action")).to_have_count(2)
    expect(other.locator("#status")).to_have_text("saved")
    coach.reads(FIRST.sentences)
    check(coach.page)
    notice.get_by_role("button", name="Show it").tap()
    expect(coach.page.locator("#chain .action")).to_have_count(2)
    expect(coach.page.locator("#chain .action").first).to_have_text(OTHERWISE.sentences[0])
    expect(notice).to_be_hidden()


def test_playing_on_takes_the_board_back_and_tells_the_coach_who_had_left(with_a_chain: Coach) -> None:
    coach = with_a_chain
    other = branched(coach)
    turn(other)
    expect(coach.page.locator("#apart")).to_be_visible()
    coach.do("undo")  # of the other coach's going there: no step of this branch is taken back with it
    expect(coach.page.locator("#toast")).to_contain_text("The board is back on your branch.")
    coach.reads(FIRST.sentences)
    expect(coach.page.locator("#apart")).to_be_hidden()
    coach.saved()
    expect(other.locator("#apart")).to_be_visible()
    expect(other.locator("#chain .action")).to_have_text(OTHERWISE.sentences)
    other.locator("#apart button").tap()
    expect(other.locator("#chain .action")).to_have_text(FIRST.sentences)


def test_a_substitution_is_made_in_the_chain_that_is_looked_at(with_a_chain: Coach) -> None:
    """It threw the coach onto the other coach's branch, who had not asked for it."""
    coach = with_a_chain
    coach.device.ask("POST", "/api/team/players", {"number": "14", "name": "Noa"})
    other = branched(coach)
    turn(other)
    expect(coach.page.locator("#apart")).to_be_visible()
    coach.do("subs")
    coach.page.locator("#bench .sub").first.tap()
    coach.page.locator('#court .disc[data-player="1"]').tap()
    expect(coach.page.locator("#toast")).to_contain_text("14")
    expect(coach.page.locator("#apart")).to_be_hidden()
    expect(coach.page.locator("#chain .action")).to_have_count(2)
    expect(other.locator("#apart")).to_be_visible()


def test_a_coach_who_comes_back_by_himself_leaves_no_notice(with_a_chain: Coach) -> None:
    coach = with_a_chain
    other = branched(coach)
    turn(other)
    expect(coach.page.locator("#apart")).to_be_visible()
    turn(other)
    expect(coach.page.locator("#apart")).to_be_hidden()
    coach.reads(FIRST.sentences)


def test_two_coaches_share_what_was_there(with_a_chain: Coach) -> None:
    coach = with_a_chain
    fresh(coach)
    coach.saved()
    other = coach.context.new_page()
    other.goto(coach.page.url)
    expect(other.locator("#status")).to_have_text("saved")
    other.locator('[data-do="undo"]').tap()
    coach.reads(FIRST.sentences)
