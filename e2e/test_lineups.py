"""Lineups on the team's page: no number stands on the floor twice without being asked about."""

from __future__ import annotations

from playwright.sync_api import expect

from e2e.axe import check
from e2e.people import Coach


def test_a_number_that_would_be_on_the_floor_twice_is_said_and_answered(
    coach: Coach,
) -> None:
    for number in ("5", "7", "12"):
        coach.device.ask("POST", "/api/team/players", {"number": number, "name": ""})
    page = coach.context.new_page()
    page.goto(f"{coach.server.url}/team?board={coach.board_id}#squad")
    page.get_by_role("button", name="Add a lineup").tap()  # 5, 7 and 12 on positions 1 to 3
    lineup = page.locator(".lineup")
    words = lineup.get_by_text("5 would stand on the floor twice")
    expect(words).to_contain_text("as the player on position 1, and as position 5, which nobody plays.")
    check(page)

    # Not put on the board before it is answered.
    lineup.get_by_role("button", name="Put on the board").tap()
    expect(lineup).to_contain_text("Choose one of the answers above first")
    with coach.device.coach() as screen:
        assert screen.state["squad"]["1"] is None

    lineup.get_by_label("Position 3").select_option(label="nobody yet")
    lineup.get_by_role("button", name="Put 12 on position 5").focus()
    page.keyboard.press("Enter")
    expect(words).to_be_hidden()
    expect(lineup.get_by_role("button", name="Put on the board")).to_be_focused()
    expect(lineup).to_contain_text("Saved")
    page.keyboard.press("Enter")
    expect(lineup).to_contain_text("is on the board.")
    faces = coach.page.locator("#court .disc .digits")
    expect(faces).to_have_text(["5", "7", "3", "4", "12"])
