"""What a device makes of its plays before the server answers is what the server makes of them."""

from __future__ import annotations

import itertools
import random
from typing import Any

import pytest

from tests.node import run_node
from tests.server import LiveServer, Servers
from tests.webapp.screens import Device
from webapp.plays.playbook import OCCASIONS

_OPS = itertools.count(1)
REFS = {"formation": "five_out", "rules": "pass_and_cut"}
QUICK = [["pass:right_wing"], ["fill:left_corner", "pass:top"], ["fill:right_corner", "drive:left"]]
LATE = [["pass:right_wing"], ["fill:left_corner", "pass:right_corner"]]
HELD = [["hand_off:right_wing"]]
SAID = ("id", "name", "note", "tags", "pinned", "formation", "rules", "tree")


@pytest.fixture(scope="module")
def server(module_servers: Servers, tmp_path_factory: pytest.TempPathFactory) -> LiveServer:
    return module_servers(tmp_path_factory.mktemp("plays") / "data", teams_address_count=1000)


def test_a_device_knows_the_occasions_of_the_server_in_their_order() -> None:
    assert run_node("occasions", None) == ["", *OCCASIONS]


@pytest.fixture
def device(server: LiveServer) -> Device:
    """A head coach's device on a board of its own."""
    device = Device(server)
    device.make_team()
    return device


def sync(device: Device, *ops: dict[str, Any]) -> None:
    """Change the playbook; every change must be done."""
    body = {"ops": [{"id": f"o{next(_OPS)}", **op} for op in ops]}
    answer = device.ask("POST", f"/api/sync?board={device.board_id}", body)
    assert [item["ok"] for item in answer.json["done"]] == [True] * len(ops), answer.text


def listed(device: Device) -> Any:
    return device.ask("GET", f"/api/chains?board={device.board_id}").json["chains"]


@pytest.mark.parametrize("seed", range(16))
def test_the_device_makes_of_changes_what_the_server_makes_of_them(device: Device, seed: int) -> None:
    rng = random.Random(seed)
    lines = [QUICK, LATE, HELD, QUICK[:1], QUICK[:2]]
    ids = [f"{device.board_id}-{letter}" for letter in "abc"]
    ops: list[dict[str, Any]] = []
    for count in range(24):
        chain = rng.choice(ids)
        kind = rng.choice(["save", "line", "edit", "duplicate"])
        kind = kind if any(op["chain"] == chain for op in ops) else "save"
        op: dict[str, Any] = {"id": f"{device.board_id}{count}", "op": kind, "chain": chain}
        if kind in ("save", "line"):
            op |= {"board": device.board_id, **REFS, "line": rng.choice(lines)}
        if kind == "save":
            op |= {"name": f"Play {count}", "note": "", "tags": rng.sample(["a", "b", "c"], 2)}
        if kind == "edit":
            edits = [{"pinned": True}, {"pinned": False}, {"note": "Early."}, {"line": rng.choice(lines)}]
            op |= rng.choice(edits)
        if kind == "duplicate":
            op |= {"as": f"{chain}{count}", "name": f"Copy {count}"}
        ops.append(op)
    ops.append({"id": f"{device.board_id}-last", "op": "delete", "chain": ops[0]["chain"]})
    sync(device, *ops)

    theirs = {
        item["id"]: {key: item[key] for key in SAID}
        | {"line": [item["tree"][index][1].split(" ") for index in item["line"]]}
        for item in listed(device)
    }
    mine = {
        play["id"]: {key: play[key] for key in (*SAID, "line")} for play in run_node("apply", {"ops": ops})
    }
    assert mine == theirs


@pytest.mark.parametrize("depth", range(4))
def test_the_device_knows_where_a_play_branches_as_the_server_does(device: Device, depth: int) -> None:
    lines = [QUICK, LATE, HELD, [*QUICK[:2], ["fill:right_corner", "drive:right"]]]
    chain = f"{device.board_id}-otter"
    whole = {"chain": chain, "board": device.board_id, **REFS}
    saving = {"op": "save", **whole, "line": QUICK, "name": "Otter", "note": "", "tags": []}
    sync(device, saving, *({"op": "line", **whole, "line": line} for line in lines))
    with device.coach() as screen:
        screen.change("open", chain=chain, **REFS, line=QUICK, depth=depth)
        theirs = screen.wait("offers")["forks"]
    (play,) = listed(device)
    mine = run_node("forks", {"path": QUICK, "tree": play["tree"]})
    assert ways(mine) == ways(theirs)
    assert len(ways(theirs)) == 3


def ways(forks: list[dict[str, Any]]) -> list[Any]:
    """Return the other branches, by the number of steps they leave after."""
    return sorted(
        (fork["depth"], other["line"], other["steps"]) for fork in forks for other in fork["others"]
    )
