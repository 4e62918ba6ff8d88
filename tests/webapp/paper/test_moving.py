"""The moving picture: by itself, for ever, and where the engine's timeline has everybody at every time."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from bisect import bisect_right
from dataclasses import dataclass
from itertools import pairwise
from math import hypot

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.floor.court import half_court
from engine.motion.clock import film_of
from engine.motion.speeds import HAND_S, STRAY_S
from tests.depth import deep
from tests.webapp.paper.chains import back, card, five_steps, played, sheets
from tests.webapp.paper.test_diagrams import MANY, SVG
from webapp.paper.floor import View, plan
from webapp.paper.keyframes import film
from webapp.paper.look import RADIUS
from webapp.paper.moving import HOLD_S, LEAD_S, moving
from webapp.paper.options import PACES, Options
from webapp.paper.sheet import Sheet, sheet


@dataclass
class Track:
    """Where something is drawn over time, as a browser would read it."""

    keys: list[float]
    places: list[tuple[float, float]]
    lasts: float

    def at(self, t: float) -> tuple[float, float]:
        share = t / self.lasts
        i = min(len(self.keys) - 1, max(1, bisect_right(self.keys, share)))
        a, b = self.keys[i - 1], self.keys[i]
        part = (share - a) / (b - a) if b > a else 1.0
        (x0, y0), (x1, y1) = self.places[i - 1], self.places[i]
        return x0 + part * (x1 - x0), y0 + part * (y1 - y0)


def track(group: ET.Element) -> Track:
    still = group.attrib["transform"].removeprefix("translate(").removesuffix(")").split()
    here = float(still[0]), float(still[1])
    way = group.find(f"{SVG}animateTransform")
    if way is None:
        return Track([0.0, 1.0], [here, here], 1.0)
    assert way.attrib["attributeName"] == "transform"
    assert way.attrib["type"] == "translate"
    assert way.attrib["repeatCount"] == "indefinite"
    keys = [float(key) for key in way.attrib["keyTimes"].split(";")]
    places = [(float(x), float(y)) for x, y in (pair.split() for pair in way.attrib["values"].split(";"))]
    # What a browser asks of them, else it plays nothing at all.
    assert keys[0] == 0.0
    assert keys[-1] == 1.0
    assert keys == sorted(keys)
    assert len(keys) == len(places)
    assert places[0] == pytest.approx(here, abs=0.06)
    return Track(keys, places, float(way.attrib["dur"].removesuffix("s")))


def read(text: str) -> tuple[ET.Element, dict[int, Track], Track]:
    root = ET.fromstring(text)
    players = {int(g.attrib["data-of"]): track(g) for g in root.findall(f"{SVG}g[@class='player']")}
    ball = root.find(f"{SVG}g[@class='ball']")
    assert ball is not None
    return root, players, track(ball)


@settings(parent=MANY, max_examples=deep(14, 40))
@given(sheets(longest=4), st.sampled_from(PACES))
def test_everybody_is_where_the_engine_has_him_at_every_time(made: Sheet, pace: str) -> None:
    if not made.acts or any(act.back is not None for act in made.acts):
        return
    options = Options(pace=pace)
    groups = [act.steps for act in made.acts]
    whole = film_of(made.start, groups, half_court(made.court), made.formation, breath=options.breath)
    seen = plan(made.court, made.formation, View())
    _, players, ball = read(moving(made, options))
    edge = RADIUS + 6
    hands = [toss.start for toss in whole.tosses if toss.kind == "hand"]
    for k in range(61):
        t = whole.end * k / 60
        for number, found in players.items():
            there = seen.at(whole.position(number, t))
            x, y = seen.inside(there, edge)
            u, v = found.at(LEAD_S + t)
            # Centimetres: between two marks a run is straight; where he leaves the picture it cuts a corner.
            assert hypot(x - u, y - v) < (8 if (x, y) == there else 20), (number, t)
        if any(begin <= t <= begin + HAND_S + 0.02 for begin in hands):
            continue
        there = seen.at(whole.ball_position(t))
        x, y = seen.inside(there, edge)
        u, v = ball.at(LEAD_S + t)
        assert hypot(x - u, y - v) < (8 if (x, y) == there else 20), t


def test_it_holds_still_before_and_after() -> None:
    made = five_steps()
    lasts = film(made, Options().breath).end
    _, players, _ = read(moving(made, Options()))
    for found in players.values():
        assert found.lasts == pytest.approx(LEAD_S + lasts + HOLD_S, abs=0.01)
        assert found.at(0) == pytest.approx(found.at(LEAD_S), abs=0.2)
        assert found.at(LEAD_S + lasts) == pytest.approx(found.at(found.lasts), abs=0.2)


def test_at_taught_pace_everybody_stands_for_half_a_second_before_the_next_action() -> None:
    made = five_steps()
    taught, game = (film(made, Options(pace=pace).breath) for pace in PACES)
    for before, cue in pairwise(taught.cues):
        assert cue.start == pytest.approx(before.end + 0.5)
        for number in taught.players:
            assert taught.position(number, before.end) == taught.position(number, cue.start)
    assert any(cue.start < before.end for before, cue in pairwise(game.cues))
    assert game.end < taught.end


def test_a_recovery_goes_by_where_everybody_was_put() -> None:
    board = card()
    first = ("pass:right_wing",)
    steps = played(board, [first])
    where = {1: (-3.0, 5.0), 2: (3.0, 2.0), 3: (0.0, 9.0), 4: (6.0, 0.0), 5: (-6.0, 0.5)}
    made = sheet(board, played(board, [first, back(board, steps[-1].after, where)]), "Back")
    played_film = film(made, Options().breath)
    put = played_film.cues[1].start + STRAY_S
    for number, place in where.items():
        assert played_film.position(number, put) == pytest.approx(place, abs=0.02)
        home = made.spots[made.acts[1].after.where()[number]]
        assert played_film.position(number, played_film.end) == pytest.approx(home, abs=0.02)
    _, players, _ = read(moving(made, Options()))
    seen = plan("fiba", board.shape, View())
    for number, place in where.items():
        assert players[number].at(LEAD_S + put) == pytest.approx(
            seen.inside(seen.at(place), RADIUS + 6), abs=4
        )


def test_it_needs_nothing_but_itself_and_runs_nothing() -> None:
    made = five_steps()
    root, _, _ = read(moving(made, Options(mirror=True)))
    names = {element.tag.removeprefix(SVG) for element in root.iter()}
    assert names <= {
        "svg", "title", "defs", "rect", "g", "path", "circle", "text", "animate", "animateTransform"
    }  # fmt: skip
    for element in root.iter():
        for name, value in element.attrib.items():
            assert not name.startswith("on")
            assert "href" not in name
            assert "url(" not in value
    assert "1 fills the right corner, then 2 passes to 3" in "".join(root.itertext())


def test_one_step_after_the_other_is_told_under_the_floor() -> None:
    root, _, _ = read(moving(five_steps(), Options()))
    scenes = root.findall(f"{SVG}g[@class='scene']")
    spans = []
    for scene in scenes:
        turn = scene.find(f"{SVG}animate")
        assert turn is not None
        values = turn.attrib["values"].split(";")
        keys = [float(key) for key in turn.attrib["keyTimes"].split(";")] + [1.0]
        assert keys[0] == 0.0
        at = values.index("1")
        spans.append((keys[at], keys[at + 1]))
    assert len(spans) == 5
    assert spans[0][0] == 0.0
    assert spans[-1][1] == 1.0
    for (_, end), (begin, _) in pairwise(spans):
        assert end == pytest.approx(begin)
    # Only the first is seen where nothing plays.
    assert [scene.attrib["opacity"] for scene in scenes] == ["1", "0", "0", "0", "0"]


def test_nothing_played_stands_still() -> None:
    root, players, _ = read(moving(sheet(card(), [], "Nothing yet"), Options()))
    assert not list(root.iter(f"{SVG}animateTransform"))
    assert len(players) == 5
