"""The trade's notation as marks: each kind of movement by the style of its line alone.

A cut is a whole line with a head, a pass a dashed one, a dribble a wavy one; a screen ends in a bar across
the line, and two short bars across it are a hand-off (FIBA/WABC Coaches Manual, "Understanding diagrams").
Lengths in centimetres of the floor, times ``size``.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import ceil, hypot, pi, sin
from typing import Final

from webapp.paper.marks import XY, Mark, Stroke, Who, closed, through

#: Between the points of a resampled line.
STEP: Final = 4.0

LINE: Final = 9.0
HEAD: Final = 34.0
HALF: Final = 15.0
WAVE: Final = 38.0
HEIGHT: Final = 12.0
BAR: Final = 34.0
DASH: Final = (22.0, 17.0)


def length(points: Sequence[XY]) -> float:
    """Return how long the line through ``points`` is."""
    return sum(hypot(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(points))


def even(points: Sequence[XY]) -> list[XY]:
    """Return the line with its points ``STEP`` apart or a little less, its ends kept."""
    total = length(points)
    count = max(1, ceil(total / STEP))
    made, at, before = [points[0]], 0, 0.0
    if count == 1:
        return [*made, points[-1]]
    a, b = points[0], points[1]
    piece = hypot(b[0] - a[0], b[1] - a[1])
    for k in range(1, count):
        want = total * k / count
        while before + piece < want and at < len(points) - 2:
            before, at = before + piece, at + 1
            a, b = points[at], points[at + 1]
            piece = hypot(b[0] - a[0], b[1] - a[1])
        part = (want - before) / piece if piece else 0.0
        made.append((a[0] + part * (b[0] - a[0]), a[1] + part * (b[1] - a[1])))
    return [*made, points[-1]]


def heading(points: Sequence[XY], back: int = 4) -> XY:
    """Return the direction a line ends in, as a unit vector."""
    (x0, y0), (x1, y1) = points[max(0, len(points) - 1 - back)], points[-1]
    far = hypot(x1 - x0, y1 - y0) or 1.0
    return (x1 - x0) / far, (y1 - y0) / far


def arrow(points: Sequence[XY], size: float, of: Who, kind: str = "cut") -> list[Mark]:
    """Return an arrow along evenly spaced ``points``."""
    dash = (DASH[0] * size, DASH[1] * size) if kind in ("pass", "shot") else ()
    shaft = _shaft(points, size)
    return [Stroke(through(shaft), LINE * size, kind, of, dash=dash, round=not dash), _head(points, size, of)]


def plain(points: Sequence[XY], size: float, of: Who) -> list[Mark]:
    """Return a line without a head."""
    return [Stroke(through(points), LINE * size, "cut", of)]


def wavy(points: Sequence[XY], size: float, of: Who, *, pointed: bool = True) -> list[Mark]:
    """Return a dribble along evenly spaced ``points``, with a head if ``pointed``."""
    body = _shaft(points, size) if pointed else list(points)
    # Flat where the head begins, and growing from nothing, so that the line does not start aside.
    flat = round(8 * size / STEP)
    # Whole waves only, so that every dribble looks alike at its end.
    run = max(1, len(body) - 1 - flat)
    waves = max(1, round(run * STEP / (WAVE * size)))
    waved: list[XY] = []
    for i, (x, y) in enumerate(body):
        a, b = body[max(0, i - 1)], body[min(len(body) - 1, i + 1)]
        far = hypot(b[0] - a[0], b[1] - a[1]) or 1.0
        off = sin(2 * pi * waves * i / run) * HEIGHT * size if i < run else 0.0
        waved.append((x - (b[1] - a[1]) / far * off, y + (b[0] - a[0]) / far * off))
    line: Mark = Stroke(through(waved), LINE * size, "dribble", of)
    return [line, _head(points, size, of)] if pointed else [line]


def screen(points: Sequence[XY], size: float, of: Who) -> list[Mark]:
    """Return a line that ends in a bar across."""
    return [
        Stroke(through(points), LINE * size, "cut", of),
        bar(points[-1], heading(points), size, of, "screen"),
    ]


def hand_off(at: XY, along: XY, size: float, of: Who) -> list[Mark]:
    """Return two short bars across a line."""
    gap = 10 * size
    return [
        bar((at[0] + way * along[0] * gap, at[1] + way * along[1] * gap), along, 0.75 * size, of, "hand")
        for way in (-1, 1)
    ]


def bar(at: XY, along: XY, size: float, of: Who, kind: str) -> Mark:
    """Return a bar across the direction ``along``."""
    nx, ny = -along[1] * BAR * size, along[0] * BAR * size
    ends = ((at[0] - nx, at[1] - ny), (at[0] + nx, at[1] + ny))
    return Stroke(through(ends), 1.3 * LINE * size, kind, of, round=False)


def _shaft(points: Sequence[XY], size: float) -> list[XY]:
    left = max(2, len(points) - round(0.8 * HEAD * size / STEP))
    return list(points[:left])


def _head(points: Sequence[XY], size: float, of: Who) -> Mark:
    (x, y), (dx, dy) = points[-1], heading(points, round(HEAD * size / STEP))
    bx, by = x - dx * HEAD * size, y - dy * HEAD * size
    nx, ny = -dy * HALF * size, dx * HALF * size
    corners = ((x, y), (bx + nx, by + ny), (bx - nx, by - ny))
    return Stroke(closed(corners), 0.0, "head", of, fill=0.0)
