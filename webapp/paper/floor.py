"""From metres on the floor to a diagram, and the floor itself: its markings as marks.

A diagram is in centimetres of the floor, with a margin beyond the lines.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import radians
from typing import Final

from engine.floor.court import Court, half_court, spots
from engine.floor.formations import Formation
from engine.floor.markings import Arc, Circle, Marking, Point, Rect, Segment
from webapp.paper.marks import XY, Mark, Piece, Stroke, arc, box, curved, through

#: Floor shown beyond the lines, centimetres: room for a disc on a spot at the very edge. Where a drawing has
#: somebody out of bounds there is more, up to so much.
APRON: Final = 45.0
APRON_MOST: Final = 200.0

#: How much of the floor is shown, centimetres from the baseline: everybody's spots with room behind the top.
LEAST: Final = 1000.0
BEHIND: Final = 100.0

_LINE: Final = 5.0
_DASH: Final = (30.0, 26.0)
_LINE_SHADE: Final = 0.55
_LANE_SHADE: Final = 0.94


@dataclass(frozen=True, slots=True)
class View:
    """How the floor is looked at. ``turned``: basket at the bottom. ``mirrored``: left and right changed."""

    turned: bool = False
    mirrored: bool = False


@dataclass(frozen=True, slots=True)
class Plan:
    """A half court laid into a diagram, ``width`` by ``height`` centimetres.

    ``behind``: floor shown beyond the baseline, centimetres.
    """

    court: Court
    view: View
    width: float
    height: float
    behind: float = APRON

    def at(self, point: XY) -> XY:
        """Return where a place on the floor (metres) lies in the diagram."""
        down = -1.0 if self.view.turned else 1.0
        right = -down if self.view.mirrored else down
        y = self.behind + 100.0 * (point[1] - self.court.baseline)
        return self.width / 2 + right * 100.0 * point[0], self.height - y if self.view.turned else y

    def inside(self, place: XY, edge: float) -> XY:
        """Return a place of the diagram, moved to be at least ``edge`` from its border."""
        x, y = place
        return min(self.width - edge, max(edge, x)), min(self.height - edge, max(edge, y))


def plan(
    court_name: str, formation: Formation, view: View, drawn: Sequence[XY] = (), room: float = 0.0
) -> Plan:
    """Return the plan of a court, long enough for the spots of a formation.

    ``drawn``: places (metres) that are to be in the picture as well, each with ``room`` centimetres round it;
    what is far beyond the lines is not.
    """
    court = half_court(court_name)
    far = [100.0 * (y - court.baseline) for _, y in drawn]
    furthest = max(point.y for point in spots(court, formation).values()) - court.baseline
    length = max(LEAST, 100.0 * furthest + BEHIND, *(along + room for along in far))
    length = min(length, 100.0 * court.half_length)
    beside = max((100.0 * abs(x) for x, _ in drawn), default=0.0) - 50.0 * court.width
    side, behind = _apron(beside, room), _apron(max((-along for along in far), default=-room), room)
    return Plan(court, view, 100.0 * court.width + 2 * side, length + behind, behind)


def _apron(out: float, room: float) -> float:
    """Return how much floor is shown beyond a line that somebody stands ``out`` centimetres beyond."""
    return min(APRON_MOST, max(APRON, out + room))


def floor(seen: Plan) -> list[Mark]:
    """Return the marks of the floor, cut off where the plan ends."""
    lane = [seen.at(corner) for corner in seen.court.lane_polygon]
    marks: list[Mark] = [
        Stroke((*through(lane), ("Z", ())), 0.0, "paint", shade=_LANE_SHADE, fill=_LANE_SHADE)
    ]
    for marking in seen.court.markings:
        pieces = _pieces(marking, seen)
        if pieces:
            dash = _DASH if isinstance(marking, Arc) and marking.dashed else ()
            width = 2 * _LINE if marking.kind in ("board", "ring") else _LINE
            shade = 0.2 if marking.kind in ("board", "ring") else _LINE_SHADE
            marks.append(Stroke(pieces, width, f"court-{marking.kind}", shade=shade, dash=dash, round=False))
    return marks


def _pieces(marking: Marking, seen: Plan) -> tuple[Piece, ...]:
    # Just short of the picture's end, so that the line's own width stays inside.
    end = seen.court.baseline + (seen.height - seen.behind - _LINE) / 100.0
    match marking:
        case Rect(kind="boundary"):
            # Open toward the half-way line, which lies beyond the picture.
            (x0, y0), (x1, _) = marking.low, marking.high
            return through([seen.at(point) for point in ((x0, end), (x0, y0), (x1, y0), (x1, end))])
        case Rect(low=low, high=high):
            return box(*seen.at(low), *seen.at(high))
        case Segment(start=start, end=last):
            return () if start.y > end else through([seen.at(start), seen.at(last)])
        case Circle(centre=centre, radius=radius):
            return _curve(seen, centre, radius, 0.0, 360.0)
        case Arc(centre=centre, radius=radius, first=first, last=last):
            return (
                ()
                if centre.y - radius > end or marking.kind == "centre_circle"
                else _curve(seen, centre, radius, first, last)
            )


def _curve(seen: Plan, centre: Point, radius: float, first: float, last: float) -> tuple[Piece, ...]:
    points = arc(centre, radius, radians(first), radians(last))
    return curved([seen.at(point) for point in points])
