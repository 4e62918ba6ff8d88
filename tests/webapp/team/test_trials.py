"""Trying things out before they are saved: played, compared, measured, checked."""

from __future__ import annotations

import json
import threading
from pathlib import Path
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient

from engine.checker import check
from engine.floor.court import half_court
from engine.floor.formations import FIVE_OUT
from tests.depth import deep
from tests.server import Servers
from tests.webapp.conftest import make_team, shared_of
from tests.webapp.screens import Device
from tests.webapp.team.test_designs import read, setting
from tests.webapp.team.test_squad import add
from webapp.team.design_schemas import read_rules
from webapp.web.trials import NEVER
from webapp.wire.refusals import answered

pytestmark = pytest.mark.common_app

FLOOR = {"formation": "five_out", "court": "fiba"}


def broken(client: FlaskClient, ref: str = "pass_and_cut") -> Any:
    """Return rules, not saved, by which nobody but the passer and the catcher knows what to do on a pass."""
    data = read(client, ref)["data"]
    del data["responses"]["pass"]["perimeter"]
    return data


def post(client: FlaskClient, path: str, **body: Any) -> Any:
    answer = client.post(f"/api/{path}", json=body)
    assert answer.status_code == 200, answer.text
    return answer.get_json()


def problems(client: FlaskClient, path: str, **body: Any) -> Any:
    answer = client.post(f"/api/{path}", json=body)
    assert answer.status_code == 422, answer.text
    return answer.get_json()["error"]["problems"]


# Preview


def test_a_trigger_is_played_from_the_start_to_its_end(client: FlaskClient, board: str) -> None:
    shown = post(client, "rules/preview", rules="pass_and_cut", trigger="baseline_drive", **FLOOR)
    assert shown["start"]["at"]["1"] == "top"
    assert shown["floor"]["court"] == "fiba"
    assert shown["last"] == {"a": shown["steps"][-1]["a"][0]}
    assert shown["last"]["a"] in (
        "drive:left",
        "drive:right",
        "ball_screen:rim:left",
        "ball_screen:rim:right",
    )
    assert all(step["tl"]["runs"] for step in shown["steps"])


def test_who_has_a_role_in_what_is_shown_is_told(client: FlaskClient, board: str) -> None:
    asked = {"rules": "pass_and_cut", "trigger": "pass", **FLOOR}
    shown = {role: post(client, "rules/preview", role=role, **asked) for role in ("passer", "receiver")}
    for role, seen in shown.items():
        assert seen["last"]["a"].startswith("pass:")
        (ball,) = seen["steps"][-1]["tl"]["ball"]
        assert seen["last"]["who"] == [ball[3] if role == "passer" else ball[4]]


def test_rules_are_played_as_they_are_being_edited(client: FlaskClient, board: str) -> None:
    data = read(client, "pass_and_cut")["data"]
    data["responses"]["dribble_at"] |= {"dribbled_at": "replace", "perimeter": "stay"}
    before = post(client, "rules/preview", rules="pass_and_cut", trigger="dribble_at", **FLOOR)
    after = post(client, "rules/preview", rules=data, trigger="dribble_at", **FLOOR)
    # By the default the player dribbled at cuts; now he takes the spot that the ball has left.
    assert before["steps"][0]["after"]["cutter"] is not None
    assert after["steps"][0]["after"]["cutter"] is None


def test_a_finding_is_played_up_to_the_action_that_fails(client: FlaskClient, board: str) -> None:
    chain = ["dribble_at:left_wing", "fill:left_wing", "pass:top"]
    shown = post(client, "rules/preview", rules=broken(client), chain=chain, **FLOOR)
    assert [step["a"] for step in shown["steps"]] == [chain[:1]]
    assert shown["last"]["a"] == "fill:left_wing"
    assert shown["last"]["failed"].startswith("'fill:left_wing' is not legal here")
    failing = post(client, "rules/preview", rules=broken(client), chain=["pass:left_wing"], **FLOOR)
    assert failing["steps"] == []
    assert failing["last"] == {
        "a": "pass:left_wing",
        "failed": "'pass:left_wing' is not legal here: the team's rules have no clear response to it.",
    }


