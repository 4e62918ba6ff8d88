"""History that cannot rot: a chain plays by the rules it was made with, and tells how it does by today's."""

from __future__ import annotations

from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient

from tests.webapp.conftest import shared_of
from tests.webapp.plays.test_playbook import did, listed, main_line, one, refused, saving, sync
from webapp.chains.history import load
from webapp.plays import playbook
from webapp.store.tables import Chain, DesignVersion, Node, Place

LINE = [["pass:right_wing"], ["fill:left_corner", "drive:left"], ["kick_out:left_corner"]]


@pytest.fixture
def rules(client: FlaskClient, board: str) -> str:
    """Rules of the team's own, at their first version."""
    answer = client.post("/api/rules", json={"from": "pass_and_cut", "title": "Ours"})
    return str(answer.get_json()["ref"])


def change(client: FlaskClient, ref: str, version: int, **given: Any) -> None:
    data = client.get(f"/api/rules/{ref}").get_json()["data"]
    answer = client.put(f"/api/rules/{ref}", json={"version": version, "data": {**data, **given}})
    assert answer.status_code == 200, answer.text


def without_drive(client: FlaskClient, ref: str) -> None:
    """Take drives out of the rules."""
    data = client.get(f"/api/rules/{ref}").get_json()["data"]
    change(client, ref, 1, actions=[kind for kind in data["actions"] if kind != "drive"], stages=[])


def test_a_chain_is_told_where_todays_rules_end_it(client: FlaskClient, board: str, rules: str) -> None:
    did(client, saving(board, rules=rules, line=LINE))
    item = one(client)
    assert (item["rules"], item["today"]) == (f"{rules}@1", None)
    without_drive(client, rules)
    item = one(client)
    assert (item["rules"], item["rules_title"], item["stops"]) == (f"{rules}@1", "Ours", None)
    today = item["today"]
    assert (today["rules"], today["version"], today["legal"], today["of"]) == (f"{rules}@2", 2, 1, 3)
    assert "drive" in today["why"]


def test_it_plays_on_by_the_old_version(app: Flask, client: FlaskClient, board: str, rules: str) -> None:
    did(client, saving(board, rules=rules, line=LINE[:2]))
    without_drive(client, rules)
    did(client, saving(board, rules=f"{rules}@1", line=LINE))
    assert len(one(client)["line"]) == 3
    with shared_of(app).store.write() as session:
        chain, place = session.get_one(Chain, "c1"), session.get_one(Place, board)
        place.root_id, place.cursor_id, place.tip_id = chain.root_id, chain.line_id, chain.line_id
        root = session.get_one(Node, chain.root_id)
        session.get_one(playbook.Board, board).rules = root.rules or ""
    with shared_of(app).store.read() as session:
        standing = load(session, board)
    assert [list(step.actions) for step in standing.steps] == LINE


def test_a_version_that_changes_nothing_for_it_is_told_as_such(
    client: FlaskClient, board: str, rules: str
) -> None:
    did(client, saving(board, rules=rules, line=LINE))
    change(client, rules, 1, title="Ours, better")
    today = one(client)["today"]
    assert today == {"rules": f"{rules}@2", "version": 2, "legal": 3, "of": 3, "why": None}


def test_renewing_copies_what_is_legal_and_leaves_the_old_one(
    client: FlaskClient, board: str, rules: str
) -> None:
    did(client, saving(board, rules=rules, line=LINE, tags=["early"], note="Look."))
    without_drive(client, rules)
    before = one(client)
    (done,) = sync(client, {"op": "renew", "chain": "c1", "as": "c2", "name": "Newer"})
    assert (done["ok"], done["legal"]) == (True, 1)
    new = one(client, "c2")
    assert (new["rules"], new["today"], new["stops"]) == (f"{rules}@2", None, None)
    assert (new["name"], new["tags"], new["note"]) == ("Newer", ["early"], "Look.")
    assert main_line(new) == ["pass:right_wing"]
    after = one(client)
    assert {**after, "used": 0} == {**before, "used": 0}


def test_deleted_rules_play_on_and_it_is_said(client: FlaskClient, board: str, rules: str) -> None:
    did(client, saving(board, rules=rules, line=LINE))
    client.delete(f"/api/rules/{rules}")
    item = one(client)
    assert (item["stops"], item["rules_title"]) == (None, "Ours")
    assert (item["today"]["legal"], item["today"]["of"]) == (3, 3)
    assert item["today"]["why"] == "The rules it is played by have been deleted. It plays on by them."
    assert refused(client, {"op": "renew", "chain": "c1", "as": "c2", "name": "x"})[0] == "no_rules"
    did(client, {"op": "duplicate", "chain": "c1", "as": "c2", "name": "Copy"})
    client.post(f"/api/rules/{rules}/restore")
    assert [item["today"] for item in listed(client)] == [None, None]


def test_a_changed_formation_is_told_of_too(client: FlaskClient, board: str) -> None:
    ref = client.post("/api/formations", json={"from": "five_out", "name": "Wide"}).get_json()["ref"]
    did(client, saving(board, formation=ref, line=LINE))
    data = client.get(f"/api/formations/{ref}").get_json()["data"]
    data["start"] = {**data["start"], "2": "left_block"}
    answer = client.put(f"/api/formations/{ref}", json={"version": 1, "data": data})
    assert answer.status_code == 200, answer.text
    item = one(client)
    assert (item["formation"], item["formation_name"]) == (f"{ref}@1", "Wide")
    assert (item["today"]["rules"], item["today"]["legal"]) == ("pass_and_cut", 0)
    (done,) = sync(client, {"op": "renew", "chain": "c1", "as": "c2", "name": "x"})
    assert (done["legal"], one(client, "c2")["formation"]) == (0, f"{ref}@2")


def test_what_cannot_be_read_any_more_is_kept_and_said(
    app: Flask, client: FlaskClient, board: str, rules: str
) -> None:
    did(client, saving(board, rules=rules, line=LINE))
    with shared_of(app).store.write() as session:
        session.get_one(DesignVersion, (rules[2:], 1)).data = '{"version": 99}'
    item = one(client)
    assert (item["stops"]["legal"], item["stops"]["of"], main_line(item)[0]) == (0, 3, "pass:right_wing")
    assert item["stops"]["why"].endswith("All of it is saved.")
    did(client, {"op": "edit", "chain": "c1", "name": "Still here"}, {"op": "delete", "chain": "c1"})


def test_a_line_that_its_own_rules_end_is_told_where(app: Flask, client: FlaskClient, board: str) -> None:
    # As if a later engine had become stricter: the last step is not legal any more.
    did(client, saving(board, line=LINE))
    with shared_of(app).store.write() as session:
        session.get_one(Node, session.get_one(Chain, "c1").line_id).actions = "pass:left_corner"
    item = one(client)
    assert (item["stops"]["legal"], item["stops"]["of"], item["today"]) == (2, 3, None)
    assert main_line(item)[2] == "pass:left_corner"
