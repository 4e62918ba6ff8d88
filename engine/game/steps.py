"""Steps: an action and all it causes, as values."""

from __future__ import annotations

from typing import NamedTuple

from engine.floor.alignment import Alignment
from engine.rules.actions import Action


class Move(NamedTuple):
    """One player's part in a step: from a spot to a spot, and in what manner (see ``Step``)."""

    origin: str
    target: str
    manner: str


class BallMove(NamedTuple):
    """What the ball does: ``kind`` is pass, hand_off, dribble, hold or shot; spots are the holders'."""

    kind: str
    origin: str
    target: str


class Step(NamedTuple):
    """An action and all it causes.

    ``moves`` holds only those who leave their spot, in the order of their spots' names. Manners: cut,
    back_cut, screened_cut, fill, rotate, slide (along the baseline), cover, lift, drive, dribble,
    take_hand_off, replace, screen_away, come_off, relocate, roll, pop, post_up, flash, set_screen.
    """

    before: Alignment
    action: Action
    after: Alignment
    moves: tuple[Move, ...]
    ball: BallMove

    @property
    def is_freed(self) -> bool:
        """Whether the ball is caught by a mate whose defender was screened the action before."""
        return self.ball.kind == "pass" and self.before.freed == self.ball.target

    @property
    def travel(self) -> dict[str, str]:
        """Where those go who leave their spot, by that spot."""
        return {move.origin: move.target for move in self.moves}

    @property
    def is_shot(self) -> bool:
        """Whether it ends the possession."""
        return self.ball.kind == "shot"
