"""The database: its form, its guards, and a board worked out again from its history."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from sqlalchemy import create_engine, func, select

from webapp.boards.demo import DEMO_PLAYS, make_demo
from webapp.chains import history
from webapp.store.database import Store, Superseded
from webapp.store.guard import AlreadyServed, ServerGuard
from webapp.store.migrate import NewerData
from webapp.store.tables import Base, Node, Team
from webapp.team.squad import placed
from webapp.wire.refusals import Refused


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "quintet.sqlite3"


@pytest.fixture
def store(path: Path) -> Iterator[Store]:
    store = Store(path)
    yield store
    store.close()


def test_the_migrations_make_the_tables_that_the_models_mean(store: Store) -> None:
    engine = create_engine(f"sqlite:///{store.path}")
    with engine.connect() as connection:
        context = MigrationContext.configure(connection, opts={"compare_type": True})
        assert compare_metadata(context, Base.metadata) == []
    engine.dispose()


def test_what_is_written_is_safe_from_a_power_cut(store: Store) -> None:
    with store.write() as session:
        ask = session.connection().exec_driver_sql
        assert ask("PRAGMA journal_mode").scalar() == "wal"
        assert ask("PRAGMA synchronous").scalar() == 2  # FULL, sqlite.org/pragma.html
        assert ask("PRAGMA foreign_keys").scalar() == 1
        assert ask("PRAGMA busy_timeout").scalar() == 5000
        assert ask("PRAGMA secure_delete").scalar() == 1  # what is erased is overwritten


def test_a_failed_change_leaves_nothing_behind(store: Store) -> None:
    def fail() -> None:
        with store.write() as session:
            session.add(Team(id="t", name="Otters", made=0))
            session.flush()
            raise Refused("failed")

    with pytest.raises(Refused):
        fail()
    with store.read() as session:
        assert session.scalar(select(func.count()).select_from(Team)) == 0


def test_an_older_server_is_refused_its_next_change(path: Path, store: Store) -> None:
    newer = Store(path)
    assert newer.generation == store.generation + 1
    with pytest.raises(Superseded), store.write():
        pass
    with newer.write() as session:
        session.add(Team(id="t", name="Otters", made=0))
    newer.close()


def test_data_of_a_newer_version_is_left_alone(path: Path) -> None:
    Store(path).close()
    with sqlite3.connect(path) as database:
        database.execute("UPDATE alembic_version SET version_num = '9999'")
    database.close()
    with pytest.raises(NewerData, match=r"was written by a newer Quintet\. .* Nothing was changed\.$"):
        Store(path)
    with sqlite3.connect(path) as database:
        assert database.execute("SELECT generation FROM server_lock").fetchone() == (1,)
    database.close()


def test_only_one_holds_the_guard(tmp_path: Path) -> None:
    first, second = ServerGuard(tmp_path / "lock"), ServerGuard(tmp_path / "lock")
    first.acquire(0)
    with pytest.raises(AlreadyServed, match="Another Quintet server is already running"):
        second.acquire(0.1)
    first.release()
    second.acquire(0)
    second.release()


def test_a_board_is_worked_out_again_from_its_history(store: Store) -> None:
    with store.write() as session:
        board = make_demo(session).id
    with store.read() as session:
        standing = history.load(session, board)
        assert tuple(step.actions for step in standing.steps) == DEMO_PLAYS[0].line
        assert (standing.seq, standing.ahead) == (1, ())


def test_a_branch_is_kept_beside_the_chain_that_left_it(store: Store) -> None:
    with store.write() as session:
        board = make_demo(session).id
        standing = history.load(session, board)
        first = standing.steps[0].node
        other = history.node_after(session, board, first, 2, ("shot",))
        again = history.node_after(session, board, first, 2, standing.steps[1].actions)
        assert again == standing.steps[1].node  # the same way again is no new branch
        children = session.scalars(select(Node.id).where(Node.parent_id == first))
        assert set(children) == {other, again}


def test_an_unknown_board_is_refused(store: Store) -> None:
    with store.read() as session, pytest.raises(Refused, match="There is no such board"):
        history.load(session, "none")


NOW = ("a", "b", None, None, "c")


@pytest.mark.parametrize(
    ("given", "after"),
    [
        ({}, NOW),
        ({"3": "d"}, ("a", "b", "d", None, "c")),
        ({"1": "d"}, ("d", "b", None, None, "c")),
        ({"1": "b"}, ("b", "a", None, None, "c")),
        ({"3": "a"}, (None, "b", "a", None, "c")),
        ({"1": None, "3": "a"}, (None, "b", "a", None, "c")),
        ({"1": "c", "5": "a"}, ("c", "b", None, None, "a")),
        ({"1": "d", "2": "a"}, ("d", "a", None, None, "c")),
    ],
)
def test_nobody_ever_has_two_places(given: dict[str, str | None], after: tuple[str | None, ...]) -> None:
    assert placed(NOW, given, {"a", "b", "c", "d"}) == after
