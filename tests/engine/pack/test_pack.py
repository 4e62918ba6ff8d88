"""The pack as it is sent: the same every time, small, and nothing in it that is to be read by people."""

from __future__ import annotations

import gzip
import hashlib
import json
import os
import re
import subprocess
import sys
from collections.abc import Iterator

import pytest

from engine.pack.columns import MOST, Arrivals, Numbers, in_order, text
from engine.rules.actions import parse
from engine.rules.catalogue import CATALOGUE
from tests.engine.pack.worlds import SCREENING, SHIPPED, WORLDS, World, packed
from tests.server import ROOT
from tests.words import spoken_table

#: What a tablet should not have to wait for on a slow line, bytes for each formation that ships.
MOST_BYTES = 150_000
PATH = re.compile(r"M-?\d+ -?\d+C(-?\d+ ){5}-?\d+( (-?\d+ ){5}-?\d+)*")
TEMPLATE = re.compile(r"[a-z_]+( [pms]=(o|a|b|c|r|t|[a-z_]{3,})| d=d)*")
MAKE = """
import hashlib
from tests.engine.pack.worlds import SCREENING, packed
print(hashlib.sha256(packed(SCREENING).encode()).hexdigest())
"""
worlds = pytest.mark.parametrize("world", WORLDS, ids=lambda world: world.name)


@pytest.mark.parametrize("world", [SCREENING], ids=lambda world: world.name)
def test_it_is_the_same_to_the_letter_in_every_process(world: World) -> None:
    # It is halved, and much is searched for. What is put in a set is in another order there.
    seed = "1" if os.environ.get("PYTHONHASHSEED") != "1" else "2"
    there = subprocess.run(
        [sys.executable, "-c", MAKE],
        cwd=ROOT,
        env={**os.environ, "PYTHONHASHSEED": seed},
        check=True,
        capture_output=True,
        text=True,
    ).stdout
    assert there.strip() == hashlib.sha256(packed(world).encode()).hexdigest()


@pytest.mark.parametrize("world", SHIPPED, ids=lambda world: world.name)
def test_it_is_small(world: World) -> None:
    assert len(gzip.compress(packed(world).encode(), 9)) < MOST_BYTES


@worlds
def test_it_holds_templates_and_no_sentences(world: World) -> None:
    made = json.loads(packed(world))
    sentences = spoken_table()
    keys = sentences["chain"].keys() | sentences["who"].keys() | sentences["ball"].keys()
    for template in filter(None, made["says"]):
        assert TEMPLATE.fullmatch(template), template
        assert template.split(" ")[0] in keys
    # What is said of a player alone is one text, whoever he is.
    assert [template for template in made["says"] if template.startswith("rebound")] == ["rebound p=o"]
    assert all(PATH.fullmatch(path) for path in made["routes"][0])
    del made["says"], made["routes"][0]
    assert not [each for each in texts(made) if " " in each]


@worlds
def test_its_actions_can_be_read_and_say_whose_choice_they_are(world: World) -> None:
    made = json.loads(packed(world))
    for form, whose, licence, kind in made["actions"]:
        action = parse(form)
        assert action.text == form
        assert licence in ("", action.kind)
        assert (whose == "c") == action.is_lane_choice
        assert made["kinds"][kind] == [list(CATALOGUE).index(action.kind), *action.about.mark]


def texts(value: object) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for each in value.values():
            yield from texts(each)
    elif isinstance(value, list):
        for each in value:
            yield from texts(each)


def test_a_column_is_one_character_a_value_and_needs_no_escapes() -> None:
    values = [0, 1, 33, 34, 35, 200, 5000, MOST]
    column = text(values)
    assert [ord(character) - ord("]") for character in column] == values
    assert json.dumps(column, ensure_ascii=False) == f'"{column}"'
    assert text([]) == ""


@pytest.mark.parametrize("value", [-1, MOST + 1])
def test_a_value_that_does_not_fit_is_refused(value: int) -> None:
    with pytest.raises(ValueError, match="does not fit into one character"):
        text([3, value])


def test_numbers_and_orders() -> None:
    numbers = Numbers(["b", "a", "c", "b", "a", "b"])
    assert numbers.things == ["b", "a", "c"]
    assert numbers["c"] == 2
    arrivals: Arrivals[str] = Arrivals()
    assert [arrivals[thing] for thing in "xyxzy"] == [0, 1, 0, 2, 1]
    assert arrivals.things == ["x", "y", "z"]
    lists = [
        [parse(form) for form in forms.split()] for forms in ("shot", "drive:left shot", "pass:top shot")
    ]
    one = in_order(lists)
    assert one[-1].text == "shot"
    assert {action.text for action in one} == {"shot", "drive:left", "pass:top"}
