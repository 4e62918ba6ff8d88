"""What ships never changes: stored chains are played again by it, years later.

Only what decides play is compared; a title or an explanation may be put better. To ship something else, add
it beside under another name.
"""

from __future__ import annotations

import hashlib
import json
from pathlib import Path
from typing import Any

import pytest

from engine.floor import shapes
from engine.floor.formations import FORMATIONS
from engine.rules import rule_sets as rules

RULESETS = Path(rules.__file__).parent / "rulesets"

RULES = {
    "pass_and_cut": "3c8fbbaf3318fa68",
    "pass_and_screen_away": "0b43faae7c7d30b4",
    "drive_and_kick": "f235247d2c335907",
    "first_steps": "9e1facf566f39ca1",
}
SHAPES = {
    "five_out": "b9fce5184e7be40c",
    "four_out_one_in": "b23cd6abc92f0753",
    "three_out_two_in": "93fb2339bfd887da",
}
ADVICE = (
    "{name} has changed, so chains that are stored would be played differently. Leave it as it was, and add "
    "the changed one beside it, under another name, with a line of its own here."
)


def digest(value: Any) -> str:
    return hashlib.sha256(json.dumps(value, sort_keys=True).encode()).hexdigest()[:16]


def played_by(name: str) -> Any:
    """Return the parts of a shipped rule set that decide what is legal and what it does."""
    form = json.loads((RULESETS / f"{name}.json").read_text("utf-8"))
    return [sorted(form["actions"]), sorted(form["lane"]), form["responses"], form.get("posts")]


@pytest.mark.parametrize("name", RULES)
def test_a_shipped_rule_set_stays_as_it_was(name: str) -> None:
    assert digest(played_by(name)) == RULES[name], ADVICE.format(name=name)


@pytest.mark.parametrize("name", SHAPES)
def test_a_shipped_formation_stays_as_it_was(name: str) -> None:
    assert digest(shapes.write(FORMATIONS[name])) == SHAPES[name], ADVICE.format(name=name)


def test_everything_that_ships_is_recorded_here() -> None:
    assert set(RULES) == set(rules.SHIPPED) == {path.stem for path in RULESETS.glob("*.json")}
    assert set(SHAPES) == set(FORMATIONS)
