"""Whoever and whatever stands on the floor, as marks: players, and in a drawing defenders, a coach, cones.

An attacker is a numbered circle, a defender an X with his number and no circle round it, a cone a triangle
(FIBA/WABC Coaches Manual, "Understanding diagrams"); a coach is a C in a square (common practice, no source).
"""

from __future__ import annotations

from typing import Final

from webapp.paper.fonts import CAPITAL, width
from webapp.paper.look import Look
from webapp.paper.marks import LYING, Disc, Mark, Stroke, Text, Who, box, closed

#: How much room those beside the five take, of a player's disc.
_EXTRA: Final = 0.84
_CONE: Final = 0.5

#: Radius of the ball, of a player's disc.
BALL: Final = 0.36


def room(who: Who, look: Look) -> float:
    """Return half of the least distance to somebody of the same kind, centimetres of the floor."""
    if isinstance(who, int):
        return look.room
    return look.room * (_CONE if who == LYING or who.startswith("k") else _EXTRA)


def figure(who: Who, x: float, y: float, look: Look, *, edge: float = 6.0) -> list[Mark]:
    """Return a player, by his number, or who else is on the floor, by his name, with his middle at (x, y)."""
    if isinstance(who, int):
        return _player(who, x, y, look, edge)
    if who == LYING:
        return [ball(x, y, look)]
    if who.startswith("k"):
        return _cone(who, x, y, look)
    if who == "c":
        half = 0.66 * look.radius
        square = box(x - half, y - half, x + half, y + half)
        frame = Stroke(square, 6.0 * look.size, "coach", who, fill=1.0, round=False)
        return [frame, *_letters(who, x, y, 1.1 * look.radius, "C", "coach")]
    words, tall = who.upper(), 1.16 * look.radius
    # What passes under letters without a circle must not be read as part of them.
    wide, high = width(words, tall, bold=True) / 2 + 2 * look.size, CAPITAL * tall / 2 + 6 * look.size
    clear = Stroke(box(x - wide, y - high, x + wide, y + high), 0.0, "clear", who, fill=1.0, round=False)
    return [clear, *_letters(who, x, y, tall, words, "defender")]


def left(x: float, y: float, look: Look, of: int) -> Mark:
    """Return where player ``of`` leaves the ball: a small open circle, as it does not lie there yet."""
    return Disc(x, y, BALL * look.radius, 5.0 * look.size, "left", of)


def ball(x: float, y: float, look: Look, of: int = 0) -> Mark:
    """Return the ball: beside player ``of``, or lying on the floor, where it is a filled dot alone."""
    return Disc(x, y, BALL * look.radius, 5.0 * look.size, "ball", of, shade=1.0, fill=0.0)


def _player(who: int, x: float, y: float, look: Look, edge: float) -> list[Mark]:
    face, radius = look.faces[who], look.radius
    tall = min(1.3 * radius, 1.5 * radius / max(width(face, 1.0, bold=True), 0.01))
    return [
        Disc(x, y, radius, edge * look.size, "disc", who),
        *_letters(who, x, y, tall, face, "number"),
    ]


def _letters(who: Who, x: float, y: float, tall: float, words: str, kind: str) -> list[Mark]:
    return [Text(x, y + CAPITAL * tall / 2, tall, words, kind, who, "middle", bold=True)]


def _cone(who: str, x: float, y: float, look: Look) -> list[Mark]:
    half, tall = 0.42 * look.radius, 0.42 * look.radius
    corners = ((x, y - tall), (x + half, y + 0.8 * tall), (x - half, y + 0.8 * tall))
    return [Stroke(closed(corners), 6.0 * look.size, "cone", who, fill=1.0)]
