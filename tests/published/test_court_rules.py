"""Court markings against the published figures, typed out again here and measured on the drawn lines.

Sources, and how they were read: [S] in the named text, [S2] in a text quoting it, [M] from memory, [X] worked
out from the others.

* FIBA: Official Basketball Rules 2020, Art. 2, as published by the Finnish federation [S]; 2024, Art. 2 [S2].
* NBA: Rule 1 [S2].
* NCAA: court diagram of 17 June 2019 [S2].
* NFHS: Basketball Rules Book 2019-20, Rule 1 [S2].
"""

from __future__ import annotations

from typing import Any

import pytest

from engine.floor.court import Arc, Circle, Court, Rect, Segment, half_court

FT = 0.3048
IN = 0.0254
TENTH_MM = 1e-4

COURTS = ("fiba", "nba", "ncaa", "nfhs")


def only(court: Court, kind: str, shape: type[Any]) -> list[Any]:
    return [mark for mark in court.markings if mark.kind == kind and isinstance(mark, shape)]


def check(table: dict[str, float], name: str, measured: float) -> None:
    assert measured == pytest.approx(table[name], abs=TENTH_MM)


@pytest.mark.parametrize("name", COURTS)
def test_half_the_court_between_inner_edges(name: str) -> None:
    # FIBA 28 x 15 m; NBA and NCAA 94 x 50 ft; NFHS 84 x 50 ft.
    length = {"fiba": 28.0, "nba": 94 * FT, "ncaa": 94 * FT, "nfhs": 84 * FT}
    width = {"fiba": 15.0, "nba": 50 * FT, "ncaa": 50 * FT, "nfhs": 50 * FT}
    court = half_court(name)
    (edge,) = only(court, "boundary", Rect)
    check(length, name, 2 * (edge.high.y - edge.low.y))
    check(width, name, edge.high.x - edge.low.x)
    check(length, name, 2 * court.half_length)
    check(width, name, court.width)
    (half_way,) = only(court, "half_way", Segment)
    assert half_way.start.y == half_way.end.y == edge.high.y


@pytest.mark.parametrize("name", COURTS)
def test_basket_board_and_ring(name: str) -> None:
    # FIBA 1.575 and 1.20 m from the baseline; the others 5 ft 3 in (63 in) and 4 ft.
    basket = {"fiba": 1.575, "nba": 5.25 * FT, "ncaa": 63 * IN, "nfhs": 63 * IN}
    board = {"fiba": 1.20, "nba": 4 * FT, "ncaa": 4 * FT, "nfhs": 4 * FT}
    # FIBA board 1.80 m wide [M]; the others 6 ft [M].
    board_width = {"fiba": 1.80, "nba": 6 * FT, "ncaa": 6 * FT, "nfhs": 6 * FT}
    # Ring: FIBA 0.45 m across, 3.05 m up; the others 18 in and 10 ft.
    ring = {"fiba": 0.45, "nba": 18 * IN, "ncaa": 18 * IN, "nfhs": 18 * IN}
    height = {"fiba": 3.05, "nba": 10 * FT, "ncaa": 10 * FT, "nfhs": 10 * FT}
    court = half_court(name)
    (hoop,) = only(court, "ring", Circle)
    (face,) = only(court, "board", Segment)
    assert hoop.centre == (0.0, 0.0)
    check(basket, name, -court.baseline)
    check(board, name, face.start.y - court.baseline)
    check(board_width, name, abs(face.end.x - face.start.x))
    check(ring, name, 2 * hoop.radius)
    check(height, name, court.standard.ring_height)


@pytest.mark.parametrize("name", COURTS)
def test_three_point_line_outer_edge(name: str) -> None:
    radius = {"fiba": 6.75, "nba": 23 * FT + 9 * IN, "ncaa": 22 * FT + 1.75 * IN, "nfhs": 19 * FT + 9 * IN}
    # From the sideline: FIBA 0.90 m; NBA 3 ft; NCAA 40 1/8 in; NFHS none given, 19 ft 9 in from the mid-line.
    from_sideline = {"fiba": 0.90, "nba": 3 * FT, "ncaa": 40.125 * IN, "nfhs": 25 * FT - (19 * FT + 9 * IN)}
    from_middle = {"fiba": 6.60, "nba": 22 * FT, "ncaa": 21 * FT + 7.875 * IN, "nfhs": 19 * FT + 9 * IN}
    court = half_court(name)
    (arc,) = only(court, "three_point", Arc)
    right, left = only(court, "three_point", Segment)
    assert arc.centre == (0.0, 0.0)
    check(radius, name, arc.radius)
    for straight in (right, left):
        assert straight.start.x == straight.end.x
        check(from_middle, name, abs(straight.start.x))
        check(from_sideline, name, court.sideline - abs(straight.start.x))
    assert right.start.y == left.end.y == court.baseline


@pytest.mark.parametrize(
    ("name", "from_baseline", "within"),
    [
        ("fiba", 2.990, 0.0005),  # [X]
        ("nba", 14.198 * FT, 0.0005 * FT),  # [X]
        ("ncaa", 9 * FT + 10.57 * IN, 0.005 * IN),  # [X]
        ("ncaa", 9 * FT + 10.375 * IN, 0.25 * IN),  # the diagram itself says 9 ft 10 3/8 in [S2]
        ("nfhs", 63 * IN, TENTH_MM),  # straight part 63 in long [S2]
    ],
)
def test_arc_meets_the_straight_part(name: str, from_baseline: float, within: float) -> None:
    court = half_court(name)
    right, left = only(court, "three_point", Segment)
    (arc,) = only(court, "three_point", Arc)
    assert right.end.y - court.baseline == pytest.approx(from_baseline, abs=within)
    assert left.start.y == right.end.y
    assert arc.at(arc.first) == pytest.approx(right.end, abs=1e-9)
    assert arc.at(arc.last) == pytest.approx(left.start, abs=1e-9)


