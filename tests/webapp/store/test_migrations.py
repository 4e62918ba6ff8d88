"""Bringing older data up to date, and going back, with real data in it; from the first released form on."""

from __future__ import annotations

import itertools
import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from alembic import command
from alembic.config import Config
from alembic.script import ScriptDirectory
from sqlalchemy import Engine, create_engine, text

from tests.server import Servers
from tests.webapp import screens
from tests.webapp.past import HELD, bring_back, shown
from tests.webapp.screens import Device, screen
from webapp.chains.history import load
from webapp.store.database import Store
from webapp.store.migrate import SCRIPTS

#: Every form there has been, the first one first.
FORMS = sorted(script.revision for script in ScriptDirectory(str(SCRIPTS)).walk_revisions())

#: A board of the first form in the middle of a chain, one step of it taken back.
FIRST_FORM = """
INSERT INTO team (id, name, made) VALUES ('t', 'Quay Otters', 1);
INSERT INTO board (id, team_id, name, formation, court, level, made)
    VALUES ('b', 't', 'First', 'five_out', 'nba', 0.9, 1);
INSERT INTO node (id, board_id, parent_id, depth, actions, formation, made) VALUES
    (1, 'b', NULL, 0, '', 'four_out_one_in', 1), (2, 'b', NULL, 0, '', 'five_out', 2),
    (3, 'b', 2, 1, 'pass:right_wing', NULL, 3), (4, 'b', 3, 2, 'fill:left_corner pass:top', NULL, 4);
INSERT INTO place (board_id, seq, root_id, cursor_id, tip_id) VALUES ('b', 4, 2, 3, 4);
INSERT INTO key (id, team_id, board_id, link_id, role, secret_hash, name, made, seen, revoked)
    VALUES ('k', 't', NULL, NULL, 'head_coach', 'x', 'tablet', 1, 1, NULL);
INSERT INTO change (board_id, seq, message_id, kind, node_id, key_id, made)
    VALUES ('b', 4, 'm4', 'undo', 3, 'k', 5);
"""


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "quintet.sqlite3"


@pytest.fixture
def engine(path: Path) -> Iterator[Engine]:
    engine = create_engine(f"sqlite:///{path}")
    yield engine
    engine.dispose()


def move(engine: Engine, revision: str) -> None:
    """Bring the database to a form, up or down."""
    config = Config()
    config.set_main_option("script_location", str(SCRIPTS))
    with engine.connect() as connection, connection.begin():
        config.attributes["connection"] = connection
        current = connection.dialect.has_table(connection, "alembic_version") and connection.scalar(
            text("SELECT version_num FROM alembic_version")
        )
        if current and current > revision:
            command.downgrade(config, revision)
        else:
            command.upgrade(config, revision)


def run(engine: Engine, script: str) -> None:
    with engine.connect() as connection, connection.begin():
        for statement in filter(str.strip, script.split(";\n")):
            connection.execute(text(statement))


def rows(engine: Engine, query: str) -> list[tuple[Any, ...]]:
    with engine.connect() as connection:
        return [tuple(row) for row in connection.execute(text(query))]


def test_a_board_of_the_first_form_plays_on_where_it_stood(path: Path, engine: Engine) -> None:
    move(engine, "0001")
    run(engine, FIRST_FORM)
    store = Store(path)
    with store.read() as session:
        standing = load(session, "b")
    assert [step.actions for step in standing.steps] == [("pass:right_wing",)]
    assert [step.actions for step in standing.ahead] == [("fill:left_corner", "pass:top")]
    assert (standing.seq, standing.change, standing.notice) == (4, ("m4", "undo"), None)
    card = standing.card
    assert (card.formation, card.court, card.level) == ("five_out", "nba", 0.9)
    assert (card.rules_ref, card.stage, card.squad) == ("pass_and_cut", None, (None,) * 5)
    store.close()
    assert rows(engine, "SELECT id, rules FROM node") == [
        (1, "pass_and_cut"), (2, "pass_and_cut"), (3, None), (4, None)
    ]  # fmt: skip


def test_the_first_form_can_be_gone_back_to(engine: Engine) -> None:
    move(engine, "0001")
    run(engine, FIRST_FORM)
    before = rows(engine, "SELECT name, sql FROM sqlite_master WHERE sql IS NOT NULL ORDER BY name")
    move(engine, "0002")
    move(engine, "0001")
    after = rows(engine, "SELECT name, sql FROM sqlite_master WHERE sql IS NOT NULL ORDER BY name")
    assert after == before
    assert rows(engine, "SELECT root_id, cursor_id, tip_id FROM place") == [(2, 3, 4)]
    assert rows(engine, "SELECT board_id, seq FROM change") == [("b", 4)]


def test_going_back_sets_boards_that_use_the_teams_own_to_a_start(engine: Engine) -> None:
    move(engine, "0001")
    run(engine, FIRST_FORM)
    move(engine, "0002")
    places = json.dumps({"1": "p"})
    run(engine, f"UPDATE board SET formation = 'f_x@1', rules = 'r_y@2', stage = 1, places = '{places}'")
    move(engine, "0001")
    assert rows(engine, "SELECT formation FROM board") == [("five_out",)]
    assert rows(engine, "SELECT root_id = cursor_id AND cursor_id = tip_id, root_id FROM place") == [(1, 5)]
    assert rows(engine, "SELECT parent_id, formation FROM node WHERE id = 5") == [(None, "five_out")]
    assert len(rows(engine, "SELECT id FROM node")) == 5


@pytest.mark.parametrize("form", FORMS)
def test_a_database_of_every_form_is_kept_as_it_was(form: str, path: Path, engine: Engine) -> None:
    assert (HELD / f"{form}.sql").exists(), (
        f"No database of form {form} is kept. Run 'python3 -m tests.webapp.past' with the code that first "
        "has this form, and commit the two files it writes."
    )
    bring_back(form, path.parent / "kept" / "quintet.sqlite3")
    move(engine, form)
    kept = create_engine(f"sqlite:///{path.parent / 'kept' / 'quintet.sqlite3'}")
    query = "SELECT name, sql FROM sqlite_master WHERE sql IS NOT NULL ORDER BY name"
    # Otherwise the migration was changed after data had been made with it, which then go astray.
    assert rows(kept, query) == rows(engine, query)
    kept.dispose()


@pytest.mark.parametrize("form", FORMS)
def test_boards_of_every_form_play_on(
    form: str, tmp_path: Path, live_server: Servers, monkeypatch: pytest.MonkeyPatch
) -> None:
    # A message whose number was used then would be taken for a repeated one.
    monkeypatch.setattr(screens, "_IDS", itertools.count(10_000))
    expected = bring_back(form, tmp_path / "data" / "quintet.sqlite3")
    server = live_server(tmp_path / "data")
    for was in expected["boards"]:
        device = Device(server, was["cookies"], was["id"])
        with device.coach() as coach:
            now = shown(coach)
            assert now == {name: was[name] for name in now}
            chain = coach.chain()
            if was["ahead"]:
                coach.change("redo")
                coach.change("undo")
            coach.act_on()
            coach.change("undo")
            assert coach.chain() == chain
            coach.change("fresh")
            coach.act_on()
    with screen(server, f"/live/view/{expected['view']}") as phone:
        assert len(phone.steps) == 1
    assert Device(server).ask("GET", f"/v/{expected['off']}").status == 410
    assert Device(server).open_coaching_link(f"{server.url}/c/{expected['assistant']}")
