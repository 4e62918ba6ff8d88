"""Screenshots of the main screens for whoever reviews; where ``QUINTET_SHOTS`` names a folder."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from playwright.sync_api import expect

from e2e.conftest import NewContext, new_board
from e2e.expected import Play
from e2e.people import Coach, Player
from e2e.test_by_hand import Table, inbound
from e2e.test_playbook import chain_of, saving, sync
from tests.server import LiveServer

FOLDER = os.environ.get("QUINTET_SHOTS", "")
SIZES = {"390x844": (390, 844), "1180x820": (1180, 820), "820x1180": (820, 1180)}
TAPS = ["pass:right_wing", "fill:left_corner pass:top", "fill:right_corner drive:left"]

pytestmark = pytest.mark.skipif(not FOLDER, reason="Screenshots are only taken where QUINTET_SHOTS says.")


@pytest.mark.parametrize("size", SIZES)
def test_the_main_screens_are_shown(new_context: NewContext, server: LiveServer, size: str) -> None:
    width, height = SIZES[size]
    # Without movement: everything stands where it ends.
    look = {"reduced_motion": "reduce", "viewport": {"width": width, "height": height}}
    context = new_context(**look)
    page = context.new_page()
    folder = Path(FOLDER)
    folder.mkdir(parents=True, exist_ok=True)

    def shot(name: str) -> None:
        for light in ("dark", "light"):
            page.emulate_media(color_scheme=light)
            page.screenshot(path=folder / f"{name}-{size}-{light}.png")

    page.goto(server.url)
    shot("home")
    coach = Coach(server, context, page, board_id=new_board(page, server))
    coach.saved()
    play = Play("five_out", TAPS)
    pinned = {"op": "edit", "chain": chain_of(coach, "Otter"), "pinned": True}
    sync(coach, saving(coach, play, "Otter"), saving(coach, Play("five_out", TAPS[:1]), "Heron"), pinned)
    page.reload()
    coach.saved()
    shot("board")
    begun = Play("five_out")
    for tap in TAPS[:2]:
        coach.tap(begun.play(tap))
    coach.reads(begun.sentences)
    coach.saved()
    shot("chain")
    coach.do("menu")
    shot("menu")
    page.get_by_role("button", name="Close", exact=True).tap()
    coach.do("plays")
    expect(page.get_by_role("dialog", name="Plays")).to_be_visible()
    shot("plays")
    page.keyboard.press("Escape")
    coach.do("share")
    expect(page.get_by_role("dialog", name="Share")).to_be_visible()
    shot("share")

    page.keyboard.press("Escape")
    coach.do("byHand")
    table = Table(coach)
    table.press("All five X")
    inbound(table)
    shot("by-hand")
    table.press("Close")

    page.goto(f"{server.url}/board/{coach.board_id}/print")
    expect(page.get_by_role("heading", name="Print")).to_be_visible()
    shot("print")
    page.goto(f"{server.url}/check")
    expect(page.locator('#lines li[data-state="wait"]')).to_have_count(0)
    shot("check")
    page.goto(server.url)
    shot("home-known")
    page.goto(coach.device.share()["url"])
    player = Player(server, context, page)
    player.live()
    player.pick(3)
    shot("phone")
