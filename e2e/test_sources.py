"""With the switch for developing, browsers run the modules as they were written."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import Route, expect

from e2e.expected import Play
from e2e.people import Coach, Player
from e2e.test_ink import BELOW, Hand, hand, ink, strokes
from tests.plugin import ROOMY
from tests.server import LiveServer, SharedServers

__all__ = ["hand"]  # a fixture


@pytest.fixture
def server(shared_server: SharedServers) -> LiveServer:
    return shared_server(**ROOMY, sources="yes")


def test_board_and_phone_play_from_the_sources(
    coach: Coach, new_player: Callable[..., Player], server: LiveServer
) -> None:
    player = new_player()
    for page in (coach.page, player.page):
        named = page.locator("script[src], link[rel=stylesheet]").evaluate_all(
            "all => all.map((e) => e.src || e.href)"
        )
        assert named
        assert not [each for each in named if "/dist/" in each]
    play = Play("five_out")
    coach.tap(play.play("pass:right_wing"))
    coach.reads(play.sentences)
    player.stands(play.standing)


def test_a_phone_that_is_slow_to_fetch_what_draws_shows_each_stroke_once(
    coach: Coach, hand: Hand, player: Player
) -> None:
    held: list[Route] = []
    player.page.route("**/js/ink/follow.js", lambda route: held.append(route))
    with player.page.expect_request("**/js/ink/follow.js"):
        hand.draw()
    hand.draw(BELOW)
    strokes(coach, 2)
    for route in held:
        route.continue_()
    strokes(player, 2)
    expect(ink(player)).to_have_count(1)