def test_what_never_happens_is_said(client: FlaskClient, board: str) -> None:
    shown = post(client, "rules/preview", rules="first_steps", trigger="middle_drive", **FLOOR)
    assert (shown["steps"], shown["last"]) == ([], {"failed": str(NEVER)})


@pytest.mark.parametrize(
    ("body", "expected"),
    [
        (
            {},
            [["rules", "This is missing."], ["formation", "This is missing."], ["court", "This is missing."]],
        ),
        (
            {"rules": "pass_and_cut", **FLOOR},
            [["trigger", "Say either what happens or which chain is to be shown."]],
        ),
        (
            {"rules": "pass_and_cut", **FLOOR, "trigger": "pass", "chain": []},
            [["trigger", "Say either what happens or which chain is to be shown."]],
        ),
        (
            {"rules": "pass_and_cut", **FLOOR, "trigger": "rain"},
            [["trigger", "This must be the name of something that happens."]],
        ),
        (
            {"rules": "pass_and_cut", **FLOOR, "chain": ["Pass!"]},
            [["chain.0", "This must be the name of an action."]],
        ),
        (
            {"rules": 5, **FLOOR, "trigger": "pass"},
            [["", "This must be a group of named values."]],
        ),
        (
            {"rules": "pass_and_cut", "formation": "five_out", "court": "moon", "trigger": "pass"},
            [["court", "This must be one of: fiba, nba, ncaa, nfhs."]],
        ),
    ],
)
def test_a_bad_preview_is_refused(client: FlaskClient, board: str, body: Any, expected: Any) -> None:
    assert problems(client, "rules/preview", **body) == expected


# Compare


def test_two_rule_sets_are_compared(client: FlaskClient, board: str) -> None:
    data = read(client, "pass_and_cut")["data"]
    data["responses"]["pass"]["passer"] = ["exchange", "cut"]
    data["lane"].remove("post_up")
    for stage in data["stages"]:
        stage["adds"] = [kind for kind in stage["adds"] if kind != "post_up"]
    said = post(client, "rules/compare", one="pass_and_cut", other={**data, "title": "Ours"})
    assert said == {
        "one_title": "Pass and cut",
        "other_title": "Ours",
        "differences": [
            ["only_one", {"action": "post_up"}],
            ["response", {"trigger": "pass", "role": "passer", "one": "cut", "other": "exchange,cut"}],
        ],
    }
    assert post(client, "rules/compare", one="pass_and_cut", other="pass_and_cut")["differences"] == []


def test_what_is_wrong_with_either_is_said_with_its_place(client: FlaskClient, board: str) -> None:
    data = {**read(client, "pass_and_cut")["data"], "posts": 9}
    sentence = "This must be a number from 0 to 5, or nothing."
    assert problems(client, "rules/compare", one=data, other=data) == [
        ["one.posts", sentence],
        ["other.posts", sentence],
    ]


# Measure


def test_a_dragged_spot_is_taken_in_and_measured(client: FlaskClient, board: str) -> None:
    data = read(client, "five_out", "formations")["data"]
    drag = {"spot": "left_wing", "x": -650, "y": 560}
    said = post(client, "formations/measure", data=data, court="fiba", drag=drag)
    assert said["spots"]["left_wing"] == pytest.approx([-650, 560], abs=2)
    # By Pythagoras: the corner is at 6.60 + 0.40 m (FIBA 2020, Art. 2), so 0.50 and 5.60 m away.
    assert said["distances"][0] == {
        "first": "left_corner", "second": "left_wing",
        "metres": pytest.approx(5.62, abs=0.03), "feet": pytest.approx(18.4, abs=0.1), "mark": None,
    }  # fmt: skip
    assert said["distances"][1]["mark"] == "far"
    assert said["problems"] == []
    assert post(client, "formations/measure", data=said["data"], court="fiba") == said


def test_a_dragged_post_is_taken_in_where_it_is_let_go(client: FlaskClient, board: str) -> None:
    data = read(client, "five_out", "formations")["data"]
    drag = {"spot": "left_block", "x": -310, "y": 140}
    said = post(client, "formations/measure", data=data, court="fiba", drag=drag)
    assert said["data"]["moved"] == [{"spot": "left_block", "x": -3.1, "y": 1.4}]
    drag = {"spot": "left_block", "x": -4900, "y": 140}  # let go beside the screen's court
    said = post(client, "formations/measure", data=said["data"], court="fiba", drag=drag)
    assert said["data"]["moved"] == [{"spot": "left_block", "x": -9.0, "y": 1.4}]
    assert said["problems"] == [["ring.left_block", "The left block is off the court."]]


