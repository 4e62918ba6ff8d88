"""A drawn step on paper: everybody from the drawing's own places, everything in the picture and legible."""

from __future__ import annotations

import random
import xml.etree.ElementTree as ET
from dataclasses import replace
from itertools import combinations
from math import hypot

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.floor.court import half_court
from engine.floor.formations import FIVE_OUT
from engine.script import Script, read
from engine.script.laying import known, metres
from tests.depth import deep
from tests.engine.script.scripts import INBOUND, LAST, LOOSE, OFF
from tests.webapp.paper.chains import (
    CROWDED,
    VIEWS,
    card,
    look,
    off_spots,
    played,
    scripted_sheets,
)
from tests.webapp.paper.test_diagrams import MANY, SVG, extent
from tests.webapp.paper.test_ink import near, seen
from webapp.paper.diagram import diagram, parts, planned
from webapp.paper.floor import View
from webapp.paper.marks import LYING, Disc, Drawing, Mark, Stroke, Text, Who
from webapp.paper.people import room
from webapp.paper.sheet import Sheet, sheet
from webapp.paper.svg import svg

EVERY = [INBOUND, OFF, LAST, LOOSE, CROWDED]


def drawn(text: str) -> Sheet:
    board = card()
    return sheet(board, played(board, [(text,)]), "As drawn")


def script_of(made: Sheet) -> Script:
    (script,) = [act.script for act in made.acts if act.script is not None]
    return script


def middle(mark: Mark) -> tuple[float, float]:
    x0, y0, x1, y1 = extent(mark)
    return (x0 + x1) / 2, (y0 + y1) / 2


def figures(drawing: Drawing) -> dict[Who, tuple[float, float]]:
    """Return where everybody is drawn, and a ball that lies."""
    found: dict[Who, tuple[float, float]] = {}
    for mark in drawing.marks:
        if isinstance(mark, Disc) and (mark.kind == "disc" or (mark.kind, mark.of) == ("ball", 0)):
            found[mark.of or LYING] = (mark.x, mark.y)
        elif isinstance(mark, Stroke) and mark.kind in ("clear", "coach"):
            found[mark.of] = middle(mark)
        elif isinstance(mark, Stroke) and mark.kind == "cone":
            x, top, _, bottom = *mark.points[0], mark.width, mark.points[1][1]
            found[mark.of] = (x, top + (bottom - top) / 1.8)
    return found


@settings(parent=MANY, max_examples=deep(12, 60))
@given(scripted_sheets() | scripted_sheets(far=True), st.sampled_from(VIEWS), st.sampled_from([1.0, 1.25]))
def test_everything_is_inside_and_nobody_is_over_anybody(made: Sheet, view: View, size: float) -> None:
    drawn = look(view, size)
    for act in made.acts:
        drawing = diagram(made, act, drawn)
        for mark in drawing.marks:
            x0, y0, x1, y1 = extent(mark)
            assert x0 >= -0.01, mark
            assert y0 >= -0.01, mark
            assert x1 <= drawing.width + 0.01, mark
            assert y1 <= drawing.height + 0.01, mark
        found = figures(drawing)
        expected = {1, 2, 3, 4, 5} | set(made.standing(act))
        assert set(found) == expected
        for a, b in combinations(found, 2):
            far = hypot(found[a][0] - found[b][0], found[a][1] - found[b][1])
            assert far > room(a, drawn) + room(b, drawn) - 0.1, (a, b)


@pytest.mark.parametrize("view", VIEWS)
@pytest.mark.parametrize("text", EVERY)
def test_everybody_stands_where_the_drawing_has_him(text: str, view: View) -> None:
    made = drawn(text)
    found, script = figures(diagram(made, made.acts[0], look(view))), script_of(made)
    plan = planned(made, look(view))
    places = {known(who): plan.at(metres(x, y)) for who, x, y in script.places}
    if not isinstance(script.ball, int):
        places[LYING] = plan.at(metres(*script.ball))
    assert set(found) == set(places)
    for who, place in places.items():
        # Whoever is drawn closer to somebody than there is room for makes way, players last.
        closer = [
            room(who, look()) + room(other, look()) - hypot(place[0] - x, place[1] - y)
            for other, (x, y) in places.items()
            if other != who
        ]
        way = 0.0 if isinstance(who, int) else max(0.0, *closer)
        assert found[who] == pytest.approx(place, abs=way + 1.5), who
        if not way:
            assert found[who] == pytest.approx(place, abs=0.01), who


