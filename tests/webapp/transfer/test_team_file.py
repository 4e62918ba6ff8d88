"""Moving house: a team's everything as a file, and what a coach can do with one."""

from __future__ import annotations

import json
from dataclasses import replace
from typing import Any

import jsonschema
import pytest
from flask import Flask
from flask.testing import FlaskClient

from tests.webapp.access.test_access import assistant
from tests.webapp.conftest import make_team, shared_of
from tests.webapp.plays.test_playbook import FIRST, did, listed, one, saving
from tests.webapp.transfer.teams import bring_in, look, play_on, taken_along
from webapp.base.settings import ROOT, Settings
from webapp.chains.history import load
from webapp.store.tables import Chain, Node
from webapp.wire.refusals import answered

SCHEMA = json.loads((ROOT / "static/schema/team-1.json").read_text("utf-8"))


@pytest.fixture
def settings(settings: Settings) -> Settings:
    """With the limits that people meet."""
    return replace(settings, teams_address_count=Settings().teams_address_count)


def fits_the_schema(file: str) -> None:
    jsonschema.Draft202012Validator(SCHEMA).validate(json.loads(file))


def test_a_file_has_everything_and_fits_the_published_schema(client: FlaskClient, board: str) -> None:
    file = taken_along(client, board)
    fits_the_schema(file)
    found = json.loads(file)
    assert (found["format"], found["version"], found["team"]["name"]) == ("quintet-team", 1, "Quay Otters")
    assert sorted(player["number"] for player in found["players"]) == ["0", "00", "12"]
    assert sorted(chain["name"] for chain in found["chains"]) == [
        "", "By our own", "By what is gone", "Deleted", "Quick",
    ]  # fmt: skip
    assert sorted(len(design["versions"]) for design in found["designs"]) == [1, 1, 2]
    assert found["boards"][0]["stands"]["node"] < found["boards"][0]["stands"]["tip"]
    published = client.get("/schema/team-1.json")
    assert (published.get_json(), published.mimetype) == (SCHEMA, "application/schema+json")
    jsonschema.Draft202012Validator.check_schema(SCHEMA)


def test_no_secret_is_in_a_file(client: FlaskClient, board: str) -> None:
    link = client.post(f"/api/board/{board}/links", json={"kind": "view", "name": "players"}).get_json()
    code = client.post(f"/api/board/{board}/code", json={}).get_json()
    file = taken_along(client, board)
    words = [link["id"], link["url"].rsplit("/", 1)[1], code["code"]]
    words += [part for cookie in client._cookies.values() for part in cookie.value.split(".")]  # type: ignore[attr-defined]
    assert [word for word in words if word in file] == []
    assert not {"key", "link", "secret", "hash", "code"} & {
        name.rpartition("_")[2] for name in json.loads(file)
    }


def test_who_was_taken_out_of_the_squad_stays_behind(client: FlaskClient, board: str) -> None:
    gone = client.get("/api/team").get_json()["players"][0]
    client.delete(f"/api/team/players/{gone['id']}")
    file = taken_along(client, board)
    fits_the_schema(file)
    assert gone["name"] not in file
    assert gone["id"] not in file


def test_a_team_brought_to_an_empty_server_is_the_same_there(
    client: FlaskClient, board: str, elsewhere: Flask
) -> None:
    file = taken_along(client, board)
    there = elsewhere.test_client()
    shown = look(there, file)
    assert (shown["team"]["name"], shown["into"], shown["here"]) == ("Quay Otters", None, None)
    assert shown["counts"] == {
        "players": 3, "lineups": 1, "rules": 1, "formations": 1, "boards": 1, "chains": 3,
        "drawn": 3, "played": 1,
    }  # fmt: skip
    assert bring_in(there, file) == board
    assert taken_along(there, board) == file
    assert there.get(f"/board/{board}").status_code == 200
    assert listed(there) == listed(client)


def test_its_boards_stand_where_they_stood(
    app: Flask, client: FlaskClient, board: str, elsewhere: Flask
) -> None:
    bring_in(elsewhere.test_client(), taken_along(client, board))
    with shared_of(app).store.read() as here, shared_of(elsewhere).store.read() as there:
        was, stands = load(here, board), load(there, board)
    assert [step.actions for step in stands.steps] == [step.actions for step in was.steps]
    assert [step.actions for step in stands.ahead] == [step.actions for step in was.ahead]
    assert (stands.position, stands.notice) == (was.position, None)
    assert (stands.card.court, stands.card.level, stands.card.stage) == ("nba", 0.9, 2)
    assert [member and member.number for member in stands.card.squad] == ["0", None, "12", None, None]


