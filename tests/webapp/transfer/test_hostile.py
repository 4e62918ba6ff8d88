"""Files that are no team, or a bad one: one sentence each, and nothing half brought in."""

from __future__ import annotations

import copy
import json
import random
from collections.abc import Callable
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient

from tests.depth import deep
from tests.engine.script.scripts import OFF
from tests.webapp.conftest import shared_of
from tests.webapp.team.test_designs import setting, several, without
from tests.webapp.transfer.teams import bring_in, taken_along
from webapp.store.tables import Base
from webapp.wire.refusals import answered

Change = Callable[[Any], object]


def everything(app: Flask) -> dict[str, list[Any]]:
    """Return every row of the database."""
    with shared_of(app).store.read() as session:
        return {
            table.name: [tuple(row) for row in session.execute(table.select())]
            for table in Base.metadata.sorted_tables
        }


def refused(app: Flask, client: FlaskClient, file: str | bytes) -> str:
    """Send a file that must be refused, looked at and brought in alike, and return the sentence."""
    before = everything(app)
    looked = client.post("/api/import/look", data=file)
    brought = client.post("/api/import", query_string={"seen": "x"}, data=file)
    assert everything(app) == before
    assert looked.status_code == brought.status_code == 422, looked.text
    error = looked.get_json()["error"]
    assert (error, error["code"]) == (brought.get_json()["error"], "bad_file")
    sentence = error["message"]
    assert sentence.endswith(". Nothing was imported.")
    assert "\n" not in sentence
    return str(sentence).removesuffix(" Nothing was imported.")


NO_TEAM = "This is not a team saved by Quintet."
TOO_DEEP = "This is not a team saved by Quintet: its parts are too deep in one another."
NOT_TEXT = "This is not a text file, so it is no team saved by Quintet."

NO_FILES: list[tuple[str, bytes, str]] = [
    ("a picture", b"\x89PNG\r\n\x1a\n\x00\xff\xfe", NOT_TEXT),
    ("other letters", '{"format": "quintet-team", "name": "Zoë"}'.encode("latin-1"), NOT_TEXT),
    ("two bytes a letter", '{"format": "quintet-team"}'.encode("utf-16"), NOT_TEXT),
    ("nothing", b"", "This file is damaged, or is no team at all: it cannot be read from line 1 on."),
    ("a page", b"<html>", "This file is damaged, or is no team at all: it cannot be read from line 1 on."),
    (
        "half of one",
        b'{"format": "quintet-team",\n"version": 1,\n"team": {"id',
        "This file is damaged, or is no team at all: it cannot be read from line 3 on.",
    ),
    ("a list", b"[]", NO_TEAM),
    ("a number", b"7", NO_TEAM),
    ("something foreign", b'{"format": "playlist", "version": 1}', NO_TEAM),
    ("no format", b'{"version": 1}', NO_TEAM),
    (
        "a newer one",
        b'{"format": "quintet-team", "version": 2, "galaxies": []}',
        "This was saved by a newer Quintet (form 2): bring this one up to date first.",
    ),
    ("very deep", b'{"format": ' + b"[" * 100_000, TOO_DEEP),
    ("very deep objects", b'{"a":' * 100_000, TOO_DEEP),
    (
        "a name twice",
        b'{"format": "quintet-team", "version": 1, "version": 1}',
        "This file is damaged: “version” is there twice in one place.",
    ),
    ("not a number", b'{"format": NaN}', "There is a number in this file that is none (NaN)."),
    ("without end", b'{"format": -Infinity}', "There is a number in this file that is none (-Infinity)."),
    (
        "a number of a million digits",
        b'{"format": ' + b"9" * 1_000_000 + b"}",
        "There is a number in this file that cannot be one of a team's.",
    ),
    (
        "version true",
        b'{"format": "quintet-team", "version": true}',
        "Something in this file is not right (version): This must be a whole number.",
    ),
    (
        "version 0",
        b'{"format": "quintet-team", "version": 0}',
        "Something in this file is not right (version): This must be 1.",
    ),
    (
        "nothing in it",
        b'{"format": "quintet-team", "version": 1}',
        "Something in this file is not right (team): This is missing.",
    ),
]


@pytest.mark.parametrize(
    ("file", "sentence"), [row[1:] for row in NO_FILES], ids=[row[0] for row in NO_FILES]
)
def test_what_is_no_team_is_refused(
    steady: Flask, steady_client: FlaskClient, file: bytes, sentence: str
) -> None:
    assert refused(steady, steady_client, file) == sentence


def by(kind: str, which: Callable[[Any], bool], change: Change) -> Change:
    """Return what changes the first of ``kind`` that ``which`` picks."""
    return lambda data: change(next(thing for thing in data[kind] if which(thing)))


def chain(change: Change) -> Change:
    """Return what changes the chain with a branch and a recovery."""
    return by("chains", lambda thing: thing["name"] == "Quick", change)


def twice(kind: str) -> Change:
    return lambda data: data[kind].append(copy.deepcopy(data[kind][0]))


#: More than any list in a file may hold, by far.
MANY = deep(200_000, 2_000_000)
TIME = "This must be a time in seconds since 1970."
STEPS = "This must be steps one after the other: number"

