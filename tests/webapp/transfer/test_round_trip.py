"""Any team there can be comes to another server as it was: written here, brought in there, written there."""

from __future__ import annotations

import copy
import json
import string
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise
from typing import Any

import jsonschema
import pytest
from flask import Flask
from flask.testing import FlaskClient
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from engine.errors import IllegalAction
from engine.floor.alignment import start
from engine.floor.court import half_court
from engine.floor.formations import Formation
from engine.floor.standards import STANDARDS
from engine.game.play import offers
from engine.game.recover import recovery
from engine.rules.actions import KINDS
from engine.rules.rule_sets import RuleSet
from engine.script import Script, check
from tests.depth import deep
from tests.engine.script.scripts import scripts
from tests.webapp.conftest import shared_of
from tests.webapp.plays.test_playbook import did
from tests.webapp.transfer.teams import KINDS as WHAT
from tests.webapp.transfer.teams import bring_in, draw_on, play_on, taken_along
from tests.webapp.transfer.test_team_file import SCHEMA
from webapp.app import create_app
from webapp.base.settings import Settings
from webapp.chains.setup import formation_in, rules_in
from webapp.chains.state import play
from webapp.store.tables import Board, Team
from webapp.team.designs import find
from webapp.wire.engine_values import LEVELS

_BETWEEN = "-'’. "


def lines(least: int, most: int) -> st.SearchStrategy[str]:
    """Return texts on one line, of any letters and signs there are."""
    seen = st.characters(
        exclude_categories=("Cs", "Cc", "Co", "Cn"),
        exclude_characters="\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069",
    )
    texts = st.text(seen, max_size=most).map(lambda text: " ".join(text.split()))
    return texts.filter(lambda text: least <= len(text) <= most)


first_names = st.text(
    st.one_of(st.characters(categories=("L", "M")), st.sampled_from(_BETWEEN)), max_size=20
).map(lambda text: " ".join(text.split()))

players = st.fixed_dictionaries(
    {"number": st.sampled_from(["00", *map(str, range(100))])},
    optional={
        "name": first_names,
        "positions": st.lists(st.sampled_from(["guard", "wing", "big"]), max_size=3, unique=True),
        "hand": st.sampled_from(["left", "right", ""]),
        "may": st.none() | st.lists(st.sampled_from(sorted(KINDS)), max_size=6, unique=True),
        "lane": st.lists(st.sampled_from(["fill", "post_up:left_block", "flash"]), max_size=3),
    },
)
calls = st.dictionaries(
    st.sampled_from(sorted(KINDS)),
    st.fixed_dictionaries({"call": lines(0, 30), "signal": lines(0, 60)}),
    max_size=3,
)
notes = st.lists(lines(0, 60), max_size=4).map("\n".join).map(str.strip)
tags = st.lists(lines(1, 30), max_size=4, unique=True)


#: Spelt out: of a regular expression, hypothesis looks at all letters there are to find these.
_NAMES = st.text(f"{string.ascii_letters}{string.digits}_-", min_size=1, max_size=64)


@st.composite
def strokes(draw: st.DrawFn) -> list[Any]:
    """Return any stroke a board takes: its points are on the floor, and written as steps from one another."""
    axis = st.integers(-2000, 2000)
    points = draw(st.lists(st.tuples(axis, axis, st.integers(0, 100)), min_size=1, max_size=5))
    written = list(points[0])
    for before, here in pairwise(points):
        written += [b - a for a, b in zip(before, here, strict=True)]
    gone = draw(st.integers(0, 4)) == 0
    return [draw(_NAMES), draw(st.integers(0, 6)), draw(st.integers(0, 2)), written, gone]


drawings = st.lists(strokes(), min_size=1, max_size=3, unique_by=lambda stroke: stroke[0])


@pytest.fixture(scope="module")
def servers(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Flask, Flask]]:
    """A server to come from and one to go to; no team is brought in twice, so ids are free."""
    made = []
    for name in ("from", "to"):
        given = replace(Settings(), data_dir=tmp_path_factory.mktemp(name), teams_address_count=100_000)
        made.append(create_app(given))
    yield made[0], made[1]
    for app in made:
        shared_of(app).store.close()


