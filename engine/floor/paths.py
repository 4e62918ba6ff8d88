"""Routes on the floor: smooth curves that are walked by length, and their SVG text.

A path is kept as cubic Bézier curves whose control points are whole centimetres, because that is what a
screen is sent: the engine measures and tests the very curve the screen draws. Lengths and points in metres.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from math import ceil, hypot
from typing import Final

from engine.floor.markings import Arc, Circle, Marking, Point, Rect, Segment

#: Samples a path is measured by: at least this many pieces over the whole path, ...
_PIECES: Final = 24
#: ... and at least this many over each of its curves.
_PIECES_A_CURVE: Final = 12

_Cm = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Path:
    """A route. ``controls``: whole centimetres; a start, then three points for each cubic Bézier curve.

    Two paths with the same controls are equal. Raises ``ValueError`` if the number of controls does not fit.
    """

    controls: tuple[_Cm, ...]
    length: float = field(init=False, compare=False)
    _xs: tuple[float, ...] = field(init=False, compare=False, repr=False)
    _ys: tuple[float, ...] = field(init=False, compare=False, repr=False)
    _along: tuple[float, ...] = field(init=False, compare=False, repr=False)

    def __post_init__(self) -> None:
        """Measure the path once, so that :meth:`point` is a look-up."""
        if len(self.controls) < 4 or len(self.controls) % 3 != 1:
            raise ValueError(f"A path needs 1 + 3n control points, not {len(self.controls)}.")
        xs, ys = _samples(self.controls)
        along = [0.0]
        for i in range(1, len(xs)):
            along.append(along[-1] + hypot(xs[i] - xs[i - 1], ys[i] - ys[i - 1]))
        for name, value in (("_xs", xs), ("_ys", ys), ("_along", along)):
            object.__setattr__(self, name, tuple(value))
        object.__setattr__(self, "length", along[-1])

    @property
    def start(self) -> Point:
        """Where the path begins."""
        return Point(self._xs[0], self._ys[0])

    @property
    def end(self) -> Point:
        """Where the path ends."""
        return Point(self._xs[-1], self._ys[-1])

    @property
    def samples(self) -> tuple[Point, ...]:
        """The points the path is measured by, its two ends included."""
        return tuple(map(Point, self._xs, self._ys))

    @property
    def box(self) -> tuple[Point, Point]:
        """Opposite corners of the box the path keeps to, smaller coordinates first."""
        return Point(min(self._xs), min(self._ys)), Point(max(self._xs), max(self._ys))

    def point(self, s: float) -> Point:
        """Return the point ``s`` metres along the path; before its start the start, past its end the end."""
        along = self._along
        if s <= 0.0:
            return Point(self._xs[0], self._ys[0])
        if s >= self.length:
            return Point(self._xs[-1], self._ys[-1])
        i = bisect_right(along, s)
        before = along[i - 1]
        part = (s - before) / (along[i] - before)
        x, y = self._xs[i - 1], self._ys[i - 1]
        return Point(x + part * (self._xs[i] - x), y + part * (self._ys[i] - y))

    def points(self, lengths: Iterable[float]) -> tuple[list[float], list[float]]:
        """Return x and y of :meth:`point` for each of ``lengths``, which must not fall."""
        xs, ys, along, length = self._xs, self._ys, self._along, self.length
        found_xs: list[float] = []
        found_ys: list[float] = []
        i = 1
        for s in lengths:
            if s <= 0.0:
                found_xs.append(xs[0])
                found_ys.append(ys[0])
                continue
            if s >= length:
                found_xs.append(xs[-1])
                found_ys.append(ys[-1])
                continue
            while along[i] <= s:
                i += 1
            before, x, y = along[i - 1], xs[i - 1], ys[i - 1]
            part = (s - before) / (along[i] - before)
            found_xs.append(x + part * (xs[i] - x))
            found_ys.append(y + part * (ys[i] - y))
        return found_xs, found_ys

    def svg(self) -> str:
        """Return SVG path data in whole centimetres: one M with two numbers, one C with six a curve.

        Numbers are separated by single spaces: "M505 505C400 300 200 200 0 90".
        """
        (x, y), *rest = self.controls
        return f"M{x} {y}C" + " ".join(f"{a} {b}" for a, b in rest)


def line(a: tuple[float, float], b: tuple[float, float]) -> Path:
    """Return the straight path from ``a`` to ``b`` (metres)."""
    return Path((_cm(a), _cm(_mix(a, b, 1 / 3)), _cm(_mix(a, b, 2 / 3)), _cm(b)))


def through(points: Sequence[tuple[float, float]]) -> Path:
    """Return a smooth path through ``points`` in order (metres; two or more, else ``ValueError``).

    A Catmull-Rom curve, centripetal so that unevenly spaced points make no loops, in Bézier form. A point
    equal to the one before it, to the centimetre, is dropped.
    """
    kept: list[tuple[float, float]] = []
    for x, y in points:
        if not kept or _cm(kept[-1]) != _cm((x, y)):
            kept.append((x, y))
    if len(points) < 2:
        raise ValueError("A path needs at least two points.")
    if len(kept) == 1:
        return line(kept[0], kept[0])
    if len(kept) == 2:
        return line(kept[0], kept[1])
    # The ends have no neighbour beyond them: mirror the next point in the end.
    ends = [_mix(kept[1], kept[0], 2.0), *kept, _mix(kept[-2], kept[-1], 2.0)]
    controls = [_cm(kept[0])]
    for i in range(1, len(ends) - 2):
        p0, p1, p2, p3 = ends[i - 1 : i + 3]
        d1, d2, d3 = (hypot(b[0] - a[0], b[1] - a[1]) ** 0.5 for a, b in ((p0, p1), (p1, p2), (p2, p3)))
        controls += [_cm(_handle(p0, p1, p2, d1, d2)), _cm(_handle(p3, p2, p1, d3, d2)), _cm(p2)]
    return Path(tuple(controls))


def _handle(
    beyond: tuple[float, float], at: tuple[float, float], toward: tuple[float, float], d1: float, d2: float
) -> tuple[float, float]:
    """Return the Bézier control next to ``at`` of the centripetal curve from ``at`` to ``toward``."""
    scale = 3 * d1 * (d1 + d2)
    keep, gain, lose = 2 * d1 * d1 + 3 * d1 * d2 + d2 * d2, d1 * d1, d2 * d2
    return (
        (gain * toward[0] - lose * beyond[0] + keep * at[0]) / scale,
        (gain * toward[1] - lose * beyond[1] + keep * at[1]) / scale,
    )


def _mix(a: tuple[float, float], b: tuple[float, float], part: float) -> tuple[float, float]:
    return a[0] + part * (b[0] - a[0]), a[1] + part * (b[1] - a[1])


def _cm(point: tuple[float, float]) -> _Cm:
    return round(point[0] * 100), round(point[1] * 100)


def _samples(controls: tuple[_Cm, ...]) -> tuple[list[float], list[float]]:
    """Return x and y, in metres, of points spread over the curves."""
    curves = len(controls) // 3
    pieces = max(_PIECES_A_CURVE, ceil(_PIECES / curves))
    xs, ys = [controls[0][0] / 100], [controls[0][1] / 100]
    for first in range(0, len(controls) - 1, 3):
        (x0, y0), (x1, y1), (x2, y2), (x3, y3) = controls[first : first + 4]
        # Measured from the curve's start, so that standing still has no length at all.
        x, dx1, dx2, dx3 = x0 / 100, x1 - x0, x2 - x0, x3 - x0
        y, dy1, dy2, dy3 = y0 / 100, y1 - y0, y2 - y0, y3 - y0
        for b, c, d in _weights(pieces):
            xs.append(x + b * dx1 + c * dx2 + d * dx3)
            ys.append(y + b * dy1 + c * dy2 + d * dy3)
        # The very end without rounding, so that spots are met exactly.
        xs[-1], ys[-1] = x3 / 100, y3 / 100
    return xs, ys


@lru_cache(maxsize=_PIECES + 1)
def _weights(pieces: int) -> tuple[tuple[float, float, float], ...]:
    """Return the weights of the last three controls, over 100 (cm to m), at t = 1/pieces ... 1."""
    steps = (i / pieces for i in range(1, pieces + 1))
    return tuple((3 * t * (1 - t) ** 2 / 100, 3 * t * t * (1 - t) / 100, t**3 / 100) for t in steps)


def marking_svg(marking: Marking) -> str:
    """Return SVG path data of a court marking in whole centimetres (y grows away from the baseline)."""
    match marking:
        case Segment(start=start, end=end):
            return f"M{_pair(start)}L{_pair(end)}"
        case Rect(low=low, high=high):
            (x0, y0), (x1, y1) = _cm(low), _cm(high)
            return f"M{x0} {y0}H{x1}V{y1}H{x0}Z"
        case Circle(kind=kind, centre=centre, radius=radius):
            return _arc_svg(Arc(kind, centre, radius, 0.0, 360.0)) + "Z"
        case Arc():
            return _arc_svg(marking)


def _arc_svg(arc: Arc) -> str:
    # In pieces of 120 degrees at most: rounding could push a half circle over into the wrong half.
    pieces = max(1, ceil((arc.last - arc.first) / 120.0))
    step = (arc.last - arc.first) / pieces
    radius = round(arc.radius * 100)
    text = f"M{_pair(arc.at(arc.first))}"
    for i in range(1, pieces + 1):
        text += f"A{radius} {radius} 0 0 1 {_pair(arc.at(arc.first + i * step))}"
    return text


def _pair(point: Point) -> str:
    x, y = _cm(point)
    return f"{x} {y}"
