"""What a phone shows of a play that the coach puts on the board, and of one played on from its middle."""

from __future__ import annotations

import pytest
from playwright.sync_api import expect

from e2e.people import Coach, Player
from e2e.test_bench_row import HERON, row, stocked
from e2e.test_playbook import sheet

pytestmark = pytest.mark.pace(1)


def moves(player: Player) -> None:
    expect(player.page.locator("#play")).to_have_attribute("data-playing", "true")


def rests(player: Player) -> None:
    expect(player.page.locator("#play")).to_have_attribute("data-playing", "false", timeout=20_000)


def test_a_play_that_is_put_on_the_board_is_seen_from_its_start(coach: Coach, player: Player) -> None:
    """It stood there as it ended, and nobody had moved."""
    stocked(coach)
    player.pick(1)
    row(coach).get_by_role("button", name="Heron").tap()
    moves(player)
    expect(player.mine).to_have_text(HERON.told("you")[1])
    player.reads(HERON.sentences)
    rests(player)
    player.live()
    player.stands(HERON.standing)


def test_the_next_step_of_an_open_play_moves_on_phones_too(coach: Coach, player: Player) -> None:
    """They were put to its end, as the step was there already."""
    stocked(coach)
    sheet(coach).get_by_role("button", name="Heron").first.tap()
    player.reads(HERON.sentences)
    moves(player)
    rests(player)
    coach.tap(HERON.sentences[0])
    player.reads(HERON.sentences[:1])
    moves(player)
    rests(player)
    player.live()
