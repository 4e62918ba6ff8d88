"""A live board, as its coach and the phones that follow know it."""

from __future__ import annotations

import json
import socket
import struct
from collections.abc import Iterator
from contextlib import suppress
from typing import Any

import pytest
from websockets.exceptions import ConnectionClosed, InvalidStatus

from tests.server import LiveServer, SharedServers, no_errors
from tests.webapp.screens import Device, Screen, screen, viewing_path


@pytest.fixture
def server(shared_server: SharedServers) -> Iterator[LiveServer]:
    """A server whose limits are low enough to reach."""
    limits = {"chain_max_count": 8, "viewer_steps_max_count": 3}
    with no_errors(shared_server(teams_address_count=1000, viewers_interval_s=0, **limits)) as server:
        yield server


def test_a_state_holds_the_board(coach: Screen) -> None:
    state = coach.state
    assert (state["v"], state["seq"], state["role"], state["first"]) == (1, 0, "coach", 0)
    assert state["start"]["at"] == {
        "1": "top", "2": "right_wing", "3": "left_wing", "4": "right_corner", "5": "left_corner",
    }  # fmt: skip
    assert state["board"]["formation"] in state["choices"]["formations"]
    assert state["board"]["court"] == state["floor"]["court"]


def test_offers_follow_a_state_and_every_change(coach: Screen) -> None:
    offers = coach.wait("offers")
    assert offers["seq"] == 0
    assert ["pass:right_wing"] in [offer["a"] for offer in offers["offers"]]
    coach.act("pass:right_wing")
    offers = coach.wait("offers")
    assert offers["seq"] == 1
    # The default choice goes along with the ball action that follows it.
    assert ["fill:left_corner", "pass:top"] in [offer["a"] for offer in offers["offers"]]


def test_an_action_reaches_everybody_once_and_the_same(coach: Screen, viewer: Screen) -> None:
    answer = coach.act("pass:right_wing")
    assert (answer["t"], answer["seq"], answer["depth"], answer["ahead"]) == ("step", 1, 1, 0)
    assert answer["step"]["after"] == {
        "at": {"1": "rim", "2": "right_wing", "3": "top", "4": "right_corner", "5": "left_wing"},
        "ball": 2, "cutter": 1, "over": False,
    }  # fmt: skip
    assert viewer.wait("step") == answer


def test_a_viewer_is_never_sent_offers(coach: Screen, viewer: Screen) -> None:
    coach.act("pass:right_wing")
    coach.change("undo")
    heard = [viewer.hear()["t"] for _ in range(2)]
    viewer.send({"t": "ping"})
    assert [*heard, viewer.hear()["t"]] == ["step", "back", "pong"]


def test_a_composite_is_one_step_undone_together(coach: Screen) -> None:
    coach.act("pass:right_wing")
    answer = coach.act("fill:left_corner", "pass:top")
    assert (answer["depth"], answer["step"]["a"]) == (2, ["fill:left_corner", "pass:top"])
    assert coach.change("undo")["depth"] == 1
    assert coach.chain() == [["pass:right_wing"]]


def test_undo_and_redo_go_all_the_way(coach: Screen, viewer: Screen) -> None:
    for actions in (["pass:right_wing"], ["fill:left_corner"], ["drive:left"]):
        coach.act(*actions)
    whole = coach.steps
    assert [coach.change("undo")["ahead"] for _ in range(3)] == [1, 2, 3]
    assert coach.change("undo")["code"] == "nothing_to_undo"
    assert [coach.change("redo")["ahead"] for _ in range(3)] == [2, 1, 0]
    assert coach.change("redo")["code"] == "nothing_to_redo"
    assert coach.steps == whole
    while viewer.seq < coach.seq:
        viewer.hear()
    assert viewer.steps == whole[-3:]


def test_going_back_and_choosing_otherwise_leaves_the_rest_on_its_branch(coach: Screen) -> None:
    for actions in (["pass:right_wing"], ["fill:left_corner"], ["pass:top"]):
        coach.act(*actions)
    other = coach.act("post_up:left_block", at=1)
    assert (other["depth"], other["ahead"]) == (2, 0)
    assert coach.chain() == [["pass:right_wing"], ["post_up:left_block"]]


