"""The playbook on the server: each change of it, once, for the team alone."""

from __future__ import annotations

import itertools
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient

from tests.webapp.conftest import make_team, shared_of
from webapp.chains.history import load
from webapp.plays import playbook
from webapp.store.tables import Chain
from webapp.wire.refusals import answered

_OPS = itertools.count(1)

FIRST = [["pass:right_wing"], ["fill:left_corner", "pass:top"], ["fill:right_corner", "drive:left"]]
OTHER = [*FIRST[:1], ["fill:left_corner", "pass:right_corner"]]
BACK = (
    "recover:1=top@0,700;2=right_wing@500,500;3=left_wing@-500,500;4=right_corner@660,0;5=left_corner@-660,0"
)


@pytest.fixture
def guest(common_app: Flask) -> tuple[FlaskClient, str]:
    """A head coach's device and board where other tests have teams too: for what is refused."""
    client = common_app.test_client()
    return client, make_team(client)


def sync(client: FlaskClient, *ops: dict[str, Any]) -> list[Any]:
    """Send changes, each under an id of its own unless it has one, and return what became of them."""
    body = {"ops": [{"id": f"o{next(_OPS)}", **op} for op in ops]}
    answer = client.post("/api/sync", json=body)
    assert answer.status_code == 200, answer.text
    done: list[Any] = answer.get_json()["done"]
    assert [item["id"] for item in done] == [op["id"] for op in body["ops"]]
    return done


def did(client: FlaskClient, *ops: dict[str, Any]) -> None:
    """Send changes of which every one must be done."""
    assert [item["ok"] for item in sync(client, *ops)] == [True] * len(ops)


def refused(client: FlaskClient, op: dict[str, Any]) -> tuple[str, str]:
    """Send a change that must be refused, and return the code and the sentence."""
    (item,) = sync(client, op)
    assert item["ok"] is False
    return item["code"], item["message"]


def saving(board: str, chain: str = "c1", **given: Any) -> dict[str, Any]:
    refs = {"formation": "five_out", "rules": "pass_and_cut"}
    return {"op": "save", "chain": chain, "board": board, **refs, "line": FIRST, "name": "Quick", **given}


def branching(board: str, chain: str = "c1") -> dict[str, Any]:
    refs = {"formation": "five_out", "rules": "pass_and_cut"}
    return {"op": "line", "chain": chain, "board": board, **refs, "line": OTHER}


def listed(client: FlaskClient) -> list[Any]:
    found: list[Any] = client.get("/api/chains").get_json()["chains"]
    return found


def one(client: FlaskClient, chain: str = "c1") -> Any:
    return next(item for item in listed(client) if item["id"] == chain)


def words(line: list[list[str]]) -> list[str]:
    return [" ".join(step) for step in line]


def main_line(item: Any) -> list[str]:
    return [item["tree"][index][1] for index in item["line"]]


def test_a_chain_is_saved_with_all_that_is_said_of_it(client: FlaskClient, board: str) -> None:
    did(client, saving(board, note="First ball.\nThen look.", tags=["early", "vs zone", "early"]))
    (item,) = listed(client)
    assert (item["id"], item["name"], item["note"]) == ("c1", "Quick", "First ball.\nThen look.")
    assert (item["tags"], item["pinned"]) == (["early", "vs zone"], False)
    assert (item["formation"], item["formation_name"]) == ("five_out", "Five out")
    assert (item["rules"], item["stops"], item["today"]) == ("pass_and_cut", None, None)
    assert item["rules_title"]
    assert item["tree"] == [[-1, ""], *([n, text] for n, text in enumerate(words(FIRST)))]
    assert item["line"] == [1, 2, 3]
    assert 0 < item["made"] <= item["used"]


def test_another_line_is_a_branch_and_nothing_is_lost(client: FlaskClient, board: str) -> None:
    did(client, saving(board), branching(board))
    item = one(client)
    assert item["tree"][4] == [1, words(OTHER)[1]]
    assert main_line(item) == words(FIRST)
    did(client, {"op": "edit", "chain": "c1", "line": OTHER})
    item = one(client)
    assert (main_line(item), len(item["tree"])) == (words(OTHER), 5)
    longer = [*OTHER, [BACK], ["pass:right_wing"]]
    did(client, saving(board, line=longer, name="Longer"))
    item = one(client)
    assert (item["name"], main_line(item)) == ("Longer", words(longer))
    assert item["tree"][5:] == [[4, BACK], [5, "pass:right_wing"]]


