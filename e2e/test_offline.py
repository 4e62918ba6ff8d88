"""Without a network: the board opens and plays on from the device, and everything arrives when it is back."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect

from e2e.conftest import TABLET, NewContext
from e2e.expected import Play
from e2e.hand import Hand, open_tools, strokes
from e2e.people import Coach
from e2e.test_board_rules import held, is_off
from e2e.test_by_hand import RULE, Table, inbound
from e2e.test_playbook import names, save, saving, sheet, sync
from tests.server import LiveServer

pytestmark = [pytest.mark.ends_server, pytest.mark.usefixtures("no_network")]

#: Comes to an end once all packs that the server tells of are on the device and remembered, and so are the
#: page itself and, last of all, the first page.
READY = """async (count) => {
  const { openKept } = await import('/static/js/device/storage.js');
  const [kept, pages] = await Promise.all([openKept(), caches.open('quintet-pages')]);
  const board = document.body.dataset.board;
  for (;;) {
    const held = (await kept.get('meta', 'packs'))?.[board] ?? [];
    const paths = [location.pathname, '/'];
    const shown = await Promise.all(paths.map((path) => pages.match(path, { ignoreVary: true })));
    if (held.length >= count && shown.every(Boolean) && navigator.serviceWorker.controller) return;
    await new Promise((done) => requestAnimationFrame(done));
  }
}"""


@pytest.fixture
def tablet(new_coach: Callable[..., Coach]) -> Coach:
    """A coach's tablet after one visit."""
    coach = new_coach(service_workers="allow")
    ready(coach)
    return coach


def ready(coach: Coach, packs: int = 3) -> None:
    coach.page.evaluate(READY, packs)


def away(coach: Coach, server: LiveServer) -> None:
    """The network is gone, and so is the server."""
    coach.context.set_offline(True)
    server.stop()
    coach.page.reload()
    expect(coach.status).to_have_attribute("data-link", "offline")


def back(coach: Coach, server: LiveServer) -> None:
    server.restart()
    coach.context.set_offline(False)
    coach.saved()


def waiting(coach: Coach, count: int) -> None:
    """Wait until the page says truly how many changes only this device has."""
    expect(coach.status).to_have_text(f"offline · {count} to send")


def second_device(coach: Coach, new_context: NewContext) -> Coach:
    """Open the same board on another device of the team."""
    link = coach.device.share("coach")["url"]
    context = new_context(viewport=TABLET)
    page: Page = context.new_page()
    page.goto(link)
    other = Coach(coach.server, context, page, board_id=coach.board_id)
    other.saved()
    return other


def test_a_timeout_without_a_network_loses_nothing(
    tablet: Coach, server: LiveServer, new_context: NewContext
) -> None:
    coach = tablet
    away(coach, server)
    play = Play("five_out")
    for tap in ("pass:right_wing", "fill:left_corner pass:top", "fill:right_corner drive:left"):
        coach.tap(play.play(tap))
    coach.reads(play.sentences)
    coach.stands(play.standing)
    waiting(coach, 3)
    first = list(play.taps)

    # Back one step and otherwise: a branch.
    coach.do("undo")
    play = Play("five_out", first[:2])
    coach.stands(play.standing)
    coach.tap(play.play("fill:right_corner drive:right"))
    coach.reads(play.sentences)
    expect(coach.page.locator("#chain .tick")).to_have_count(1)
    # Somebody is lost, and everybody gets back on spots.
    coach.stands(play.standing)
    with held(coach, 2) as finger:
        finger.move(90, 60)
    is_off(coach, 2)
    coach.do("recover")
    expect(coach.chain).to_have_count(4)
    waiting(coach, 6)

    coach.page.reload()
    expect(coach.chain).to_have_count(4)
    waiting(coach, 6)
    sentences = coach.chain.all_text_contents()

    back(coach, server)
    expect(coach.chain).to_have_text(sentences)
    other = second_device(coach, new_context)
    expect(other.chain).to_have_text(sentences)
    expect(other.page.locator("#chain .tick")).to_have_count(1)
    other.touch("#chain .tick")
    other.page.get_by_role("dialog").locator("button", has_text="drives left").tap()
    other.reads(Play("five_out", first).sentences)
    # Told of it, and not dragged along.
    expect(coach.chain).to_have_text(sentences)
    coach.page.locator("#apart").get_by_role("button", name="Show it").tap()
    coach.reads(Play("five_out", first).sentences)


def test_a_play_of_another_formation_is_opened_and_saved_without_a_network(
    tablet: Coach, server: LiveServer
) -> None:
    coach = tablet
    post = Play("four_out_one_in", ["pass:right_wing", "fill:left_wing post_entry:right_block"])
    sync(coach, saving(coach, post, "Ferry"))
    coach.page.reload()
    coach.saved()
    expect(names(sheet(coach))).to_have_count(1)
    coach.page.keyboard.press("Escape")
    away(coach, server)
    sheet(coach).locator(".open", has_text="Ferry").tap()
    coach.formation_name = "four_out_one_in"
    coach.reads(post.sentences)
    coach.do("play")
    coach.stands(post.standing)
    coach.tap(post.play("fill:left_wing kick_out:left_slot"))
    coach.reads(post.sentences)
    coach.do("save")
    dialog = coach.page.get_by_role("dialog", name="Save play")
    dialog.get_by_label("Name", exact=True).fill("Ferry long")
    dialog.get_by_role("button", name="Save as new").tap()
    expect(coach.page.locator("#chain .begin")).to_contain_text("Ferry long")

    back(coach, server)
    coach.reads(post.sentences)
    coach.stands(post.standing)
    with coach.device.coach() as seen:
        assert seen.state["board"]["formation"] == "four_out_one_in"
        assert seen.chain() == post.actions