def test_playing_what_lay_ahead_keeps_the_rest_of_it_ahead(coach: Screen) -> None:
    for actions in (["pass:right_wing"], ["fill:left_corner"], ["pass:top"]):
        coach.act(*actions)
    again = coach.act("fill:left_corner", at=1)
    assert (again["depth"], again["ahead"]) == (2, 1)
    assert coach.change("redo")["step"]["a"] == ["pass:top"]


def test_the_same_message_twice_is_done_once(coach: Screen) -> None:
    message = {"t": "act", "id": "once", "base": 0, "at": 0, "a": ["pass:right_wing"]}
    coach.send(message)
    first = coach.wait("step")
    coach.wait("offers")
    coach.send(message)
    assert coach.hear() == first
    coach.act("fill:left_corner")
    coach.wait("offers")
    coach.send(message)  # by now the board has moved on: the answer is how it stands
    later = coach.wait("state")
    assert (later["id"], later["seq"], len(later["steps"])) == ("once", 2, 2)


def test_a_stale_message_is_refused_with_the_board_as_it_stands(device: Device, coach: Screen) -> None:
    with device.coach() as other:
        other.act("pass:right_wing")
        coach.send({"t": "act", "id": "late", "base": 0, "at": 0, "a": ["pass:left_wing"]})
        refusal = coach.wait("refused")
        assert (refusal["id"], refusal["code"]) == ("late", "stale")
        assert refusal["message"] == "The board had moved on. Nothing is lost: here is how it stands now."
        state = coach.wait("state")
        assert (state["seq"], [step["a"] for step in state["steps"]]) == (1, [["pass:right_wing"]])


@pytest.mark.parametrize(
    ("message", "code", "words"),
    [
        ({"a": ["pass:top"]}, "illegal", "Nothing was changed."),
        ({"a": ["pass:moon"]}, "illegal", "moon"),
        ({"a": ["juggle"]}, "illegal", "juggle"),
        ({"a": ["pass:right_wing", "pass:top"]}, "pair", "a cutter's choice and then the ball's"),
        ({"a": ["pass:right_wing", "fill:left_corner"]}, "pair", "a cutter's choice"),
        ({"a": ["pass:right_wing"], "at": 5}, "at", "The chain has only 0 steps."),
    ],
)
def test_what_is_not_legal_is_refused_with_a_reason(
    coach: Screen, message: dict[str, Any], code: str, words: str
) -> None:
    answer = coach.change("act", **message)
    assert (answer["t"], answer["code"]) == ("refused", code)
    assert words in answer["message"]
    assert coach.act("pass:right_wing")["seq"] == 1  # nothing was lost or half done


def test_nothing_follows_a_shot(coach: Screen) -> None:
    coach.act("shot")
    assert coach.wait("offers")["offers"] == []
    assert coach.act("pass:right_wing")["code"] == "illegal"
    assert coach.change("undo")["depth"] == 0


def test_a_chain_can_be_too_long(coach: Screen) -> None:
    for _ in range(8):
        coach.act_on()
    answer = coach.act_on()
    assert answer["code"] == "full_chain"
    assert answer["message"] == "This chain has 8 steps, the most it can have. It is saved; start a new one."
    assert len(coach.steps) == 8


def test_fresh_starts_a_new_chain_for_everybody(coach: Screen, viewer: Screen) -> None:
    coach.act("pass:right_wing")
    answer = coach.change("fresh")
    assert (answer["t"], answer["steps"], answer["ahead"]) == ("state", [], 0)
    assert coach.wait("offers")["seq"] == 2
    viewer.wait("state")
    assert (viewer.seq, viewer.steps) == (2, [])
    assert coach.change("undo")["code"] == "nothing_to_undo"


def test_setup_changes_court_and_level_and_keeps_the_chain(coach: Screen, viewer: Screen) -> None:
    before = coach.act("pass:right_wing")["step"]
    answer = coach.change("setup", court="nba", level=0.75)
    assert (answer["board"]["court"], answer["board"]["level"]) == ("nba", 0.75)
    assert answer["floor"]["court"] == "nba"
    after = answer["steps"][0]
    assert after["after"] == before["after"]
    assert after["tl"]["end"] > before["tl"]["end"]  # slower players take longer
    assert viewer.wait("state")["board"]["court"] == "nba"