def test_what_is_sent_twice_is_done_once(client: FlaskClient, board: str) -> None:
    op = {**saving(board), "id": "twice"}
    did(client, op, {**op, "name": "Ignored"}, {"op": "edit", "chain": "c1", "name": "Newer"})
    did(client, op)
    assert one(client)["name"] == "Newer"
    copy = {"id": "copy", "op": "duplicate", "chain": "c1", "as": "c2", "name": "Copy"}
    did(client, copy, copy)
    assert len(listed(client)) == 2


def test_a_bad_change_does_not_stop_the_others(client: FlaskClient, board: str) -> None:
    done = sync(
        client,
        saving(board),
        {"op": "explode", "chain": "c1"},
        {"op": "edit", "chain": "nowhere", "name": "x"},
        {"op": "edit", "chain": "c1", "name": "x" * 81},
        saving(board, "c2", line=[["fly:moon"]]),
        {"op": "edit", "chain": "c1", "name": "Last"},
    )
    assert [item["ok"] for item in done] == [True, False, False, False, True, True]
    assert done[1]["message"].startswith("op: This must be one of: save, line, edit,")
    assert done[2]["message"] == answered("no_chain")[1]
    assert done[3]["message"] == "name: This must have at most 80 characters."
    assert (done[4]["legal"], done[4]["of"]) == (0, 1)
    assert "'fly:moon'" in done[4]["message"]
    assert one(client)["name"] == "Last"


def test_one_that_was_refused_can_be_sent_again(client: FlaskClient, board: str) -> None:
    op = {"id": "early", "op": "edit", "chain": "c1", "name": "Mine"}
    assert refused(client, op)[0] == "no_chain"
    did(client, saving(board), op)
    assert one(client)["name"] == "Mine"


def test_a_line_is_kept_as_far_as_it_is_legal(client: FlaskClient, board: str) -> None:
    line = [*FIRST, ["pass:moon"], ["shot"]]
    (item,) = sync(client, saving(board, line=line))
    assert (item["ok"], item["legal"], item["of"]) == (True, 3, 5)
    assert "pass:moon" in item["message"]
    assert main_line(one(client)) == words(FIRST)


@pytest.mark.parametrize(
    "step",
    [
        [BACK, "pass:top"],
        ["pass:top", "pass:left_wing"],
        ["recover:1=top@0,700"],
        [BACK.replace("right_corner", "top")],
        [
            BACK.replace("right_wing", "left_block")
            .replace("left_wing", "right_block")
            .replace("right_corner", "high_post")
        ],
        [BACK.replace("right_wing", "left_block").replace("left_wing", "left_short_corner")],
    ],
)
def test_a_step_that_cannot_be_is_left_out(client: FlaskClient, board: str, step: list[str]) -> None:
    (item,) = sync(client, saving(board, line=[FIRST[0], step]))
    assert (item["ok"], item["legal"]) == (True, 1)
    assert main_line(one(client)) == words(FIRST[:1])


def test_nobody_gets_back_after_a_shot(client: FlaskClient, board: str) -> None:
    (item,) = sync(client, saving(board, line=[["shot"], [BACK]]))
    assert (item["legal"], item["message"]) == (1, "The possession ended with a shot.")


def test_a_deleted_chain_can_be_brought_back(client: FlaskClient, board: str) -> None:
    did(client, saving(board), {"op": "delete", "chain": "c1"})
    assert listed(client) == []
    assert refused(client, {"op": "duplicate", "chain": "c1", "as": "c2"})[0] == "no_chain"
    did(client, {"op": "edit", "chain": "c1", "note": "Written meanwhile."}, {"op": "delete", "chain": "c1"})
    did(client, {"op": "restore", "chain": "c1"})
    assert one(client)["note"] == "Written meanwhile."
    did(client, {"op": "delete", "chain": "c1"}, saving(board, line=OTHER))
    assert len(one(client)["tree"]) == 5


