"""Ink moving house: it comes along beside its steps, and what is here and what comes go together."""

from __future__ import annotations

import copy
import json
from collections.abc import Callable
from typing import Any

import jsonschema
import pytest
from flask import Flask
from flask.testing import FlaskClient

from tests.webapp.conftest import shared_of
from tests.webapp.transfer.teams import DRAWN, bring_in, draw_on, look, taken_along
from tests.webapp.transfer.test_hostile import MANY, refused
from tests.webapp.transfer.test_team_file import SCHEMA, fits_the_schema
from webapp.boards.ink import CHAIN_MAX, STEP_MAX, on_paper
from webapp.plays.playbook import tree
from webapp.store.tables import Chain, Ink
from webapp.wire.refusals import answered


def quick(document: Any) -> Any:
    """Return the chain that is drawn on."""
    return next(chain for chain in document["chains"] if chain["name"] == "Quick")


def ids(document: Any) -> dict[int, list[str]]:
    return {
        page["step"]: [stroke[0] for stroke in page["strokes"]] for page in quick(document).get("ink", [])
    }


def test_ink_stands_beside_the_step_it_was_drawn_on_and_what_was_rubbed_out_stays_behind(
    client: FlaskClient, board: str
) -> None:
    file = taken_along(client, board)
    fits_the_schema(file)
    found = json.loads(file)
    assert ids(found) == {0: ["s9", "s1"], 1: ["s9"], 5: ["s2"]}
    assert quick(found)["ink"][1] == {
        "step": 1, "strokes": [["s9", 2, 1, 1_700_000_000, [-2000, -2000, 0, 4000, 4000, 0]]]
    }  # fmt: skip
    assert [chain["name"] for chain in found["chains"] if "ink" in chain] == ["Quick"]
    assert found["version"] == 1


def test_it_is_drawn_there_as_it_was_here(
    app: Flask, client: FlaskClient, board: str, elsewhere: Flask
) -> None:
    bring_in(elsewhere.test_client(), taken_along(client, board))
    drawn = []
    for server in (app, elsewhere):
        with shared_of(server).store.read() as session:
            root = session.get_one(Chain, "c1").root_id
            nodes = [branch.id for branch in tree(session, [root])[root]]
            found = on_paper(session, nodes)
            drawn.append({nodes.index(node): strokes for node, strokes in found.items()})
    assert drawn[0] == drawn[1]
    assert set(drawn[0]) == set(DRAWN)


def test_a_file_of_before_ink_comes_in_and_takes_nothing_away(
    client: FlaskClient, board: str, elsewhere: Flask
) -> None:
    now = taken_along(client, board)
    old = json.loads(now)
    del quick(old)["ink"]
    there = elsewhere.test_client()
    bring_in(there, json.dumps(old))
    assert json.loads(taken_along(there, board)) == old
    for whose in ("mine", "theirs"):
        bring_in(client, json.dumps(old), board, chains=whose)
        assert taken_along(client, board) == now


def test_what_was_drawn_here_and_there_goes_together(
    app: Flask, client: FlaskClient, board: str, elsewhere: Flask
) -> None:
    file = taken_along(client, board)
    there = elsewhere.test_client()
    bring_in(there, file)
    draw_on(app, "c1", {1: [["mine", 0, 0, [5, 5, 5]]], 2: [["more", 0, 0, [5, 5, 5]]]})
    draw_on(elsewhere, "c1", {1: [["theirs", 0, 0, [6, 6, 6]]]})
    with shared_of(app).store.write() as session:
        row = session.query(Ink).filter_by(id="s2").one()
        row.gone = True
    coming = taken_along(there, board)
    assert look(client, coming, board)["items"]["chains"]["different"] == [
        {"theirs": "Quick", "mine": "Quick"}
    ]
    before = taken_along(client, board)
    bring_in(client, coming, board)
    assert taken_along(client, board) == before
    bring_in(client, coming, board, chains="theirs")
    assert ids(json.loads(taken_along(client, board))) == {
        0: ["s9", "s1"], 1: ["s9", "mine", "theirs"], 2: ["more"], 5: ["s2"]
    }  # fmt: skip


def test_keeping_both_leaves_each_its_own_ink(app: Flask, client: FlaskClient, board: str) -> None:
    file = taken_along(client, board)
    draw_on(app, "c1", {2: [["more", 0, 0, [5, 5, 5]]]})
    bring_in(client, file, board, chains="both")
    found = json.loads(taken_along(client, board))
    steps = [[page["step"] for page in chain["ink"]] for chain in found["chains"] if chain["name"] == "Quick"]
    assert sorted(steps) == [[0, 1, 2, 5], [0, 1, 5]]