BAD_TEAMS: list[tuple[str, Change, str]] = [
    ("a part too many", setting("keys", []), "keys): This is not known here: leave it out."),
    ("no players", without("players"), "players): This is missing."),
    ("players as a text", setting("players", "all"), "players): This must be a list."),
    ("a player as a text", setting("players.0", "Bo"), "players 1): This must be a group of named values."),
    ("no board", setting("boards", []), "boards): This must be a list of 1 to 500."),
    ("too many players", lambda d: d["players"].extend([{}] * 28),
        "players): This must be a list of 0 to 30."),
    ("entries without end", setting("players", [0] * MANY),
        "players): This must be a list of 0 to 30."),
    ("tags without end", chain(setting("tags", [""] * MANY)), "tags): This must be a list of 0 to 12."),
    ("a name of markup", setting("players.0.name", "<img src=x>"),
        "players 1, name): This must be a first name or "
        "a nickname: letters only, no numbers, no addresses."),
    ("a surname's worth", setting("players.0.surname", "x"),
        "players 1, surname): A number, a first name and how "
        "they play are all that is saved of a player."),
    ("a name that turns", setting("team.name", "a\u202eb"),
        "team, name): This must be plain text on one line."),
    ("half a letter", setting("team.name", "a\ud800"), "team, name): This must be plain text on one line."),
    ("a name without end", setting("team.name", "x" * 41), "team, name): This must have 1 to 40 characters."),
    ("a number as such", setting("players.0.number", 7), "players 1, number): This must be text."),
    ("a number twice", lambda d: d["players"][0].update(number=d["players"][1]["number"]),
        "The number is there twice: "),
    ("an id that is a path", setting("boards.0.id", "../secret"),
        "boards 1, id): This must be 1 to 64 letters, digits, - or _."),
    ("an id twice", twice("lineups"), "An id in lineups is there twice: "),
    ("a board twice", twice("boards"), "An id in boards is there twice: "),
    ("a time before time", setting("team.made", -1), f"team, made): {TIME}"),
    ("a time after time", setting("team.made", 10**12), f"team, made): {TIME}"),
    ("a time in pieces", setting("team.made", 1.5), "team, made): This must be a whole number."),
    ("an endless level", setting("boards.0.level", 1e308),
        "boards 1, level): This must be one of 0.75, 0.8, 0.85, 0.9, 0.95, 1.0."),
    ("a court of the moon", setting("boards.0.court", "moon"), "boards 1, court): This must be one of: "),
    ("a player of nobody's", setting("lineups.0.places.5", "ghost"),
        "Somebody on a place of “Tall” is not in the squad of this file."),
    ("a player on two places", by("lineups", lambda d: True,
        lambda d: d["places"].update({"5": d["places"]["1"]})),
        "Somebody has two places in “Tall”."),
    ("rules that are not there", setting("boards.0.rules", "r_none@1"),
        "The rules r_none@1 are neither in this file nor do they come with Quintet."),
    ("rules without a version", chain(setting("rules", "r_none")), ""),
    ("a formation of later days", setting("boards.0.formation", "six_out"),
        "The formation six_out is neither in this file nor does it come with Quintet."),
    ("a board of nowhere", chain(setting("board", "gone")),
        "The board that the chain “Quick” was begun on is not in this file."),
    ("a chain of nowhere", setting("boards.0.stands.chain", "gone"),
        "The chain that the board “Tuesday” stands in is not in this file."),
    ("beyond the chain", setting("boards.0.stands.tip", 99),
        "The board “Tuesday” stands at a step that its chain does not have."),
    ("off the way", setting("boards.0.stands.tip", 0),
        "What lies ahead on the board “Tuesday” does not follow from where it stands."),
    ("a main line to nowhere", chain(setting("line", 999)),
        "The chain “Quick” names a step that it does not have."),
    ("a circle", chain(setting("tree.1.0", 2)), f"tree): {STEPS} 1 comes before the step it follows."),
    ("after itself", chain(setting("tree.1.0", 1)), f"tree): {STEPS} 1 comes before the step it follows."),
    ("before the start", chain(setting("tree.1.0", -1)),
        f"tree): {STEPS} 1 comes before the step it follows."),
    ("no start", chain(setting("tree.0", [0, "shot", 1])), f"tree): {STEPS} 0 is not a start."),
    ("an empty tree", chain(setting("tree", [])), "tree): This must be a list of 1 to 20000 steps."),
    ("a step twice", chain(lambda c: c["tree"].append(c["tree"][1])), f"tree): {STEPS} 7 is there twice."),
    ("a step of more", chain(setting("tree.1", [0, "shot", 1, 1])),
        f"tree): {STEPS} 1 is not a number, actions and a time."),
    ("a step of true", chain(setting("tree.1.0", False)),
        f"tree): {STEPS} 1 is not a number, actions and a time."),
    ("three actions", chain(setting("tree.1.1", "shot shot shot")),
        f"tree): {STEPS} 1 is not one action or two."),
    ("an action of markup", chain(setting("tree.1.1", "<script>")),
        f"tree): {STEPS} 1 is not one action or two."),
    ("an action there is not", chain(setting("tree.1.1", "fly:moon")),
        "The chain “Quick” cannot be played at step 1: "),
    ("an illegal action", chain(setting("tree.1.1", "kick_out:left_wing")),
        "The chain “Quick” cannot be played at step 1: "),
    ("a recovery after the shot",
        chain(lambda c: c["tree"].extend([[0, "shot", 1], [7, c["tree"][5][1], 1]])),
        "The chain “Quick” cannot be played at step 2: The possession ended with a shot."),
    ("a drawn step that is none", chain(setting("tree.1.1", "script:as=side")),
        "The chain “Quick” cannot be played at step 1: This drawn step cannot be read: "),
    ("an action off spots", chain(lambda c: c["tree"].extend([[0, OFF, 1], [7, "shot", 1]])),
        "The chain “Quick” cannot be played at step 2: Everybody has to get back on spots first."),
    ("a drawn step without end", chain(setting("tree.1.1", "script:" + "1" * 5000)),
        f"tree): {STEPS} 1 is not one action or two."),
    ("rules of nonsense", by("designs", lambda d: d["kind"] == "rules",
        setting("versions.0.data", {"a": 1})), ""),
    ("rules without end", by("designs", lambda d: d["kind"] == "rules",
        setting("versions.0.data.about", "x" * 70_000)), ""),
    ("rules very deep", by("designs", lambda d: d["kind"] == "rules",
        lambda d: d["versions"][0]["data"].update(deep=json.loads("[" * 900 + "]" * 900))), ""),
    ("a version left out", by("designs", lambda d: d["kind"] == "rules",
        setting("versions.0.version", 3)), ""),
    ("a formation of nonsense", by("designs", lambda d: d["kind"] == "formation",
        setting("versions.0.data.start.1", "moon")), ""),
    ("rules as a formation", by("designs", lambda d: d["kind"] == "rules", setting("kind", "formation")), ""),
    ("too many chains kept", lambda d: d["chains"].extend(
        {**d["chains"][0], "id": f"n{n}", "kept": True, "deleted": None} for n in range(500)),
        "There are more than 500 chains in this playbook."),
    ("much at once", several(setting("team.name", ""), setting("players", 5)), "team, name): "),
]  # fmt: skip


