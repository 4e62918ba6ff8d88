"""Scripted steps in the browser: read, told and laid on the clock as the server has them."""

from __future__ import annotations

import json
import random
from collections.abc import Callable, Sequence
from functools import partial
from math import dist
from typing import Any

import pytest

from engine.floor.alignment import Position, start
from engine.floor.formations import FORMATIONS
from engine.game.play import advance, offers
from engine.game.recover import read as read_recovery
from engine.script import read
from tests.node import run_node
from tests.scripts import ENDINGS, Ending, some_script
from tests.webapp.paper.chains import back, card, played
from webapp.chains.state import Card
from webapp.paper.keyframes import film
from webapp.paper.sheet import sheet
from webapp.wire.drawn_steps import script_wire
from webapp.wire.engine_values import floor_wire, position_wire, recovery_wire, step_wire

SCRIPTS = 240


@pytest.mark.parametrize("formation_name", FORMATIONS)
def test_a_step_out_of_a_text_is_the_servers(formation_name: str) -> None:
    dice = random.Random(f"{formation_name}, scripts")
    formation = FORMATIONS[formation_name]
    cases, expected = [], []
    for i in range(SCRIPTS):
        position = somewhere(dice, formation_name)
        script = some_script(dice, formation, ending=ENDINGS[i % len(ENDINGS)])
        court = dice.choice(("fiba", "nba", "nfhs"))
        assert read(script.text, formation) == script
        spots = floor_wire(court, formation)["spots"]
        cases.append({"text": script.text, "standing": position_wire(position), "spots": spots})
        expected.append(script_wire(position, script, court, formation))
    found = run_node("scripts", {"cases": cases})

    for case, got, there in zip(cases, found, expected, strict=True):
        assert got is not None, case["text"]
        assert got["text"] == case["text"]
        # Word for word: what crosses the wire is text.
        assert got["step"] == json.loads(json.dumps(there)), case["text"]


def test_what_is_no_scripted_step_is_not_read() -> None:
    sound = (
        "script:as=side;at=1,-790,300,2,0,700,3,600,100,4,-500,50,5,200,300,x1,-600,310,k1,0,200;ball=1;"
        "go=2,c,0,150,120,640,300,500;go=x1,c,0,100,-500,300;do=p,60,130,1,2;on=1,top"
    )
    broken = [
        sound.replace(old, new)
        for old, new in (
            ("as=side", "as=kick"),
            ("5,200,300,", ""),
            ("x1,-600,310,", "x9,-600,310,"),
            ("x1,-600,310,k1,0,200", "k1,0,200,x1,-600,310"),
            ("-790", "-0790"),
            ("-790", "-2001"),
            ("ball=1", "ball=2"),
            ("ball=1", "ball=0,200"),
            ("go=x1,c,0", "go=x1,d,0"),
            ("go=x1,c,0", "go=k1,c,0"),
            ("go=x1,c,0", "go=x2,c,0"),
            ("go=x1,c,0", "go=1,c,0"),
            ("go=x1,c,0", "go=2,c,100"),
            ("c,0,150", "c,0,3001"),
            ("c,0,150", "c,0,0"),
            (",120,640,300,500", ""),
            ("120,640,300,500", "120,640,300"),
            ("p,60,130", "p,130,60"),
            ("p,60,130,1,2", "p,60,130,1,1"),
            ("p,60,130,1,2", "s,60,130,1;do=p,140,150,1,2"),
            ("p,60,130,1,2", "g,60,130,2"),
            ("on=1,top", "on=1,top,2,top"),
            ("on=1,top", "on=2,top,1,left_wing"),
            ("on=1,top", "on="),
            ("script:", "recover:"),
        )
    ]
    assert sound not in broken
    spots = floor_wire("fiba", FORMATIONS["five_out"])["spots"]
    standing = position_wire(start(FORMATIONS["five_out"]))
    cases = [{"text": text, "standing": standing, "spots": spots} for text in (sound, *broken)]
    first, *others = run_node("scripts", {"cases": cases})
    assert first is not None
    assert [text for text, got in zip(broken, others, strict=True) if got is not None] == []