def test_whoever_brings_it_is_its_head_coach(client: FlaskClient, board: str, elsewhere: Flask) -> None:
    there, stranger = elsewhere.test_client(), elsewhere.test_client()
    bring_in(there, taken_along(client, board))
    assert there.get(f"/api/board/{board}/access").get_json()["role"] == "head_coach"
    assert stranger.get(f"/api/board/{board}/access").status_code == 403


def test_steps_that_are_not_played_any_more_come_along(
    app: Flask, client: FlaskClient, board: str, elsewhere: Flask
) -> None:
    # As if the engine had become stricter since.
    with shared_of(app).store.write() as session:
        session.get_one(Node, session.get_one(Chain, "c1").line_id).actions = "kick_out:left_wing"
    file = taken_along(client, board)
    fits_the_schema(file)
    there = elsewhere.test_client()
    bring_in(there, file)
    assert taken_along(there, board) == file
    assert one(there)["stops"]["legal"] == 2


def test_the_same_team_once_more_is_a_copy_with_ids_of_its_own(client: FlaskClient, board: str) -> None:
    file = taken_along(client, board)
    assert look(client, file)["here"] == {"board": board, "name": "Quay Otters", "head": True}
    other = bring_in(client, file)
    assert other != board
    first, second = json.loads(file), json.loads(taken_along(client, other))
    assert taken_along(client, board) == file
    for kind in ("players", "lineups", "designs", "boards", "chains"):
        ids = [{thing["id"] for thing in found[kind]} for found in (first, second)]
        assert len(ids[0]) == len(ids[1])
        assert not ids[0] & ids[1]
    assert sorted(c["name"] for c in second["chains"]) == sorted(c["name"] for c in first["chains"])
    own = next(chain for chain in second["chains"] if chain["name"] == "By our own")
    assert own["rules"].removeprefix("r_") in {f"{design['id']}@1" for design in second["designs"]}
    assert [c["stops"] for c in client.get(f"/api/chains?board={other}").get_json()["chains"]] == [None] * 3


def test_whether_a_team_is_here_is_told_only_to_its_coaches(
    app: Flask, client: FlaskClient, board: str
) -> None:
    assert look(app.test_client(), taken_along(client, board))["here"] is None


# Into a team that is here.


def test_bringing_back_what_is_there_already_changes_nothing(client: FlaskClient, board: str) -> None:
    file = taken_along(client, board)
    shown = look(client, file, board)
    assert shown["into"] == "Quay Otters"
    assert all(not found["new"] and not found["different"] for found in shown["items"].values())
    for whose in ("mine", "theirs", "both"):
        bring_in(client, file, board, **dict.fromkeys(shown["items"], whose))
    assert taken_along(client, board) == file


@pytest.fixture
def changed(app: Flask, client: FlaskClient, board: str) -> str:
    """The file of the team as it was, before much of it was changed here."""
    file = taken_along(client, board)
    people = client.get("/api/team").get_json()["players"]
    client.patch(f"/api/team/players/{people[0]['id']}", json={"name": "Zoë-Ann"})
    client.delete(f"/api/team/players/{people[2]['id']}")
    client.post("/api/team/players", json={"number": "12", "name": "Bo"})
    client.put("/api/team/calls", json={"calls": {"drive": {"call": "Hop"}, "pass": {"call": "Ping"}}})
    rules = next(row["ref"] for row in client.get("/api/team").get_json()["rules"] if not row["shipped"])
    form = client.get(f"/api/rules/{rules}").get_json()["data"]
    client.put(f"/api/rules/{rules}", json={"version": 2, "data": {**form, "title": "Third"}})
    did(client, {"op": "edit", "chain": "c1", "name": "Quicker", "line": FIRST[:1]}, saving(board, "c9"))
    play_on(app, board, ["fill:right_corner", "pass:right_wing"])
    return file


def test_what_clashes_is_shown_before_anything_changes(client: FlaskClient, board: str, changed: str) -> None:
    before = taken_along(client, board)
    items = look(client, changed, board)["items"]
    assert items["team"]["different"] == [{"theirs": "Quay Otters", "mine": "Quay Otters"}]
    assert items["players"] == {
        "new": 0,
        "same": 1,
        "different": [{"theirs": "0 Zoë", "mine": "0 Zoë-Ann"}, {"theirs": "12 Ιώ", "mine": "12 Bo"}],
        "twins": [],
    }
    assert items["designs"]["different"] == [{"theirs": "Ours, newer", "mine": "Third"}]
    assert {"theirs": "Quick", "mine": "Quicker"} in items["chains"]["different"]
    assert taken_along(client, board) == before


