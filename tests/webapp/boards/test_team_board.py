"""A live board set to the team's own: rules, formation, stages, players; and everybody back on spots."""

from __future__ import annotations

import json
import sqlite3
from math import hypot
from pathlib import Path
from typing import Any

import pytest

from engine.rules.rule_sets import shipped
from tests.server import LiveServer, Servers
from tests.webapp.screens import Device, Screen, screen, viewing_path
from webapp.chains.history import CUT_SHORT


def asked(device: Device, method: str, path: str, body: object = None) -> Any:
    answer = device.ask(method, path, body)
    assert answer.status < 300, answer.text
    return answer.json


def player(device: Device, number: str, name: str = "", **given: Any) -> str:
    return str(asked(device, "POST", "/api/team/players", {"number": number, "name": name, **given})["id"])


def own_rules(device: Device, **responses: Any) -> str:
    """Copy the default rules, change some responses, and return the ref."""
    ref = asked(device, "POST", "/api/rules", {"from": "pass_and_cut", "title": "Ours"})["ref"]
    return save_rules(device, ref, **responses)


def save_rules(device: Device, ref: str, **responses: Any) -> str:
    found = asked(device, "GET", f"/api/rules/{ref}")
    for trigger, roles in responses.items():
        found["data"]["responses"][trigger] |= roles
    asked(device, "PUT", f"/api/rules/{ref}", {"version": found["version"], "data": found["data"]})
    return ref


def offered(coach: Screen) -> list[list[str]]:
    """Return the actions on offer now."""
    while coach.offered["seq"] != coach.seq:
        coach.hear()
    return [offer["a"] for offer in coach.offered["offers"]]


def refusal(coach: Screen, kind: str, **given: Any) -> Any:
    """Send what is refused, and return the answer; one that cannot be read has no id."""
    coach.send({"t": kind, "id": "x", "base": coach.seq, **given})
    return coach.wait("refused")


STAYS = {"pass": {"passer": "stay", "perimeter": "stay"}}


# Rules and formations


def test_a_board_begins_with_what_ships(coach: Screen, viewer: Screen) -> None:
    board = coach.state["board"]
    assert (board["rules"], board["rules_title"], board["stage"]) == ("pass_and_cut", "Pass and cut", None)
    assert board["stages"] == [stage.title for stage in shipped("pass_and_cut").stages]
    assert coach.state["squad"] == dict.fromkeys("12345")
    assert (coach.state["bench"], coach.state["calls"], coach.state["notice"]) == ([], {}, None)
    assert viewer.state["bench"] == []


def test_other_rules_begin_a_new_chain_and_are_played(device: Device, coach: Screen, viewer: Screen) -> None:
    ref = own_rules(device, **STAYS)
    coach.act("pass:right_wing")
    answer = coach.change("setup", rules=ref)
    assert (answer["steps"], answer["board"]["rules"]) == ([], f"{ref}@2")
    assert answer["board"]["rules_title"] == "Ours"
    after = coach.act("pass:right_wing")["step"]["after"]
    assert (after["at"]["1"], after["cutter"]) == ("top", None)  # by these rules the passer stays
    while viewer.seq < coach.seq:
        viewer.hear()
    assert viewer.state["board"]["rules"] == f"{ref}@2"
    assert viewer.steps == coach.steps


def test_a_board_keeps_the_version_it_began_with(device: Device, coach: Screen) -> None:
    ref = own_rules(device, **STAYS)
    coach.change("setup", rules=ref)
    before = coach.act("pass:right_wing")["step"]
    save_rules(device, ref, **{"pass": {"passer": "cut", "perimeter": "fill"}})
    assert coach.change("redo")["code"] == "nothing_to_redo"
    assert coach.change("setup", level=1.0)["steps"] == [before]
    again = coach.change("setup", rules=f"{ref}@2")  # the same: the chain stays
    assert len(again["steps"]) == 1
    newer = coach.change("setup", rules=ref)
    assert (newer["board"]["rules"], newer["steps"]) == (f"{ref}@3", [])
    assert coach.act("pass:right_wing")["step"]["after"]["cutter"] == 1


def test_a_board_goes_on_with_rules_that_were_deleted(device: Device, coach: Screen) -> None:
    ref = own_rules(device, **STAYS)
    coach.change("setup", rules=ref)
    asked(device, "DELETE", f"/api/rules/{ref}")
    assert coach.act("pass:right_wing")["step"]["after"]["cutter"] is None
    with device.coach() as other:
        assert other.state["board"]["rules_title"] == "Ours"
    coach.change("setup", rules="pass_and_cut")
    answer = coach.change("setup", rules=ref)
    assert (answer["code"], answer["message"]) == (
        "no_rules",
        "There are no such rules any more. Nothing was changed. Choose others.",
    )


