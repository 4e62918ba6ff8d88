"""Positions written short: ``"LC LW T* RW rim^"`` has the ball at the top, a cutter at the rim."""

from __future__ import annotations

from engine.floor.alignment import Alignment
from engine.floor.formations import FORMATIONS, Formation
from engine.game.moves import resolve
from engine.game.steps import Step
from engine.rules.actions import parse

SHORT = {
    "LC": "left_corner", "LW": "left_wing", "LS": "left_slot", "T": "top", "RS": "right_slot",
    "RW": "right_wing", "RC": "right_corner", "LB": "left_block", "RB": "right_block", "LE": "left_elbow",
    "RE": "right_elbow", "HP": "high_post", "LSC": "left_short_corner", "RSC": "right_short_corner",
    "rim": "rim", "paint": "paint", "rim_left": "rim_left", "rim_right": "rim_right",
}  # fmt: skip

FIVE, FOUR, THREE = (FORMATIONS[name] for name in ("five_out", "four_out_one_in", "three_out_two_in"))


def board(text: str) -> Alignment:
    spots, ball, cutter = [], "", None
    for word in text.split():
        spot = SHORT[word.rstrip("*^")]
        spots.append(spot)
        if word.endswith("*"):
            ball = spot
        if word.endswith("^"):
            cutter = spot
    assert len(set(spots)) == 5
    assert ball
    return Alignment(frozenset(spots), ball, cutter)


def long(text: str) -> str:
    """Return an action's text form with short spot names written out: ``pass:RW`` is pass:right_wing."""
    kind, *rest = text.split(":")
    return ":".join((kind, *(SHORT.get(word, word) for word in rest)))


def step(text: str, action: str, formation: Formation) -> Step:
    return resolve(board(text), parse(long(action)), formation)


def travel(made: Step) -> dict[str, str]:
    """Return who went where, in short names: ``{"T": "rim", "LW": "T"}``."""
    short = {spot: word for word, spot in SHORT.items()}
    return {short[move.origin]: short[move.target] for move in made.moves}