@pytest.mark.parametrize("name", COURTS)
def test_lane_and_free_throw_line(name: str) -> None:
    width = {"fiba": 4.90, "nba": 16 * FT, "ncaa": 12 * FT, "nfhs": 12 * FT}
    length = {"fiba": 5.80, "nba": 19 * FT, "ncaa": 19 * FT, "nfhs": 19 * FT}
    # Free-throw line to the board's face: 15 ft; FIBA 5.80 - 1.20 m.
    to_board = {"fiba": 4.60, "nba": 15 * FT, "ncaa": 15 * FT, "nfhs": 15 * FT}
    court = half_court(name)
    (lane,) = only(court, "lane", Rect)
    (board,) = only(court, "board", Segment)
    assert lane.low.y == court.baseline
    assert lane.low.x == -lane.high.x
    check(width, name, lane.high.x - lane.low.x)
    check(length, name, lane.high.y - lane.low.y)
    check(to_board, name, lane.high.y - board.start.y)


@pytest.mark.parametrize("name", COURTS)
def test_circles(name: str) -> None:
    radius = {"fiba": 1.80, "nba": 6 * FT, "ncaa": 6 * FT, "nfhs": 6 * FT}
    line_width = {"fiba": 0.05, "nba": 2 * IN, "ncaa": 2 * IN, "nfhs": 2 * IN}
    court = half_court(name)
    (lane,) = only(court, "lane", Rect)
    (centre,) = only(court, "centre_circle", Arc)
    circle = only(court, "free_throw_circle", Arc)
    check(line_width, name, court.standard.line_width)
    check(radius, name, centre.radius)
    assert centre.centre == (0.0, court.half_way)
    assert (centre.first, centre.last) == (180.0, 360.0)
    check(radius, name, circle[0].radius)
    # The centre is the middle of the free-throw line, whose far edge ends the lane.
    assert lane.high.y - circle[0].centre.y == pytest.approx(line_width[name] / 2, abs=TENTH_MM)
    assert [(half.first, half.last, half.dashed) for half in circle] == (
        # Only the NBA draws the half inside the lane [M].
        [(0.0, 180.0, False), (180.0, 360.0, True)] if name == "nba" else [(0.0, 180.0, False)]
    )


@pytest.mark.parametrize("name", ["fiba", "nba", "ncaa"])
def test_no_charge_arc(name: str) -> None:
    # FIBA 1.30 m to the outer, 1.25 m to the inner edge; NBA 4 ft; NCAA 4 ft to the inner edge.
    inner = {"fiba": 1.25, "nba": 4 * FT, "ncaa": 4 * FT}
    court = half_court(name)
    (arc,) = only(court, "no_charge", Arc)
    (board,) = only(court, "board", Segment)
    right, left = only(court, "no_charge", Segment)
    check(inner, name, arc.radius)
    assert (arc.centre, arc.first, arc.last) == ((0.0, 0.0), 0.0, 180.0)
    # Straight ends up to the board's face: FIBA 0.375 m long, the others 15 in.
    check({"fiba": 0.375, "nba": 15 * IN, "ncaa": 15 * IN}, name, abs(right.end.y - right.start.y))
    assert right.start.y == left.end.y == board.start.y
    assert {right.end, left.start} == {(arc.radius, 0.0), (-arc.radius, 0.0)}
    if name == "fiba":
        assert arc.radius + court.standard.line_width == pytest.approx(1.30, abs=TENTH_MM)


def test_nfhs_has_no_no_charge_arc_and_no_lane_marks() -> None:
    # No arc: NFHS [S2]. Its lane-side marks were not seen, so none are drawn.
    kinds = {mark.kind for mark in half_court("nfhs").markings}
    assert not kinds & {"no_charge", "lane_mark"}


@pytest.mark.parametrize(
    ("name", "marks"),
    [
        # First at 1.75 m, a block of 0.40 m, 0.85 m gaps.
        (
            "fiba",
            [
                (1.75, 1.80),
                (1.80 + 0.85, 1.80 + 0.85 + 0.40),
                (3.05 + 0.85, 3.05 + 0.85 + 0.05),
                (3.95 + 0.85, 3.95 + 0.85 + 0.05),
            ],
        ),
        # First at 7 ft; the rest is checked in test_court_sportypy.py only.
        ("nba", [(7 * FT, 7 * FT + 2 * IN)]),
        # A block of 12 in at 7 ft, then twice 3 ft.
        ("ncaa", [(7 * FT, 8 * FT), (11 * FT, 11 * FT + 2 * IN), (14 * FT + 2 * IN, 14 * FT + 4 * IN)]),
    ],
)
def test_lane_side_marks(name: str, marks: list[tuple[float, float]]) -> None:
    court = half_court(name)
    (lane,) = only(court, "lane", Rect)
    drawn = only(court, "lane_mark", Rect)
    for side, on_side in ((1, [m for m in drawn if m.low.x > 0]), (-1, [m for m in drawn if m.low.x < 0])):
        spans = [(m.low.y - court.baseline, m.high.y - court.baseline) for m in on_side]
        assert spans[: len(marks)] == [pytest.approx(span, abs=TENTH_MM) for span in marks]
        # They stand outside the lane, touching its side line.
        assert all((m.low.x if side > 0 else m.high.x) == side * lane.high.x for m in on_side)
    if name == "ncaa":  # 8 in deep
        assert all(m.high.x - m.low.x == pytest.approx(8 * IN, abs=TENTH_MM) for m in drawn)