def somewhere(dice: random.Random, formation_name: str) -> Position:
    """Return a position play by rule has led to."""
    position = start(FORMATIONS[formation_name])
    for _ in range(dice.randint(0, 3)):
        legal = [o for o in offers(position, FORMATIONS[formation_name]) if o.actions[-1].kind != "shot"]
        position, _ = advance(position, dice.choice(legal).actions, FORMATIONS[formation_name])
    return position


#: On the wire lengths are whole centimetres and times hundredths, and a chain adds up what is rounded.
NEAR_CM = 12.0
NEAR_S = 0.04
#: What is drawn by dice is fast: a place is compared with those of a moment before and after, too.
AROUND_S = [NEAR_S * i / 80 for i in range(-80, 81)]
#: The shortest run, hundredths of a second.
LEAST = 100
CHAINS = range(20)
LONG = 5


@pytest.mark.parametrize("seed", CHAINS)
def test_a_chain_with_drawings_is_on_the_screen_what_it_is_on_paper(seed: int) -> None:
    dice = random.Random(f"{seed}, films")
    board = card(FORMATIONS[dice.choice(sorted(FORMATIONS))], court=dice.choice(("fiba", "nba", "nfhs")))
    chain, wires = a_chain(dice, board)
    expected = film(sheet(board, played(board, chain), "Any drawing"))
    spots = floor_wire(board.court, board.shape)["spots"]
    times = [expected.end * i / 80 for i in range(81)]
    begin = position_wire(start(board.shape))
    found = run_node("film", {"start": begin, "spots": spots, "steps": wires, "times": times})

    assert found["starts"] == pytest.approx([cue.start for cue in expected.cues], abs=NEAR_S), chain
    assert found["end"] == pytest.approx(expected.end, abs=NEAR_S), chain
    assert set(found["shown"]) == set(expected.shown)
    for extra, spans in found["shown"].items():
        assert len(spans) == len(expected.shown[extra]), (extra, chain)
        for (begins, leaves), (there, gone) in zip(spans, expected.shown[extra], strict=True):
            assert begins == pytest.approx(there, abs=NEAR_S)
            assert (leaves is None) == (gone == float("inf"))
            assert leaves is None or leaves == pytest.approx(gone, abs=NEAR_S)
    apart = {}
    for t, places, ball in zip(times, found["places"], found["ball"], strict=True):
        for key, place in places.items():
            who = int(key) if key.isdigit() else key
            apart[who, t] = least_off(partial(expected.position, who), t, place)
        if ball["holder"]:
            place = places[str(ball["holder"])]
            apart["ball", t] = least_off(expected.ball_position, t, place)
    assert {key: gap for key, gap in apart.items() if gap > NEAR_CM} == {}, chain


def least_off(there: Callable[[float], Sequence[float]], t: float, place: list[float]) -> float:
    """Return how far off a place is from where it should be at ``t``, or a moment before or after."""

    def off(at: float) -> float:
        x, y = there(at)
        return dist((x * 100, y * 100), place)

    gap = off(t)
    return gap if gap <= NEAR_CM else min(off(t + s) for s in AROUND_S)


def a_chain(dice: random.Random, board: Card) -> tuple[list[tuple[str, ...]], list[Any]]:
    """Return a chain of drawings, recoveries and actions by rule, and its steps as they cross the wire."""
    position, chain, wires = start(board.shape), [], []
    for i in range(LONG):
        actions: tuple[str, ...]
        if i == 0 or dice.random() < 0.4:
            ending: Ending = dice.choice(("on spots", "off spots"))
            script = some_script(dice, board.shape, board.rules, ending, least=LEAST)
            actions, wire = (script.text,), script_wire(position, script, board.court, board.shape)
        elif position.off:
            where = {number: (x / 100, y / 100) for number, x, y in position.off}
            (text,) = actions = back(board, position, where)
            wire = recovery_wire(position, read_recovery(text, board.shape), board.court, board.shape)
        else:
            legal = [o for o in offers(position, board.shape, board.rules) if o.actions[-1].kind != "shot"]
            actions = tuple(action.text for action in dice.choice(legal).actions)
            wire = step_wire(position, actions, board.shape, board.court, board.level, board.rules)
        chain.append(actions)
        wires.append(wire)
        position = played(board, chain)[-1].after
    return chain, wires