def test_a_copy_has_every_branch_and_lives_by_itself(client: FlaskClient, board: str) -> None:
    did(client, saving(board, tags=["early"]), branching(board))
    did(client, {"op": "edit", "chain": "c1", "pinned": True})
    did(client, {"op": "duplicate", "chain": "c1", "as": "c2", "name": "Copy"})
    first, copied = one(client), one(client, "c2")
    assert (copied["tree"], copied["line"]) == (first["tree"], first["line"])
    assert (copied["name"], copied["tags"], copied["pinned"]) == ("Copy", ["early"], False)
    did(client, {"op": "edit", "chain": "c2", "line": FIRST[:1]})
    assert one(client)["line"] == first["line"]
    assert refused(client, {"op": "duplicate", "chain": "c1", "as": "c2"}) == (
        "taken_chain",
        answered("taken_chain")[1],
    )


def test_the_last_used_stand_first_and_the_pinned_are_for_the_first_page(
    app: Flask, client: FlaskClient, board: str
) -> None:
    did(client, saving(board), saving(board, "c2", name="Second"), saving(board, "c3"))
    did(client, {"op": "edit", "chain": "c2", "pinned": True}, {"op": "edit", "chain": "c3", "pinned": True})
    did(client, {"op": "delete", "chain": "c3"})
    with shared_of(app).store.write() as session:
        session.get_one(Chain, "c2").used += 5
        team_id = session.get_one(Chain, "c2").team_id
    assert [item["id"] for item in listed(client)] == ["c2", "c1"]
    with shared_of(app).store.read() as session:
        assert playbook.pinned_of(session, team_id) == [playbook.Pinned("c2", "Second", board)]


def test_what_has_not_changed_is_not_sent_again(client: FlaskClient, board: str) -> None:
    did(client, saving(board))
    first = client.get("/api/chains")
    assert first.headers["ETag"] == f'"{first.get_json()["version"]}"'
    again = client.get("/api/chains", headers={"If-None-Match": first.headers["ETag"]})
    assert (again.status_code, again.data) == (304, b"")
    did(client, {"op": "edit", "chain": "c1", "name": "Newer"})
    assert client.get("/api/chains", headers={"If-None-Match": first.headers["ETag"]}).status_code == 200


def test_it_is_the_teams_alone(app: Flask, client: FlaskClient, board: str) -> None:
    did(client, saving(board))
    stranger = app.test_client()
    assert stranger.get("/api/chains").status_code == 403
    assert stranger.post("/api/sync", json={"ops": [saving(board)]}).status_code == 403
    make_team(stranger, "Bay Badgers", "Theirs")
    assert listed(stranger) == []
    assert refused(stranger, saving(board, "c9"))[0] == "no_board"
    for op in ({"op": "edit", "chain": "c1", "name": "Stolen"}, {"op": "delete", "chain": "c1"}):
        assert refused(stranger, op)[0] == "taken_chain"
    theirs = stranger.post("/api/rules", json={"from": "pass_and_cut", "title": "Theirs"}).get_json()["ref"]
    assert refused(client, saving(board, "c9", rules=theirs))[0] == "no_rules"
    assert refused(client, saving(board, "c9", formation="f_nothing"))[0] == "no_formation"
    assert one(client)["name"] == "Quick"


def test_an_assistant_keeps_chains_too(app: Flask, client: FlaskClient, board: str) -> None:
    link = client.post(f"/api/board/{board}/links", json={"kind": "coach", "name": "assistant"}).get_json()
    assistant = app.test_client()
    assistant.get("/c/" + link["url"].rsplit("/", 1)[1])
    did(assistant, saving(board))
    assert assistant.get(f"/api/chains?board={board}").get_json()["chains"] == listed(client)


def test_two_boards_stand_in_one_chain(app: Flask, client: FlaskClient, board: str) -> None:
    did(client, saving(board))
    with shared_of(app).store.write() as session:
        chain = session.get_one(Chain, "c1")
        brought = playbook.bring(
            session, chain.team_id, board, "c1", "five_out", "pass_and_cut", OTHER, steps_max=5
        )
        assert (brought.chain.id, brought.legal, brought.new) == ("c1", 2, True)
        again = playbook.bring(session, chain.team_id, board, "c1", "x", "y", OTHER)
        assert (again.nodes, again.new) == (brought.nodes, False)


def test_a_board_plays_on_in_a_chain_that_is_deleted(app: Flask, client: FlaskClient, board: str) -> None:
    with shared_of(app).store.read() as session:
        standing = load(session, board)
        chain = session.query(Chain).one()
    did(client, saving(board, chain.id), {"op": "delete", "chain": chain.id})
    with shared_of(app).store.read() as session:
        after = load(session, board)
    assert (after.steps, after.ahead, after.card) == (standing.steps, standing.ahead, standing.card)
    assert (after.root, after.chain.name, after.chain.kept) == (standing.root, "Quick", False)


