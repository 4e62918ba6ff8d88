"""The browser lays a chain on the same clock as the engine: the three-second count and the court agree."""

from __future__ import annotations

import random
from typing import Any

import pytest

from engine.floor.alignment import start
from engine.floor.court import half_court
from engine.floor.formations import FORMATIONS
from engine.game.play import advance, offers
from engine.game.steps import Step
from engine.motion.clock import film_of
from engine.motion.film import Film
from tests.node import run_node
from webapp.wire.engine_values import floor_wire, position_wire, step_wire

#: On the wire lengths are whole centimetres and times hundredths, and a chain adds up what is rounded.
NEAR_CM = 8.0
NEAR_S = 0.03
STEPS = 6
SEEDS = range(12)
LEVELS = (1.0, 0.75)


#: Chains on which they once differed: formation, court, level, taps.
ONCE_DIFFERENT = {
    "a pass waits for a cutter who fills late": (
        "three_out_two_in",
        "fiba",
        1.0,
        ["post_entry:left_block", "fill:right_wing kick_out:right_wing", "ball_screen:right_block:right"],
    ),
    "a hand-off takes no time from the next action": (
        "four_out_one_in",
        "fiba",
        1.0,
        [
            "back_cut:right_wing",
            "fill:right_wing back_cut:left_slot",
            "fill:left_wing",
            "back_cut:left_slot",
            "fill:left_wing hand_off:left_slot",
            "fill:left_wing hand_off:left_slot",
        ],
    ),
}


@pytest.mark.parametrize("seed", SEEDS)
@pytest.mark.parametrize("formation_name", FORMATIONS)
def test_the_browser_and_the_engine_agree_on_a_chain(formation_name: str, seed: int) -> None:
    dice = random.Random(f"{formation_name} {seed}")
    court_name, level = dice.choice(("fiba", "nba", "nfhs")), dice.choice(LEVELS)
    formation = FORMATIONS[formation_name]
    position = start(formation)
    taps = []
    for _ in range(STEPS):
        found = [offer for offer in offers(position, formation) if offer.actions[-1].kind != "shot"]
        offer = dice.choice(found)
        position, _ = advance(position, offer.actions, formation)
        taps.append(" ".join(action.text for action in offer.actions))
    agree(formation_name, court_name, level, taps)


@pytest.mark.parametrize("case", ONCE_DIFFERENT.values(), ids=ONCE_DIFFERENT)
def test_they_agree_where_they_once_differed(case: tuple[str, str, float, list[str]]) -> None:
    agree(*case)


def agree(formation_name: str, court_name: str, level: float, taps: list[str]) -> None:
    """Fail unless both lay the chain on the same clock and run it along the same ways."""
    formation = FORMATIONS[formation_name]
    begin = position = start(formation)
    groups: list[tuple[Step, ...]] = []
    wires: list[Any] = []
    for tap in taps:
        wires.append(step_wire(position, tap.split(), formation, court_name, level))
        position, steps = advance(position, tap.split(), formation)
        groups.append(steps)
    expected: Film = film_of(begin, groups, half_court(court_name), formation, level)
    times = [expected.end * i / 60 for i in range(61)]

    film = run_node(
        "film",
        {
            "start": position_wire(begin),
            "spots": floor_wire(court_name, formation)["spots"],
            "steps": wires,
            "times": times,
        },
    )

    said = f"{formation_name}, {court_name}, {level}: {taps}"
    late = [there - cue.start for there, cue in zip(film["starts"], expected.cues, strict=True)]
    assert max(map(abs, late)) <= NEAR_S, f"{said}: steps begin off by {[round(each, 3) for each in late]} s"
    apart = {
        f"{player} at {t:.2f} s": round(gap, 1)
        for t, places in zip(times, film["places"], strict=True)
        for player, (x, y) in ((player, places[str(player)]) for player in expected.players)
        if (gap := distance_cm(expected, player, t, x, y)) > NEAR_CM
    }
    assert apart == {}, said


def distance_cm(expected: Film, player: int, t: float, x: float, y: float) -> float:
    there = expected.position(player, t)
    return float(((there.x * 100 - x) ** 2 + (there.y * 100 - y) ** 2) ** 0.5)