def test_a_formation_of_ones_own_is_played(device: Device, coach: Screen) -> None:
    ref = asked(device, "POST", "/api/formations", {"from": "five_out", "name": "Wide"})["ref"]
    found = asked(device, "GET", f"/api/formations/{ref}")
    found["data"]["start"] |= {"1": "left_wing", "3": "top"}
    found["data"]["ring"][2] |= {"offset": 1.5}
    asked(device, "PUT", f"/api/formations/{ref}", {"version": 1, "data": found["data"]})
    answer = coach.change("setup", formation=ref)
    assert (answer["board"]["formation"], answer["board"]["formation_name"]) == (f"{ref}@2", "Wide")
    assert answer["start"]["at"]["1"] == "left_wing"
    assert answer["floor"]["spots"]["top"] == [0, 825]  # 6.75 m and 1.50 outside the line
    assert ["pass:top"] in offered(coach)
    assert coach.act("pass:top")["step"]["after"]["ball"] == 3


def test_another_teams_rules_cannot_be_used(server: LiveServer, device: Device, coach: Screen) -> None:
    other = Device(server)
    other.make_team("Pier Foxes")
    ref = own_rules(other)
    for wanted in (ref, f"{ref}@1"):
        assert coach.change("setup", rules=wanted)["code"] == "no_rules"
    assert coach.state["board"]["rules"] == "pass_and_cut"


# Stages


def test_a_stage_hides_what_is_taught_later(coach: Screen) -> None:
    answer = coach.change("setup", rules="first_steps", stage=0)
    assert answer["board"]["stage"] == 0
    first = offered(coach)
    assert not [actions for actions in first if actions[-1].startswith("dribble_at")]
    answer = coach.act("dribble_at:left_wing")
    assert answer["code"] == "illegal"
    assert answer["message"] == (
        "'dribble_at:left_wing' belongs to a later teaching stage. Nothing was changed."
    )
    assert coach.act("dribble_at:left_corner")["message"].startswith("'dribble_at:left_corner' is not legal")
    coach.change("setup", stage=1)
    assert ["dribble_at:left_wing"] in offered(coach)


def test_a_stage_changes_no_chain(coach: Screen) -> None:
    coach.change("setup", rules="first_steps")
    played = coach.act("dribble_at:left_wing")["step"]
    assert coach.change("setup", stage=0)["steps"] == [played]
    assert coach.change("undo")["depth"] == 0
    assert coach.change("redo")["step"] == played  # what was played is brought back as it was
    assert coach.change("setup", stage=None)["board"]["stage"] is None


def test_other_rules_begin_with_all_their_stages(coach: Screen) -> None:
    coach.change("setup", stage=2)
    assert coach.change("setup", rules="first_steps")["board"]["stage"] is None


def test_a_stage_that_is_not_there_is_refused(coach: Screen) -> None:
    answer = coach.change("setup", rules="first_steps", stage=2)
    assert (answer["code"], answer["message"]) == (
        "no_stage",
        "These rules have no such teaching stage. Nothing was changed.",
    )
    assert coach.change("setup", level=0.9)["board"]["rules"] == "pass_and_cut"


# Squad


def test_players_take_places_and_change_them_in_one_message(device: Device, coach: Screen) -> None:
    robin, alex, kim = player(device, "7", "Robin"), player(device, "8"), player(device, "23", "Kim")
    answer = coach.change("setup", places={"1": robin, "2": alex})
    assert answer["squad"]["1"] == {"id": robin, "number": "7", "name": "Robin"}
    assert answer["squad"]["3"] is None
    assert [member["number"] for member in answer["bench"]] == ["23"]
    coach.act("pass:right_wing")
    answer = coach.change("setup", places={"1": kim})
    assert [answer["squad"][place] and answer["squad"][place]["number"] for place in "123"] == [
        "23", "8", None,
    ]  # fmt: skip
    assert len(answer["steps"]) == 1  # a substitution keeps the chain
    answer = coach.change("setup", places={"2": kim})  # two who are on change places
    assert [answer["squad"][place]["number"] for place in "12"] == ["8", "23"]
    answer = coach.change("setup", places={"2": None})
    assert answer["squad"]["2"] is None


def test_phones_are_told_who_plays_where(device: Device, coach: Screen, viewer: Screen) -> None:
    robin = player(device, "7", "Robin")
    coach.change("setup", places={"1": robin})
    while viewer.state["squad"]["1"] is None:
        viewer.wait("state")
    assert viewer.state["squad"]["1"] == {"id": robin, "number": "7"}


