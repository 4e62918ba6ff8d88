"""A sideline inbound drawn by hand: gone on with by rule, saved, followed on a phone, printed, reopened."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pypdfium2
from playwright.sync_api import expect

from e2e.people import Coach, Player
from e2e.test_by_hand import Table, inbound
from e2e.test_paper import loaded
from e2e.test_playbook import names, save, sheet

WHERE = {"1": "top", "2": "right_wing", "3": "left_block", "4": "right_block", "5": "left_corner"}
NAME = "Side two"


def test_an_inbound_drawn_by_hand_goes_all_the_way(
    coach: Coach, new_player: Callable[..., Player], tmp_path: Path
) -> None:
    page, player = coach.page, new_player()
    player.wide = coach.wide = True
    table = Table(coach).open()
    table.press("All five X")
    inbound(table)
    table.press("Done")
    for person in (coach, player):
        person.reads(["sideline inbound"])
        person.stands({"at": WHERE, "ball": 2})
        expect(person.page.locator(".extra:visible")).to_have_count(5)

    # By rule from the spots where it ended.
    said = ["sideline inbound"]
    for _ in range(3):
        target = page.locator("#court:not(.waiting) .target:not(.sign-shot)").first
        target.wait_for()
        coach.tap(str(target.get_attribute("aria-label")))
        expect(coach.chain).to_have_count(len(said) + 1)
        said = coach.chain.all_inner_texts()
        player.reads(said)
    coach.saved()
    save(coach, NAME)

    # On the phone the player finds what is his.
    player.pick(1)
    player.page.locator("#chain li button", has_text="sideline inbound").tap()
    expect(player.mine).to_contain_text("You pass to 2")

    # On paper: a picture a step, the passer outside, the defenders as crosses.
    page.goto(f"{coach.server.url}/board/{coach.board_id}/print")
    loaded(page, 1)
    expect(page.locator("#says")).to_have_text("4 steps on 1 page.")
    with page.expect_download() as got:
        page.get_by_role("link", name="Sheet to print (PDF)").click()
    file = tmp_path / "sheet.pdf"
    got.value.save_as(file)
    with pypdfium2.PdfDocument(file) as document:
        text = document[0].get_textpage().get_text_bounded()
    assert "sideline inbound" in text.lower()
    assert all(f"X{n}" in text for n in range(1, 6))

    # Another day it is opened from the plays, and runs.
    page.goto(f"{coach.server.url}/board/{coach.board_id}")
    coach.saved()
    coach.do("fresh")
    coach.reads([])
    names(sheet(coach)).get_by_text(NAME).tap()
    coach.reads(said)
    expect(coach.page.locator("#chain")).to_contain_text(NAME)