@pytest.mark.parametrize(("change", "sentence"), [r[1:] for r in BAD_TEAMS], ids=[r[0] for r in BAD_TEAMS])
def test_a_team_that_cannot_be_is_refused(
    steady: Flask, steady_client: FlaskClient, board: str, change: Change, sentence: str
) -> None:
    found = json.loads(taken_along(steady_client, board))
    change(found)
    said = refused(steady, steady_client, json.dumps(found))
    assert sentence in said
    assert len(said) < 400


def test_a_file_that_is_too_large_is_refused_unread(app: Flask, client: FlaskClient) -> None:
    answer = client.post("/api/import/look", data=b" " * (20 * 1024 * 1024 + 1))
    assert (answer.status_code, answer.get_json()["error"]["message"]) == answered("too_large")


def test_a_file_saved_by_an_editor_is_read_all_the_same(app: Flask, client: FlaskClient, board: str) -> None:
    found = json.loads(taken_along(client, board))
    text = json.dumps(found, indent=4).replace("\n", "\r\n")
    other = bring_in(client, b"\xef\xbb\xbf" + text.encode())
    assert client.get(f"/board/{other}").status_code == 200


def test_markup_in_a_name_stays_text(app: Flask, client: FlaskClient, board: str) -> None:
    found = json.loads(taken_along(client, board))
    found["team"]["name"] = "<b>Bold</b> & co"
    found["boards"][0]["name"] = "<script>alert(1)</script>"
    other = bring_in(client, json.dumps(found))
    for page in ("/", f"/board/{other}", f"/import?board={other}"):
        text = client.get(page).text
        assert "<b>Bold" not in text
        assert "<script>alert" not in text
    assert json.loads(taken_along(client, other))["team"]["name"] == "<b>Bold</b> & co"


def test_damage_anywhere_never_fails_and_never_comes_in_half(
    app: Flask, client: FlaskClient, board: str
) -> None:
    # What can go wrong on a disk or on the way: bytes changed, taken out, put in, and the end cut off.
    chance = random.Random(20_26)
    raw = taken_along(client, board).encode()
    for _ in range(150):
        damaged = bytearray(raw)
        for _ in range(chance.choice((1, 1, 2, 8))):
            at = chance.randrange(len(damaged))
            change = chance.randrange(4)
            if change == 0:
                damaged[at] = chance.randrange(256)
            elif change == 1:
                del damaged[at : at + chance.randrange(1, 40)]
            elif change == 2:
                damaged[at:at] = bytes(damaged[chance.randrange(len(damaged)) :][: chance.randrange(1, 40)])
            else:
                del damaged[at:]
                damaged += b"]}"[: chance.randrange(3)]
        answer = client.post("/api/import/look", data=bytes(damaged))
        assert answer.status_code in (200, 422), answer.text
