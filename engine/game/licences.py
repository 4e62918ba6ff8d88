"""Green lights: what each player may choose, and what a cutter would rather do than fill.

A licence belongs to a player, so it is asked of positions (with their lineup), never of alignments.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from engine.floor.alignment import Alignment, Position
from engine.rules.actions import Action
from engine.rules.rule_sets import ALWAYS


@dataclass(frozen=True, slots=True)
class Licence:
    """What one player may do.

    ``may``: the ball actions and lane choices he may take, ``None`` for all that is installed; a shot and a
    fill need no licence. ``lane``: what he does as a cutter before the rules' own default choice: text forms
    or kinds of lane choices, the first that is legal counts.
    """

    may: frozenset[str] | None = None
    lane: tuple[str, ...] = ()

    def allows(self, kind: str) -> bool:
        """Whether he may take an action or lane choice of this kind."""
        return self.may is None or kind in ALWAYS or kind in self.may


FREE: Final = Licence()
Licences = Mapping[int, Licence]


def actor(alignment: Alignment, action: Action) -> str:
    """Return the spot of the player whose choice an action is."""
    chooser = action.about.chooser
    spot = {"handler": alignment.ball, "mate": action.spot, "cutter": alignment.cutter}[chooser]
    assert spot is not None
    return spot


def missing(position: Position, action: Action, licences: Licences) -> int | None:
    """Return the number of the player who may not do this yet, or ``None`` if he may."""
    number = position.player(actor(position.alignment, action))
    return None if licences.get(number, FREE).allows(action.kind) else number