def test_phones_are_told_every_number_of_the_squad_and_no_more(
    device: Device, coach: Screen, viewer: Screen
) -> None:
    robin, kim = player(device, "7", "Robin"), player(device, "00", "Kim", may=["pass"], positions=["big"])
    coach.change("setup", places={"1": robin})
    while viewer.state["squad"]["1"] is None:
        viewer.wait("state")
    assert viewer.state["bench"] == [{"id": kim, "number": "00"}]


def test_a_phone_is_sent_no_first_name_whatever_the_coach_does(device: Device, server: LiveServer) -> None:
    robin, kim = player(device, "7", "Robin"), player(device, "8", "Kimberley")
    player(device, "9", "Robinson")  # sits on the bench
    path = viewing_path(device.share())
    with device.coach() as coach, screen(server, path) as phone:
        coach.change("setup", places={"1": robin})
        coach.act("pass:right_wing")
        coach.change("setup", places={"2": kim})
        coach.change("undo")
        asked(device, "PATCH", f"/api/team/players/{robin}", {"name": "Robina"})
        coach.change("fresh")
        last = coach.act("pass:left_wing")
        while phone.seq < last["seq"]:
            phone.wait("step", "state")
        assert "Robina" in json.dumps(coach.state)
        heard = phone.heard
    with screen(server, path) as late:  # its very first frame knows all of it
        assert late.state["squad"]["2"]["number"] == "8"
        heard += late.heard
    assert len(heard) > 5
    page = device.ask("GET", path).text
    assert not [text for text in (*heard, page) if "Robin" in text or "Kimberley" in text]


@pytest.mark.parametrize(
    ("places", "code", "words"),
    [
        ({"1": "nobody"}, "bad_form", "There is no such player in the squad. Nothing was changed."),
        ({"6": None}, "unreadable", "places.6: This must be a place, 1 to 5"),
        ({"1": 7}, "unreadable", "places.1: This must be text"),
        ([], "unreadable", "places: This must be a group of named values"),
    ],
)
def test_bad_places_are_refused(coach: Screen, places: Any, code: str, words: str) -> None:
    answer = refusal(coach, "setup", places=places)
    assert answer["code"] == code
    assert words in answer["message"]


def test_one_player_is_not_given_two_places(device: Device, coach: Screen) -> None:
    robin = player(device, "7")
    answer = coach.change("setup", places={"1": robin, "2": robin})
    assert answer["message"] == "One player cannot have two places. Nothing was changed."


def test_a_green_light_that_is_missing_hides_an_action_and_says_whose(device: Device, coach: Screen) -> None:
    coach.change("setup", places={"1": player(device, "7", may=["pass"])})
    offers = offered(coach)
    assert ["pass:right_wing"] in offers
    assert ["shot"] in offers  # needs none
    assert not [actions for actions in offers if actions[0].startswith("drive")]
    assert {"act": "drive", "a": "drive:left", "p": 1} in coach.offered["withheld"]
    answer = coach.act("drive:left")
    assert answer["code"] == "illegal"
    assert answer["message"] == ("'drive:left' is not for 1 yet: 1 may not choose it. Nothing was changed.")


def test_a_tendency_makes_the_default_choice(device: Device, coach: Screen) -> None:
    coach.change("setup", places={"1": player(device, "7", lane=["post_up:left_block"])})
    coach.act("pass:right_wing")
    assert ["post_up:left_block", "pass:top"] in offered(coach)
    assert ["fill:left_corner", "pass:top"] not in offered(coach)


def test_what_changes_in_the_squad_is_told_at_once(device: Device, coach: Screen, viewer: Screen) -> None:
    robin = player(device, "7", "Robin")
    coach.change("setup", places={"1": robin})
    assert ["drive:left"] in offered(coach)
    seq = coach.seq
    asked(device, "PATCH", f"/api/team/players/{robin}", {"name": "Rob", "may": ["pass"]})
    state = coach.wait("state")
    assert (state["seq"], state["squad"]["1"]["name"]) == (seq, "Rob")
    coach.wait("offers")
    assert ["drive:left"] not in offered(coach)
    while viewer.state["squad"]["1"] is None:
        viewer.wait("state")
    assert "name" not in viewer.state["squad"]["1"]
    assert coach.act("pass:right_wing")["seq"] == seq + 1


