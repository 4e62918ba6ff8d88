"""What drawings are made of: lines, discs and text, which every writer (SVG, PDF) draws the same way.

A mark has no unit of its own: a diagram's marks are in centimetres of the floor, a page's in millimetres.
x to the right, y down. Shades are from 0, black, to 1, white.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from math import cos, pi, sin, tan
from typing import Final

XY = tuple[float, float]

#: Whom a mark stands for: a player's number, "x1" to "x5" for defenders, "c" for the coach, "k1" for a cone.
Who = int | str

#: The ball where nobody has it.
LYING: Final = "ball"

#: One piece of a path: "M" or "L" with a point, "C" with three points, "Z" with none.
Piece = tuple[str, tuple[float, ...]]


@dataclass(frozen=True, slots=True)
class Stroke:
    """A line, filled if ``fill`` is given. ``dash``: lengths of line and gap in turn; empty for a whole line.

    ``kind`` says what it stands for, ``of`` for whom (0 for nobody).
    """

    pieces: tuple[Piece, ...]
    width: float
    kind: str
    of: Who = 0
    shade: float = 0.0
    fill: float | None = None
    dash: tuple[float, ...] = ()
    round: bool = True

    @property
    def points(self) -> list[XY]:
        """The points it is drawn through, control points included."""
        return [(given[i], given[i + 1]) for _, given in self.pieces for i in range(0, len(given), 2)]


@dataclass(frozen=True, slots=True)
class Disc:
    """A circle about (x, y)."""

    x: float
    y: float
    radius: float
    width: float
    kind: str
    of: Who = 0
    shade: float = 0.0
    fill: float | None = 1.0


@dataclass(frozen=True, slots=True)
class Text:
    """Words on one line. (x, y): on its baseline, at its ``anchor``: start, middle or end."""

    x: float
    y: float
    size: float
    words: str
    kind: str
    of: Who = 0
    anchor: str = "start"
    bold: bool = False
    shade: float = 0.0


Mark = Stroke | Disc | Text


@dataclass(frozen=True, slots=True)
class Drawing:
    """Marks in their order, within a box from (0, 0) to (width, height)."""

    width: float
    height: float
    marks: tuple[Mark, ...]


def placed(marks: Iterable[Mark], x: float, y: float, scale: float) -> list[Mark]:
    """Return the marks ``scale`` times as large, with their origin at (x, y)."""
    made: list[Mark] = []
    for mark in marks:
        match mark:
            case Stroke():
                pieces = tuple(
                    (letter, tuple((x, y)[i % 2] + scale * value for i, value in enumerate(given)))
                    for letter, given in mark.pieces
                )
                dash = tuple(scale * length for length in mark.dash)
                made.append(replace(mark, pieces=pieces, width=scale * mark.width, dash=dash))
            case Disc():
                made.append(
                    replace(
                        mark,
                        x=x + scale * mark.x,
                        y=y + scale * mark.y,
                        radius=scale * mark.radius,
                        width=scale * mark.width,
                    )
                )
            case Text():
                made.append(replace(mark, x=x + scale * mark.x, y=y + scale * mark.y, size=scale * mark.size))
    return made


def through(points: Sequence[XY]) -> tuple[Piece, ...]:
    """Return the path of straight pieces through ``points``."""
    return tuple(("L" if i else "M", point) for i, point in enumerate(points))


def closed(points: Sequence[XY]) -> tuple[Piece, ...]:
    """Return the outline of the polygon with these corners."""
    return (*through(points), ("Z", ()))


def box(x0: float, y0: float, x1: float, y1: float) -> tuple[Piece, ...]:
    """Return the outline of a rectangle."""
    return closed(((x0, y0), (x1, y0), (x1, y1), (x0, y1)))


def arc(centre: XY, radius: float, first: float, last: float) -> list[XY]:
    """Return the start and, for each curve of 45 degrees at most, three points of an arc (radians)."""
    pieces = max(1, round(abs(last - first) / (pi / 4) + 0.49))
    step = (last - first) / pieces
    reach = 4 / 3 * tan(step / 4) * radius
    points = [(centre[0] + radius * cos(first), centre[1] + radius * sin(first))]
    for i in range(pieces):
        a, b = first + i * step, first + (i + 1) * step
        end = (centre[0] + radius * cos(b), centre[1] + radius * sin(b))
        x, y = points[-1]
        points += [
            (x - reach * sin(a), y + reach * cos(a)),
            (end[0] + reach * sin(b), end[1] - reach * cos(b)),
            end,
        ]
    return points


def curved(points: Sequence[XY]) -> tuple[Piece, ...]:
    """Return the path from a start and three points for each curve."""
    made: list[Piece] = [("M", points[0])]
    for i in range(1, len(points), 3):
        made.append(("C", tuple(value for point in points[i : i + 3] for value in point)))
    return tuple(made)