@pytest.mark.parametrize(("most", "step"), [(STEP_MAX, 1), (CHAIN_MAX, None)])
def test_more_than_a_play_can_hold_together_is_refused_and_nothing_comes_in(
    app: Flask, client: FlaskClient, board: str, most: int, step: int | None
) -> None:
    found = json.loads(taken_along(client, board))
    steps = [step] * most if step else [number // STEP_MAX for number in range(most - 10)]
    for name, document in (("here", None), ("there", found)):
        strokes: dict[int, list[Any]] = {}
        for number, at in enumerate(steps[: most // 2 + 20]):
            strokes.setdefault(at, []).append([f"{name}{number}", 0, 0, [0, 0, 50]])
        if document is None:
            draw_on(app, "c1", strokes)
        else:
            quick(document)["ink"] = [
                {
                    "step": at,
                    "strokes": [[one, tool, colour, 0, points] for one, tool, colour, points in drawn],
                }
                for at, drawn in strokes.items()
            ]
    before, file = taken_along(client, board), json.dumps(found)
    query = {"seen": look(client, file, board)["seen"], "board": board, "chains": "theirs"}
    answer = client.post("/api/import", query_string=query, data=file)
    assert answer.status_code == 409
    said = answered("full_ink_both", play="“Quick”")[1]
    assert answer.get_json()["error"]["message"] == said
    assert taken_along(client, board) == before


def page(change: Callable[[Any], object]) -> Callable[[Any], object]:
    return lambda ink: change(ink[0])


def stroke(at: int, value: Any) -> Callable[[Any], object]:
    return lambda ink: ink[0]["strokes"][1].__setitem__(at, value)


FIRST = "entry 1, stroke 2 "
WRONG: list[tuple[str, Callable[[Any], Any], str]] = [
    ("a text", lambda ink: "all of it", "is not a list of steps that were drawn on"),
    ("nothing", lambda ink: [], "is not a list of steps that were drawn on"),
    ("a step too many in it", page(lambda p: p.update(more=1)), "entry 1 is not a step and its strokes"),
    ("a step of true", page(lambda p: p.update(step=True)), "entry 1 names no step of its own"),
    ("a step before the start", page(lambda p: p.update(step=-1)), "entry 1 names no step of its own"),
    ("a step twice", lambda ink: ink[1].update(step=0), "entry 2 names no step of its own"),
    ("no strokes", page(lambda p: p.update(strokes=[])), "entry 1 has not 1 to 300 strokes"),
    ("strokes without end", page(lambda p: p.update(strokes=[0] * MANY)),
        "entry 1 has not 1 to 300 strokes"),
    ("too many together", lambda ink: ink.extend(
        {"step": n, "strokes": [[f"n{i}", 0, 0, 0, [0, 0, 0]] for i in range(200)]} for n in range(10, 15)),
        "has more than 1000 strokes"),
    ("a stroke as a number", page(lambda p: p["strokes"].__setitem__(1, 7)),
        FIRST + "is not an id, a tool, a colour, a time and points"),
    ("a tool in pieces", stroke(1, 0.5), FIRST + "is not an id, a tool, a colour, a time and points"),
    ("a tool of true", stroke(1, True), FIRST + "is not an id, a tool, a colour, a time and points"),
    ("an id of markup", stroke(0, "<b>"), FIRST + "has an id that is not 1 to 64 letters, digits, - or _"),
    ("an id twice", stroke(0, "s9"), FIRST + "is there twice"),
    ("a crayon", stroke(1, 7), FIRST + "was drawn with a tool that there is not"),
    ("a fourth colour", stroke(2, 3), FIRST + "has a colour that there is not"),
    ("before time", stroke(3, -1), FIRST + "has no time that can be"),
    ("no points", stroke(4, []), FIRST + "has not 1 to 240 points of three numbers"),
    ("half a point", stroke(4, [0, 0, 0, 1]), FIRST + "has not 1 to 240 points of three numbers"),
    ("points without end", stroke(4, [0, 0, 0] * 241), FIRST + "has not 1 to 240 points of three numbers"),
    ("a point of text", stroke(4, [0, 0, "5"]), FIRST + "has a point that cannot be"),
    ("a point of true", stroke(4, [0, 0, True]), FIRST + "has a point that cannot be"),
    ("on the moon", stroke(4, [10**9, 0, 5]), FIRST + "has a point that cannot be"),
    ("off the floor", stroke(4, [2000, 0, 5, 1, 0, 0]), FIRST + "leaves the floor"),
    ("through the floor", stroke(4, [0, 0, 60, 0, 0, 60]), FIRST + "is pressed harder than can be"),
]  # fmt: skip


@pytest.mark.parametrize(("change", "why"), [row[1:] for row in WRONG], ids=[row[0] for row in WRONG])
def test_ink_that_cannot_be_is_refused_and_nothing_comes_in(
    steady: Flask, steady_client: FlaskClient, board: str, change: Callable[[Any], Any], why: str
) -> None:
    found = json.loads(taken_along(steady_client, board))
    chain = quick(found)
    changed = change(chain["ink"])
    if isinstance(changed, str | list):
        chain["ink"] = changed
    number = found["chains"].index(chain) + 1
    assert refused(steady, steady_client, json.dumps(found)) == (
        f"Something in this file is not right (chains {number}, ink): This must be drawings: {why}. "
        "Save the file anew, or leave its ink out."
    )


def test_ink_on_a_step_that_is_not_there_is_refused(
    steady: Flask, steady_client: FlaskClient, board: str
) -> None:
    found = json.loads(taken_along(steady_client, board))
    quick(found)["ink"][0]["step"] = 99
    said = refused(steady, steady_client, json.dumps(found))
    assert said == "The chain “Quick” names a step that it does not have."


def test_the_published_schema_refuses_the_same(client: FlaskClient, board: str) -> None:
    found = json.loads(taken_along(client, board))
    for change in (stroke(1, 7), stroke(2, 3), stroke(4, [1, 2]), page(lambda p: p.update(more=1))):
        wrong = copy.deepcopy(found)
        change(quick(wrong)["ink"])
        with pytest.raises(jsonschema.ValidationError):
            jsonschema.Draft202012Validator(SCHEMA).validate(wrong)
