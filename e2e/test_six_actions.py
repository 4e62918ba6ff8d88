"""A coach taps six actions of different kinds on the court, and a player's phone follows each of them."""

from __future__ import annotations

import json
import subprocess
import sys

import pytest
from playwright.sync_api import expect

from e2e.expected import Play, standing
from e2e.people import Coach, Player
from engine.floor.alignment import start
from engine.floor.formations import FORMATIONS
from tests.server import ROOT
from tests.words import spoken_table

#: Between them: discs, the marks between team-mates, a back cut, drive arrows, both kinds of screen, empty
#: spots, the rim, and taps that go on to the ball while a cutter waits.
CHAINS = {
    "five_out": [
        "pass:right_wing",
        "fill:left_corner",
        "hand_off:top",
        "fill:left_corner drive:left",
        "kick_out:left_wing",
        "shot",
    ],
    "four_out_one_in": [
        "dribble_at:left_slot",
        "back_screen:right_slot",
        "cutter_pass",
        "dribble_out:right_wing",
        "back_cut:right_slot",
        "fill:left_wing skip:left_slot",
    ],
    "three_out_two_in": [
        "ball_screen:right_block:right",
        "dump_off:left_block",
        "fill:right_wing high_low:right_block",
        "kick_out:right_wing",
        "drive:left",
        "shot",
    ],
}
#: Whose sentences are read on the phone.
NUMBER = 3


@pytest.mark.parametrize("formation_name", FORMATIONS)
def test_the_phone_follows_six_taps(coach: Coach, player: Player, formation_name: str) -> None:
    play = Play(formation_name)
    player.pick(NUMBER)
    if formation_name != coach.formation_name:
        coach.choose("Formation", spoken_table()["formations"][formation_name])
    coach.formation_name = player.formation_name = formation_name
    coach.stands(play.standing)
    player.stands(play.standing)

    for tap in CHAINS[formation_name]:
        coach.tap(play.play(tap))
        coach.reads(play.sentences)
        player.reads(play.sentences)
        expect(player.mine).to_have_text(play.told("you")[NUMBER])
        assert [each for number, each in play.told("who").items() if number != NUMBER] == sorted(
            player.page.locator("#others span").all_text_contents()
        )
        if tap != "shot":  # a shot ends with five on the boards and on their way back, on no spots
            coach.stands(play.standing)
            player.stands(play.standing)
    coach.saved()

    replayed = replay(formation_name, CHAINS[formation_name])
    assert replayed == as_replayed(play.standing) | {"over": play.position.alignment.over}
    with coach.device.coach() as screen:
        assert screen.chain() == play.actions
        assert screen.steps[-1]["after"]["at"] == play.standing["at"]
        assert screen.steps[-1]["after"]["ball"] == play.standing["ball"]
        assert screen.steps[-1]["after"]["over"] == play.position.alignment.over
    if play.position.alignment.over:
        expect(coach.page.locator("#list")).to_contain_text("The shot ends the possession.")

    for _ in CHAINS[formation_name]:
        coach.do("undo")
    coach.reads([])
    player.reads([])
    begin = standing(start(play.formation))
    coach.stands(begin)
    player.stands(begin)
    expect(player.mine).to_contain_text("You start")
    expect(coach.page.locator('[data-do="undo"]')).to_be_disabled()

    for count in range(1, len(play.taps) + 1):
        coach.do("redo")
        coach.reads(play.sentences[:count])
    player.reads(play.sentences)
    expect(coach.page.locator('[data-do="redo"]')).to_be_disabled()
    expect(player.mine).to_have_text(play.told("you")[NUMBER])
    coach.saved()
    with coach.device.coach() as screen:
        assert screen.chain() == play.actions


def replay(formation_name: str, taps: list[str]) -> dict[str, object]:
    """Return where the command line says these taps lead."""
    command = [sys.executable, "-m", "engine", "replay", formation_name]
    line = " ".join(taps) + "\n"
    done = subprocess.run(command, cwd=ROOT, input=line, capture_output=True, text=True, check=True)
    told = json.loads(done.stdout)
    return {"occupied": told["occupied"], "ball": told["ball"], "over": told["over"]}


def as_replayed(stands: dict[str, object]) -> dict[str, object]:
    """Return a position of the screens in the command line's form."""
    at = stands["at"]
    assert isinstance(at, dict)
    return {"occupied": {spot: int(number) for number, spot in at.items()}, "ball": at[str(stands["ball"])]}
