"""The coach's board can be installed, and opens without a network, saying so."""

from __future__ import annotations

import struct
from collections.abc import Callable
from urllib.parse import urljoin

import pytest
from playwright.sync_api import expect

from e2e.conftest import LINE_DOWN, Troubles
from e2e.people import Coach
from tests.server import LiveServer

pytestmark = pytest.mark.ends_server


def test_manifest_and_icons_are_what_an_installer_asks_for(coach: Coach) -> None:
    page = coach.page
    address = urljoin(page.url, page.locator('link[rel="manifest"]').get_attribute("href"))
    manifest = page.request.get(address).json()
    # What Chrome asks of an app that can be installed: a name, icons of 192 and 512, where it starts, and to
    # be shown by itself (developer.chrome.com, "What does it take to be installable?"; from memory).
    assert manifest["name"]
    assert manifest["display"] in ("standalone", "fullscreen", "minimal-ui")
    assert page.request.get(urljoin(address, manifest["start_url"])).status == 200
    sizes = set()
    for icon in manifest["icons"]:
        answer = page.request.get(urljoin(address, icon["src"]))
        assert answer.status == 200
        assert answer.headers["content-type"].split(";")[0] == icon["type"]
        if icon["type"] == "image/png":
            # A PNG's width and height are the first words of its header (PNG specification, 11.2.2).
            width, height = struct.unpack(">II", answer.body()[16:24])
            assert icon["sizes"] == f"{width}x{height}"
            sizes.add((width, icon["purpose"]))
    assert {(192, "any"), (512, "any"), (192, "maskable"), (512, "maskable")} <= sizes


def test_the_board_opens_with_the_server_stopped_and_says_it_is_offline(
    new_coach: Callable[..., Coach], server: LiveServer, troubles: Troubles
) -> None:
    troubles.expect(LINE_DOWN)
    troubles.expect(r"status of 503.*/join")  # as every page is reported that is answered so
    coach = new_coach(service_workers="allow")
    page = coach.page
    page.wait_for_function("() => navigator.serviceWorker.controller !== null")
    page.reload()  # now the worker sees the page and keeps it
    coach.saved()

    server.stop()
    page.reload()
    expect(coach.status).to_have_attribute("data-link", "offline")
    expect(page.get_by_role("heading", name="Practice")).to_be_attached()
    expect(page.get_by_role("button", name="Menu")).to_be_visible()
    # A page that is not kept says what is the matter in plain words.
    page.goto(f"{server.url}/join")
    expect(page.get_by_role("heading", name="You are offline")).to_be_visible()
    page.go_back()

    server.restart()
    coach.saved()
    coach.stands(
        {
            "at": {"1": "top", "2": "right_wing", "3": "left_wing", "4": "right_corner", "5": "left_corner"},
            "ball": 1,
        }
    )
