"""What the tables of changes are trusted for: what ships as it is, and as a first guess for what is alike."""

from __future__ import annotations

from dataclasses import replace

from engine.floor.court import half_court
from engine.floor.formations import FORMATIONS
from engine.game.moves import steps
from engine.game.steps import Step
from engine.motion.table import digest, load, movements
from engine.pack.lines import Group, Lines
from engine.rules.rule_sets import DEFAULT, shipped
from tests.engine.boards import FIVE, board

FIBA = half_court("fiba")
OWN = replace(FIVE, name="our own", moved=(("left_block", -3.0, 0.6),))


def changed_step() -> Step:
    """Return a step whose movements need changes where it ships."""
    rows = load(FIVE.name).rows
    there = [step for text in ("LC LW T* RW RC", "LW T RW* RC rim^") for step in steps(board(text), FIVE)]
    return next(step for step in there if digest(movements((step,))) in rows)


def group(lines: Lines) -> Group:
    step = changed_step()
    return lines.group((step,), movements((step,)))


def test_only_what_ships_in_both_is_taken_as_it_is() -> None:
    assert group(Lines(FIVE, DEFAULT, FIBA)).is_sure
    assert not group(Lines(OWN, DEFAULT, FIBA)).is_sure
    assert not group(Lines(FIVE, shipped("drive_and_kick"), FIBA)).is_sure
    assert not group(Lines(OWN, shipped("drive_and_kick"), FIBA)).is_sure


def test_a_formation_of_the_same_ring_begins_with_what_is_known_of_the_shipped_one() -> None:
    key = digest(movements((changed_step(),)))
    for name, formation in FORMATIONS.items():
        assert group(Lines(formation, DEFAULT, FIBA)).row == load(name).rows.get(key)
    assert group(Lines(OWN, DEFAULT, FIBA)).row == group(Lines(FIVE, DEFAULT, FIBA)).row is not None
