"""Scripted steps in what is kept: other ways, the playbook, the figures; and whatever text there may be."""

from __future__ import annotations

import itertools
import random
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.engine.script.scripts import INBOUND, OFF, WORKED
from tests.plugin import PATIENT
from tests.server import LiveServer, Servers, SharedServers, no_errors
from tests.webapp.boards.test_script import LOST, asked, offers
from tests.webapp.screens import Device, Screen

_NUMBERS = itertools.count(1)


@pytest.fixture
def server(shared_server: SharedServers) -> Iterator[LiveServer]:
    """A server that bears with much."""
    with no_errors(shared_server(**PATIENT)) as server:
        yield server


def test_no_text_whatever_breaks_the_board(coach: Screen, device: Device, server: LiveServer) -> None:
    chance = random.Random(20)
    signs = "script:as=;,-0123456789xkcdsphlgtoben_"
    played = 0
    for _ in range(150):
        text = chance.choice(WORKED)
        for _ in range(chance.randint(1, 4)):
            at = chance.randrange(7, len(text))
            extra = "".join(chance.choices(signs, k=chance.randint(0, 3)))
            text = text[:at] + extra + text[at + chance.randint(0, 4) :]
        answer = asked(coach, text)
        if answer["t"] == "step":
            played += 1
            assert answer["step"]["a"] == [text]
        else:
            assert answer["code"] in ("illegal", "unreadable"), answer
        listed = device.ask("POST", "/api/sync", {"ops": [line(device, f"f{chance.random()}", [[text]])]})
        assert listed.status == 200, listed.text
    assert coach.seq == played
    assert "Traceback" not in server.errors()
    with device.coach() as other:
        assert other.steps == coach.steps


def test_another_way_begins_with_one(coach: Screen) -> None:
    coach.act(INBOUND)
    coach.act("pass:top")
    coach.act("pass:right_wing", at=0)
    offers(coach)
    fork = coach.offered["forks"][0]["others"][0]
    assert (fork["line"], fork["say"]) == ([[INBOUND], ["pass:top"]], [["script_side", {}]])
    refs = {name: coach.state["board"][name] for name in ("formation", "rules")}
    opened = coach.change("open", chain=coach.state["chain"]["id"], **refs, line=fork["line"], depth=2)
    assert [step["a"] for step in opened["steps"]] == fork["line"]


def test_a_line_with_a_bad_one_is_kept_up_to_it(coach: Screen) -> None:
    refs = {name: coach.state["board"][name] for name in ("formation", "rules")}
    bad = {"line": [["pass:right_wing"], ["script:as=side"]], "chain": "b" * 24, **refs}
    coach.send({"t": "keep", "id": "k1", **bad})
    answer = coach.wait("kept")
    assert (answer["legal"], answer["of"]) == (1, 2)
    assert answer["why"] == "This drawn step cannot be read: it is not a drawn step."


def test_the_figures_count_it(device: Device, coach: Screen) -> None:
    coach.act("pass:right_wing")
    before = report(device)
    coach.act(INBOUND)
    coach.act_on()
    found = report(device)
    assert found["steps"][0] == before["steps"][0]
    drawn = found["steps"][1]
    assert drawn["end"] - drawn["start"] == pytest.approx(3.3, abs=0.011)
    assert drawn["start"] == pytest.approx(before["seconds"], abs=0.011)
    # 3 runs 2 m and a bit, straight out to the top, and nobody is counted in the lane meanwhile.
    coach.change("undo")
    found = report(device)
    assert found["players"]["3"]["metres"] == pytest.approx(before["players"]["3"]["metres"] + 2.2, abs=0.15)
    assert found["players"]["5"]["lane_seconds"] == before["players"]["5"]["lane_seconds"]


def test_a_playbook_has_it_after_a_crash(live_server: Servers, tmp_path: Path) -> None:
    server = live_server(tmp_path / "data")
    device = Device(server)
    device.open_coaching_link(server.coach_url)
    with device.coach() as coach:
        coach.change("fresh")
        coach.act(OFF)
        coach.change("recover", at=1, where=LOST)
        coach.act_on()
        chain, steps = coach.state["chain"]["id"], coach.steps
        op = line(device, chain, coach.chain(), op="save", name="Under the basket")
        answer = device.ask("POST", "/api/sync", {"ops": [op]})
        assert answer.json["done"][0]["ok"], answer.text
        coach.change("fresh")
    server.kill_group()
    server.restart()
    listed = device.ask("GET", f"/api/chains?board={device.board_id}").json["chains"]
    kept = next(item for item in listed if item["id"] == chain)
    assert [actions for _, actions in kept["tree"]][1:] == [" ".join(step["a"]) for step in steps]
    with device.coach() as coach:
        refs = {name: coach.state["board"][name] for name in ("formation", "rules")}
        opened = coach.change("open", chain=chain, **refs, line=[step["a"] for step in steps], depth=1)
        assert [*opened["steps"], *opened["undone"]] == steps


def line(device: Device, chain: str, steps: list[list[str]], **given: Any) -> dict[str, Any]:
    """Return what keeps a line of play in a chain, as a device sends it that was offline."""
    refs = {"formation": "five_out", "rules": "pass_and_cut", "board": device.board_id}
    chain = "".join(sign for sign in chain if sign.isalnum() or sign in "-_")
    return {"op": "line", "id": f"s{next(_NUMBERS)}", "chain": chain, "line": steps, **refs, **given}


def report(device: Device) -> Any:
    """Return the figures of the chain on the board."""
    answer = device.ask("GET", f"/api/board/{device.board_id}/report")
    assert answer.status == 200, answer.text
    return answer.json
