"""The standing check of what a coach would see, over everything that can be played: see ``seen.py``."""

from __future__ import annotations

from engine.motion.clearance import Memory
from tests.engine.motion.conftest import Floor
from tests.engine.motion.seen import oddities


def test_nothing_odd_is_seen_in_any_movement(floor: Floor) -> None:
    memory = Memory()
    found = [
        f"{oddity.what} ({oddity.how:.2f}), who began at {oddity.who}: {one.name}"
        for one in floor.played
        for oddity in oddities(one, floor.court, memory)
    ]
    assert not found, f"{len(found)}\n" + "\n".join(found[:20])