def test_setup_with_another_formation_starts_a_new_chain(coach: Screen) -> None:
    coach.act("pass:right_wing")
    answer = coach.change("setup", formation="three_out_two_in")
    assert answer["steps"] == []
    assert answer["start"]["at"]["4"] == "left_block"
    assert coach.act("post_entry:left_block")["seq"] == 3


def test_a_phone_that_joins_late_is_given_the_last_steps(
    device: Device, coach: Screen, server: LiveServer
) -> None:
    for _ in range(5):
        coach.act_on()
    with screen(server, viewing_path(device.share())) as viewer:
        assert viewer.state["first"] == 2
        assert viewer.steps == coach.steps[2:]
        assert viewer.state["start"] == coach.steps[1]["after"]
        coach.act_on()
        viewer.wait("step")
        assert viewer.steps == coach.steps[2:]


def test_coaches_are_told_how_many_follow(device: Device, coach: Screen, server: LiveServer) -> None:
    path = viewing_path(device.share())
    with screen(server, path), screen(server, path):
        while coach.viewers != 2:
            coach.wait("viewers")
    while coach.viewers != 0:
        coach.wait("viewers")


FORGED = [
    {"t": "act", "id": "x", "base": 0, "at": 0, "a": ["pass:right_wing"]},
    {"t": "undo", "id": "x", "base": 0},
    {"t": "redo", "id": "x", "base": 0},
    {"t": "fresh", "id": "x", "base": 0},
    {"t": "setup", "id": "x", "base": 0, "court": "nba"},
]


@pytest.mark.parametrize("message", FORGED, ids=[str(message["t"]) for message in FORGED])
def test_a_viewer_can_change_nothing(coach: Screen, viewer: Screen, message: dict[str, Any]) -> None:
    viewer.send(message)
    refusal = viewer.wait("refused")
    assert (refusal["id"], refusal["code"]) == ("x", "viewer")
    assert refusal["message"] == "Only a coach can change the board. Nothing was changed."
    assert coach.act("pass:right_wing")["seq"] == 1


def test_a_viewer_with_a_coachs_cookies_is_still_a_viewer(device: Device, server: LiveServer) -> None:
    with screen(server, viewing_path(device.share()), cookies=device.cookies) as viewer:
        viewer.send(FORGED[0])
        assert viewer.wait("refused")["code"] == "viewer"


def test_a_viewing_link_does_not_open_the_coachs_socket(device: Device, server: LiveServer) -> None:
    with screen(server, f"/live/board/{device.board_id}", hello=False) as stranger:
        assert stranger.hear() == {
            "t": "gone",
            "code": "no_key",
            "message": "This device may not open this board. Add it with a code from another device, or open "
            "your coaching link once more.",
        }
        assert stranger.end().code == 1008


def test_another_boards_coach_is_a_stranger(device: Device, server: LiveServer) -> None:
    other = Device(server)
    other.make_team("Pier Foxes")
    with screen(server, f"/live/board/{device.board_id}", cookies=other.cookies, hello=False) as stranger:
        assert stranger.hear()["t"] == "gone"


@pytest.mark.parametrize("origin", [None, "http://elsewhere.example", "null"])
def test_a_page_of_another_site_cannot_open_a_socket(device: Device, origin: str | None) -> None:
    with pytest.raises(InvalidStatus) as refused, device.coach(origin=origin):
        pass
    assert refused.value.response.status_code == 403


