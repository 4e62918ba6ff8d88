"""Scripted steps in the browser: read, told and played as the server has them."""

from __future__ import annotations

import json
import random

import pytest
from playwright.sync_api import Page

from e2e.conftest import NewContext
from engine.alignment import Position, start
from engine.formations import FORMATIONS
from engine.play import advance, offers
from engine.script import read
from tests.scripts import ENDINGS, some_script
from tests.server import LiveServer
from webapp.script_wire import script_wire
from webapp.wire import floor_wire, position_wire

SCRIPTS = 80
STEPS = """async ({cases}) => {
  const { readScript, writeScript } = await import('/static/js/script/text.js');
  const { scriptStep } = await import('/static/js/script/step.js');
  return cases.map(({text, standing, spots}) => {
    const script = readScript(text);
    return script && { text: writeScript(script), step: scriptStep(script, standing, spots) };
  });
}"""


@pytest.fixture
def page(new_context: NewContext, server: LiveServer) -> Page:
    page = new_context().new_page()
    page.goto(f"{server.url}/join")
    return page


@pytest.mark.parametrize("formation_name", FORMATIONS)
def test_a_step_out_of_a_text_is_the_servers(page: Page, formation_name: str) -> None:
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
    found = page.evaluate(STEPS, {"cases": cases})

    for case, got, there in zip(cases, found, expected, strict=True):
        assert got is not None, case["text"]
        assert got["text"] == case["text"]
        # Word for word: what crosses the wire is text.
        assert got["step"] == json.loads(json.dumps(there)), case["text"]


def test_what_is_no_scripted_step_is_not_read(page: Page) -> None:
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
    first, *others = page.evaluate(STEPS, {"cases": cases})
    assert first is not None
    assert [text for text, got in zip(broken, others, strict=True) if got is not None] == []


def somewhere(dice: random.Random, formation_name: str) -> Position:
    """Return a position play by rule has led to."""
    position = start(FORMATIONS[formation_name])
    for _ in range(dice.randint(0, 3)):
        legal = [o for o in offers(position, FORMATIONS[formation_name]) if o.actions[-1].kind != "shot"]
        position, _ = advance(position, dice.choice(legal).actions, FORMATIONS[formation_name])
    return position
