"""From the pocket to a play: the app opens where the coach left, and a pinned play moves at one tap."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import expect

from e2e.conftest import LINE_DOWN, Troubles
from e2e.expected import Play
from e2e.people import Coach
from e2e.test_offline import ready
from e2e.test_playbook import chain_of, saving, sync
from tests.server import LiveServer

pytestmark = pytest.mark.ends_server

LINE = ["pass:right_wing", "fill:left_corner pass:top"]
#: The browser says that this is the app on the home screen.
INSTALLED = """const real = window.matchMedia.bind(window);
window.matchMedia = (query) => (query.includes('display-mode: standalone') ? real('all') : real(query));"""


@pytest.fixture
def tablet(new_coach: Callable[..., Coach], server: LiveServer, troubles: Troubles) -> Coach:
    """A tablet that has been on its board, with a pinned play; then server and network are gone."""
    troubles.expect(LINE_DOWN)
    troubles.expect(r"net::ERR_INTERNET_DISCONNECTED")
    coach = new_coach(service_workers="allow")
    ready(coach)
    pinned = {"op": "edit", "chain": chain_of(coach, "Otter"), "pinned": True}
    sync(coach, saving(coach, Play("five_out", LINE), "Otter"), pinned)
    coach.page.reload()
    expect(coach.page.get_by_role("button", name="Play Otter")).to_be_visible()
    coach.saved()
    return coach


def start_address(coach: Coach) -> str:
    manifest = coach.page.request.get(f"{coach.server.url}/manifest.webmanifest").json()
    return f"{coach.server.url}{manifest['start_url']}"


def gone(coach: Coach, server: LiveServer) -> None:
    coach.context.set_offline(True)
    server.stop()


def test_the_app_opens_on_the_last_board_and_one_tap_plays(tablet: Coach, server: LiveServer) -> None:
    address = start_address(tablet)
    gone(tablet, server)
    tablet.page.goto(address)
    assert tablet.page.url.endswith(f"/board/{tablet.board_id}")
    tablet.touch("#pinned button")
    play = Play("five_out", LINE)
    tablet.reads(play.sentences)
    tablet.stands(play.standing)  # it has run by itself


def test_an_app_that_begins_with_the_first_page_goes_on_once(tablet: Coach, server: LiveServer) -> None:
    gone(tablet, server)
    tablet.page.close()
    tablet.page = tablet.context.new_page()
    tablet.page.add_init_script(INSTALLED)
    tablet.page.goto(server.url)
    tablet.page.wait_for_url("**/board/*")
    tablet.page.goto(server.url)
    expect(tablet.page.get_by_role("heading", name="Your boards")).to_be_visible()
    assert tablet.page.url == f"{server.url}/"


def test_a_device_without_a_board_starts_on_the_first_page(tablet: Coach, server: LiveServer) -> None:
    tablet.page.evaluate("async () => (await caches.open('quintet-index')).delete('/last-board')")
    tablet.page.goto(start_address(tablet))
    expect(tablet.page.get_by_role("heading", name="Your boards")).to_be_visible()