def test_what_was_played_while_somebody_else_drove_is_kept_beside(
    tablet: Coach, server: LiveServer, new_context: NewContext
) -> None:
    coach = tablet
    other = second_device(coach, new_context)
    coach.context.set_offline(True)
    coach.page.reload()
    expect(coach.status).to_have_attribute("data-link", "offline")
    mine = Play("five_out")
    for tap in ("dribble_at:left_wing", "fill:right_corner pass:top"):
        coach.tap(mine.play(tap))
    waiting(coach, 2)
    theirs = Play("five_out")
    for tap in ("pass:right_wing", "fill:left_corner pass:top"):
        other.tap(theirs.play(tap))
    other.saved()

    coach.context.set_offline(False)
    toast = coach.page.locator("#toast")
    expect(toast).to_contain_text("Your steps are saved as a branch")
    coach.saved()
    coach.reads(theirs.sentences)
    expect(coach.page.locator("#chain .tick")).to_have_count(1)
    toast.get_by_role("button", name="Show it").tap()
    coach.reads(mine.sentences)
    other.page.locator("#apart").get_by_role("button", name="Show it").tap()
    other.reads(mine.sentences)
    coach.saved()


def alone(coach: Coach) -> None:
    """The device has no network."""
    coach.context.set_offline(True)
    coach.page.reload()
    expect(coach.status).to_have_attribute("data-link", "offline")


def test_undo_crosses_to_the_chain_before_without_a_network_too(tablet: Coach) -> None:
    coach, mine = tablet, Play("five_out")
    alone(coach)
    coach.tap(mine.play("pass:right_wing"))
    coach.do("fresh")
    coach.reads([])
    coach.do("undo")
    coach.reads(mine.sentences)
    coach.stands(mine.standing)
    waiting(coach, 3)
    coach.context.set_offline(False)
    coach.saved()
    coach.reads(mine.sentences)


def test_the_same_action_by_two_coaches_at_once_is_one_and_nobody_hears_of_a_conflict(tablet: Coach) -> None:
    """Whoever was second was told that a way had been kept beside the board's."""
    coach, mine = tablet, Play("five_out")
    alone(coach)
    coach.tap(mine.play("pass:right_wing"))
    waiting(coach, 1)
    with coach.device.coach() as other:
        other.act("pass:right_wing")
        coach.context.set_offline(False)
        coach.saved()
        coach.reads(mine.sentences)
        expect(coach.page.locator("#toast")).to_be_hidden()
        assert other.chain() == [["pass:right_wing"]]


def test_who_undoes_too_late_is_told_that_it_did_nothing(tablet: Coach) -> None:
    coach, mine = tablet, Play("five_out")
    for tap in ("pass:right_wing", "fill:left_corner pass:top"):
        coach.tap(mine.play(tap))
    coach.saved()
    alone(coach)
    coach.do("undo")
    waiting(coach, 1)
    with coach.device.coach() as other:
        other.change("undo")
        coach.context.set_offline(False)
        expect(coach.page.locator("#toast")).to_contain_text("your undo did nothing")
        coach.reads(mine.sentences[:1])


def test_ink_that_waits_is_counted_like_the_rest(tablet: Coach) -> None:
    coach = tablet
    alone(coach)
    open_tools(coach)
    hand = Hand(coach)
    hand.draw()
    strokes(coach, 1)
    waiting(coach, 1)
    hand.away()
    coach.tap(Play("five_out").play("pass:right_wing"))
    waiting(coach, 2)
    coach.context.set_offline(False)
    coach.saved()


def test_offline_says_what_needs_the_server(tablet: Coach, server: LiveServer) -> None:
    away(tablet, server)
    tablet.do("menu")
    menu = tablet.page.locator("#menu")
    expect(menu).to_contain_text("You are offline.")
    expect(menu.locator("[inert]")).to_have_count(4)
    menu.get_by_role("button", name="Close").tap()
    tablet.tap(Play("five_out").play("pass:right_wing"))
    tablet.do("fresh")
    tablet.reads([])
    waiting(tablet, 2)


def test_saving_offline_is_told_with_the_plays(tablet: Coach, server: LiveServer) -> None:
    away(tablet, server)
    play = Play("five_out", ["hand_off:right_wing"])
    tablet.tap(play.sentences[0])
    save(tablet, "Otter")
    expect(sheet(tablet).get_by_role("status")).to_contain_text("1 change is saved on this device")
    tablet.page.keyboard.press("Escape")
    back(tablet, server)
    answer = tablet.device.ask("GET", f"/api/chains?board={tablet.board_id}")
    assert [item["name"] for item in answer.json["chains"]] == ["Otter"]


def test_a_step_is_drawn_by_hand_for_the_first_time_without_a_network(
    tablet: Coach, server: LiveServer
) -> None:
    away(tablet, server)
    table = Table(tablet).open()
    inbound(table)
    expect(table.says).to_have_text(RULE)
    table.press("Done")
    tablet.reads(["sideline inbound"])
    waiting(tablet, 1)
    tablet.page.reload()
    tablet.reads(["sideline inbound"])
    back(tablet, server)
    with tablet.device.coach() as screen:
        assert [step["say"][0][0] for step in screen.hello()["steps"]] == ["script_side"]