@st.composite
def walks(draw: st.DrawFn, formation: Formation, rules: RuleSet) -> list[list[list[str]]]:
    """Return a few lines of play, most of them beginning as another does; some with recoveries
    and scripted steps.
    """
    found: list[list[list[str]]] = []
    for _ in range(draw(st.integers(1, 3))):
        base = draw(st.sampled_from(found)) if found else []
        line = base[: draw(st.integers(0, len(base)))]
        position = start(formation)
        for step in line:
            position = play(position, step, formation, rules)
        for _ in range(draw(st.integers(0, 5))):
            if position.alignment.over:
                break
            if draw(st.integers(0, 5)) == 0:
                drawn = draw(scripts(formation, on_spots=draw(st.booleans())))
                if _stands(drawn, formation, rules):
                    step = [drawn.text]
                    position = play(position, step, formation, rules)
                    line = [*line, step]
            if position.alignment.over:
                break
            if position.off or draw(st.integers(0, 5)) == 0:
                where = {n: (draw(st.integers(-7, 7)), draw(st.integers(-1, 12))) for n in range(1, 6)}
                ball = position.player(position.alignment.ball)
                step = [recovery(where, ball, half_court("fiba"), formation, rules).text]
            else:
                chosen = draw(st.sampled_from(offers(position, formation, rules)))
                step = [action.text for action in chosen.actions]
            position = play(position, step, formation, rules)
            line = [*line, step]
        found.append(line)
    return found


def _stands(drawn: Script, formation: Formation, rules: RuleSet) -> bool:
    """Whether everybody may stand where a scripted step leaves them."""
    try:
        check(drawn, formation, rules)
    except IllegalAction:
        return False
    return True


def build(app: Flask, client: FlaskClient, data: st.DataObject) -> str:
    """Make a team as coaches could have made it, and return its first board."""
    names = {"team": data.draw(lines(1, 40)), "board": data.draw(lines(1, 40))}
    board = client.post("/teams", data=names).headers["Location"].rsplit("/", 1)[1]
    squad = data.draw(st.lists(players, max_size=4, unique_by=lambda player: player["number"]))
    people = [client.post("/api/team/players", json=player).get_json()["id"] for player in squad]
    places = dict(zip("12345", [*people, *[None] * 5], strict=False))
    if data.draw(st.booleans()):
        client.post("/api/team/lineups", json={"name": data.draw(lines(1, 40)), "places": places})
    assert client.put("/api/team/calls", json={"calls": data.draw(calls)}).status_code == 200
    refs = {
        "rules": ["pass_and_cut", *own_designs(client, data, "rules", "title", 60)],
        "formation": ["five_out", "three_out_two_in", *own_designs(client, data, "formations", "name", 40)],
    }
    for number in range(data.draw(st.integers(0, 3))):
        keep_chain(app, client, data, board, refs, f"{board}-{number}")
    with shared_of(app).store.write() as session:
        row = session.get_one(Board, board)
        row.court, row.level = (
            data.draw(st.sampled_from(sorted(STANDARDS))),
            data.draw(st.sampled_from(LEVELS)),
        )
        row.stage = data.draw(st.none() | st.integers(0, 3))
        row.places = json.dumps({place: who for place, who in places.items() if who is not None})
    formation, rules = named(app, board, "five_out", "pass_and_cut")
    line = data.draw(walks(formation, rules))[0]
    play_on(app, board, *line, undo=data.draw(st.integers(0, len(line))))
    if people and data.draw(st.booleans()):
        client.delete(f"/api/team/players/{people[0]}")
    return board


def own_designs(client: FlaskClient, data: st.DataObject, sort: str, called: str, most: int) -> list[str]:
    """Make rules or formations of the team's own, some with versions, some deleted, and return their refs."""
    refs = []
    for _ in range(data.draw(st.integers(0, 2))):
        origin = {"rules": "pass_and_cut", "formations": "five_out"}[sort]
        answer = client.post(f"/api/{sort}", json={"from": origin, called: data.draw(lines(1, most))})
        ref = answer.get_json()["ref"]
        refs.append(f"{ref}@1")
        if data.draw(st.booleans()):
            form = client.get(f"/api/{sort}/{ref}").get_json()["data"]
            changes: dict[str, Any] = {
                "posts": data.draw(st.integers(0, 3)),
                called: data.draw(lines(1, most)),
            }
            saved = client.put(f"/api/{sort}/{ref}", json={"version": 1, "data": {**form, **changes}})
            assert saved.status_code == 200, saved.text
            refs.append(f"{ref}@{saved.get_json()['version']}")
        if data.draw(st.integers(0, 3)) == 0:
            client.delete(f"/api/{sort}/{ref}")
    return refs


