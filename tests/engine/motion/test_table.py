"""The shipped tables: made from the present rules and routes, and found by their movements."""

from __future__ import annotations

import random
from functools import cache

import pytest

from engine.floor.court import half_court
from engine.floor.formations import FORMATIONS
from engine.floor.standards import STANDARDS
from engine.motion.scene import Adjustment
from engine.motion.search import Case, cases, entries
from engine.motion.table import digest, load


@cache
def found(name: str) -> dict[str, Case]:
    """Return the cases of a formation."""
    return cases(FORMATIONS[name])


@pytest.mark.parametrize("name", FORMATIONS)
def test_every_movement_that_can_happen_is_known_and_nothing_else(name: str) -> None:
    known = {digest(text) for text in found(name)}
    assert len(known) == len(found(name)), "two sets of movements share a key"
    table = load(name)
    assert not table.rows.keys() & table.clear
    assert table.rows.keys() | table.clear == known


@pytest.mark.parametrize("name", FORMATIONS)
def test_the_search_finds_what_is_in_the_table(name: str) -> None:
    # A sample: a table made from other routes or speeds would differ in most of its rows.
    formation = FORMATIONS[name]
    courts = [half_court(court) for court in STANDARDS]
    simple = {text: case for text, case in found(name).items() if ":drive" not in text}
    for text in random.Random(2).sample(sorted(simple), 60):
        fresh, is_clear = entries(simple[text], courts, formation)
        _, known = load(name).rows.get(digest(text), (frozenset(), {}))
        kept = {
            (" ".join(sorted(spots)) + (f"@{court}" if court else "")): changes
            for (spots, court), changes in known.items()
        }
        assert kept == (fresh if any(fresh.values()) or not is_clear else {}), text


@pytest.mark.parametrize("name", FORMATIONS)
def test_changes_are_small(name: str) -> None:
    for _, known in load(name).rows.values():
        for changes in known.values():
            for change in changes.values():
                assert isinstance(change, Adjustment)
                assert 0.0 <= change.delay <= 0.8
                assert abs(change.bend) <= 3.0