GARBAGE: list[tuple[str | bytes, str]] = [
    ("", "it is not JSON"),
    ("hello", "it is not JSON"),
    ("[" * 4000, "it is not JSON"),
    ("9" * 5000, "it is not JSON"),
    ('{"t": NaN}', "it is not JSON"),
    ("[1]", "it must be an object"),
    (b"{}", "it must be text"),
    ("{}", "t: This must be one of hello, ping"),
    ('{"t": ["act"]}', "t: This must be one of"),
    ('{"t": "dance"}', "t: This must be one of"),
    ('{"t": "ping", "x": 1}', "x: This is not known here: leave it out"),
    ('{"t": "undo", "id": "a"}', "base: This is missing"),
    ('{"t": "undo", "id": "a", "base": true}', "base: This must be a whole number"),
    ('{"t": "undo", "id": "a", "base": 1.0}', "base: This must be a whole number"),
    ('{"t": "undo", "id": "a", "base": "1"}', "base: This must be a whole number"),
    ('{"t": "undo", "id": "a", "base": -1}', "base: This must be from 0"),
    ('{"t": "undo", "id": "a b", "base": 0}', "id: This must be 1 to 64 letters"),
    ('{"t": "undo", "id": "' + "a" * 65 + '", "base": 0}', "id: This must be 1 to 64 letters"),
    ('{"t": "act", "id": "a", "base": 0, "at": 0, "a": []}', "a: This must be 1 to 2 long"),
    ('{"t": "act", "id": "a", "base": 0, "at": 0, "a": ["shot","shot","shot"]}', "a: This must be"),
    ('{"t": "act", "id": "a", "base": 0, "at": 0, "a": [1]}', "a.0: This must be text"),
    ('{"t": "act", "id": "a", "base": 0, "at": 0, "a": ["pass:\\u0000"]}', "a.0: This must be the name"),
    ('{"t": "act", "id": "a", "base": 0, "at": 0, "a": "shot"}', "a: This must be a list"),
    ('{"t": "setup", "id": "a", "base": 0, "court": "moon"}', "court: This must be one of: fiba"),
    ('{"t": "setup", "id": "a", "base": 0, "level": true}', "level: This must be one of 0.75"),
    ('{"t": "setup", "id": "a", "base": 0, "level": 2}', "level: This must be one of 0.75"),
    ('{"t": "setup", "id": "a", "base": 0, "formation": {"name": "x"}}', "formation: This must be text"),
]


@pytest.mark.parametrize(("text", "words"), GARBAGE, ids=[str(text)[:40] for text, _ in GARBAGE])
def test_garbage_is_refused_with_a_sentence(coach: Screen, text: str | bytes, words: str) -> None:
    coach.send(text)
    refusal = coach.wait("refused")
    assert refusal["code"] == "unreadable"
    assert refusal["message"].startswith(f"That could not be understood ({words}")
    assert refusal["message"].endswith("Nothing was changed.")
    assert coach.act("pass:right_wing")["seq"] == 1


def test_who_keeps_sending_garbage_is_closed(coach: Screen) -> None:
    for _ in range(8):
        coach.send("?")
    assert coach.end().code == 1008


def test_too_large_a_message_is_closed(coach: Screen) -> None:
    coach.send(json.dumps({"t": "ping", "x": "y" * 70_000}))
    assert coach.end().code == 1009


def test_who_talks_too_fast_is_closed(coach: Screen, viewer: Screen) -> None:
    with suppress(ConnectionClosed):
        for _ in range(2000):
            viewer.send({"t": "ping"})
    # What it had still sent unread may cut the line before the goodbye arrives.
    goodbye = viewer.wait_until_cut()
    assert goodbye is None or goodbye.code == 1008
    assert coach.act("pass:right_wing")["seq"] == 1


def test_a_page_of_another_version_is_told_to_load_again(coach: Screen) -> None:
    coach.send({"t": "hello", "v": 2, "seen": 0})
    assert coach.wait("refused")["message"] == "This page is from another version. Load it again."


def test_sockets_are_never_compressed(device: Device) -> None:
    with device.coach() as coach:
        response = coach.socket.response
        assert response is not None
        assert "Sec-WebSocket-Extensions" not in response.headers


def test_a_screen_that_leaves_while_it_is_let_in_is_no_error(server: LiveServer, device: Device) -> None:
    path = viewing_path(device.share())
    name, _, port = server.host.partition(":")
    asked = (
        f"GET {path} HTTP/1.1\r\nHost: {server.host}\r\nOrigin: {server.url}\r\nConnection: Upgrade\r\n"
        "Upgrade: websocket\r\nSec-WebSocket-Version: 13\r\n"
        "Sec-WebSocket-Key: dGhlIHNhbXBsZSBub25jZQ==\r\n\r\n"  # the key of RFC 6455, section 1.3
    )
    for _ in range(40):
        with socket.create_connection((name, int(port)), timeout=15) as line:
            # Closed like this, the line is cut rather than ended.
            line.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, struct.pack("ii", 1, 0))
            line.sendall(asked.encode())
    with screen(server, path) as phone:  # the log is the fixture's to look at
        assert phone.state["seq"] == 0
