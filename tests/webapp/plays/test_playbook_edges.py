"""The playbook at its edges: a formation that is gone, the last place there is, the start as a line."""

from __future__ import annotations

import pytest
from flask.testing import FlaskClient

from tests.webapp.plays.test_playbook import did, listed, one, refused, saving
from webapp.plays import playbook


def test_a_deleted_formation_is_played_on_in_and_it_is_said(client: FlaskClient, board: str) -> None:
    ref = client.post("/api/formations", json={"from": "five_out", "name": "Wide"}).get_json()["ref"]
    did(client, saving(board, formation=ref))
    assert client.delete(f"/api/formations/{ref}").status_code == 200
    item = one(client)
    assert (item["stops"], item["formation_name"]) == (None, "Wide")
    assert item["today"]["why"] == "The formation it is played in has been deleted. It plays on in it."
    did(client, saving(board, formation=f"{ref}@1", line=[["pass:right_wing"], ["fill:left_corner"]]))
    assert refused(client, {"op": "renew", "chain": "c1", "as": "c2", "name": "x"})[0] == "no_formation"


def test_the_last_place_in_the_playbook_is_taken_and_given_back(
    client: FlaskClient, board: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(playbook, "KEPT_MAX", 2)
    did(client, saving(board), saving(board, "c2"))
    assert refused(client, saving(board, "c3"))[0] == "full_playbook"
    did(client, saving(board, name="Still here"))  # what is there already takes no further place
    did(client, {"op": "delete", "chain": "c1"}, saving(board, "c3"))
    assert {item["id"] for item in listed(client)} == {"c2", "c3"}
    assert refused(client, {"op": "restore", "chain": "c1"})[0] == "full_playbook"


def test_a_line_of_no_steps_is_the_start(client: FlaskClient, board: str) -> None:
    did(client, saving(board))
    did(client, {"op": "edit", "chain": "c1", "line": []})
    item = one(client)
    assert (item["line"], len(item["tree"])) == ([], 4)
