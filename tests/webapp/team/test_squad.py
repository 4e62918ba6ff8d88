"""The squad: what is kept of a player and what is not, lineups, calls, and getting rid of all of it."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient

from tests.webapp.access.test_access import assistant
from tests.webapp.conftest import make_team, shared_of
from webapp.team import squad
from webapp.wire.refusals import answered

pytestmark = pytest.mark.common_app


def add(client: FlaskClient, number: str, name: str = "", **given: Any) -> Any:
    answer = client.post("/api/team/players", json={"number": number, "name": name, **given})
    assert answer.status_code == 201, answer.text
    return answer.get_json()


def numbers(client: FlaskClient) -> list[str]:
    return [player["number"] for player in client.get("/api/team").get_json()["players"]]


def test_a_player_is_a_number_and_at_most_a_first_name(client: FlaskClient, board: str) -> None:
    made = add(client, "7", "  Zoë-Ann  O’Hara ")
    assert made["name"] == "Zoë-Ann O’Hara"
    assert client.get("/api/team").get_json()["players"] == [
        {
            "id": made["id"], "number": "7", "name": "Zoë-Ann O’Hara", "positions": [], "hand": "",
            "may": None, "lane": [],
        }
    ]  # fmt: skip


def test_the_squad_is_listed_by_number(client: FlaskClient, board: str) -> None:
    for number in ("12", "00", "5", "0", "99"):
        add(client, number)
    assert numbers(client) == ["0", "00", "5", "12", "99"]


def test_what_is_said_of_a_player_is_changed_alone(client: FlaskClient, board: str) -> None:
    made = add(client, "7", "Robin", positions=["guard", "wing"], hand="left")
    address = f"/api/team/players/{made['id']}"
    given = {"may": ["pass", "drive"], "lane": ["post_up:left_block", "fill"]}
    assert client.patch(address, json=given).get_json() == {**made, **given}
    assert client.patch(address, json={"number": "8"}).get_json() == {**made, **given, "number": "8"}
    assert client.patch(address, json={"may": None}).get_json()["may"] is None


NAME = "This must be a first name or a nickname: letters only, no numbers, no addresses."
MORE = "A number, a first name and how they play are all that is saved of a player."

BAD_PLAYERS: list[tuple[Any, list[list[str]]]] = [
    ({}, [["number", "This is missing."]]),
    ({"number": 7}, [["number", "This must be text."]]),
    ({"number": "100"}, [["number", "This must be a number from 0 to 99."]]),
    ({"number": "07"}, [["number", "This must be a number from 0 to 99."]]),
    ({"number": "٣"}, [["number", "This must be a number from 0 to 99."]]),
    ({"number": "7\n"}, [["number", "This must be a number from 0 to 99."]]),
    ({"number": "7", "name": "robin@post.example"}, [["name", NAME]]),
    ({"number": "7", "name": "Robin 2011"}, [["name", NAME]]),
    ({"number": "7", "name": "<b>Robin</b>"}, [["name", NAME]]),
    ({"number": "7", "name": "Robin ⅷ"}, [["name", NAME]]),
    ({"number": "7", "name": "R" * 21}, [["name", "This must have at most 20 characters."]]),
    ({"number": "7", "name": "Ro\u202ebin"}, [["name", "This must be plain text on one line."]]),
    ({"number": "7", "born": "2011-02-03"}, [["born", MORE]]),
    ({"number": "7", "mail": "x", "photo": "y"}, [["mail", MORE], ["photo", MORE]]),
    (
        {"number": "7", "positions": ["goal"]},
        [["positions.0", "This must be one of: guard, wing, big."]],
    ),
    ({"number": "7", "hand": "both"}, [["hand", "This must be right, left or nothing."]]),
    ({"number": "7", "may": ["fly"]}, [["may.0", "This must be the name of an action."]]),
    ({"number": "7", "lane": ["pass:top"]}, [["lane.0", "This must be something a cutter can choose."]]),
    (
        {"number": "7", "lane": ["post_up:moon"]},
        [["lane.0", "'post_up:moon' cannot be read: there is no spot named 'moon'."]],
    ),
    (
        {"number": "x", "name": "4", "hand": 1, "age": 9},
        [
            ["number", "This must be a number from 0 to 99."],
            ["name", NAME],
            ["hand", "This must be text."],
            ["age", MORE],
        ],
    ),
    ([], [["", "This must be a group of named values."]]),
]


@pytest.mark.parametrize(("body", "problems"), BAD_PLAYERS, ids=[str(body)[:50] for body, _ in BAD_PLAYERS])
def test_of_a_player_nothing_else_is_taken(
    client: FlaskClient, board: str, body: Any, problems: list[list[str]]
) -> None:
    answer = client.post("/api/team/players", json=body)
    assert answer.status_code == 422
    error = answer.get_json()["error"]
    assert (error["code"], sorted(error["problems"])) == ("problems", sorted(problems))
    count = "One thing is" if len(problems) == 1 else f"{len(problems)} things are"
    assert error["message"].startswith(f"{count} not right yet, so nothing was saved.")
    assert numbers(client) == []


def test_a_number_is_given_once(client: FlaskClient, board: str) -> None:
    first, second = add(client, "7"), add(client, "8")
    taken = [["number", "There is a number 7 in the squad already."]]
    assert client.post("/api/team/players", json={"number": "7"}).get_json()["error"]["problems"] == taken
    address = f"/api/team/players/{second['id']}"
    assert client.patch(address, json={"number": "7"}).get_json()["error"]["problems"] == taken
    # Nor by bringing somebody back.
    client.delete(f"/api/team/players/{first['id']}")
    add(client, "7")
    answer = client.post(f"/api/team/players/{first['id']}/restore")
    assert (answer.status_code, answer.get_json()["error"]["problems"]) == (422, taken)


def test_a_player_taken_out_can_be_brought_back(client: FlaskClient, board: str) -> None:
    made = add(client, "7", "Robin", may=["pass"])
    gone = client.delete(f"/api/team/players/{made['id']}").get_json()
    assert numbers(client) == []
    assert client.patch(f"/api/team/players/{made['id']}", json={}).status_code == 404
    assert client.delete(f"/api/team/players/{made['id']}").status_code == 404
    assert client.post(gone["restore"], json={}).get_json() == made
    assert numbers(client) == ["7"]
    answer = client.post(gone["restore"], json={})
    assert (answer.status_code, answer.get_json()["error"]["message"]) == answered("not_deleted")


def test_a_squad_has_at_most_thirty_players(client: FlaskClient, board: str) -> None:
    for number in range(30):
        add(client, str(number))
    answer = client.post("/api/team/players", json={"number": "77"})
    assert answer.status_code == 409
    assert answer.get_json()["error"]["message"] == (
        "The squad has 30 players, the most it can have. Nothing was changed."
    )


def test_players_taken_out_long_ago_are_erased(
    client: FlaskClient, board: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    made = add(client, "7")
    client.delete(f"/api/team/players/{made['id']}")
    add(client, "8")
    assert client.post(f"/api/team/players/{made['id']}/restore").status_code == 200
    client.delete(f"/api/team/players/{made['id']}")
    monkeypatch.setattr(squad, "KEPT_S", -60)
    add(client, "9")
    assert client.post(f"/api/team/players/{made['id']}/restore").status_code == 404


# Lineups


def test_a_lineup_says_who_has_which_place(client: FlaskClient, board: str) -> None:
    one, two = add(client, "7")["id"], add(client, "8")["id"]
    made = client.post("/api/team/lineups", json={"name": "Small", "places": {"1": one, "4": two}})
    assert made.status_code == 201
    lineup = made.get_json()
    assert lineup["places"] == {"1": one, "2": None, "3": None, "4": two, "5": None}
    address = f"/api/team/lineups/{lineup['id']}"
    assert client.patch(address, json={"name": "Tall"}).get_json() == {**lineup, "name": "Tall"}
    client.delete(f"/api/team/players/{one}")
    shown = client.get("/api/team").get_json()["lineups"]
    assert shown == [{"id": lineup["id"], "name": "Tall", "places": {**lineup["places"], "1": None}}]
    client.post(f"/api/team/players/{one}/restore")
    assert client.get("/api/team").get_json()["lineups"][0]["places"] == lineup["places"]
    restore = client.delete(address).get_json()["restore"]
    assert client.get("/api/team").get_json()["lineups"] == []
    assert client.post(restore).get_json() == {**lineup, "name": "Tall"}
    answer = client.post(restore)
    assert (answer.status_code, answer.get_json()["error"]["message"]) == answered("not_deleted")
    other = client.patch(address, json={"places": {"1": two}}).get_json()["places"]
    assert other == {"1": two, "2": None, "3": None, "4": None, "5": None}


@pytest.mark.parametrize(
    ("body", "problems"),
    [
        ({}, [["name", "This is missing."], ["places", "This is missing."]]),
        ({"name": "x", "places": {"6": None}}, [["places.6", "This must be a place, 1 to 5."]]),
        ({"name": "x", "places": {"1": 7}}, [["places.1", "This must be text."]]),
        ({"name": "x", "places": {"1": "nobody"}}, [["places.1", "There is no such player in the squad."]]),
        ({"name": "x", "places": []}, [["places", "This must be a group of named values."]]),
    ],
)
def test_a_bad_lineup_is_not_kept(
    client: FlaskClient, board: str, body: Any, problems: list[list[str]]
) -> None:
    answer = client.post("/api/team/lineups", json=body)
    assert (answer.status_code, answer.get_json()["error"]["problems"]) == (422, problems)
    assert client.get("/api/team").get_json()["lineups"] == []


def test_nobody_has_two_places_in_a_lineup(client: FlaskClient, board: str) -> None:
    one = add(client, "7")["id"]
    answer = client.post("/api/team/lineups", json={"name": "x", "places": {"1": one, "2": one}})
    assert answer.get_json()["error"]["problems"] == [
        ["places.1", "One player cannot have two places."],
        ["places.2", "One player cannot have two places."],
    ]


# Calls


def test_calls_are_kept_as_they_are_said(client: FlaskClient, board: str) -> None:
    calls = {"drive": {"call": "Go", "signal": "fist up"}, "pass": {"call": " ", "signal": ""}}
    assert client.put("/api/team/calls", json=calls).get_json() == {"calls": {"drive": calls["drive"]}}
    assert client.get("/api/team").get_json()["calls"] == {"drive": calls["drive"]}
    client.put("/api/team/calls", json={"calls": {"shot": {"signal": "clap"}}})
    assert client.get("/api/team").get_json()["calls"] == {"shot": {"signal": "clap"}}


@pytest.mark.parametrize(
    ("body", "problems"),
    [
        ({"fly": {"call": "x"}}, [["calls.fly", "This must be the name of an action."]]),
        ({"drive": "Go"}, [["calls.drive", "This must be a group of named values."]]),
        ({"drive": {"call": "x" * 31}}, [["calls.drive.call", "This must have at most 30 characters."]]),
        ({"drive": {"shout": "x"}}, [["calls.drive.shout", "This is not known here: leave it out."]]),
        ([], [["calls", "This must be a group of named values."]]),
    ],
)
def test_a_bad_call_is_not_kept(
    client: FlaskClient, board: str, body: Any, problems: list[list[str]]
) -> None:
    answer = client.put("/api/team/calls", json=body)
    assert (answer.status_code, answer.get_json()["error"]["problems"]) == (422, problems)
    assert client.get("/api/team").get_json()["calls"] == {}


# Taking it along, and erasing it


def test_the_squad_can_be_taken_along(client: FlaskClient, board: str) -> None:
    made = add(client, "7", "Robin")
    answer = client.get("/api/team/export")
    assert 'filename="squad.json"' in answer.headers["Content-Disposition"]
    kept = answer.get_json()
    assert (kept["version"], kept["team"], kept["players"]) == (1, "Quay Otters", [made])


def test_an_erased_squad_is_nowhere_on_the_disk(own_app: Flask) -> None:
    client = own_app.test_client()
    make_team(client)
    first, second = add(client, "7", "Quenellbert"), add(client, "8", "Ysoldewyn")
    client.patch(f"/api/team/players/{first['id']}", json={"name": "Xanthippus"})
    client.post("/api/team/lineups", json={"name": "Borogove", "places": {"1": first["id"]}})
    client.delete(f"/api/team/players/{second['id']}")
    assert client.delete("/api/team/squad", json={"confirm": "erase"}).get_json() == {"erased": 2}
    assert client.post(f"/api/team/players/{second['id']}/restore").status_code == 404
    directory: Path = shared_of(own_app).store.path.parent
    kept = b"".join(file.read_bytes() for file in directory.iterdir())
    for word in ("Quenellbert", "Ysoldewyn", "Xanthippus", "Borogove", first["id"]):
        assert word.encode() not in kept, word
    team = client.get("/api/team").get_json()
    assert (team["players"], team["lineups"]) == ([], [])


@pytest.mark.parametrize("body", [{}, {"confirm": "yes"}, {"confirm": True}])
def test_a_squad_is_not_erased_by_accident(client: FlaskClient, board: str, body: Any) -> None:
    add(client, "7")
    assert client.delete("/api/team/squad", json=body).status_code == 422
    assert numbers(client) == ["7"]


# Who may


def test_an_assistant_keeps_the_squad_but_does_not_erase_it(
    app: Flask, client: FlaskClient, board: str
) -> None:
    other = assistant(app, client, board)
    add(other, "7")
    answer = other.delete("/api/team/squad", json={"confirm": "erase"})
    assert (answer.status_code, answer.get_json()["error"]["code"]) == (403, "head_coach_only")
    assert numbers(client) == ["7"]


def test_another_team_sees_and_changes_nothing(app: Flask, client: FlaskClient, board: str) -> None:
    player = add(client, "7", "Robin")["id"]
    lineup = client.post("/api/team/lineups", json={"name": "x", "places": {}}).get_json()["id"]
    other = app.test_client()
    make_team(other, "Pier Foxes")
    assert numbers(other) == []
    assert other.patch(f"/api/team/players/{player}", json={"name": "x"}).status_code == 404
    assert other.delete(f"/api/team/players/{player}").status_code == 404
    assert other.delete(f"/api/team/lineups/{lineup}").status_code == 404
    answer = other.post("/api/team/lineups", json={"name": "x", "places": {"1": player}})
    assert answer.status_code == 422
    assert other.get(f"/api/team?board={board}").status_code == 403


def test_a_phone_and_a_stranger_see_nothing_of_the_team(app: Flask, client: FlaskClient, board: str) -> None:
    link = client.post(f"/api/board/{board}/links", json={"kind": "view", "name": "x"}).get_json()
    phone = app.test_client()
    phone.get(f"/v/{link['url'].rsplit('/', 1)[1]}")
    for path in (
        "/api/team",
        f"/api/team?board={board}",
        "/api/team/export",
        "/team",
        "/api/rules/pass_and_cut",
    ):
        assert phone.get(path).status_code == 403, path


def test_a_device_of_two_teams_says_which_it_means(client: FlaskClient, board: str) -> None:
    other = make_team(client, "Pier Foxes")
    answer = client.get("/api/team")
    assert (answer.status_code, answer.get_json()["error"]["message"]) == answered("which_team")
    assert client.get(f"/api/team?board={board}").get_json()["name"] == "Quay Otters"
    assert client.get(f"/api/team?board={other}").get_json()["name"] == "Pier Foxes"
    assert f'data-board="{other}"' in client.get(f"/team?board={other}").text


def test_another_sites_page_changes_nothing(client: FlaskClient, board: str) -> None:
    answer = client.post(
        "/api/team/players", json={"number": "7"}, headers={"Origin": "http://elsewhere.example"}
    )
    assert (answer.status_code, answer.get_json()["error"]["code"]) == (403, "other_site")
    assert numbers(client) == []
