"""The chain reads, and what everybody just did is seen without scrolling."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import expect

from e2e.expected import Play
from e2e.people import Coach

THREE = Play("five_out", ["pass:right_wing", "fill:left_corner pass:top", "fill:right_corner drive:left"])
SIZES = [(1180, 820), (820, 1180), (390, 844), (360, 640)]


def played(coach: Coach, play: Play) -> Coach:
    for sentence in play.sentences:
        coach.tap(sentence)
    coach.reads(play.sentences)
    coach.stands(play.standing)
    return coach


def test_a_chain_of_three_actions_fits_on_a_tablet(new_coach: Callable[..., Coach]) -> None:
    coach = played(new_coach(viewport={"width": 1180, "height": 820}), THREE)
    row = coach.page.locator("#chain")
    assert row.evaluate("row => row.scrollWidth <= row.clientWidth"), "nothing has to be scrolled to"


def test_a_step_leads_with_its_action_in_few_words_and_the_cutters_choice_is_smaller(coach: Coach) -> None:
    played(coach, THREE)
    leads = coach.page.locator("#chain .action b")
    choices = coach.page.locator("#chain .action small")
    expect(leads).to_have_text(["2 passes to 3", "3 drives left"])
    assert all(3 <= len(text.split()) <= 5 for text in leads.all_text_contents())
    size = "e => parseFloat(getComputedStyle(e).fontSize)"
    assert choices.first.evaluate(size) < leads.first.evaluate(size)
    above = "([a, b]) => a.getBoundingClientRect().bottom <= b.getBoundingClientRect().top + 2"
    handles = [leads.first.element_handle(), choices.first.element_handle()]
    assert coach.page.evaluate(above, handles), "the action stands first"


@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
def test_what_everybody_just_did_is_seen_while_a_cutter_waits(
    new_coach: Callable[..., Coach], size: tuple[int, int]
) -> None:
    coach = new_coach(viewport={"width": size[0], "height": size[1]})
    first = Play("five_out", ["pass:right_wing"])
    played(coach, first)
    seen = coach.page.locator(".just-now:visible, #list > .brief:visible")
    expect(seen).to_have_count(1)
    for sentence in first.told("who").values():
        expect(seen).to_contain_text(sentence)
    box = seen.bounding_box()
    assert box is not None
    assert box["y"] >= 0
    assert box["y"] + box["height"] <= size[1]
    assert seen.evaluate("e => e.scrollHeight <= e.clientHeight + 1"), "nothing of it is cut off"
    lies_under = """e => { const { x, y, width, height } = e.getBoundingClientRect();
      return [...document.querySelectorAll('#court :is(.disc, .corner)')].filter((each) => {
        const box = each.getBoundingClientRect();
        return box.width && box.left < x + width && box.right > x && box.top < y + height && box.bottom > y;
      }).map((each) => each.outerHTML.slice(0, 80)); }"""
    assert seen.evaluate(lies_under) == []


@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
def test_after_a_shot_it_says_who_rebounds_and_who_runs_back(
    new_coach: Callable[..., Coach], size: tuple[int, int]
) -> None:
    coach = new_coach(viewport={"width": size[0], "height": size[1]})
    shot = Play("five_out", ["shot"])
    coach.tap(shot.sentences[0])
    coach.reads(shot.sentences)
    told = list(shot.told("who").values())
    assert any("rebound" in sentence for sentence in told)
    assert any("back" in sentence for sentence in told)
    small = size[0] < 600
    said = coach.page.locator("#list > .brief") if small else coach.page.locator("#list .telling.after")
    for sentence in told:
        expect(said).to_contain_text(sentence)
    expect(said).to_be_in_viewport(ratio=0.99)


def test_a_phone_says_how_much_only_the_list_has(new_coach: Callable[..., Coach]) -> None:
    coach = new_coach(viewport={"width": 390, "height": 844}, is_mobile=True)
    played(coach, Play("five_out", ["pass:right_wing"]))
    more = coach.page.locator("#court .more-in-list")
    only = coach.page.locator("#list .list-only")
    expect(more).to_be_visible()
    expect(more).to_have_text(f"{only.count()} more in the list")
    labels = "all => all.map((e) => e.ariaLabel)"
    on_court = coach.page.locator("#court :is(.target, .disc.can)").evaluate_all(labels)
    assert not set(only.evaluate_all(labels)) & set(on_court)
