"""What the engine works out for tests in JavaScript: chains played at random, and what could be tapped."""

from __future__ import annotations

import random
from typing import Any

from engine.floor.alignment import start
from engine.floor.formations import FORMATIONS
from engine.game.play import advance, offers
from tests.words import spoken_table
from webapp.wire.engine_values import floor_wire, offers_wire, position_wire, step_wire

COURT = "fiba"
STEPS = 8
CHAINS = 2


def supplied() -> dict[str, Any]:
    """Return the words, and a few seeded chains of each formation as they cross the wire."""
    chains = [_chain(name, seed) for name in FORMATIONS for seed in range(CHAINS)]
    return {"words": spoken_table(), "chains": chains}


def _chain(name: str, seed: int) -> dict[str, Any]:
    dice, formation = random.Random(f"{name} {seed}"), FORMATIONS[name]
    position = start(formation)
    made: dict[str, Any] = {
        "formation": name,
        "floor": floor_wire(COURT, formation),
        "start": position_wire(position),
        "steps": [],
        "offers": [offers_wire(position, formation, COURT, 1.0)],
    }
    for _ in range(STEPS):
        found = [offer for offer in offers(position, formation) if offer.actions[-1].kind != "shot"]
        actions = dice.choice(found).actions
        made["steps"].append(step_wire(position, actions, formation, COURT, 1.0))
        position, _ = advance(position, actions, formation)
        made["offers"].append(offers_wire(position, formation, COURT, 1.0))
    return made
