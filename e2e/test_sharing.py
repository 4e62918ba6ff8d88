"""The coach shares the board, a player joins by code, and the coach turns the link off again."""

from __future__ import annotations

from playwright.sync_api import expect

from e2e.conftest import PHONE, NewContext, Troubles
from e2e.expected import Play
from e2e.people import Coach, Player


def test_a_player_joins_by_code_and_is_told_at_once_when_it_is_turned_off(
    coach: Coach, new_context: NewContext
) -> None:
    coach.do("share")
    panel = coach.page.get_by_role("dialog", name="Share this board")
    expect(panel.get_by_role("img", name="QR code of the viewing link")).to_be_visible()
    expect(panel.locator(".code span")).to_have_count(2)
    code = "".join(panel.locator(".code span").all_text_contents())
    assert len(code) == 6

    player = join(coach, new_context, f"{code[:3].lower()} {code[3:]}")  # typed with a pause, as it is read
    expect(panel.get_by_role("status")).to_have_text("1 phone following")
    panel.get_by_role("button", name="Close", exact=True).tap()
    expect(coach.page.locator("#watching")).to_have_text(" · 1")
    play = Play("five_out")
    coach.tap(play.play("pass:right_wing"))
    player.reads(play.sentences)

    coach.do("share")
    row = panel.get_by_role("listitem").filter(has_text="viewing").filter(has_text="used once")
    row.get_by_role("button", name="Turn off").tap()
    panel.get_by_role("button", name="Yes, turn it off").tap()

    expect(player.status).to_have_text("Turned off")
    expect(player.page.get_by_role("alert").filter(visible=True)).to_contain_text("turned off")
    expect(panel.get_by_role("status")).to_have_text("No phones following")
    panel.get_by_role("button", name="Close", exact=True).tap()
    expect(coach.page.locator("#watching")).to_have_text("")
    coach.tap(play.play("fill:left_corner"))
    coach.saved()
    player.reads(play.sentences[:1])


def test_the_viewing_link_turned_off_ends_who_came_by_its_code_and_the_code(
    coach: Coach, new_context: NewContext, troubles: Troubles
) -> None:
    troubles.expect(r"status of 404.*/join")  # as every page is reported that is answered so
    coach.do("share")
    panel = coach.page.get_by_role("dialog", name="Share this board")
    code = panel.locator(".code span")
    expect(code).to_have_count(2)
    old = "".join(code.all_text_contents())
    player = join(coach, new_context, old)
    row = panel.get_by_role("listitem").filter(has_text="Players")
    row.get_by_role("button", name="Turn off").tap()
    expect(row.get_by_role("alert")).to_contain_text("Every phone that came by it or by its codes")
    panel.get_by_role("button", name="Yes, turn it off").tap()
    expect(player.status).to_have_text("Turned off")
    expect(panel.get_by_role("listitem").filter(has_text="viewing")).to_have_count(0)
    panel.get_by_role("button", name="Make a new viewing link").tap()
    expect(code).to_have_count(2)
    assert "".join(code.all_text_contents()) != old
    page = new_context(viewport=PHONE, is_mobile=True).new_page()
    page.goto(f"{coach.server.url}/join?code={old}")
    page.get_by_role("button", name="Follow").tap()
    expect(page.get_by_role("alert")).to_be_visible()


def test_a_second_look_shows_the_same_code_and_link(coach: Coach, new_context: NewContext) -> None:
    coach.do("share")
    panel = coach.page.get_by_role("dialog", name="Share this board")
    code = panel.locator(".code span")
    expect(code).to_have_count(2)
    shown = code.all_text_contents()
    player = join(coach, new_context, "".join(shown))
    player.page.reload()  # the phone has a link of its own now and needs no code
    player.live()
    panel.get_by_role("button", name="Close", exact=True).tap()
    coach.do("share")
    expect(code).to_have_text(shown)
    # The panel's own link and the one the phone came by: looking again has made no other.
    expect(panel.get_by_role("listitem").filter(has_text="viewing")).to_have_count(2)


def test_an_assistant_gets_a_key_of_his_own_that_can_be_turned_off(
    coach: Coach, new_context: NewContext, troubles: Troubles
) -> None:
    troubles.expect(r"status of 410.*/off")  # as every page is reported that is answered so
    link = coach.device.share("coach", "assistant")
    context = new_context(viewport={"width": 1024, "height": 768})
    page = context.new_page()
    page.goto(link["url"])
    assistant = Coach(coach.server, context, page, board_id=coach.board_id)
    assistant.saved()
    play = Play("five_out")
    assistant.tap(play.play("pass:right_wing"))
    coach.reads(play.sentences)
    coach.stands(play.standing)

    coach.do("share")
    panel = coach.page.get_by_role("dialog", name="Share this board")
    panel.get_by_role("tab", name="Devices").tap()
    row = panel.get_by_role("listitem").filter(has_text="assistant").filter(has_text="seen")
    row.get_by_role("button", name="Turn off").tap()
    panel.get_by_role("button", name="Yes, turn it off").tap()
    expect(page.get_by_role("heading", name="This device is turned off")).to_be_visible()
    expect(page.get_by_role("status")).to_contain_text("has been removed")
    answer = page.request.get(f"{coach.server.url}/board/{coach.board_id}")
    assert answer.status == 403


def join(coach: Coach, new_context: NewContext, code: str) -> Player:
    """Join on a new phone by typing a code on the page for it."""
    context = new_context(viewport=PHONE, is_mobile=True)
    page = context.new_page()
    page.goto(f"{coach.server.url}/join")
    page.get_by_label("Six letters and digits").press_sequentially(code)
    page.get_by_role("button", name="Follow").tap()
    player = Player(coach.server, context, page)
    player.live()
    return player