def test_a_player_taken_out_of_the_squad_leaves_his_place(device: Device, coach: Screen) -> None:
    robin = player(device, "7", "Robin", may=["pass"])
    coach.change("setup", places={"1": robin})
    asked(device, "DELETE", f"/api/team/players/{robin}")
    assert coach.wait("state")["squad"]["1"] is None
    coach.wait("offers")
    assert ["drive:left"] in offered(coach)
    asked(device, "POST", f"/api/team/players/{robin}/restore", {})
    assert coach.wait("state")["squad"]["1"]["name"] == "Robin"
    asked(device, "DELETE", "/api/team/squad", {"confirm": "erase"})
    state = coach.wait("state")
    assert (state["squad"]["1"], state["bench"]) == (None, [])


def test_calls_are_told_at_once(device: Device, coach: Screen, viewer: Screen) -> None:
    calls = {"drive": {"call": "Go", "signal": "fist up"}}
    asked(device, "PUT", "/api/team/calls", calls)
    assert coach.wait("state")["calls"] == calls
    assert viewer.wait("state")["calls"] == calls


# Everybody back on spots

LOST = {"1": [10, 640], "2": [500, 400], "3": [-480, 510], "4": [640, 90], "5": [-420, 60]}


def test_everybody_gets_back_on_spots_and_play_goes_on(coach: Screen, viewer: Screen) -> None:
    coach.act("pass:right_wing")
    answer = coach.change("recover", at=1, where=LOST)
    assert (answer["t"], answer["depth"]) == ("step", 2)
    step = answer["step"]
    after = step["after"]
    assert (after["ball"], after["cutter"], after["over"]) == (2, None, False)
    assert sorted(after["at"].values()) == sorted(set(after["at"].values()))
    spots = coach.state["floor"]["spots"]
    for number, (x, y) in LOST.items():
        # Everybody is close to a spot of his own here, so that is where he goes.
        nearest = min(spots, key=lambda spot: hypot(spots[spot][0] - x, spots[spot][1] - y))
        assert after["at"][number] == nearest
    assert {run[0] for run in step["tl"]["runs"]} <= {1, 2, 3, 4, 5}
    assert step["tl"]["end"] > 0
    assert viewer.wait("step")["depth"] == 1
    assert viewer.wait("step") == answer
    assert coach.act_on()["t"] == "step"


def test_a_recovery_is_taken_back_and_brought_back(device: Device, coach: Screen) -> None:
    step = coach.change("recover", at=0, where=LOST)["step"]
    coach.act_on()
    assert [coach.change("undo")["depth"] for _ in range(2)] == [1, 0]
    assert coach.change("redo")["step"] == step
    with device.coach() as other:
        assert (other.steps, other.ahead) == ([step], 1)
    # It is kept as where they were and where they went, so it is the same on another court.
    assert coach.change("setup", court="nba")["steps"][0]["after"] == step["after"]


def test_the_ball_stays_with_whoever_had_it(coach: Screen) -> None:
    coach.act("pass:left_wing")
    assert coach.change("recover", at=0, where=LOST)["step"]["after"]["ball"] == 1  # from the start


def test_after_a_shot_nobody_is_sent_back(coach: Screen) -> None:
    coach.act("shot")
    answer = coach.change("recover", at=1, where=LOST)
    assert (answer["code"], answer["message"]) == (
        "illegal",
        "The possession ended with a shot. Nothing was changed.",
    )


@pytest.mark.parametrize(
    ("given", "words"),
    [
        ({}, "where: This is missing"),
        ({"where": {"1": [0, 0]}}, "where: This must say where each of the five players is"),
        ({"where": {**LOST, "6": [0, 0]}}, "where.6: This must be a place, 1 to 5"),
        ({"where": {**LOST, "5": [0]}}, "where.5: This must be 2"),
        ({"where": {**LOST, "5": [0, 0.5]}}, "must be two whole numbers of centimetres on the court"),
        ({"where": {**LOST, "5": [0, True]}}, "must be two whole numbers of centimetres on the court"),
        ({"where": {**LOST, "5": [0, 99999]}}, "must be two whole numbers of centimetres on the court"),
        ({"where": LOST, "at": 3}, "The chain has only 0 steps."),
    ],
)
def test_a_bad_recovery_is_refused(coach: Screen, given: Any, words: str) -> None:
    answer = refusal(coach, "recover", **{"at": 0, **given})
    assert words in answer["message"]
    assert coach.act("pass:right_wing")["seq"] == 1


def test_a_recovery_cannot_be_smuggled_in_as_an_action(coach: Screen) -> None:
    text = "recover:1=top@0,0;2=rim@0,0;3=rim@0,0;4=rim@0,0;5=rim@0,0"
    assert refusal(coach, "act", at=0, a=[text])["code"] == "unreadable"


