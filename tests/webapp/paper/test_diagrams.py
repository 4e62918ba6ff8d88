"""A step's diagram against the position it draws: everybody on his spot, each arrow from where to where."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from itertools import combinations, pairwise
from math import hypot

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from tests.depth import deep
from tests.webapp.paper.chains import FIVE_STEPS, VIEWS, back, card, five_steps, look, played, sheets
from webapp.paper.diagram import diagram, parts
from webapp.paper.floor import View, plan
from webapp.paper.marks import Disc, Drawing, Mark, Stroke, Text
from webapp.paper.sheet import Sheet, sheet
from webapp.paper.svg import svg

SVG = "{http://www.w3.org/2000/svg}"
# Without shrinking: what fails is printed whole, and making it smaller would take minutes.
MANY = settings(
    max_examples=deep(27, 80),
    deadline=None,
    phases=[Phase.explicit, Phase.reuse, Phase.generate],
    suppress_health_check=[HealthCheck.too_slow],
)


def discs(drawing: Drawing) -> dict[int, Disc]:
    return {mark.of: mark for mark in drawing.marks if isinstance(mark, Disc) and mark.kind == "disc"}


def extent(mark: Mark) -> tuple[float, float, float, float]:
    match mark:
        case Stroke():
            half = mark.width / 2
            xs, ys = [x for x, _ in mark.points], [y for _, y in mark.points]
            return min(xs) - half, min(ys) - half, max(xs) + half, max(ys) + half
        case Disc():
            out = mark.radius + mark.width / 2
            return mark.x - out, mark.y - out, mark.x + out, mark.y + out
        case Text():
            half = 0.7 * mark.size * len(mark.words) / 2
            return mark.x - half, mark.y - mark.size, mark.x + half, mark.y + 0.1


@MANY
@given(sheets(), st.sampled_from(VIEWS), st.sampled_from([1.0, 1.25]))
def test_everything_is_inside_and_no_two_numbers_overlap(made: Sheet, view: View, size: float) -> None:
    for act in made.acts or (None,):
        drawing = diagram(made, act, look(view, size))
        for mark in drawing.marks:
            x0, y0, x1, y1 = extent(mark)
            assert x0 >= -0.01, mark
            assert y0 >= -0.01, mark
            assert x1 <= drawing.width + 0.01, mark
            assert y1 <= drawing.height + 0.01, mark
        found = discs(drawing)
        assert set(found) == {1, 2, 3, 4, 5}
        for a, b in combinations(found.values(), 2):
            assert hypot(a.x - b.x, a.y - b.y) > a.radius + b.radius + (a.width + b.width) / 2
        balls = [mark for mark in drawing.marks if isinstance(mark, Disc) and mark.kind == "ball"]
        for ball in balls:
            for disc in found.values():
                # Beside its holder and clear of every number.
                assert hypot(ball.x - disc.x, ball.y - disc.y) > ball.radius + 0.62 * disc.radius


@MANY
@given(sheets(), st.sampled_from(VIEWS))
def test_everybody_stands_on_his_spot_before_the_step(made: Sheet, view: View) -> None:
    seen = plan(made.court, made.formation, view)
    for act in made.acts:
        if act.back is not None:
            continue
        found = discs(diagram(made, act, look(view)))
        where = {number: seen.at(made.spots[spot]) for number, spot in act.before.where().items()}
        for number, (x, y) in where.items():
            disc = found[number]
            nearest = min(hypot(x - u, y - v) for other, (u, v) in where.items() if other != number)
            # Beside the rim and on the block: moved apart no more than both numbers need to be read.
            room = 2 * look(view).room + 1
            assert (disc.x, disc.y) == pytest.approx((x, y), abs=max(0.01, room - nearest))


@MANY
@given(sheets(), st.sampled_from(VIEWS))
def test_each_who_moves_has_an_arrow_from_his_disc_to_where_he_goes(made: Sheet, view: View) -> None:
    seen = plan(made.court, made.formation, view)
    for act in made.acts:
        drawn = look(view)
        layers = parts(made, act, drawn)
        players = [mark for mark in layers.players if isinstance(mark, Disc) and mark.kind == "disc"]
        start = {mark.of: (mark.x, mark.y) for mark in players}
        for number, spot in act.after.where().items():
            mine = [m for m in layers.trails if isinstance(m, Stroke) and m.of == number]
            ways = [m for m in mine if m.kind in ("cut", "dribble")]
            end = seen.at(made.spots[spot])
            moved = hypot(end[0] - start[number][0], end[1] - start[number][1])
            if moved < 20 or act.after.alignment.over:
                continue
            assert ways, (act.number, number)
            x, y = ways[0].points[0]
            from_disc = hypot(x - start[number][0], y - start[number][1])
            assert drawn.radius <= from_disc <= drawn.radius + 30
            tips = [m.points[0] for m in mine if m.kind == "head"] + [m.points[-1] for m in ways]
            # At the spot itself, or at the edge of the disc of whoever stands there before the step.
            reach = 2 * drawn.radius + 60 if moved < 150 else 2 * drawn.radius
            assert min(hypot(tx - end[0], ty - end[1]) for tx, ty in tips) < reach


@MANY
@given(sheets(), st.sampled_from(VIEWS))
def test_the_ball_goes_where_the_engine_sends_it(made: Sheet, view: View) -> None:
    seen = plan(made.court, made.formation, view)
    for act in made.acts:
        if act.back is not None:
            continue
        line, player = made.timeline(act), dict(act.before.lineup)
        throws = [event for event in line.ball if event.kind != "hand"]
        drawn = [m for m in parts(made, act, look(view)).trails if m.kind in ("pass", "shot")]
        assert [(m.kind, m.of) for m in drawn] == [(event.kind, player[event.giver]) for event in throws]
        for mark, event in zip(drawn, throws, strict=True):
            assert isinstance(mark, Stroke)
            ends = [seen.at(line.ball_position(t)) for t in (event.start, event.end)]
            for (x, y), (u, v) in zip((mark.points[0], mark.points[-1]), ends, strict=True):
                assert hypot(x - u, y - v) < 130
            assert mark.dash, "a pass is dashed, as colour is not printed"


def test_each_kind_of_movement_has_a_line_of_its_own() -> None:
    def kinds(formation_chain: tuple[tuple[str, ...], ...]) -> set[tuple[str, bool]]:
        board = card()
        made = sheet(board, played(board, formation_chain), "")
        marks = parts(made, made.acts[-1], look()).trails
        return {(m.kind, bool(m.dash)) for m in marks if isinstance(m, Stroke)}

    assert {("cut", False), ("pass", True), ("head", False)} <= kinds((("pass:right_wing",),))
    assert ("dribble", False) in kinds((("drive:left",),))
    assert {("hand", False), ("dribble", False)} <= kinds((("hand_off:left_wing",),))
    assert ("screen", False) in kinds((("pass:right_wing",), ("back_screen:top",)))


def test_a_dribble_waves_and_a_cut_does_not() -> None:
    made = five_steps()
    drive = parts(made, made.acts[2], look()).trails
    wave = next(m for m in drive if isinstance(m, Stroke) and m.kind == "dribble")
    signs = []
    for (x0, y0), (x1, y1), (x2, y2) in zip(wave.points, wave.points[1:], wave.points[2:], strict=False):
        signs.append((x1 - x0) * (y2 - y1) - (y1 - y0) * (x2 - x1) > 0)
    turns = sum(a != b for a, b in pairwise(signs))
    assert turns > 10


def test_a_recovery_shows_where_everybody_was_put_and_where_he_goes() -> None:
    board = card()
    steps = played(board, FIVE_STEPS[:1])
    where = dict.fromkeys(range(1, 6), (1.0, 3.0))
    chain = (*FIVE_STEPS[:1], back(board, steps[-1].after, where))
    made = sheet(board, played(board, chain), "Lost and found")
    drawing = diagram(made, made.acts[1], look())
    arrows = {m.of for m in drawing.marks if isinstance(m, Stroke) and m.kind == "head"}
    assert arrows == {1, 2, 3, 4, 5}
    x, y = plan("fiba", board.shape, View()).at((1.0, 3.0))
    assert all(hypot(d.x - x, d.y - y) < 300 for d in discs(drawing).values())


@pytest.mark.parametrize("view", VIEWS)
def test_the_svg_is_well_formed_and_says_who_is_where(view: View) -> None:
    made = five_steps()
    drawing = diagram(made, made.acts[0], look(view))
    root = ET.fromstring(svg(drawing, "Swing <script>alert(1)</script> & more"))
    assert root.tag == f"{SVG}svg"
    assert [float(v) for v in root.attrib["viewBox"].split(",")] == pytest.approx(
        [0, 0, drawing.width, drawing.height]
    )
    seen = plan("fiba", made.formation, view)
    for number, spot in made.acts[0].before.where().items():
        circle = root.find(f"{SVG}circle[@class='disc'][@data-of='{number}']")
        assert circle is not None
        place = float(circle.attrib["cx"]), float(circle.attrib["cy"])
        assert place == pytest.approx(seen.at(made.spots[spot]), abs=0.01)
        text = root.find(f"{SVG}text[@data-of='{number}']")
        assert text is not None
        assert text.text == str(number)
    names = {element.tag.removeprefix(SVG) for element in root.iter()}
    assert names <= {"svg", "title", "defs", "rect", "path", "circle", "text"}
    assert not any(name.startswith("on") or name == "style" for e in root.iter() for name in e.attrib)