def test_keeping_mine_changes_only_what_is_new(client: FlaskClient, board: str, changed: str) -> None:
    before = json.loads(taken_along(client, board))
    bring_in(client, changed, board)
    after = json.loads(taken_along(client, board))
    assert after == before


def test_taking_theirs_brings_back_what_was(client: FlaskClient, board: str, changed: str) -> None:
    bring_in(client, changed, board, **dict.fromkeys(("team", "players", "chains", "designs"), "theirs"))
    was, after = json.loads(changed), json.loads(taken_along(client, board))
    assert after["team"] == was["team"]
    players = sorted((player["number"], player["name"]) for player in after["players"])
    assert players == [("0", "Zoë"), ("00", ""), ("12", "Ιώ")]
    chains = {chain["id"]: chain for chain in after["chains"]}
    assert (chains["c1"]["name"], one(client)["line"]) == ("Quick", [1, 2, 3])
    assert chains["c9"]["name"] == "Quick"  # was made since, and stays
    own = max(after["designs"], key=lambda design: len(design["versions"]))
    titles = [version["data"]["title"] for version in own["versions"]]
    assert titles == ["Ours", "Ours, newer", "Third", "Ours, newer"]


def test_keeping_both_takes_the_files_in_beside(client: FlaskClient, board: str, changed: str) -> None:
    kinds = ("players", "designs", "chains", "boards", "lineups", "team")
    bring_in(client, changed, board, **dict.fromkeys(kinds, "both"))
    after = json.loads(taken_along(client, board))
    assert sorted((p["number"], p["name"]) for p in after["players"]) == [
        ("0", "Zoë-Ann"), ("00", ""), ("1", "Zoë"), ("12", "Bo"), ("2", "Ιώ"),
    ]  # fmt: skip
    assert after["team"]["calls"] == {"drive": {"call": "Hop"}, "pass": {"call": "Ping"}}
    names = sorted(chain["name"] for chain in after["chains"] if chain["kept"] and not chain["deleted"])
    assert names == ["By our own", "By what is gone", "Quick", "Quick", "Quicker"]
    assert len(after["boards"]) == 2
    fits_the_schema(taken_along(client, board))
    other = next(item["id"] for item in after["boards"] if item["id"] != board)
    assert client.get(f"/board/{other}").status_code == 200


def test_a_branch_that_was_played_here_is_never_taken_away(
    client: FlaskClient, board: str, changed: str
) -> None:
    longer = [*FIRST[:2], ["fill:right_corner", "pass:left_wing"]]
    did(client, saving(board, line=longer))
    bring_in(client, changed, board, chains="theirs")
    assert "fill:right_corner pass:left_wing" in [actions for _, actions in one(client)["tree"]]


def test_other_rules_of_the_same_id_come_as_well_and_chains_play_by_theirs(
    client: FlaskClient, board: str
) -> None:
    file = json.loads(taken_along(client, board))
    own = next(design for design in file["designs"] if len(design["versions"]) == 2)
    first = own["versions"][0]["data"]
    first["title"] = "Once ours"
    file["chains"] = [{**chain, "id": chain["id"] + "x"} for chain in file["chains"]]
    file["boards"][0]["stands"]["chain"] += "x"
    before = json.loads(taken_along(client, board))["designs"]
    bring_in(client, json.dumps(file), board)
    after = json.loads(taken_along(client, board))["designs"]
    assert [design for design in after if design in before] == before
    (new,) = [design for design in after if design not in before]
    assert new["deleted"] is not None
    assert one(client, "c2x")["rules_title"] == "Once ours"
    assert one(client, "c2")["rules_title"] == "Ours"


def test_only_so_much_fits_into_one_team_and_then_nothing_comes_in(client: FlaskClient, board: str) -> None:
    file = json.loads(taken_along(client, board))
    for number in range(20, 47):
        client.post("/api/team/players", json={"number": str(number)})
    blank = {**file["players"][0], "id": "new", "number": "77"}
    file["players"].append(blank)
    before = taken_along(client, board)
    shown = look(client, json.dumps(file), board)
    query = {"seen": shown["seen"], "board": board}
    answer = client.post("/api/import", query_string=query, data=json.dumps(file))
    assert (answer.status_code, answer.get_json()["error"]["code"]) == (409, "full_squad")
    assert taken_along(client, board) == before


