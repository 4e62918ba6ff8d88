"""What a coach drew by hand over a step, as marks of its diagram, in black and grey.

Colours are told apart on paper as on the screen: a plain line, one with a light seam, one with an edge.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import hypot
from typing import Final

from webapp.boards.ink import Drawn
from webapp.paper import notation
from webapp.paper.floor import Plan
from webapp.paper.marks import XY, Mark, Stroke, through

#: The tools in the order of their index (static/js/ink/model.js).
_TOOLS: Final = ("pen", "marker", "cut", "pass", "dribble", "screen", "hand")
_SEAM, _EDGE = 1, 2

#: Widths in centimetres of the floor, as on the screen, and the shades of what is not black.
_PEN: Final = 12.0
_MARKER: Final = 46.0
_MARKED: Final = 0.84
_EDGED: Final = 0.5
_RIM: Final = 5.0

#: A shorter line of an arrow is no arrow, centimetres.
_SHORT: Final = 24.0
#: Points to each side over which an arrow is made smooth.
_SMOOTH: Final = 5


def under(strokes: Sequence[Drawn], seen: Plan, size: float) -> list[Mark]:
    """Return what lies under everything that is played: the highlighter."""
    return [
        mark for stroke in strokes if _TOOLS[stroke.tool] == "marker" for mark in _marks(stroke, seen, size)
    ]


def over(strokes: Sequence[Drawn], seen: Plan, size: float) -> list[Mark]:
    """Return all else that was drawn."""
    return [
        mark for stroke in strokes if _TOOLS[stroke.tool] != "marker" for mark in _marks(stroke, seen, size)
    ]


def _marks(stroke: Drawn, seen: Plan, size: float) -> list[Mark]:
    points = [seen.inside(seen.at((x / 100, y / 100)), 0.0) for x, y, _ in stroke.points]
    if len(points) == 1:
        points = [points[0], (points[0][0] + 0.1, points[0][1])]
    lines = [mark for mark in _shape(_TOOLS[stroke.tool], points, size) if isinstance(mark, Stroke)]
    named = [replace(line, kind="ink") for line in lines]
    if stroke.colour == _SEAM:
        return [*named, *(_thin(line) for line in named if line.fill is None)]
    if stroke.colour == _EDGE and _TOOLS[stroke.tool] == "marker":
        return [replace(line, shade=_MARKED - 0.16) for line in named]
    if stroke.colour == _EDGE:
        wide = [replace(line, width=line.width + _RIM * size) for line in named]
        return [*wide, *(_grey(line) for line in named)]
    return list(named)


def _thin(line: Stroke) -> Stroke:
    return replace(line, width=0.34 * line.width, shade=1.0)


def _grey(line: Stroke) -> Stroke:
    return replace(line, shade=_EDGED, fill=None if line.fill is None else _EDGED)


def _shape(tool: str, points: Sequence[XY], size: float) -> list[Mark]:
    if tool == "pen":
        return [Stroke(through(points), _PEN * size, "ink")]
    if tool == "marker":
        return [Stroke(through(points), _MARKER, "ink", shade=_MARKED)]
    line = _smooth(notation.even(points))
    long = notation.length(line) > _SHORT * size
    if tool == "hand":
        along = notation.heading(line, 8) if long else (1.0, 0.0)
        return [
            *(notation.plain(line, size, 0) if long else []),
            *notation.hand_off(points[-1], along, size, 0),
        ]
    if not long:
        return notation.plain(points, size, 0)
    if tool == "dribble":
        return notation.wavy(line, size, 0)
    if tool == "screen":
        return notation.screen(line, size, 0)
    return notation.arrow(line, size, 0, tool)


def _smooth(points: Sequence[XY]) -> list[XY]:
    made: list[XY] = []
    for i in range(len(points)):
        reach = min(_SMOOTH, i, len(points) - 1 - i)
        near = points[i - reach : i + reach + 1]
        made.append((sum(x for x, _ in near) / len(near), sum(y for _, y in near) / len(near)))
    return [
        a for i, a in enumerate(made) if not i or hypot(a[0] - made[i - 1][0], a[1] - made[i - 1][1]) > 0
    ] or made
