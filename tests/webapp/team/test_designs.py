"""Rule sets and formations of a team's own: copied, saved in versions, refused with every problem at once."""

from __future__ import annotations

import copy
from collections.abc import Callable
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient

from engine.floor.formations import FORMATIONS
from engine.rules.actions import BALL_ACTIONS
from engine.rules.rule_sets import SHIPPED
from tests.webapp.conftest import make_team, shared_of
from webapp.team import designs
from webapp.wire.refusals import answered

pytestmark = pytest.mark.common_app

#: What is under test in both sorts: path, what a copy is made of, and what the copy is called by.
SORTS = [("rules", "pass_and_cut", "title"), ("formations", "five_out", "name")]


def make(client: FlaskClient, sort: str = "rules", title: str = "Ours") -> str:
    """Make a copy and return its ref."""
    _, origin, called = next(row for row in SORTS if row[0] == sort)
    answer = client.post(f"/api/{sort}", json={"from": origin, called: title})
    assert answer.status_code == 201, answer.text
    return str(answer.get_json()["ref"])


def read(client: FlaskClient, ref: str, sort: str = "rules") -> Any:
    answer = client.get(f"/api/{sort}/{ref}")
    assert answer.status_code == 200, answer.text
    return answer.get_json()


def listed(client: FlaskClient, sort: str) -> list[str]:
    return [item["ref"] for item in client.get("/api/team").get_json()[sort]]


def test_the_team_has_what_ships_and_the_words_for_it(client: FlaskClient, board: str) -> None:
    team = client.get("/api/team").get_json()
    assert [item["ref"] for item in team["rules"]] == list(SHIPPED)
    assert all(item["shipped"] and item["about"] and item["stages"] for item in team["rules"])
    assert [item["ref"] for item in team["formations"]] == list(FORMATIONS)
    vocabulary = team["vocabulary"]
    assert "drive_corner" in vocabulary["triggers"]["middle_drive"]
    assert "drive_corner" in vocabulary["movements"]["hold"]
    assert vocabulary["actions"] == list(BALL_ACTIONS)
    assert vocabulary["always"] == ["shot", "fill"]
    assert vocabulary["happens"]["drive"] == ["middle_drive", "baseline_drive"]
    assert vocabulary["happens"]["pass"] == ["pass"]
    assert vocabulary["happens"]["cutter_pass"] == vocabulary["optional"] == ["cutter_catch"]
    assert vocabulary["happens"]["fill"] == []


@pytest.mark.parametrize(("sort", "origin", "called"), SORTS)
def test_a_copy_is_the_teams_own(
    client: FlaskClient, board: str, sort: str, origin: str, called: str
) -> None:
    ref = make(client, sort)
    mine, theirs = read(client, ref, sort), read(client, origin, sort)
    assert (mine["ref"], mine["version"], mine["shipped"], theirs["shipped"]) == (ref, 1, False, True)
    assert mine["data"] == {**theirs["data"], called: "Ours"}
    assert listed(client, sort)[-1] == ref
    again = client.post(f"/api/{sort}", json={"from": ref, called: "Ours too"}).get_json()["ref"]
    assert read(client, again, sort)["data"] == {**mine["data"], called: "Ours too"}


@pytest.mark.parametrize(("sort", "origin", "called"), SORTS)
def test_each_save_is_a_version_that_stays_as_it_is(
    client: FlaskClient, board: str, sort: str, origin: str, called: str
) -> None:
    ref = make(client, sort)
    first = read(client, ref, sort)["data"]
    saved = client.put(f"/api/{sort}/{ref}", json={"version": 1, "data": {**first, called: "Newer"}})
    assert saved.get_json() == {"ref": ref, "version": 2}
    assert read(client, ref, sort)["data"][called] == "Newer"
    assert read(client, f"{ref}@1", sort)["data"] == first
    assert read(client, f"{ref}@2", sort)["version"] == 2
    assert client.get(f"/api/{sort}/{ref}@3").status_code == 404
    same = client.put(f"/api/{sort}/{ref}", json={"version": 2, "data": {**first, called: "Newer"}})
    assert same.get_json()["version"] == 2  # nothing has changed


@pytest.mark.parametrize(("sort", "origin", "called"), SORTS)
def test_two_who_edit_at_once_do_not_overwrite_each_other(
    client: FlaskClient, board: str, sort: str, origin: str, called: str
) -> None:
    ref = make(client, sort)
    first = read(client, ref, sort)["data"]
    client.put(f"/api/{sort}/{ref}", json={"version": 1, "data": {**first, called: "Theirs"}})
    late = client.put(f"/api/{sort}/{ref}", json={"version": 1, "data": {**first, called: "Mine"}})
    assert (late.status_code, late.get_json()["error"]["message"]) == answered("newer")
    assert read(client, ref, sort)["data"][called] == "Theirs"