@pytest.mark.parametrize("view", VIEWS)
@pytest.mark.parametrize(("text", "axis"), [(INBOUND, 0), (OFF, 1), (CROWDED, 1)])
def test_whoever_throws_in_is_seen_whole_and_out_of_bounds(text: str, axis: int, view: View) -> None:
    made = drawn(text)
    drawing, plan = diagram(made, made.acts[0], look(view)), planned(made, look(view))
    (disc,) = [m for m in drawing.marks if isinstance(m, Disc) and m.kind == "disc" and m.of == 1]
    box = extent(disc)
    assert min(box) >= 0
    assert box[2] <= drawing.width
    assert box[3] <= drawing.height
    court = half_court("fiba")
    line = court.baseline if axis else -court.width / 2
    edge = plan.at((0.0, line) if axis else (line, 0.0))[axis]
    inward = plan.at((0.0, 0.0))[axis]
    assert ((disc.x, disc.y)[axis] - edge) * (inward - edge) < 0
    assert len({(d.width, d.height) for d in (diagram(made, act, look(view)) for act in made.acts)}) == 1


@settings(parent=MANY, max_examples=deep(9, 40))
@given(scripted_sheets(), st.sampled_from(VIEWS))
def test_each_who_runs_has_a_way_in_the_style_of_the_drawing(made: Sheet, view: View) -> None:
    for act in made.acts:
        if act.script is None:
            continue
        trails = [m for m in parts(made, act, look(view)).trails if isinstance(m, Stroke)]
        ends = {known(who): place for who, place in act.script.ends().items()}
        begins = {known(who): (x, y) for who, x, y in act.script.places}
        for who, (x, y) in ends.items():
            mine = [m for m in trails if m.of == who and m.kind in ("cut", "dribble", "screen", "head")]
            far = hypot(x - begins[who][0], y - begins[who][1])
            if far > 250:
                assert mine, who
            for mark in mine:
                # Black is the offence's; who is not one of the five goes in grey.
                assert (mark.shade == 0.0) == isinstance(who, int)
        for run in act.script.runs:
            here = begins[known(run.who)]
            begins[known(run.who)] = run.points[-1]
            inside = all(abs(x) < 700 and -100 < y < 800 for x, y in (here, *run.points))
            far = hypot(run.points[-1][0] - here[0], run.points[-1][1] - here[1])
            if run.style != "cut" and far > 300 and inside:
                assert any(m.of == known(run.who) and m.kind == run.style for m in trails), run


@settings(parent=MANY, max_examples=deep(9, 40))
@given(scripted_sheets())
def test_the_ball_goes_as_it_is_drawn(made: Sheet) -> None:
    for act in made.acts:
        if act.script is None:
            continue
        trails = parts(made, act, look()).trails
        for kind in ("shot", "hand"):
            count = sum(event.kind == kind for event in act.script.events)
            marks = [m for m in trails if m.kind == kind]
            assert len(marks) == count * (2 if kind == "hand" else 1)
        left = [m for m in trails if isinstance(m, Disc) and m.kind == "left"]
        assert [m.of for m in left] == [event.giver for event in act.script.events if event.kind == "loose"]
        passes = [m for m in trails if isinstance(m, Stroke) and m.kind == "pass"]
        assert all(m.dash for m in passes)
        given_on = [event for event in act.script.events if event.kind == "pass"]
        assert len(given_on) <= len(passes) <= len(given_on) + len(left)


def test_a_pass_goes_from_where_he_then_is_to_where_the_other_catches() -> None:
    made = drawn(CROWDED)
    plan = planned(made, look())
    passes = [m for m in parts(made, made.acts[0], look()).trails if m.kind == "pass"]
    assert [m.of for m in passes] == [1, 2]
    line = made.timeline(made.acts[0])
    for mark, event in zip(passes, line.ball, strict=True):
        assert isinstance(mark, Stroke)
        assert event.receiver is not None
        ends = line.position(event.giver, event.start), line.position(event.receiver, event.end)
        for (x, y), place in zip((mark.points[0], mark.points[-1]), ends, strict=True):
            u, v = plan.at(place)
            assert hypot(x - u, y - v) < 130


def without(script: Script, who: str) -> Script:
    """Return a drawing without somebody beside the five."""
    return replace(
        script,
        places=tuple(place for place in script.places if place[0] != who),
        runs=tuple(run for run in script.runs if run.who != who),
    )


