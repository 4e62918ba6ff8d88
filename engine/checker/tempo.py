"""What only shows in motion: routes through a team-mate, and more than three seconds in the lane."""

from __future__ import annotations

from dataclasses import dataclass, field

from engine.alignment import Position
from engine.checker.explore import Explored
from engine.checker.findings import Notebook
from engine.court import Court
from engine.formations import Formation
from engine.moves import Step


@dataclass(slots=True)
class Tempo:
    """Looks at each different set of movements once."""

    court: Court
    formation: Formation
    looked_at: set[str] = field(default_factory=set)

    def note(self, book: Notebook, done: Explored, position: Position, steps: tuple[Step, ...]) -> None:
        """Write down what is wrong with the steps that lead on from a position."""
