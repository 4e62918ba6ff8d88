"""Court markings against an independent drawing of the same courts: the package sportypy 1.0.0.

It looks along the court, its basket on the right: its x runs toward the baseline, its y across. Its lines
are filled polygons in metres (FIBA) or feet. Its lists hold [current, older] figures; the older ones are
drawn too, invisible or second. Tolerance 2 mm: it rounds inches to four decimals of a foot and circles to
polygons.
"""

from __future__ import annotations

import warnings
from functools import cache
from typing import Any

import pytest
from shapely.geometry import LineString, Point, Polygon
from shapely.ops import unary_union

from engine.floor.court import Arc, Circle, Rect, Segment, half_court

TOLERANCE_M = 0.002
CLASSES = {"fiba": "FIBACourt", "nba": "NBACourt", "ncaa": "NCAACourt", "nfhs": "NFHSCourt"}
COURTS = tuple(CLASSES)


@cache
def theirs(name: str, feature: str) -> tuple[Polygon, ...]:
    """The visible polygons of a kind at one end, in our coordinates."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # it and its plotting libraries use deprecated calls
        # Only now: they take seconds to load, and every worker looks at this file.
        from sportypy.surfaces import basketball

        court = getattr(basketball, CLASSES[name])()
    unit = 1.0 if name == "fiba" else 0.3048
    basket = court.court_params["court_length"] / 2 - court.court_params["basket_center_to_baseline"]
    found = []
    for item in court._features:
        if type(item).__name__ != feature or item.x_anchor <= 0 or not item.visible:
            continue
        placed: Any = item._translate_feature()
        xs, ys = placed["y"] * unit, (basket - placed["x"]) * unit
        polygon = Polygon(zip(xs, ys, strict=True)).buffer(0)
        if not polygon.is_empty:
            found.append(polygon)
    return tuple(found)


def ours(name: str, kind: str) -> list[LineString]:
    lines = []
    for mark in half_court(name).markings:
        if mark.kind != kind:
            continue
        match mark:
            case Segment(start=start, end=end):
                lines.append(LineString([start, end]))
            case Arc(first=first, last=last):
                steps = [first + (last - first) * i / 400 for i in range(401)]
                lines.append(LineString([mark.at(angle) for angle in steps]))
            case Circle(centre=centre, radius=radius):
                lines.append(LineString(Point(centre).buffer(radius, quad_segs=200).exterior.coords))
            case Rect(low=low, high=high):
                corners = [low, (high.x, low.y), high, (low.x, high.y), low]
                lines.append(LineString(corners))
    return lines


def furthest(lines: list[LineString], polygons: tuple[Polygon, ...]) -> float:
    """How far any vertex of our lines is from the outline of their paint."""
    outline = unary_union(polygons).boundary
    return max(outline.distance(Point(xy)) for line in lines for xy in line.coords)


@pytest.mark.parametrize("name", COURTS)
@pytest.mark.parametrize(
    ("kind", "feature"),
    [
        ("three_point", "ThreePointLine"),
        ("lane", "FreeThrowLaneBoundary"),
        ("board", "Backboard"),
        ("ring", "Net"),  # what hangs inside the ring: its drawing of the ring breaks where it is bolted on
        ("no_charge", "RestrictedArc"),
        ("lane_mark", "LaneSpaceMark"),
    ],
)
def test_our_lines_lie_on_an_edge_of_their_paint(name: str, kind: str, feature: str) -> None:
    lines = ours(name, kind)
    if name == "nfhs" and kind in ("no_charge", "lane_mark"):
        assert lines == []
        return
    # The first three-point line is the current one; NCAA's second is the older.
    polygons = theirs(name, feature)[:1] if kind == "three_point" else theirs(name, feature)
    if kind == "lane_mark" and name == "ncaa":
        # It makes these marks 9 in deep; the NCAA diagram of 2019 says 8. Compare their ends along the lane.
        spans = sorted({(round(p.bounds[1], 2), round(p.bounds[3], 2)) for p in polygons})
        assert spans == sorted({(round(li.bounds[1], 2), round(li.bounds[3], 2)) for li in lines})
        return
    assert furthest(lines, polygons) <= TOLERANCE_M


@pytest.mark.parametrize("name", COURTS)
def test_outer_edges_are_the_outer_edges(name: str) -> None:
    line = theirs(name, "ThreePointLine")[0]
    left, bottom, right, top = unary_union(ours(name, "three_point")).bounds
    assert (left, bottom, right, top) == pytest.approx(line.bounds, abs=TOLERANCE_M)
    assert unary_union(ours(name, "lane")).bounds == pytest.approx(
        theirs(name, "FreeThrowLaneBoundary")[0].bounds, abs=TOLERANCE_M
    )


@pytest.mark.parametrize("name", COURTS)
def test_free_throw_circle(name: str) -> None:
    half = ours(name, "free_throw_circle")[0]
    polygon = theirs(name, "FreeThrowCircleOutline")[0]
    assert furthest([half], (polygon,)) <= TOLERANCE_M
    assert half.bounds[3] == pytest.approx(polygon.bounds[3], abs=TOLERANCE_M)


@pytest.mark.parametrize("name", COURTS)
def test_half_court(name: str) -> None:
    court = half_court(name)
    (floor,) = theirs(name, "HalfCourt")
    assert (*court.box[0], *court.box[1]) == pytest.approx(floor.bounds, abs=TOLERANCE_M)
