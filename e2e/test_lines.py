"""Lines that break and servers that die: the screens say so, come back by themselves, and nothing is lost."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import expect

from e2e.conftest import LINE_DOWN, Troubles
from e2e.expected import Play
from e2e.people import Coach, Player
from tests.server import LiveServer

pytestmark = pytest.mark.ends_server

#: Keeps the sockets a page opens where a test can cut them, as a network does: without a word to the page.
KEEP_SOCKETS = """
window.sockets = [];
window.WebSocket = class extends WebSocket {
  constructor(...given) { super(...given); window.sockets.push(this); }
};
"""
ENDS = {"all of it": LiveServer.kill_group, "its master": LiveServer.kill_master}


@pytest.fixture(autouse=True)
def cut_lines(troubles: Troubles) -> None:
    troubles.expect(LINE_DOWN)


@pytest.mark.parametrize("end", ENDS.values(), ids=ENDS)
def test_nothing_is_lost_when_the_server_is_killed(
    coach: Coach, player: Player, server: LiveServer, end: Callable[[LiveServer], None]
) -> None:
    play = Play("five_out")
    player.pick(5)
    for tap in ("pass:right_wing", "fill:left_corner", "drive:left"):
        coach.tap(play.play(tap))
        coach.reads(play.sentences)
    coach.saved()
    player.reads(play.sentences)

    end(server)
    expect(coach.status).to_have_attribute("data-link", "offline")
    expect(player.status).to_have_text("Offline – trying again")
    # The coach goes on with what is already worked out; the page does not claim that it is saved.
    coach.do("undo")
    coach.reads(play.sentences[:-1])
    expect(coach.status).to_have_attribute("data-link", "offline")
    player.reads(play.sentences)

    server.restart()
    coach.saved()
    player.live()
    player.reads(play.sentences[:-1])
    play = Play("five_out", play.taps[:-1])
    coach.tap(play.play("hand_off:top"))
    for screen in (coach, player):
        screen.reads(play.sentences)
        screen.stands(play.standing)
    expect(player.mine).to_have_text(play.told("you")[5])
    coach.saved()
    with coach.device.coach() as seen:
        assert seen.chain() == play.actions


def test_a_tap_made_while_the_server_restarts_is_kept(
    coach: Coach, player: Player, server: LiveServer
) -> None:
    play = Play("five_out")
    server.kill_group()
    expect(coach.status).to_have_attribute("data-link", "offline")
    coach.tap(play.play("pass:right_wing"))
    coach.stands(play.standing)  # the court does not wait for the line
    expect(coach.status).to_have_attribute("data-link", "offline")
    server.restart()
    coach.saved()
    player.reads(play.sentences)
    player.stands(play.standing)
    with coach.device.coach() as seen:
        assert seen.chain() == play.actions


def test_a_phone_whose_line_drops_catches_up(coach: Coach, player: Player) -> None:
    player.page.add_init_script(KEEP_SOCKETS)
    player.page.reload()
    player.live()
    play = Play("five_out")
    coach.tap(play.play("pass:right_wing"))
    player.reads(play.sentences)

    # Cut without a close, as when a phone changes networks, while the coach goes on.
    player.context.set_offline(True)
    player.page.evaluate("sockets.at(-1).close()")
    expect(player.status).to_have_text("Offline – trying again")
    for tap in ("fill:left_corner", "skip:left_wing"):
        coach.tap(play.play(tap))
    coach.reads(play.sentences)
    coach.saved()
    assert player.page.locator("#chain li").count() == 2
    expect(player.status).to_have_text("Offline – trying again")

    player.context.set_offline(False)
    player.live()
    player.reads(play.sentences)
    player.stands(play.standing)


def test_a_phone_joins_late_at_the_right_place(coach: Coach, new_player: Callable[..., Player]) -> None:
    play = Play("five_out")
    for tap in ("dribble_at:left_wing", "fill:right_corner drive:right"):
        coach.tap(play.play(tap))
    coach.saved()
    late = new_player()
    late.reads(play.sentences)
    late.stands(play.standing)


def test_a_device_that_loses_its_network_asks_at_once_whether_the_line_holds(coach: Coach) -> None:
    with coach.page.expect_websocket() as opened:
        coach.page.reload()
    coach.saved()
    # It would ask ten seconds after the last it heard.
    with opened.value.expect_event("framesent", lambda sent: '"ping"' in str(sent), timeout=5_000):
        coach.page.evaluate("dispatchEvent(new Event('offline'))")
    coach.saved()