@pytest.mark.parametrize(("sort", "origin", "called"), SORTS)
def test_what_ships_stays_as_it_is(
    client: FlaskClient, board: str, sort: str, origin: str, called: str
) -> None:
    data = read(client, origin, sort)["data"]
    for answer in (
        client.put(f"/api/{sort}/{origin}", json={"version": 1, "data": data}),
        client.delete(f"/api/{sort}/{origin}"),
    ):
        assert (answer.status_code, answer.get_json()["error"]["message"]) == answered("shipped")


@pytest.mark.parametrize(("sort", "origin", "called"), SORTS)
def test_a_deleted_one_can_be_brought_back(
    client: FlaskClient, board: str, sort: str, origin: str, called: str
) -> None:
    ref = make(client, sort)
    restore = client.delete(f"/api/{sort}/{ref}").get_json()["restore"]
    assert ref not in listed(client, sort)
    assert client.get(f"/api/{sort}/{ref}").status_code == 404
    assert client.delete(f"/api/{sort}/{ref}").status_code == 404
    assert client.put(f"/api/{sort}/{ref}", json={"version": 1, "data": {}}).status_code in (404, 422)
    assert client.post(restore, json={}).get_json() == {"ref": ref, "version": 1}
    assert listed(client, sort)[-1] == ref
    assert client.post(restore).status_code == 409


@pytest.mark.parametrize(("sort", "origin", "called"), SORTS)
def test_another_team_cannot_read_or_change_it(
    app: Flask, client: FlaskClient, board: str, sort: str, origin: str, called: str
) -> None:
    ref = make(client, sort)
    data = read(client, ref, sort)["data"]
    other = app.test_client()
    make_team(other, "Pier Foxes")
    assert other.get(f"/api/{sort}/{ref}").status_code == 404
    assert other.get(f"/api/{sort}/{ref}@1").status_code == 404
    assert other.post(f"/api/{sort}", json={"from": ref, called: "x"}).status_code == 404
    assert other.put(f"/api/{sort}/{ref}", json={"version": 1, "data": data}).status_code == 404
    assert other.delete(f"/api/{sort}/{ref}").status_code == 404
    assert other.post(f"/api/{sort}/{ref}/restore").status_code == 404


@pytest.mark.parametrize(("sort", "origin", "called"), SORTS)
def test_one_sort_is_not_taken_for_the_other(
    client: FlaskClient, board: str, sort: str, origin: str, called: str
) -> None:
    ref = make(client, sort)
    wrong = "formations" if sort == "rules" else "rules"
    assert client.get(f"/api/{wrong}/{ref}").status_code == 404
    assert client.get(f"/api/{wrong}/{('r_' if wrong == 'rules' else 'f_') + ref[2:]}").status_code == 404


@pytest.mark.parametrize(
    ("limit", "value", "message"),
    [
        ("OWN_MAX", 2, "There are 2 rule sets, the most there can be. Delete one first."),
        ("KEPT_MAX", 2, "There are 50 rule sets, the most there can be. Delete one first."),
    ],
)
def test_there_are_only_so_many(
    client: FlaskClient, board: str, monkeypatch: pytest.MonkeyPatch, limit: str, value: int, message: str
) -> None:
    monkeypatch.setattr(designs, limit, value)
    make(client)
    make(client)
    answer = client.post("/api/rules", json={"from": "pass_and_cut", "title": "One more"})
    assert (answer.status_code, answer.get_json()["error"]["message"]) == (409, message)


