"""Every different timeline of one formation on one court, built once for all tests that look at it."""

from __future__ import annotations

from dataclasses import dataclass

import pytest

from engine.floor.court import Court, half_court
from engine.floor.formations import FORMATIONS, Formation
from tests.engine.motion.reachable import FLOORS, Played, played


@dataclass(frozen=True)
class Floor:
    formation: Formation
    court: Court
    played: list[Played]


@pytest.fixture(scope="session", params=FLOORS, ids=lambda names: "-".join(names))
def floor(request: pytest.FixtureRequest) -> Floor:
    formation, court = request.param
    return Floor(FORMATIONS[formation], half_court(court), played(formation, court))
