"""Databases of every form there has been, kept as they were then, and how one of the present form is made.

``python3 -m tests.webapp.past`` starts a server, plays on it as people do, and keeps two files in ``data``,
named after the form: the database as SQL, and as JSON what its screens showed. Run it with the code that
first has the form, before that is released; the files are never made anew.
"""

from __future__ import annotations

import json
import sqlite3
import sys
import tempfile
from contextlib import closing
from pathlib import Path
from typing import Any

from tests.server import LiveServer
from tests.webapp.screens import Device, Screen

HELD = Path(__file__).resolve().parent / "data"


def bring_back(revision: str, database: Path) -> Any:
    """Make ``database`` what is kept of a form, and return what its screens showed."""
    database.parent.mkdir(parents=True)
    with closing(sqlite3.connect(database)) as connection:
        connection.executescript((HELD / f"{revision}.sql").read_text("utf-8"))
    return json.loads((HELD / f"{revision}.json").read_text("utf-8"))


def shown(coach: Screen) -> dict[str, Any]:
    """Return what a coach sees: the chain, what undo left ahead of it, and how the board is set."""
    coach.hello()
    board = coach.state["board"]
    chosen = {name: board[name] for name in ("name", "formation", "court", "level")}
    return {"seq": coach.seq, "chain": coach.chain(), "ahead": coach.ahead, **chosen}


def _play(server: LiveServer) -> dict[str, Any]:
    first, second = Device(server), Device(server)
    first.open_coaching_link(server.coach_url)
    with first.coach() as coach:
        coach.change("setup", formation="four_out_one_in", court="nba", level=0.9)
        for _ in range(4):
            coach.act_on()
        coach.change("undo")
        coach.change("undo")
        coach.change("redo")
        coach.act_on()  # a branch, or the old way once more
        coach.change("fresh")
        coach.change("setup", formation="five_out")
        coach.act("pass:right_wing")
        coach.act("fill:left_corner", "drive:left")
        coach.act("kick_out:left_corner")
        coach.change("undo")
    followed = first.share()
    off = first.share(name="turned off")
    first.ask("DELETE", f"/api/links/{off['id']}")
    first.ask("POST", f"/api/board/{first.board_id}/code", {})

    second.make_team("Harbour Herons", "Tuesday")
    assistants = second.share("coach", "assistant")
    with second.coach() as coach:
        _what_this_form_knows(second, coach)
        coach.act("pass:left_wing")
        coach.act("fill:right_corner")
        # The other way, from the step before.
        coach.act("post_up:right_block", at=1)
    boards = []
    for device in (first, second):
        with device.coach() as coach:
            boards.append({"id": device.board_id, "cookies": device.cookies, **shown(coach)})
    return {
        "boards": boards,
        "view": followed["url"].rsplit("/", 1)[1],
        "off": off["url"].rsplit("/", 1)[1],
        "assistant": assistants["url"].rsplit("/", 1)[1],
    }


def _what_this_form_knows(device: Device, coach: Screen) -> None:
    """Use what came with later forms; an older one answers that there is no such thing."""
    number = {"number": "7", "name": "Robin"}
    player = device.ask("POST", "/api/team/players", number)
    rules = device.ask("POST", "/api/rules", {"from": "pass_and_cut", "title": "Ours"})
    if player.status == rules.status == 201:
        device.ask("PUT", "/api/team/calls", {"pass": "Go"})
        coach.change("setup", rules=f"{rules.json['ref']}@1", places={"1": player.json["id"]})
    line = [["pass:right_wing"], ["fill:left_corner"]]
    chain = {"board": device.board_id, "formation": "five_out", "rules": "pass_and_cut", "line": line}
    saved = {"op": "save", "chain": "c1", "id": "o1", "name": "Quick", **chain}
    device.ask("POST", "/api/sync", {"ops": [saved]})
    device.ask("POST", f"/api/board/{device.board_id}/device-code", {"role": "assistant"})
    device.ask("POST", f"/sheet/{device.board_id}", {}, form=True)
    place = {"chain": coach.state["chain"]["id"], "formation": "five_out", "rules": "pass_and_cut"}
    stroke = {"s": "s1", "tool": 2, "colour": 1, "p": [0, 300, 50, 120, 40, 0]}
    coach.send({"t": "ink", "do": "put", "k": "k1", "line": [], **place, **stroke})
    coach.wait("inked", "refused")


def _main() -> str:
    with tempfile.TemporaryDirectory() as made:
        data = Path(made) / "data"
        server = LiveServer(data).start()
        try:
            expected = _play(server)
        finally:
            server.stop()
        with closing(sqlite3.connect(data / "quintet.sqlite3")) as connection:
            (revision,) = connection.execute("SELECT version_num FROM alembic_version").fetchone()
            script = "\n".join(connection.iterdump()) + "\n"
    HELD.mkdir(exist_ok=True)
    target = HELD / f"{revision}.sql"
    if target.exists():
        return f"{target} is there already and stays as it was."
    target.write_text(script, "utf-8")
    target.with_suffix(".json").write_text(json.dumps(expected, indent=1) + "\n", "utf-8")
    return f"Kept {target}."


if __name__ == "__main__":
    sys.exit(print(_main()))
