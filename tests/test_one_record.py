"""An action is known by its name in one place: nobody else asks which it is."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from engine.rules.actions import KINDS
from tests.server import ROOT

#: What an action is, what rules may say of its trigger, and a chain that a new team is shown.
MAY = {"engine/rules/catalogue.py", "engine/rules/vocabulary.py", "engine/locales/en/rules.json"}

#: Names that are also those of a movement, of what the ball does, of a sign or of a trigger.
ALSO = {
    "pass",
    "hand_off",
    "shot",
    "drive",
    "fill",
    "post_up",
    "flash",
    "back_cut",
    "help_screen",
    "ball_screen",
}


def modules() -> list[Path]:
    folders = ("engine", "webapp", "static/js")
    found = [
        path
        for folder in folders
        for path in sorted((ROOT / folder).rglob("*"))
        if path.suffix in (".py", ".js")
    ]
    return [path for path in found if str(path.relative_to(ROOT)) not in MAY]


@pytest.mark.parametrize("kind", sorted(set(KINDS) - ALSO))
def test_no_module_but_the_catalogue_knows_an_action_by_its_name(kind: str) -> None:
    quoted = re.compile(rf"""["']{kind}["']""")
    knows = {str(path.relative_to(ROOT)) for path in modules() if quoted.search(path.read_text("utf-8"))}
    assert knows == set()
