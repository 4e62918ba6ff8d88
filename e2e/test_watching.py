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


def at(player: Player, depth: int) -> None:
    """Wait until the phone stands after so many steps."""
    rests(player)
    expect(player.page.locator('#chain [aria-current="step"]')).to_have_attribute("data-depth", str(depth))
    player.live()


def test_a_phone_looks_where_the_coach_looks(coach: Coach, player: Player) -> None:
    """It went on to the end of the chain by itself, whatever the coach was teaching."""
    stocked(coach)
    sheet(coach).get_by_role("button", name="Heron").first.tap()
    player.reads(HERON.sentences)
    at(player, 0)
    coach.chain.first.tap()
    moves(player)
    at(player, 1)
    coach.do("back")
    at(player, 0)
    coach.do("play")
    moves(player)
    at(player, 2)
    player.stands(HERON.standing)


def test_a_player_who_looks_back_is_left_alone_and_comes_back_to_where_the_coach_is(
    coach: Coach, player: Player
) -> None:
    stocked(coach)
    row(coach).get_by_role("button", name="Heron").tap()
    at(player, 2)
    player.page.get_by_role("button", name="Step back", exact=True).tap()
    expect(player.page.locator("#status")).to_contain_text("Looking back")
    coach.do("back")
    coach.do("back")
    row_ = player.page.locator('#chain [aria-current="step"]')
    expect(row_).to_have_attribute("data-depth", "1")
    player.page.locator("#live").tap()
    at(player, 0)


def test_the_next_step_of_an_open_play_moves_on_phones_too(coach: Coach, player: Player) -> None:
    """They were put to its end, as the step was there already."""
    stocked(coach)
    sheet(coach).get_by_role("button", name="Heron").first.tap()
    player.reads(HERON.sentences)
    at(player, 0)
    coach.tap(HERON.sentences[0])
    player.reads(HERON.sentences[:1])
    moves(player)
    at(player, 1)