def named(app: Flask, board: str, formation: str, rules: str) -> tuple[Formation, RuleSet]:
    with shared_of(app).store.read() as session:
        team = session.get_one(Team, session.get_one(Board, board).team_id).id
        shaped = find(session, team, "formation", formation, deleted=True)
        ruled = find(session, team, "rules", rules, deleted=True)
        return formation_in(shaped), rules_in(ruled)


def keep_chain(
    app: Flask, client: FlaskClient, data: st.DataObject, board: str, refs: dict[str, list[str]], chain: str
) -> None:
    chosen = {kind: data.draw(st.sampled_from(known)) for kind, known in refs.items()}
    op = {"chain": chain, "board": board, **chosen}
    first, *others = data.draw(walks(*named(app, board, chosen["formation"], chosen["rules"])))
    said = {"name": data.draw(lines(0, 80)), "note": data.draw(notes), "tags": data.draw(tags)}
    did(client, {"op": "save", **op, "line": first, **said})
    did(client, *({"op": "line", **op, "line": line} for line in others))
    did(client, {"op": "edit", "chain": chain, "pinned": data.draw(st.booleans())})
    kept = client.get(f"/api/chains?board={board}").get_json()["chains"]
    steps = next(len(item["tree"]) for item in kept if item["id"] == chain)
    draw_on(app, chain, data.draw(st.dictionaries(st.integers(0, steps - 1), drawings, max_size=3)))
    if data.draw(st.integers(0, 4)) == 0:
        did(client, {"op": "delete", "chain": chain})


@settings(max_examples=deep(3, 100), deadline=None, suppress_health_check=list(HealthCheck))
@given(data=st.data())
def test_there_and_written_again_it_is_the_same(servers: tuple[Flask, Flask], data: st.DataObject) -> None:
    here, there = servers
    client, other = here.test_client(), there.test_client()
    board = build(here, client, data)
    file = taken_along(client, board)
    jsonschema.Draft202012Validator(SCHEMA).validate(json.loads(file))
    assert bring_in(other, file) == board
    assert taken_along(other, board) == file
    books = [device.get(f"/api/chains?board={board}").get_json() for device in (client, other)]
    assert books[0] == books[1]
    assert all(item["stops"] is None for item in books[0]["chains"])
    # And once more: all of it is there already, whoever is to be believed.
    for whose in ("mine", "theirs", "both"):
        bring_in(other, file, board, **dict.fromkeys(WHAT, whose))
        assert taken_along(other, board) == file


@settings(max_examples=deep(2, 50), deadline=None, suppress_health_check=list(HealthCheck))
@given(data=st.data())
def test_two_teams_in_one_lose_nothing(servers: tuple[Flask, Flask], data: st.DataObject) -> None:
    here, there = servers
    client, other = here.test_client(), there.test_client()
    coming, mine = build(here, client, data), build(there, other, data)
    choices = {kind: data.draw(st.sampled_from(["mine", "theirs", "both"])) for kind in WHAT}
    before, file = json.loads(taken_along(other, mine)), taken_along(client, coming)
    bring_in(other, file, mine, **choices)
    after = json.loads(taken_along(other, mine))
    jsonschema.Draft202012Validator(SCHEMA).validate(after)
    brought = json.loads(file)
    for kind in ("designs", "boards", "chains"):
        known = {thing["id"]: thing for thing in after[kind]}
        for thing in (*before[kind], *brought[kind]):
            assert without_places(known[thing["id"]]) == without_places(thing)
    numbers = [player["number"] for player in after["players"]]
    assert len(set(numbers)) == len(numbers)
    told = {(player["name"], player["hand"]) for player in after["players"]}
    kept = before["players"] if choices["players"] != "theirs" else brought["players"]
    assert {(player["name"], player["hand"]) for player in kept} <= told
    # What is there now can move on.
    assert bring_in(there.test_client(), json.dumps(after))


def without_places(thing: Any) -> Any:
    """Return a thing without who plays where, which depends on whose players count."""
    found = copy.deepcopy(thing)
    found.pop("places", None)
    return found