@pytest.mark.parametrize(
    ("kind", "limit", "code"),
    [
        ("lineups", "LINEUPS_MAX", "full_lineups"),
        ("designs", "designs.OWN_MAX", "full_rules"),
        ("chains", "playbook.KEPT_MAX", "full_playbook"),
    ],
)
def test_what_is_too_much_for_a_team_is_said_and_nothing_comes_in(
    client: FlaskClient, board: str, kind: str, limit: str, code: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = taken_along(client, board)
    # One more than the file has, of each.
    client.post("/api/team/lineups", json={"name": "One more", "places": {}})
    client.post("/api/rules", json={"from": "first_steps", "title": "One more"})
    did(client, saving(board, "c9"))
    most = sum(
        thing.get("kind", "rules") == "rules" and not thing.get("deleted") and thing.get("kept", True)
        for thing in json.loads(file)[kind]
    )
    before, shown = taken_along(client, board), look(client, file, board)
    monkeypatch.setattr(f"webapp.transfer.bring.{limit}", most)
    answer = client.post("/api/import", query_string={"seen": shown["seen"], "board": board}, data=file)
    error = answer.get_json()["error"]
    assert (answer.status_code, error["code"]) == (409, code)
    assert error["message"] == answered(code, most=most)[1]
    assert taken_along(client, board) == before


def test_what_was_looked_at_is_what_comes_in(client: FlaskClient, board: str) -> None:
    file = taken_along(client, board)
    shown = look(client, file, board)
    client.put("/api/team/calls", json={"calls": {}})
    query = {"seen": shown["seen"], "board": board}
    for text in (file, file.replace("Quay", "Bay")):
        answer = client.post("/api/import", query_string=query, data=text)
        assert (answer.status_code, answer.get_json()["error"]["message"]) == answered("moved_on")


@pytest.mark.parametrize(
    "query", [{}, {"seen": "x" * 65}, {"seen": "x", "chains": "hers"}, {"seen": "x", "more": "1"}]
)
def test_what_was_decided_is_checked(client: FlaskClient, board: str, query: dict[str, str]) -> None:
    answer = client.post("/api/import", query_string=query, data=taken_along(client, board))
    assert answer.status_code == 422
    assert answer.get_json()["error"]["problems"]


def test_assistants_take_along_and_only_the_head_coach_brings_in(
    app: Flask, client: FlaskClient, board: str
) -> None:
    helper = assistant(app, client, board)
    file = taken_along(helper, board)
    assert file == taken_along(client, board)
    answer = helper.post(f"/api/import/look?board={board}", data=file)
    assert (answer.status_code, answer.get_json()["error"]["message"]) == answered("head_coach_only")
    query = {"seen": "x", "board": board}
    assert helper.post("/api/import", query_string=query, data=file).status_code == 403
    assert app.test_client().get(f"/api/team/everything?board={board}").status_code == 403
    other = app.test_client()
    make_team(other, "Bay Badgers", "Theirs")
    assert other.post(f"/api/import/look?board={board}", data=file).status_code == 403


def test_teams_are_brought_in_only_so_often(client: FlaskClient, board: str) -> None:
    file = taken_along(client, board)
    seen = look(client, file)["seen"]
    make_team(client, "Bay Badgers", "Theirs")  # counts as well
    answers: list[Any] = [
        client.post("/api/import", query_string={"seen": seen}, data=file).status_code for _ in range(20)
    ]
    assert answers == [201] * 19 + [429]


def test_files_are_looked_at_only_so_often_for_a_stranger(
    app: Flask, client: FlaskClient, board: str
) -> None:
    stranger = app.test_client()
    answers = [stranger.post("/api/import/look", data=b"{}").status_code for _ in range(61)]
    assert answers == [422] * 60 + [429]
    assert look(client, taken_along(client, board), board)["into"] == "Quay Otters"


def test_another_sites_page_brings_nothing_in(client: FlaskClient, board: str) -> None:
    file = taken_along(client, board)
    seen = look(client, file)["seen"]
    away = {"Origin": "http://elsewhere.example"}
    answer = client.post("/api/import", query_string={"seen": seen}, data=file, headers=away)
    assert answer.status_code == 403