def test_a_viewer_sends_nobody_anywhere(coach: Screen, viewer: Screen) -> None:
    viewer.send({"t": "recover", "id": "x", "base": 0, "at": 0, "where": LOST})
    assert viewer.wait("refused")["code"] == "viewer"


# Figures


def test_the_report_counts_the_chain(device: Device, coach: Screen) -> None:
    empty = asked(device, "GET", f"/api/board/{device.board_id}/report")
    assert (empty["seconds"], empty["steps"]) == (0, [])
    coach.act("pass:right_wing")
    coach.act("fill:left_corner", "pass:top")
    two = asked(device, "GET", f"/api/board/{device.board_id}/report")
    assert len(two["steps"]) == 2
    assert two["players"]["1"]["metres"] > 5  # from the top to the rim, and out to the corner
    assert two["players"]["1"]["lane_seconds"] > 0
    assert all(step["start"] <= step["ready"] <= step["end"] <= two["seconds"] for step in two["steps"])
    coach.change("recover", at=2, where=LOST)
    coach.act_on()
    four = asked(device, "GET", f"/api/board/{device.board_id}/report")
    assert len(four["steps"]) == 4
    assert four["steps"][:2] == two["steps"]
    assert four["seconds"] > two["seconds"]
    assert [step["start"] for step in four["steps"]] == sorted(step["start"] for step in four["steps"])


def test_the_report_is_for_coaches(server: LiveServer, device: Device) -> None:
    assert Device(server).ask("GET", f"/api/board/{device.board_id}/report").status == 403


# After a start of the server


def test_all_of_it_is_there_again_after_a_crash(live_server: Servers, tmp_path: Path) -> None:
    server = live_server(tmp_path / "data")
    device = Device(server)
    device.open_coaching_link(server.coach_url)
    robin = player(device, "70", "Robin", may=["pass"])
    ref = own_rules(device, **STAYS)
    shape = asked(device, "POST", "/api/formations", {"from": "four_out_one_in", "name": "High"})["ref"]
    with device.coach() as coach:
        coach.change("setup", rules=ref, formation=shape, stage=1, places={"1": robin})
        coach.act("pass:right_wing")
        coach.change("recover", at=1, where=LOST)
        before, steps = coach.state, coach.steps
    server.kill_group()
    server.restart()
    with device.coach() as coach:
        assert coach.steps == steps
        assert [coach.state[part] for part in ("board", "squad", "bench")] == [
            before[part] for part in ("board", "squad", "bench")
        ]
        assert coach.state["board"]["stage"] == 1


def test_a_chain_that_is_not_legal_any_more_is_shown_as_far_as_it_is(
    live_server: Servers, tmp_path: Path
) -> None:
    server = live_server(tmp_path / "data")
    device = Device(server)
    device.open_coaching_link(server.coach_url)
    with device.coach() as coach:
        coach.change("fresh")
        for actions in (["pass:right_wing"], ["fill:left_corner"], ["pass:top"]):
            coach.act(*actions)
    server.stop()
    database = sqlite3.connect(tmp_path / "data" / "quintet.sqlite3")
    with database:  # as if a later version no longer had this choice
        database.execute("UPDATE node SET actions = 'fill:top' WHERE actions = 'fill:left_corner'")
    server.restart()
    with device.coach() as coach:
        assert coach.chain() == [["pass:right_wing"]]
        assert (coach.state["notice"], coach.ahead) == (CUT_SHORT, 0)
        coach.act("post_up:left_block")
        assert coach.change("setup", level=0.9)["notice"] is None
    kept = {actions for (actions,) in database.execute("SELECT actions FROM node")}
    assert {"fill:top", "pass:top"} <= kept
    database.close()


def test_a_board_whose_rules_are_unknown_starts_with_what_ships(live_server: Servers, tmp_path: Path) -> None:
    server = live_server(tmp_path / "data")
    device = Device(server)
    device.open_coaching_link(server.coach_url)
    ref = own_rules(device)
    with device.coach() as coach:
        coach.change("setup", rules=ref)
        coach.act("pass:right_wing")
    server.stop()
    database = sqlite3.connect(tmp_path / "data" / "quintet.sqlite3")
    with database:  # as a later version may write them
        database.execute("UPDATE design_version SET data = ?", (json.dumps({"version": 9}),))
    database.close()
    server.restart()
    with device.coach() as coach:
        assert coach.state["board"]["rules"] == "pass_and_cut"
        assert coach.state["notice"] == "not_understood"
        assert coach.chain() == [["pass:right_wing"]]
    assert server.errors() == ""
