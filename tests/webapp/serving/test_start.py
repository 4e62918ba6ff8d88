"""Starting: what is loaded once the first page has been answered, and what new data are begun with."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from alembic.script import ScriptDirectory
from sqlalchemy import Engine, create_engine, text

from tests.server import ROOT
from webapp.store.migrate import SCRIPTS, migrate, newest, upgrade

#: Each takes a good part of the time a start may take, or brings along what does.
NOT_YET = (
    "alembic", "mako", "pygments", "fpdf", "fontTools", "uharfbuzz", "resvg_py", "svgwrite", "segno", "numpy",
    "PIL", "cryptography", "webapp.paper.sheet", "webapp.transfer.document_schemas", "engine.checker",
    "engine.pack",
)  # fmt: skip

#: All of a start but the sockets; then the tables of movements that were read on the way.
FIRST_PAGE = """
import json, sys
from pathlib import Path
from webapp.serving.command import _prepare
from webapp.base.settings import Settings
settings = Settings(data_dir=Path(sys.argv[1]))
_prepare(settings)
import webapp.serving.gunicorn, webapp.serving.plain
from webapp.app import create_app
answer = create_app(settings).test_client().get("/")
assert answer.status_code == 200, answer.status
from engine.motion.table import load
print(json.dumps([sorted(sys.modules), load.cache_info().currsize]))
"""

#: The command itself, up to where it would serve.
GARBAGE = """
import gc, runpy, sys
import webapp.serving.plain as plain
plain.run = lambda *given: print("collects" if gc.isenabled() else "does not")
sys.argv = ["webapp", "--plain", "--no-open", "--port", "0", "--data", sys.argv[1]]
runpy.run_module("webapp", run_name="__main__")
"""


def run(code: str, data: Path) -> str:
    given = [sys.executable, "-c", code, str(data)]
    environment = os.environ | {"QUINTET_NO_SETUP": "1"}
    ended = subprocess.run(given, cwd=ROOT, env=environment, check=True, capture_output=True, text=True)
    return ended.stdout


@pytest.fixture
def empty(tmp_path: Path) -> Iterator[Engine]:
    engine = create_engine(f"sqlite:///{tmp_path / 'empty.sqlite3'}")
    yield engine
    engine.dispose()


@pytest.fixture
def migrated(tmp_path: Path) -> Iterator[Engine]:
    engine = create_engine(f"sqlite:///{tmp_path / 'migrated.sqlite3'}")
    with engine.connect() as connection, connection.begin():
        upgrade(connection)
    yield engine
    engine.dispose()


def everything(engine: Engine) -> dict[str, object]:
    """Return the form of a database, and what is in each of its tables."""
    with engine.connect() as connection:
        query = "SELECT name, type, sql FROM sqlite_master ORDER BY type, name"
        form = [tuple(row) for row in connection.execute(text(query))]
        rows = {
            name: [tuple(row) for row in connection.execute(text(f'SELECT * FROM "{name}"'))]
            for name, kind, _ in form
            if kind == "table"
        }
    return {"form": form, **rows}


def test_the_first_page_needs_none_of_what_takes_long_to_load(tmp_path: Path) -> None:
    for _ in ("a new folder", "data that are there"):
        loaded, tables = json.loads(run(FIRST_PAGE, tmp_path / "data"))
        assert [name for name in NOT_YET if name in loaded] == []
        assert tables == 0


def test_a_server_collects_garbage_though_its_start_does_not(tmp_path: Path) -> None:
    assert run(GARBAGE, tmp_path / "data").splitlines()[-1] == "collects"


def test_the_newest_revision_is_the_head_of_the_migrations() -> None:
    assert newest() == ScriptDirectory(str(SCRIPTS)).get_current_head()


def test_a_new_database_is_what_the_migrations_make(empty: Engine, migrated: Engine) -> None:
    migrate(empty)
    assert everything(empty) == everything(migrated), (
        "A migration was added or changed: run 'python3 -m tests.webapp.newest_form', commit what it writes."
    )
