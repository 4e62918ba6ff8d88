"""A coach makes the team's own rules: copies a set, breaks it, sees why, mends it, saves it, plays by it."""

from __future__ import annotations

import re

from playwright.sync_api import Page, expect

from e2e.conftest import NewContext, Troubles
from e2e.people import Coach
from tests.server import LiveServer


def team_page(coach: Coach, section: str = "rules") -> Page:
    page = coach.context.new_page()
    page.goto(f"{coach.server.url}/team?board={coach.board_id}#{section}")
    return page


def choose(page: Page, rule: str, movement: str) -> None:
    """Change what a role does: ``rule`` is trigger.role."""
    page.locator(f"[id='rule-{rule}']").tap()
    answers = page.locator(".ruling.open .moves").first
    answers.locator(".answer", has=page.locator(f"input[value={movement}]")).tap()


def check(page: Page) -> None:
    page.locator(".parts a", has_text="Check").tap()
    page.get_by_role("button", name="Check these rules").tap()
    expect(page.locator(".verdict")).to_be_visible()


def test_copying_a_set_breaking_it_seeing_why_and_mending_it(coach: Coach) -> None:
    page = team_page(coach)
    page.get_by_role("button", name="Copy and change: Pass and cut").tap()
    expect(page.get_by_role("heading", name="Our pass and cut")).to_be_visible()
    state = page.locator(".bar .state")
    expect(state).to_have_text("Saved")

    choose(page, "pass.perimeter", "cut")
    expect(state).to_contain_text("Not saved yet")
    check(page)
    finding = page.locator(".findings li, .findings .finding", has_text="are both sent to").first
    expect(finding).to_be_visible()
    finding.get_by_role("button", name="Show it").tap()
    expect(page.get_by_text("no clear answer")).to_be_visible()

    finding.get_by_role("button", name="Change it").tap()
    choose(page, "pass.perimeter", "fill")
    check(page)
    expect(page.locator(".findings").get_by_text("are both sent to")).to_have_count(0)
    expect(page.locator(".verdict")).to_contain_text(re.compile(r"6.?218"))


def test_a_change_that_is_kept_is_played_on_the_board(coach: Coach) -> None:
    page = team_page(coach)
    page.get_by_role("button", name="Copy and change: First steps").tap()
    choose(page, "pass.passer", "stay")
    choose(page, "pass.perimeter", "stay")
    page.locator(".bar .primary").tap()
    expect(page.locator(".bar .state")).to_have_text("Saved")

    page.get_by_role("button", name="Use on the board").tap()
    expect(page.get_by_text(re.compile("The board now plays .Our first steps."))).to_be_visible()
    page.close()
    coach.page.reload()
    coach.saved()
    words = coach.page.locator("#list")
    expect(words.get_by_role("button", name="1 passes to 2")).to_be_visible()
    # First steps has no drive, and its copy does not let the passer cut.
    expect(words.get_by_text("drives")).to_have_count(0)
    words.get_by_role("button", name="1 passes to 2").tap()
    expect(words.get_by_role("button", name="2 passes to 1")).to_be_visible()


def test_where_a_cutter_goes_who_chooses_nothing_is_the_sets_own(coach: Coach) -> None:
    page = team_page(coach)
    page.get_by_role("button", name="Copy and change: Pass and cut").tap()
    page.locator(".parts a", has_text="Actions in use").tap()
    first = page.get_by_role("group", name="Goes first")
    first.locator(".answer", has=page.locator("input[value=ball_corner]")).tap()
    then = page.get_by_role("group", name="If that is taken").first
    then.locator(".answer", has=page.locator("input[value=post]")).tap()
    page.locator(".bar .primary").tap()
    expect(page.locator(".bar .state")).to_have_text("Saved")
    page.get_by_role("button", name="Use on the board").tap()
    expect(page.get_by_text(re.compile("The board now plays"))).to_be_visible()
    page.close()
    coach.page.reload()
    coach.saved()
    coach.tap("1 passes to 2")  # 4 stays in the corner on that side: it is taken
    coach.tap("1 posts up on the right block, then 2 passes to 3")
    coach.reads(["1 passes to 2", "1 posts up on the right block, then 2 passes to 3"])


def test_rules_changed_by_two_at_once_lose_nothing(coach: Coach, troubles: Troubles) -> None:
    troubles.expect(r"status of 409")  # a browser reports every answer that is a refusal
    page = team_page(coach)
    page.get_by_role("button", name="Copy and change: Pass and cut").tap()
    expect(page.locator(".bar .state")).to_have_text("Saved")
    ref = page.url.split("#rules/")[1].split("/")[0]
    choose(page, "dribble_at.dribbled_at", "replace")

    # Each on a line of its own: one kept alive may be closed just as the next request goes along it.
    address = f"/api/rules/{ref}?board={coach.board_id}"
    known = coach.device.ask("GET", address).json
    body = {"version": known["version"], "data": {**known["data"], "about": "Theirs."}}
    assert coach.device.ask("PUT", address, body).status == 200

    page.locator(".bar .primary").tap()
    page.get_by_role("button", name="Keep mine as a copy").tap()
    expect(page).not_to_have_url(re.compile(re.escape(f"#rules/{ref}")))
    expect(page.locator(".bar .state")).to_have_text("Saved")
    assert coach.device.ask("GET", address).json["data"]["about"] == "Theirs."
    mine = page.url.split("#rules/")[1].split("/")[0]
    kept = coach.device.ask("GET", f"/api/rules/{mine}?board={coach.board_id}").json["data"]
    assert kept["responses"]["dribble_at"]["dribbled_at"] in ("replace", ["replace"])


def test_a_formation_that_cannot_be_played_is_refused_and_nothing_is_lost(
    coach: Coach, troubles: Troubles
) -> None:
    troubles.expect(r"status of 422")
    page = team_page(coach, "formations")
    page.get_by_role("button", name="Copy and change: Five out").tap()
    page.locator("[data-spot=top]").focus()
    expect(page.locator("[data-spot=top]")).to_be_focused()
    page.keyboard.press("ArrowDown")
    expect(page.locator(".bar .state")).to_contain_text("Not saved yet")
    page.locator(".bar .primary").tap()
    expect(page.locator(".bar .state")).to_have_text("Saved")
    page.get_by_role("button", name="Take out: top").tap()
    page.locator(".bar .primary").tap()
    expect(page.get_by_text("1 starts on a spot that the formation does not have.").first).to_be_visible()
    expect(page.locator(".bar .state")).to_contain_text("Not saved yet")


def test_the_team_page_is_for_coaches_only(
    new_context: NewContext, server: LiveServer, troubles: Troubles
) -> None:
    troubles.expect(r"status of 403")
    stranger = new_context().new_page()
    answer = stranger.goto(f"{server.url}/team")
    assert answer is not None
    assert answer.status == 403