def test_spots_of_both_sides_are_moved_as_a_pair(client: FlaskClient, board: str) -> None:
    data = read(client, "five_out", "formations")["data"]
    drag = {"spot": "left_wing", "x": -650, "y": 560, "pair": True}
    said = post(client, "formations/measure", data=data, court="fiba", drag=drag)
    assert said["spots"]["left_wing"] == pytest.approx([-650, 560], abs=2)
    assert said["spots"]["right_wing"] == pytest.approx([650, 560], abs=2)
    drag = {"spot": "left_block", "x": -310, "y": 140, "pair": True}
    said = post(client, "formations/measure", data=said["data"], court="fiba", drag=drag)
    assert said["spots"]["right_block"] == pytest.approx([310, 140], abs=1)
    # What stands on the middle line stays on it.
    drag = {"spot": "top", "x": 80, "y": 760, "pair": True}
    said = post(client, "formations/measure", data=said["data"], court="fiba", drag=drag)
    assert said["spots"]["top"] == pytest.approx([0, 760], abs=2)


def test_what_is_wrong_so_far_is_told_while_dragging(client: FlaskClient, board: str) -> None:
    data = read(client, "five_out", "formations")["data"]
    drag = {"spot": "left_wing", "x": 10, "y": 715}
    said = post(client, "formations/measure", data=data, court="fiba", drag=drag)
    assert [place for place, _ in said["problems"]] == ["ring"]
    assert said["distances"][1]["mark"] == "near"


@pytest.mark.parametrize(
    ("change", "drag", "expected"),
    [
        (None, {"spot": "moon", "x": 0, "y": 0}, [["drag.spot", "The formation has no such spot."]]),
        (None, {"spot": "top", "x": "0", "y": 0}, [["drag.x", "This must be a number from -5000 to 5000."]]),
        (("ring", 5), None, [["ring", "This must be a list."]]),
        (("ring.0", {}), None, [["ring.0.spot", "This is missing."], ["ring.0.angle", "This is missing."],
                                ["ring.0.home", "This is missing."]]),
    ],
)  # fmt: skip
def test_what_cannot_be_measured_is_refused(
    client: FlaskClient, board: str, change: Any, drag: Any, expected: Any
) -> None:
    data = read(client, "five_out", "formations")["data"]
    if change is not None:
        setting(*change)(data)
    body = {"data": data, "court": "fiba"} | ({} if drag is None else {"drag": drag})
    assert problems(client, "formations/measure", **body) == expected


# Check


def lines(client: FlaskClient, **body: Any) -> list[Any]:
    answer = client.post("/api/rules/check", json={**FLOOR, "squad": False, **body})
    assert answer.status_code == 200, answer.text
    assert answer.mimetype == "application/x-ndjson"
    return [json.loads(line) for line in answer.text.splitlines()]


def test_a_check_tells_how_far_it_is_and_what_it_found(client: FlaskClient, board: str) -> None:
    *progress, last = lines(client, rules=broken(client), formation="three_out_two_in")
    looked = [line["progress"][0] for line in progress]
    assert len(looked) > 5
    assert looked == sorted(looked)
    assert all(at <= known for at, known in (line["progress"] for line in progress))
    finding = last["report"]["findings"][0]
    assert (finding["kind"], finding["about"]["action"]) == ("no_response", "pass")
    assert finding["chain"]
    assert finding["count"] > 1


@pytest.mark.parametrize("ref", deep(["first_steps"], ["first_steps", "pass_and_cut"]))
def test_a_check_says_what_the_engine_says(client: FlaskClient, board: str, ref: str) -> None:
    data = broken(client, ref)
    last = lines(client, rules=data)[-1]["report"]
    found = check(read_rules(data)[1], FIVE_OUT, half_court("fiba"))
    assert (last["positions"], last["steps"]) == (found.positions, found.steps)
    assert found.findings
    assert [(finding["kind"], finding["count"]) for finding in last["findings"]] == [
        (finding.kind, finding.count) for finding in found.findings
    ]


