"""A cutter's default choice and the ball action after it as one action: whoever is moved on runs once."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from engine.game.steps import Move, Step

#: What a player does from the spot he has just reached: he gets there first, and then plays his part.
OWN_PART: Final = frozenset(
    (
        "cut",
        "back_cut",
        "screened_cut",
        "come_off",
        "screen_away",
        "set_screen",
        "help_screen",
        "roll",
        "pop",
    )
)


def runs_once(steps: Sequence[Step]) -> Move | None:
    """Return the one run of a cutter whom the ball action of a composite moves on, else ``None``.

    ``origin``: the lane spot he leaves, ``target``: where he ends, ``manner``: of the ball action's move. He
    runs twice where the ball action is his own cut or screen or sends him off one, or where it names him and
    brings him no ball.
    """
    if len(steps) != 2 or not steps[0].action.is_lane_choice or len(steps[0].moves) != 1:
        return None
    (first,), second = steps[0].moves, steps[1]
    on = next((move for move in second.moves if move.origin == first.target), None)
    if on is None or first.manner in OWN_PART or on.manner in OWN_PART:
        return None
    if second.action.spot == first.target and second.ball.kind != "hand_off":
        return None
    return Move(first.origin, on.target, on.manner)