@pytest.mark.parametrize("seed", [None, *range(deep(3, 6))])
def test_without_a_defender_a_way_or_a_pass_the_picture_is_another(seed: int | None) -> None:
    whole = read(CROWDED, FIVE_OUT) if seed is None else _apart(random.Random(seed))
    less = {f"without {who}": without(whole, who) for who, _, _ in whole.places if not who.isdecimal()}
    for i, run in enumerate(whole.runs):
        less[f"without run {i} of {run.who}"] = replace(whole, runs=(*whole.runs[:i], *whole.runs[i + 1 :]))
    for i, event in enumerate(whole.events):
        events = whole.events[:i]  # what follows needs it
        less[f"without {event.kind} {i}"] = replace(whole, events=events)
    before = _picture(whole)
    for what, script in less.items():
        changed = abs(before - _picture(script)) > 60
        assert changed.sum() > 25, what


def _picture(script: Script):  # type: ignore[no-untyped-def]
    made = drawn(script.text)
    # Of one size, whoever is left out.
    kept = replace(made, acts=(*drawn(CROWDED).acts, *made.acts))
    return seen(diagram(kept, made.acts[0], look()), 500).astype(int)


def _apart(dice: random.Random) -> Script:
    """Return the crowded drawing with other ways and passes, in plain sight."""
    script = read(CROWDED, FIVE_OUT)
    runs = tuple(
        replace(run, points=((dice.randint(-650, 650), dice.randint(250, 800)),)) for run in script.runs
    )
    return replace(script, runs=runs)


@pytest.mark.parametrize("view", VIEWS)
@pytest.mark.parametrize("size", [1.0, 1.25])
def test_there_is_ink_at_everybody(view: View, size: float) -> None:
    made = drawn(CROWDED)
    drawing = diagram(made, made.acts[0], look(view, size))
    ink = seen(drawing)
    scale = ink.shape[1] / drawing.width
    for who, (x, y) in figures(drawing).items():
        assert near(ink, x * scale, y * scale, 40 * scale) < 60, who
    names = {m.words for m in drawing.marks if isinstance(m, Text)}
    assert names == {"1", "2", "3", "4", "5", "X1", "X2", "X3", "X4", "X5", "C"}


@pytest.mark.parametrize("view", VIEWS)
def test_the_svg_is_well_formed_and_says_who_is_where(view: View) -> None:
    made = drawn(CROWDED)
    drawing = diagram(made, made.acts[0], look(view))
    root = ET.fromstring(svg(drawing, "<script>alert(1)</script>"))
    assert [float(v) for v in root.attrib["viewBox"].split(",")] == pytest.approx(
        [0, 0, drawing.width, drawing.height]
    )
    for who in ("x1", "x5", "c", "k1", "k6"):
        assert root.find(f"*[@data-of='{who}']") is not None, who
    assert "".join(text.text or "" for text in root.findall(f"{SVG}text[@class='defender']")) == "X1X2X3X4X5"
    names = {element.tag.removeprefix(SVG) for element in root.iter()}
    assert names <= {"svg", "title", "defs", "rect", "path", "circle", "text"}


def test_off_spots_a_recovery_starts_where_the_drawing_left_everybody() -> None:
    made = off_spots()
    ends, found = script_of(made).ends(), figures(diagram(made, made.acts[1], look()))
    plan = planned(made, look())
    # Whoever is in it beside the five is still there.
    assert {str(who) for who in found} == set(ends)
    drawn_ways = {run.who for run in script_of(made).runs}
    for who, place in ends.items():
        # A defender of whom nothing is drawn has gone with his man.
        if who[0] != "x" or who in drawn_ways:
            assert found[known(who)] == pytest.approx(
                plan.at(metres(*place)), abs=0.5 if len(who) == 1 else 5
            )
    (ball,) = [m for m in parts(made, made.acts[1], look()).players if m.kind == "ball"]
    assert ball.of == 3


def test_a_ball_left_on_the_floor_lies_there_until_everybody_is_back() -> None:
    made = off_spots(LOOSE.replace("-480,480", "-300,480"))
    plan = planned(made, look())
    for act, place in zip(made.acts, ((-300, 480), (-600, 100)), strict=True):
        found = figures(diagram(made, act, look()))
        assert found[LYING] == pytest.approx(plan.at(metres(*place)), abs=0.5)
        assert not [m for m in parts(made, act, look()).players if m.kind == "ball" and m.of]
