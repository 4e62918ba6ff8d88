"""Teams to move house with: one that has everything, and how a team is taken along and brought in."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from typing import Any, Final

from flask import Flask
from flask.testing import FlaskClient

from tests.webapp.conftest import make_team, shared_of
from tests.webapp.plays.test_playbook import BACK, FIRST, OTHER, did, saving
from webapp.chains import history
from webapp.chains.state import Played, play
from webapp.plays.playbook import tree
from webapp.store.tables import Board, Chain, Ink

#: What is decided about by itself when a team is brought in.
KINDS = ("team", "players", "lineups", "designs", "boards", "chains")


def play_on(app: Flask, board: str, *steps: list[str], undo: int = 0) -> None:
    """Play steps on a board as its coach would, then take the last ``undo`` of them back."""
    store = shared_of(app).store
    with store.write() as session:
        for number, step in enumerate(steps):
            standing = history.load(session, board)
            card, before = standing.card, standing.position
            after = play(before, step, card.shape, card.rules)
            depth = len(standing.steps) + 1
            node = history.node_after(session, board, standing.cursor, depth, tuple(step))
            grown = standing.grown(Played(node, tuple(step), before, after))
            history.record(session, history.numbered(grown, f"{board}-{depth}-{number}", "act"), None)
        for number in range(undo):
            standing = history.load(session, board).undone()
            history.record(session, history.numbered(standing, f"{board}-u{number}", "undo"), None)


def draw_on(app: Flask, chain: str, drawn: Mapping[int, Sequence[Sequence[Any]]]) -> None:
    """Draw on steps of a chain, by their place in its tree: ``[id, tool, colour, points]``, in this order.

    A fifth part that is true: rubbed out again.
    """
    with shared_of(app).store.write() as session:
        row = session.get_one(Chain, chain)
        nodes = tree(session, [row.root_id])[row.root_id]
        for step, strokes in drawn.items():
            for number, (stroke, tool, colour, points, *gone) in enumerate(strokes):
                ink = Ink(node_id=nodes[step].id, id=stroke, chain_id=chain, tool=tool, colour=colour)
                ink.points, ink.gone = json.dumps(points, separators=(",", ":")), any(gone)
                ink.made = 1_700_000_000 + number
                session.add(ink)
                session.flush()  # in the order of drawing


#: What is drawn on the chain with a branch: at the start, on its first step and on a branch.
DRAWN: Final[Mapping[int, Sequence[Sequence[Any]]]] = {
    0: [["s9", 0, 0, [0, 300, 50]], ["s1", 1, 2, [-750, 0, 100, 1500, 20, -100]]],
    1: [["s9", 2, 1, [-2000, -2000, 0, 4000, 4000, 0]], ["oops", 0, 0, [1, 2, 3], True]],
    5: [["s2", 6, 0, [10, 20, 30] * 3]],
}


def full_team(app: Flask, client: FlaskClient) -> str:
    """Make a team that has some of everything, and return its board."""
    board = make_team(client, "Quay Otters", "Tuesday")
    people = [
        client.post("/api/team/players", json=given).get_json()["id"]
        for given in (
            {"number": "0", "name": "Zoë", "positions": ["guard"], "hand": "left"},
            {"number": "00", "may": ["pass", "drive"], "lane": ["post_up:left_block", "fill"]},
            {"number": "12", "name": "Ιώ"},
        )
    ]
    places = {"1": people[0], "2": people[1], "3": None, "4": None, "5": None}
    client.post("/api/team/lineups", json={"name": "Tall", "places": places})
    client.put("/api/team/calls", json={"calls": {"drive": {"call": "Go", "signal": "fist up"}}})
    rules = client.post("/api/rules", json={"from": "pass_and_cut", "title": "Ours"}).get_json()["ref"]
    form = client.get(f"/api/rules/{rules}").get_json()["data"]
    client.put(f"/api/rules/{rules}", json={"version": 1, "data": {**form, "title": "Ours, newer"}})
    shape = client.post("/api/formations", json={"from": "five_out", "name": "Wide"}).get_json()["ref"]
    gone = client.post("/api/rules", json={"from": "first_steps", "title": "Old"}).get_json()["ref"]
    own = {"rules": f"{rules}@1", "formation": shape}
    did(
        client,
        saving(board, "c1", note="First ball.\nThen look.", tags=["early", "vs zone"]),
        {"op": "line", "chain": "c1", "board": board, **own, "line": [*OTHER, [BACK], ["pass:right_wing"]]},
        {"op": "edit", "chain": "c1", "pinned": True},
        saving(board, "c2", name="By our own", **own),
        saving(board, "c3", name="By what is gone", rules=gone, line=FIRST[:1]),
        saving(board, "c4", name="Deleted"),
        {"op": "delete", "chain": "c4"},
    )
    draw_on(app, "c1", DRAWN)
    client.delete(f"/api/rules/{gone}")
    with shared_of(app).store.write() as session:
        row = session.get_one(Board, board)
        row.places = json.dumps({"1": people[0], "3": people[2]})
        row.court, row.level, row.stage = "nba", 0.9, 2
    play_on(app, board, *FIRST, undo=1)
    return board


def taken_along(client: FlaskClient, board: str) -> str:
    """Return the file that a team is taken along in."""
    answer = client.get(f"/api/team/everything?board={board}")
    assert answer.status_code == 200, answer.text
    return answer.text


def look(client: FlaskClient, file: str | bytes, board: str | None = None) -> Any:
    """Have a file looked at, beside the team of ``board`` if one is given."""
    answer = client.post(f"/api/import/look{f'?board={board}' if board else ''}", data=file)
    assert answer.status_code == 200, answer.text
    return answer.get_json()


def bring_in(client: FlaskClient, file: str | bytes, board: str | None = None, **choices: str) -> str:
    """Bring a file in, and return a board of the team."""
    query = {"seen": look(client, file, board)["seen"], **({"board": board} if board else {}), **choices}
    answer = client.post("/api/import", query_string=query, data=file)
    assert answer.status_code == (200 if board else 201), answer.text
    return str(answer.get_json()["board"])
