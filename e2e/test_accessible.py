"""No page breaks a rule of accessible pages that matters (axe-core: no serious or critical violation)."""

from __future__ import annotations

from playwright.sync_api import expect

from e2e.axe import check
from e2e.conftest import PHONE, NewContext, Troubles
from e2e.expected import Play
from e2e.people import Coach, Player
from tests.server import LiveServer


def test_the_board(coach: Coach) -> None:
    check(coach.page)
    play = Play("five_out")
    coach.tap(play.play("pass:right_wing"))
    coach.stands(play.standing)  # a cutter waits
    check(coach.page)
    coach.do("menu")
    coach.page.get_by_role("checkbox", name="Show names").tap()
    check(coach.page)
    coach.page.get_by_role("button", name="Close", exact=True).tap()
    coach.do("share")
    expect(coach.page.locator(".sharing .code span")).to_have_count(2)
    coach.page.get_by_role("button", name="Make a coaching link").tap()
    expect(coach.page.get_by_role("img", name="QR code of the coaching link")).to_be_visible()
    coach.page.get_by_role("button", name="Turn off").first.tap()
    check(coach.page)
    coach.page.get_by_role("button", name="Close", exact=True).tap()
    coach.tap(play.play("shot"))
    expect(coach.page.locator("#list")).to_contain_text("The shot ends the possession.")
    check(coach.page)


def test_the_phone(coach: Coach, player: Player) -> None:
    check(player.page)
    player.pick(2)
    play = Play("five_out")
    coach.tap(play.play("pass:right_wing"))
    player.reads(play.sentences)
    player.stands(play.standing)
    check(player.page)
    player.page.get_by_role("button", name="Step back").tap()
    expect(player.page.get_by_role("button", name="Go to live")).to_be_visible()
    check(player.page)


def test_the_quiet_pages(
    coach: Coach, new_context: NewContext, server: LiveServer, troubles: Troubles
) -> None:
    page = new_context(viewport=PHONE, is_mobile=True).new_page()
    page.goto(server.url)
    check(page)
    page.goto(f"{server.url}/join")
    check(page)
    page.get_by_label("Six letters and digits").fill("AAAAAA")
    troubles.expect(r"status of 4\d\d")  # a browser reports every page that is answered so
    page.get_by_role("button", name="Follow").tap()
    expect(page.get_by_role("alert")).to_be_visible()
    check(page)
    link = coach.device.share()
    coach.device.ask("DELETE", f"/api/links/{link['id']}")
    page.goto(link["url"])
    expect(page.get_by_role("heading", name="This link does not work")).to_be_visible()
    check(page)
    coach.page.goto(server.url)  # with boards of one's own
    check(coach.page)