@pytest.mark.parametrize(
    ("limit", "value", "op", "code"),
    [
        ("KEPT_MAX", 1, saving("", "c2"), "full_playbook"),
        ("KEPT_MAX", 1, {"op": "duplicate", "chain": "c1", "as": "c2"}, "full_playbook"),
        ("TREE_MAX", 4, saving("", line=OTHER), "full_tree"),
    ],
)
def test_there_is_only_so_much_room(
    client: FlaskClient,
    board: str,
    monkeypatch: pytest.MonkeyPatch,
    limit: str,
    value: int,
    op: dict[str, Any],
    code: str,
) -> None:
    did(client, saving(board))
    monkeypatch.setattr(playbook, limit, value)
    before = listed(client)
    found = refused(client, {**op, **({"board": board} if "board" in op else {})})
    assert found == (code, answered(code, most=value)[1])
    assert listed(client) == before


def test_a_line_has_only_so_many_steps(client: FlaskClient, board: str) -> None:
    there_and_back = [["pass:right_wing"], [BACK]] * 251
    found = refused(client, saving(board, line=there_and_back))
    assert found == ("long_line", "A chain can have 500 steps at most. Nothing was changed.")
    did(client, saving(board, line=there_and_back[:500]))


@pytest.mark.parametrize(
    ("change", "sentence"),
    [
        ({"name": 5}, "name: This must be text."),
        ({"name": "a\u202eb"}, "name: This must be plain text on one line."),
        ({"note": "x" * 2001}, "note: This must have at most 2000 characters."),
        ({"note": "a\x00b"}, "note: This must be plain text."),
        ({"tags": ["x" * 31]}, "tags.0: This must have 1 to 30 characters."),
        ({"tags": [str(n) for n in range(13)]}, "tags: This must be a list of 0 to 12."),
        ({"line": [[]]}, "line.0: This must be a list of 1 to 2."),
        (
            {"line": [["<b>"]]},
            "line.0.0: This must be the name of an action, or a drawn step of at most 4096 signs.",
        ),
        ({"line": "pass"}, "line: This must be a list."),
        ({"chain": "../x"}, "chain: This must be 1 to 64 letters, digits, - or _."),
        ({"rules": "../x"}, "rules: This must be the name of one that ships, or of one of the team's own."),
        ({"pinned": True}, "pinned: This is not known here: leave it out."),
    ],
)
def test_what_cannot_be_read_is_refused_with_its_place(
    guest: tuple[FlaskClient, str], change: dict[str, Any], sentence: str
) -> None:
    client, board = guest
    assert refused(client, {**saving(board), **change}) == ("problems", sentence)
    assert listed(client) == []


@pytest.mark.parametrize("body", [b"[]", b'{"ops": 1}', b"\xff", b"[" * 5000, b'{"ops": [NaN]}', b"{}"])
def test_a_parcel_that_is_none_is_refused(guest: tuple[FlaskClient, str], body: bytes) -> None:
    answer = guest[0].post("/api/sync", data=body)
    assert 400 <= answer.status_code < 500
    assert answer.get_json()["error"]["message"]


def test_a_parcel_has_only_so_many_changes(client: FlaskClient, board: str) -> None:
    ops = [{"id": f"x{n}", **saving(board, f"c{n}", line=[])} for n in range(101)]
    assert client.post("/api/sync", json={"ops": ops}).status_code == 422
    assert listed(client) == []
    assert client.post("/api/sync", json={"ops": ops[:100]}).status_code == 200
    big = [{"id": "big", **saving(board, note="x" * 1_100_000)}]
    assert client.post("/api/sync", json={"ops": big}).status_code == 413
    assert [item["ok"] for item in sync(client, *([5] * 0), {"op": "edit", "chain": "c0"})] == [True]


def test_a_change_that_is_no_group_of_values_is_answered(client: FlaskClient, board: str) -> None:
    answer = client.post("/api/sync", json={"ops": [5, {"op": "save"}]}).get_json()
    assert [(item["id"], item["ok"]) for item in answer["done"]] == [(None, False)] * 2
