"""A player's phone: whose part it shows, what it says of its line, and its keyboard."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

import pytest
from playwright.sync_api import Locator, expect

from e2e.axe import check
from e2e.conftest import LINE_DOWN, NewContext, Troubles
from e2e.expected import Play
from e2e.people import Coach, Player
from e2e.test_board_rules import Squad
from tests.server import LiveServer


@pytest.fixture
def squad(coach: Coach) -> Squad:
    return Squad(coach)


def asks(player: Player) -> Locator:
    return player.page.locator("#asks")


def changed(player: Player) -> Locator:
    return player.page.locator("#changed")


def press(player: Player, name: str) -> None:
    player.page.get_by_role("button", name=name, exact=True).tap()


# ---- whose part it shows


def test_who_sits_on_the_bench_chooses_whom_to_follow_or_the_position_they_will_take(
    coach: Coach, squad: Squad, player: Player
) -> None:
    play = Play("five_out", ["pass:right_wing"])
    coach.tap("4 passes to 14")
    coach.saved()
    press(player, "I am 00")
    expect(asks(player)).to_have_text("00 is on the bench. Whose part do you want to see?")
    expect(player.page.locator("#numbers button")).to_have_text(["4", "7", "10", "14", "23"])
    press(player, "Show me 14")
    expect(player.mine).to_have_text("14 catches on the right wing.")
    expect(player.page.locator("#whose")).to_have_text("00 is on the bench now. You see the part of 14.")
    expect(player.page.locator('.disc[data-player="2"]')).to_have_class(re.compile("own"))

    player.page.locator("#me").tap()
    press(player, "Show me position 2")
    expect(player.mine).to_have_text(play.told("you")[2])
    expect(player.page.locator("#whose")).to_have_text("00 is on the bench now. You see position 2.")
    player.page.reload()  # it is remembered, and so is whose phone it is
    expect(player.mine).to_have_text(play.told("you")[2])
    expect(player.page.locator("#me")).to_have_text("00")


def test_a_lineup_that_moves_a_player_is_told_on_their_phone(
    coach: Coach, squad: Squad, player: Player
) -> None:
    press(player, "I am 14")
    expect(changed(player)).to_be_hidden()
    squad.places({"2": "7", "3": "14"})
    expect(changed(player)).to_contain_text("You play position 3 now.")
    expect(player.page.locator("#me")).to_have_text("14")
    expect(player.page.locator('.disc[data-player="3"]')).to_have_class(re.compile("own"))
    press(player, "OK")
    expect(changed(player)).to_be_hidden()

    squad.places({"3": "00"})
    expect(asks(player)).to_have_text("14 is on the bench. Whose part do you want to see?")
    expect(player.page.locator(".disc.own")).to_have_count(0)
    press(player, "Show me 00")
    squad.places({"3": "3"})  # whom they followed has gone as well
    expect(changed(player)).to_contain_text("00 is on the bench now.")
    expect(player.page.locator("#numbers button")).to_have_text(["3", "4", "7", "10", "23"])
    squad.places({"1": "14"})
    expect(changed(player)).to_contain_text("You are on the floor now, on position 1.")
    expect(player.page.locator("#picker")).to_be_hidden()


def test_a_number_chosen_before_there_was_a_squad_is_asked_for_again(coach: Coach, player: Player) -> None:
    player.pick(3)
    squad = Squad(coach)  # 7 plays position 3, and 3 sits on the bench
    expect(changed(player)).to_contain_text("7 plays position 3 now.")
    expect(asks(player)).to_have_text("Which number are you?")
    expect(player.page.locator(".disc.own")).to_have_attribute("data-player", "3")  # until they have answered
    press(player, "I am 3")
    press(player, "Show me position 3")
    squad.places({"1": "3"})
    expect(changed(player)).to_contain_text("You are on the floor now, on position 1.")
    expect(player.page.locator(".disc.own")).to_have_attribute("data-player", "1")


def test_one_number_is_on_the_floor_once(coach: Coach, player: Player) -> None:
    squad = Squad(coach)
    with coach.device.coach() as screen:
        places: dict[str, Any] = {"1": squad.ids["3"], "2": squad.ids["14"], "3": None, "4": None, "5": None}
        assert screen.change("setup", places=places)["t"] == "state"
    for screen_of in (coach, player):
        expect(screen_of.page.locator("#court .disc .digits")).to_have_text(["3", "14", "P3", "P4", "5"])
    press(player, "I am 3")
    expect(player.page.locator(".disc.own")).to_have_attribute("data-player", "1")


def test_rows_of_the_chain_say_what_the_player_does(coach: Coach, player: Player) -> None:
    play = Play("five_out")
    mine: list[str] = []
    for tap in ("pass:right_wing", "fill:left_corner", "drive:left"):
        coach.tap(play.play(tap))
        mine.append(play.told("you")[5])
    player.pick(5)
    player.reads(play.sentences)
    rows = player.page.locator("#chain li .part")
    expect(rows).to_have_text([re.compile("^You start "), *mine])
    player.page.locator("#me").tap()
    press(player, "I only watch")
    player.reads(play.sentences)
    expect(rows.first).to_be_hidden()


# ---- what it says of its line


def test_the_line_at_the_top_says_since_when_nothing_has_come(coach: Coach, player: Player) -> None:
    top = player.page.locator("#status")
    expect(top).to_have_text("Live")
    later = "Date.now = (now => () => now() + 26 * 3600e3)(Date.now); "
    words = "new Intl.DateTimeFormat('en', {weekday: 'long'}).format(new Date(Date.now() - 26 * 3600e3))"
    player.page.add_init_script(later)
    player.page.reload()
    expect(top).to_have_text(re.compile(r"^Live – nothing since \w+day \d\d:\d\d$"))
    expect(top).to_contain_text(player.page.evaluate(words))
    coach.tap(Play("five_out").play("pass:right_wing"))
    expect(top).to_have_text("Live")


@pytest.mark.ends_server
def test_since_when_nothing_has_come_is_known_after_the_server_was_begun_anew(
    coach: Coach, server: LiveServer, troubles: Troubles
) -> None:
    troubles.expect(LINE_DOWN)
    with coach.device.coach() as screen:
        screen.act("pass:right_wing")
    with coach.device.coach() as screen:
        at = screen.state["at"]
    server.stop()
    server.restart()
    with coach.device.coach() as screen:
        assert screen.state["at"] == at


def test_looking_back_is_not_called_live(coach: Coach, player: Player) -> None:
    play = Play("five_out", ["pass:right_wing"])
    coach.tap(play.sentences[0])
    player.reads(play.sentences)
    player.pick(2)
    press(player, "Step back")
    expect(player.status).to_have_text("Looking back")
    press(player, "Go to live")
    player.live()


@pytest.mark.ends_server
def test_a_line_that_says_nothing_any_more_is_known_within_four_seconds(
    player: Player, server: LiveServer, troubles: Troubles
) -> None:
    troubles.expect(LINE_DOWN)
    player.page.evaluate("""() => {
      const began = performance.now();
      new MutationObserver(() => {
        if (document.getElementById('state').textContent.startsWith('Offline')) {
          window.knownAfter ??= performance.now() - began;
        }
      }).observe(document.getElementById('status'), { subtree: true, childList: true, characterData: true });
    }""")
    with server.frozen():
        player.page.wait_for_function("() => window.knownAfter")
        assert player.page.evaluate("knownAfter") < 4000
    player.live()  # a line that was only slow is not given up


# ---- its keyboard, and who does not see it


def test_the_keyboard_is_never_lost(coach: Coach, squad: Squad, player: Player) -> None:
    page = player.page
    coach.tap("4 passes to 14")
    coach.saved()

    def focused() -> str:
        return str(page.evaluate("document.activeElement.id || document.activeElement.dataset.choice"))

    page.locator("#numbers button", has_text="23").focus()
    squad.places({"1": "00"})  # the squad is drawn anew
    expect(page.locator("#numbers button", has_text="23")).to_be_focused()
    page.keyboard.press("Enter")
    assert focused() == "me"
    page.keyboard.press("Enter")
    assert focused() == "23"
    page.locator("#close").focus()
    page.keyboard.press("Enter")
    assert focused() == "me"

    page.locator("#me").focus()
    page.keyboard.press("Enter")
    page.locator("#numbers button", has_text="00").focus()
    for number in ("00", "3"):
        coach.device.ask("DELETE", f"/api/team/players/{squad.ids[number]}")  # their buttons go
    expect(page.locator("#numbers button")).to_have_text(["4", "7", "10", "14", "23"])
    assert focused() == "23"
    page.keyboard.press("Enter")

    page.locator("#chain button").last.focus()
    coach.do("undo")  # its row goes
    player.reads([])
    expect(page.locator("#chain button").last).to_be_focused()
    coach.do("redo")
    expect(page.locator("#chain button")).to_have_count(2)

    page.locator("#back").focus()
    page.keyboard.press("Enter")  # to the start, from where there is no way further back
    expect(page.locator("#back")).to_be_disabled()
    assert focused() == "back"
    page.keyboard.press("Enter")
    page.locator("#live").focus()
    page.keyboard.press("Enter")
    expect(page.locator("#behind")).to_be_hidden()
    assert focused() == "play"
    page.locator("#rate").focus()
    page.keyboard.press("Enter")
    page.get_by_role("button", name="½×").focus()
    page.keyboard.press("Enter")
    page.keyboard.press("Escape")
    expect(page.locator("dialog")).to_have_count(0)
    assert focused() == "rate"


def test_discs_that_do_nothing_are_no_buttons(player: Player) -> None:
    player.pick(2)
    court = player.page.get_by_role("group", name="Court")
    expect(court.get_by_role("button")).to_have_count(0)
    expect(court.get_by_role("img")).to_have_count(5)
    expect(court.get_by_role("img", name="1 at the top, with the ball")).to_be_visible()


@pytest.mark.parametrize("size", [16, 32])
def test_nothing_is_found_wrong_on_a_phone(
    coach: Coach, squad: Squad, new_player: Callable[..., Player], new_context: NewContext, size: int
) -> None:
    player = new_player()
    page = player.page
    tools = player.context.new_cdp_session(page)
    tools.send("Page.setFontSizes", {"fontSizes": {"standard": size, "fixed": 13}})
    coach.tap("4 passes to 14")
    coach.saved()
    page.reload()
    player.live()
    check(page, every=True)
    press(player, "I am 00")
    check(page, every=True)
    press(player, "Show me 14")
    check(page, every=True)
    squad.places({"2": "7", "3": "14"})
    expect(changed(player)).to_be_visible()
    check(page, every=True)
    press(player, "Step back")
    expect(page.locator("#behind")).to_be_visible()
    check(page, every=True)
    page.locator("#rate").tap()
    check(page, every=True)


def test_turning_the_court_turns_what_is_drawn_on_it(coach: Coach, player: Player) -> None:
    """The arrows stayed as they were, from nowhere to somewhere else."""
    first = Play("five_out", ["pass:right_wing"])
    coach.tap(first.sentences[0])
    player.stands(first.standing)
    trails = player.page.locator("#court .trails")
    before = trails.inner_html()
    player.touch("#turn")
    player.turned = True
    player.stands(first.standing)
    expect(trails.locator("path").first).to_be_attached()
    assert trails.inner_html() != before