def test_one_is_saved_only_so_often(client: FlaskClient, board: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(designs, "VERSIONS_MAX", 1)
    ref = make(client)
    data = {**read(client, ref)["data"], "title": "Newer"}
    answer = client.put(f"/api/rules/{ref}", json={"version": 1, "data": data})
    assert answer.get_json()["error"]["message"] == (
        "This has been saved 1 times, the most it can be. Nothing was saved: go on with a copy."
    )


# What is wrong with them is said all at once, and nothing is saved.

Change = Callable[[Any], object]


def setting(place: str, value: Any) -> Change:
    """Return what sets one part of a JSON form, named by its path."""
    *path, last = place.split(".")

    def change(data: Any) -> None:
        for part in path:
            data = data[int(part) if isinstance(data, list) else part]
        data[int(last) if isinstance(data, list) else last] = value

    return change


def without(name: str) -> Change:
    return lambda data: data.pop(name)


def several(*changes: Change) -> Change:
    return lambda data: [change(data) for change in changes]


KINDS = ", ".join(BALL_ACTIONS)

BAD_RULES: list[tuple[str, Change, list[list[str]]]] = [
    ("no responses", without("responses"), [["responses", "This is missing."]]),
    ("a part too many", setting("secret", 1), [["secret", "This is not known here: leave it out."]]),
    ("another version", setting("version", 2), [["version", "This file is of version 2; this reads 1."]]),
    ("an unknown action", setting("actions", ["fly"]), [
        ["actions", f"There is no 'fly': choose from {KINDS}."],
        ["stages.0", "'pass' is not among what the rule set installs."],
        ["stages.0", "'skip' is not among what the rule set installs."],
    ]),
    ("an action twice", setting("actions.1", "pass"), [["actions", "'pass' is there twice."]]),
    ("an unknown movement", setting("responses.pass.passer", "jump"), [
        ["responses.pass.passer", "There is no movement 'jump'."],
    ]),
    ("another's movement", setting("responses.pass.receiver", "roll"), [
        ["responses.pass.receiver", "'roll' is not a movement for this role."],
    ]),
    ("an unknown role", setting("responses.pass.screener", "roll"), [
        ["responses.pass.screener", "Nobody has this role after pass."],
    ]),
    ("an unknown trigger", setting("responses.rain", {"passer": "cut"}), [
        ["responses.rain", "There is no such trigger."],
    ]),
    ("a movement that is none", setting("responses.pass.passer", 5), [
        ["responses.pass.passer", "This must be a movement, or a list of one to six movements."],
    ]),
    ("no movement", setting("responses.pass.passer", []), [
        ["responses.pass.passer", "This must be a movement, or a list of one to six movements."],
    ]),
    ("too many posts", setting("posts", 6), [["posts", "This must be a number from 0 to 5, or nothing."]]),
    ("posts as text", setting("posts", "2"), [["posts", "This must be a whole number."]]),
    ("a title too long", setting("title", "x" * 61), [["title", "This must have 1 to 60 characters."]]),
    ("a stage without a title", setting("stages.0", {"adds": []}), [["stages.0.title", "This is missing."]]),
    ("a stage not installed", setting("stages.0.adds", ["flash"]), [
        ["stages.0", "'flash' is not among what the rule set installs."],
    ]),
    ("everything at once", several(
        setting("posts", -1),
        setting("title", ""),
        setting("responses.pass.passer", "jump"),
        setting("responses.rain", {}),
        setting("lane", ["fill", "fill"]),
        setting("stages", []),
    ), [
        ["title", "This must have 1 to 60 characters."],
        ["posts", "This must be a number from 0 to 5, or nothing."],
        ["responses.pass.passer", "There is no movement 'jump'."],
        ["responses.rain", "There is no such trigger."],
        ["lane", "'fill' is there twice."],
    ]),
]  # fmt: skip


@pytest.mark.parametrize(
    ("change", "problems"), [row[1:] for row in BAD_RULES], ids=[row[0] for row in BAD_RULES]
)
def test_bad_rules_are_refused_with_every_problem(
    client: FlaskClient, board: str, change: Change, problems: list[list[str]]
) -> None:
    ref = client.post("/api/rules", json={"from": "first_steps", "title": "Ours"}).get_json()["ref"]
    before = read(client, ref)
    data = copy.deepcopy(before["data"])
    data["actions"].append("skip")
    data["stages"][0]["adds"].append("skip")
    data["stages"][1]["adds"] = []
    change(data)
    answer = client.put(f"/api/rules/{ref}", json={"version": 1, "data": data})
    assert answer.status_code == 422
    assert answer.get_json()["error"]["problems"] == problems
    assert read(client, ref) == before


BAD_FORMATIONS: list[tuple[str, Change, list[list[str]]]] = [
    ("no ring", without("ring"), [["ring", "This is missing."]]),
    ("another version", setting("version", 2), [["version", "This must be 1."]]),
    ("a direction behind the basket", setting("ring.1.angle", 270), [
        ["ring.1.angle", "This must be a number from -10 to 190."],
    ]),
    ("a direction as text", setting("ring.1.angle", "90"), [
        ["ring.1.angle", "This must be a number from -10 to 190."],
    ]),
    ("home as a number", setting("ring.1.home", 1), [["ring.1.home", "This must be yes or no."]]),
    ("an unknown spot", setting("ring.1.spot", "moon"), [
        ["ring.moon", "There is no perimeter spot called 'moon'."],
        ["start.3", "3 starts on a spot that the formation does not have."],
    ]),
    ("a spot twice", setting("ring.1.spot", "left_corner"), [
        ["ring.left_corner", "The left corner is there twice."],
        ["start.3", "3 starts on a spot that the formation does not have."],
    ]),
    ("one dragged past the next", setting("ring.1.angle", 80), [
        ["ring", "The spots must go round from left to right: one has been dragged past the next."],
    ]),
    ("two spots on one place", setting("ring.1.angle", 91), [
        ["ring.left_wing", "The left wing and the top are on one place: move them apart."],
    ]),
    ("a post on a spot", setting("moved", [{"spot": "high_post", "x": 0, "y": 7.2}]), [
        ["ring.top", "The top and the high post are on one place: move them apart."],
    ]),
    ("a post off the court", setting("moved", [{"spot": "left_block", "x": -9, "y": 3}]), [
        ["ring.left_block", "The left block is off the court."],
    ]),
    ("a perimeter spot among the posts", setting("moved", [{"spot": "top", "x": 0, "y": 7}]), [
        ["moved.0.spot", "This must be a post spot."],
    ]),
    ("too few at home", several(*(setting(f"ring.{n}.home", False) for n in range(3))), [
        ["ring", "The resting shape needs 3 to 5 perimeter spots, not 2."],
    ]),
    ("two start on one spot", setting("start.2", "top"), [["start.top", "Two players start at the top."]]),
    ("a sixth player", setting("start.6", "left_block"), [
        ["start", "Players 1 to 5 each need a starting place."],
    ]),
    ("nobody with the ball", setting("ball", 9), [
        ["ball", "One of the five players must start with the ball."],
    ]),
    ("everything at once", several(setting("name", " "), setting("posts", 9), setting("ring.0.offset", 4)), [
        ["name", "This must have 1 to 40 characters."],
        ["ring.0.offset", "This must be a number from 0 to 3."],
        ["posts", "This must be a number from 0 to 5."],
    ]),
]  # fmt: skip


@pytest.mark.parametrize(
    ("change", "problems"), [row[1:] for row in BAD_FORMATIONS], ids=[row[0] for row in BAD_FORMATIONS]
)
def test_a_bad_formation_is_refused_with_every_problem(
    client: FlaskClient, board: str, change: Change, problems: list[list[str]]
) -> None:
    ref = make(client, "formations")
    before = read(client, ref, "formations")
    data = copy.deepcopy(before["data"])
    change(data)
    answer = client.put(f"/api/formations/{ref}", json={"version": 1, "data": data})
    assert answer.status_code == 422
    assert answer.get_json()["error"]["problems"] == problems
    assert read(client, ref, "formations") == before


@pytest.mark.parametrize(
    ("body", "problems"),
    [
        ({}, [["from", "This is missing."], ["title", "This is missing."]]),
        (
            {"from": "../x", "title": "x"},
            [["from", "This must be the name of one that ships, or of one of the team's own."]],
        ),
        ({"from": "pass_and_cut", "title": ""}, [["title", "This must have 1 to 60 characters."]]),
        (
            {"from": "pass_and_cut", "title": "x", "id": 1},
            [["id", "This is not known here: leave it out."]],
        ),
    ],
)
def test_a_bad_copy_is_refused(client: FlaskClient, board: str, body: Any, problems: list[list[str]]) -> None:
    answer = client.post("/api/rules", json=body)
    assert (answer.status_code, answer.get_json()["error"]["problems"]) == (422, problems)


@pytest.mark.parametrize("data", ["{", b"\xff", "[" * 5000, '{"version": 1, "data": NaN}'])
def test_what_is_no_json_is_refused(client: FlaskClient, board: str, data: Any) -> None:
    ref = make(client)
    answer = client.put(f"/api/rules/{ref}", data=data)
    assert answer.status_code == 400
    assert answer.get_json()["error"]["code"] == "bad_form"


@pytest.mark.parametrize("ref", ["r_nothing", "r_", "x", "five_out", "r_a@1", "r_a@x", "pass_and_cut@1"])
def test_rules_that_are_not_there_are_not_found(client: FlaskClient, board: str, ref: str) -> None:
    answer = client.get(f"/api/rules/{ref}")
    assert (answer.status_code, answer.get_json()["error"]["message"]) == answered("no_rules")


def test_a_formation_is_shown_on_the_court_asked_for(client: FlaskClient, board: str) -> None:
    fiba = read(client, "five_out?court=fiba", "formations")["spots"]
    nba = read(client, "five_out?court=nba", "formations")["spots"]
    assert fiba["top"] == [0, 715]  # 6.75 m to the line's outer edge (FIBA 2020, Art. 2) and 0.40 outside it
    assert nba["top"][1] > fiba["top"][1]
    assert client.get("/api/formations/five_out?court=moon").status_code == 400


def test_a_formation_may_be_called_anything(app: Flask, client: FlaskClient, board: str) -> None:
    # The engine keeps tables by the names of what ships: an own one never gets at them, whatever its name.
    for name in ("five_out", "../../secret", "x" * 40, "4-out / 1-in"):
        ref = make(client, "formations", name)
        assert read(client, ref, "formations")["data"]["name"] == name
        answer = client.post(
            "/api/rules/preview",
            json={"rules": "pass_and_cut", "formation": ref, "court": "fiba", "chain": ["pass:left_wing"]},
        )
        assert len(answer.get_json()["steps"]) == 1
    assert shared_of(app).store.path.exists()
