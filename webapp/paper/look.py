"""How diagrams are drawn: sizes in centimetres of the floor, the numbers on the discs, the way up."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from webapp.paper.floor import View

#: A player's disc and the space round it, centimetres of the floor; larger in large print.
RADIUS: Final = 52.0
LARGE: Final = 1.25
GAP: Final = 7.0


@dataclass(frozen=True, slots=True)
class Look:
    """How a diagram is drawn. ``faces``: the number on each disc, by place. ``size``: more in large print."""

    view: View
    faces: Mapping[int, str]
    size: float = 1.0

    @property
    def radius(self) -> float:
        """Radius of a disc, centimetres of the floor."""
        return RADIUS * self.size

    @property
    def room(self) -> float:
        """Half of the least distance between two discs, centimetres of the floor."""
        return self.radius + GAP * self.size
