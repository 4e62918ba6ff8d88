"""The moving picture of drawn steps: everybody where the drawing has him, extras only while in it."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from math import hypot

import pytest
from hypothesis import given, settings

from engine.motion.film import Film
from engine.motion.speeds import STRAY_S
from engine.script import Script
from engine.script.laying import known, metres
from tests.depth import deep
from tests.engine.script.scripts import INBOUND, LAST, LOOSE, OFF
from tests.webapp.paper.chains import CROWDED, card, goes_on, look, off_spots, played, scripted_sheets
from tests.webapp.paper.test_diagrams import MANY, SVG
from tests.webapp.paper.test_moving import Track, read, track
from webapp.paper.diagram import planned
from webapp.paper.keyframes import film, is_lying
from webapp.paper.look import RADIUS
from webapp.paper.marks import LYING, Who
from webapp.paper.moving import LEAD_S, moving
from webapp.paper.options import Options
from webapp.paper.scripted import timeline
from webapp.paper.sheet import Sheet, sheet

EDGE = RADIUS + 6


def drawn(*texts: str) -> Sheet:
    board = card()
    return sheet(board, played(board, [(text,) for text in texts]), "As drawn")


def tracks(made: Sheet) -> tuple[dict[Who, Track], Track, ET.Element]:
    root, players, ball = read(moving(made, Options()))
    extras = {g.attrib["data-of"]: track(g) for g in root.findall(f"{SVG}g[@class='extra']")}
    return {**players, **extras}, ball, root


def seen_from(group: ET.Element, lasts: float) -> list[tuple[float, float]]:
    """Return from when to when a group is to be seen, as a browser would read it."""
    turn = group.find(f"{SVG}animate")
    if turn is None:
        return [(0.0, lasts)] if group.attrib["opacity"] == "1" else []
    assert turn.attrib["calcMode"] == "discrete"
    values = turn.attrib["values"].split(";")
    keys = [float(key) * lasts for key in turn.attrib["keyTimes"].split(";")] + [lasts]
    assert keys[0] == 0.0
    assert keys == sorted(keys)
    assert values[0] == group.attrib["opacity"]
    return [(keys[i], keys[i + 1]) for i, value in enumerate(values) if value == "1"]


def filmed(made: Sheet) -> Film:
    """Return the film that the moving picture shows where nothing else is chosen."""
    return film(made, Options().breath)


def begins(made: Sheet, index: int) -> float:
    """Return when a drawing itself begins in its film, everybody being where it has him."""
    return filmed(made).cues[index].start + (STRAY_S if index else 0.0)


def followers(script: Script) -> set[str]:
    """Return the defenders of whom nothing is drawn: they go with their men."""
    return {who for who, _, _ in script.places if who[0] == "x"} - {run.who for run in script.runs}


@pytest.mark.parametrize("text", [INBOUND, OFF, LAST, LOOSE, CROWDED])
def test_it_ends_where_the_drawing_ends(text: str) -> None:
    made = drawn(text)
    script = made.acts[0].script
    assert isinstance(script, Script)
    plan, (found, ball, _) = planned(made, look()), tracks(made)
    assert set(found) == {known(who) for who, _, _ in script.places}
    for who, place in script.ends().items():
        mine = found[known(who)]
        if who in followers(script):
            continue
        expected = plan.inside(plan.at(metres(*place)), EDGE)
        assert mine.places[-1] == pytest.approx(expected, abs=0.1), who
        start = next((x, y) for one, x, y in script.places if one == who)
        assert mine.places[0] == pytest.approx(plan.inside(plan.at(metres(*start)), EDGE), abs=0.1), who
    if script.holder:
        assert ball.places[-1] == found[script.holder].places[-1]
    elif script.lies is not None:
        beside = 0.98 * RADIUS  # of the mark in its group
        x, y = plan.at(metres(*script.lies))
        assert ball.places[-1] == pytest.approx((x - beside, y - beside), abs=0.1)


@settings(parent=MANY, max_examples=deep(9, 40))
@given(scripted_sheets())
def test_everybody_is_where_the_drawing_has_him_at_every_time(made: Sheet) -> None:
    played_film, plan = filmed(made), planned(made, look())
    found, _, _ = tracks(made)
    for i, act in enumerate(made.acts):
        if act.script is None:
            continue
        line, began = timeline(act.script), begins(made, i)
        # Whose way leaves the picture is held at its edge, which straight lines do not follow so well.
        stood = [(who, (x, y)) for who, x, y in act.script.places]
        passed = [(run.who, point) for run in act.script.runs for point in run.points]
        outside = {
            who
            for who, point in (*stood, *passed)
            if plan.inside(plan.at(metres(*point)), EDGE) != plan.at(metres(*point))
        }
        for k in range(26):
            t = line.end * k / 25
            for name, _, _ in act.script.places:
                if name in followers(act.script):
                    continue
                who, place = known(name), line.position(name, t)
                scene = played_film.position(who, began + t)
                assert hypot(place[0] - scene[0], place[1] - scene[1]) < 0.02, (who, t)
                x, y = plan.inside(plan.at(place), EDGE)
                u, v = found[who].at(LEAD_S + began + t)
                assert hypot(x - u, y - v) < (250 if name in outside else 20), (who, t)


@settings(parent=MANY, max_examples=deep(9, 40))
@given(scripted_sheets())
def test_nobody_jumps_from_one_step_to_the_next(made: Sheet) -> None:
    played_film = filmed(made)
    for cue, *_ in played_film.cues[1:]:
        for number in range(1, 6):
            a, b = (played_film.position(number, cue + d) for d in (-1e-5, 1e-5))
            assert hypot(a[0] - b[0], a[1] - b[1]) < 0.02, number
        a, b = played_film.ball_position(cue - 1e-5), played_film.ball_position(cue + 1e-5)
        assert hypot(a[0] - b[0], a[1] - b[1]) < 0.02


@settings(parent=MANY, max_examples=deep(9, 40))
@given(scripted_sheets())
def test_extras_come_with_their_drawing_and_stay_until_the_next_one(made: Sheet) -> None:
    cues = [*(LEAD_S + cue.start for cue in filmed(made).cues)]
    found, _, root = tracks(made)
    lasts = max((one.lasts for one in found.values()), default=1.0)
    if lasts == 1.0:
        return  # nobody moves
    steps = [(0.0 if i == 0 else cues[i], [*cues, lasts][i + 1]) for i in range(len(cues))]
    for group in root.findall(f"{SVG}g[@class='extra']"):
        who = group.attrib["data-of"]
        shown, there = seen_from(group, lasts), False
        for act, (begin, end) in zip(made.acts, steps, strict=True):
            if act.script is not None:
                there = who in {name for name, _, _ in act.script.places}
            if end - begin < 0.05:
                continue
            half = (begin + end) / 2
            assert any(a <= half <= b for a, b in shown) == there, (who, act.number)


def test_a_drawing_after_other_steps_finds_everybody_at_its_places_after_a_moment() -> None:
    made = drawn(INBOUND, LAST)
    played_film = filmed(made)
    assert played_film.position(1, 0.0) == pytest.approx((-7.9, 4.2))
    second = made.acts[1].script
    assert isinstance(second, Script)
    begin = played_film.cues[1].start
    for who, x, y in second.places:
        assert played_film.position(known(who), begin + STRAY_S) == pytest.approx(metres(x, y), abs=0.01)
    # The ball is thrown over meanwhile: 2 has had it, 1 has it then.
    assert played_film.ball_position(begin) == pytest.approx(played_film.position(2, begin))
    assert played_film.ball_position(begin + STRAY_S) == pytest.approx(
        played_film.position(1, begin + STRAY_S)
    )


def test_a_ball_on_the_floor_lies_still_and_is_picked_up_on_the_way_back() -> None:
    made = off_spots(LOOSE)
    played_film = filmed(made)
    assert is_lying(played_film, 0.0)
    assert played_film.ball_position(0.0) == pytest.approx((-4.8, 4.8))
    assert played_film.ball_position(1.0) == pytest.approx(played_film.position(3, 1.0))
    assert not is_lying(played_film, 1.0)
    back = played_film.cues[1].start
    assert is_lying(played_film, back)
    assert played_film.ball_position(back) == pytest.approx((-6.0, 1.0))
    holder = made.acts[1].before.player(made.acts[1].before.alignment.ball)
    taken = back + STRAY_S
    assert not is_lying(played_film, taken)
    assert played_film.ball_position(taken) == pytest.approx(played_film.position(holder, taken), abs=0.01)
    assert LYING in made.standing(made.acts[1])


def test_play_by_rule_goes_on_from_where_a_drawing_ends() -> None:
    made = goes_on(INBOUND, 3)
    played_film, (found, _, root) = filmed(made), tracks(made)
    assert len(played_film.cues) == 4
    begin = played_film.cues[1].start
    for number, spot in made.acts[1].before.where().items():
        assert played_film.position(number, begin) == pytest.approx(made.spots[spot], abs=0.01)
    (scene, *_) = root.findall(f"{SVG}g[@class='scene']")
    assert "Sideline inbound" in "".join(scene.itertext())
    assert set(found) == {1, 2, 3, 4, 5, "x2", "k1"}


def test_an_off_spots_part_of_a_chain_begins_where_everybody_is() -> None:
    made = off_spots().part(2, 2)
    script = off_spots().acts[0].script
    assert isinstance(script, Script)
    for number in range(1, 6):
        assert filmed(made).position(number, 0.0) == pytest.approx(metres(*script.ends()[str(number)]))