def test_a_check_with_the_squad_obeys_the_green_lights(app: Flask, client: FlaskClient, board: str) -> None:
    may = ["pass"]
    ids = [add(client, str(number), may=may)["id"] for number in range(5)]
    with shared_of(app).store.write() as session:
        from webapp.store.tables import Board

        session.get_one(Board, board).places = json.dumps(dict(zip("12345", ids, strict=True)))
    free = lines(client, rules="first_steps", squad=False)[-1]["report"]
    limited = lines(client, rules="first_steps", squad=True)[-1]["report"]
    assert ["never", {"action": "dribble_at", "part": "ball"}] in [
        [finding["kind"], finding["about"]] for finding in limited["findings"]
    ]
    assert limited["steps"] < free["steps"]


def test_a_check_of_bad_rules_begins_nothing(client: FlaskClient, board: str) -> None:
    data = {**read(client, "pass_and_cut")["data"], "posts": 9}
    assert problems(client, "rules/check", rules=data, **FLOOR) == [
        ["posts", "This must be a number from 0 to 5, or nothing."]
    ]


def test_only_so_many_checks_run_at_once(own_app: Flask) -> None:
    client = own_app.test_client()
    make_team(client)
    checks = shared_of(own_app).checks
    checks.take()
    checks.take()
    answer = client.post("/api/rules/check", json={"rules": "pass_and_cut", **FLOOR})
    assert (answer.status_code, answer.get_json()["error"]["message"]) == answered("busy")
    checks.back()
    assert "report" in lines(client, rules="first_steps")[-1]
    checks.back()


def test_a_check_that_takes_too_long_is_given_up(own_app: Flask) -> None:
    client = own_app.test_client()
    make_team(client)
    shared_of(own_app).checks.longest_s = 0.0
    last = lines(client, rules="pass_and_cut")[-1]
    assert last == {"error": {"code": "too_long", "message": answered("too_long")[1]}}


def test_a_check_that_stumbles_is_told_and_makes_room(
    own_app: Flask, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    client = own_app.test_client()
    make_team(client)

    def stumble(*_: object) -> None:
        raise ZeroDivisionError

    for _ in range(5):  # more often than there are places
        with monkeypatch.context() as broken:
            broken.setattr("engine.checker.check", stumble)
            last = lines(client, rules="first_steps")[-1]
        assert last == {"error": {"code": "failed", "message": answered("failed")[1]}}
    assert "a check failed" in caplog.text
    assert "report" in lines(client, rules="first_steps")[-1]


@pytest.mark.parametrize("options", [(), ("--plain",)], ids=["gunicorn", "plain"])
def test_a_check_nobody_listens_to_makes_room(
    live_server: Servers, tmp_path: Path, options: tuple[str, ...]
) -> None:
    server = live_server(tmp_path / "data", *options, checks_max_count=1)
    device = Device(server)
    device.make_team()
    body = {"rules": "pass_and_cut", "formation": "four_out_one_in", "court": "fiba"}
    with device.streaming("POST", f"/api/rules/check?board={device.board_id}", body) as answer:
        assert "progress" in json.loads(answer.readline())
        busy = device.ask("POST", "/api/rules/check", body)
        assert (busy.status, busy.error["code"]) == (429, "busy")
        # The boards go on meanwhile.
        with device.coach() as coach:
            assert coach.act_on()["t"] == "step"
    free = threading.Event()

    def knock() -> None:
        while device.ask("POST", "/api/rules/check", {**body, "rules": "first_steps"}).status == 429:
            pass
        free.set()

    threading.Thread(target=knock, daemon=True).start()
    assert free.wait(30)
    assert server.errors() == ""


@pytest.mark.parametrize("options", [(), ("--plain",)], ids=["gunicorn", "plain"])
def test_a_check_does_not_keep_the_server_from_stopping(
    live_server: Servers, tmp_path: Path, options: tuple[str, ...]
) -> None:
    server = live_server(tmp_path / "data", *options)
    device = Device(server)
    device.make_team()
    body = {"rules": "pass_and_cut", "formation": "four_out_one_in", "court": "fiba"}
    with device.streaming("POST", "/api/rules/check", body) as answer:
        assert "progress" in json.loads(answer.readline())
        assert server.stop() == 0
    assert server.errors() == ""
