"""Boards that are open while the playbook changes, or while a team is brought in."""

from __future__ import annotations

import itertools
from typing import Any

from tests.server import LiveServer
from tests.webapp.screens import FIRST, THEN, Device, Screen, screen, viewing_path

_IDS = itertools.count(1)
OTHERWISE = ["fill:left_corner", "pass:right_corner"]


def sync(device: Device, **op: Any) -> None:
    answer = device.ask("POST", "/api/sync", {"ops": [{"id": f"l{next(_IDS)}", **op}]})
    assert answer.json["done"][0]["ok"], answer.text


def on_the_board(device: Device, playing: Screen, *line: list[str]) -> dict[str, Any]:
    """Return what an operation says of a line of the chain on the board."""
    refs = {"formation": "five_out", "rules": "pass_and_cut", "board": device.board_id}
    return {"chain": playing.state["chain"]["id"], **refs, "line": list(line)}


def tree(device: Device, chain: str) -> list[str]:
    found = device.ask("GET", f"/api/chains?board={device.board_id}").json["chains"]
    return [actions for _, actions in next(item["tree"] for item in found if item["id"] == chain)]


def test_every_screen_of_the_board_is_told_what_its_chain_is_called(
    server: LiveServer, device: Device, playing: Screen
) -> None:
    with screen(server, viewing_path(device.share())) as viewer:
        sync(device, op="save", **on_the_board(device, playing, FIRST, THEN), name="Quick")
        state = playing.wait("state")
        assert (state["chain"]["name"], state["chain"]["kept"]) == ("Quick", True)
        assert playing.chain() == [FIRST, THEN]
        assert "chain" not in viewer.wait("state")
    sync(device, op="edit", chain=state["chain"]["id"], name="Quicker")
    assert playing.wait("state")["chain"]["name"] == "Quicker"


def test_a_branch_kept_by_another_device_is_told_of_and_moves_nobody(device: Device, playing: Screen) -> None:
    sync(device, op="line", **on_the_board(device, playing, FIRST, OTHERWISE))
    state = playing.wait("state")
    assert (playing.chain(), state["ahead"]) == ([FIRST, THEN], 0)
    forks = playing.wait("offers")["forks"]
    assert [(fork["depth"], [other["line"] for other in fork["others"]]) for fork in forks] == [
        (1, [[FIRST, OTHERWISE]])
    ]
    playing.change("undo")
    assert playing.act(*THEN)["t"] == "step"


def test_a_board_plays_on_in_a_chain_that_is_deleted(device: Device, playing: Screen) -> None:
    line = on_the_board(device, playing, FIRST, THEN)
    sync(device, op="save", **line, name="Quick")
    playing.wait("state")
    sync(device, op="delete", chain=line["chain"])
    playing.wait("state")
    assert playing.act("fill:right_corner", "pass:right_wing")["t"] == "step"
    sync(device, op="restore", chain=line["chain"])
    assert len(tree(device, line["chain"])) == 4


def test_two_boards_play_in_one_chain_and_both_ways_are_kept(
    server: LiveServer, device: Device, playing: Screen
) -> None:
    sync(device, op="save", **on_the_board(device, playing, FIRST, THEN), name="Quick")
    chain = playing.wait("state")["chain"]["id"]
    # As if the same team had another board elsewhere, that stands in the same chain.
    second = f"second-{device.board_id}"
    file = device.ask("GET", f"/api/team/everything?board={device.board_id}").text
    bring_in(device, file.replace(device.board_id, second))
    playing.wait("state")
    with Device(server, device.cookies, second).coach() as other:
        assert (other.chain(), other.state["chain"]["id"]) == ([FIRST, THEN], chain)
        other.act("fill:right_corner", "pass:right_wing")
        playing.act("fill:right_corner", "pass:left_wing")
        assert playing.chain()[-1] != other.chain()[-1]
    assert tree(device, chain)[3:] == [
        "fill:right_corner pass:right_wing",
        "fill:right_corner pass:left_wing",
    ]


def test_an_open_board_takes_in_what_is_brought(device: Device, playing: Screen) -> None:
    file = device.ask("GET", f"/api/team/everything?board={device.board_id}").text
    playing.change("fresh")
    playing.change("setup", court="nba")
    seq = playing.seq
    bring_in(device, file, boards="theirs")
    state = playing.wait("state")
    assert (state["board"]["court"], playing.chain()) == ("fiba", [FIRST, THEN])
    assert playing.seq > seq
    assert playing.act("fill:right_corner", "pass:right_wing")["t"] == "step"


def bring_in(device: Device, file: str, **choices: str) -> None:
    board = f"board={device.board_id}"
    seen = device.ask("POST", f"/api/import/look?{board}", file.encode()).json["seen"]
    query = "&".join(f"{kind}={whose}" for kind, whose in {**choices, "seen": seen}.items())
    answer = device.ask("POST", f"/api/import?{board}&{query}", file.encode())
    assert answer.status == 200, answer.text
