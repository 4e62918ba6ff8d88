"""The application itself, on a database of its own, for pages that need no socket; and a live board."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient

from tests.plugin import ROOMY
from tests.prepared import put_database
from tests.server import LiveServer
from tests.webapp.screens import FIRST, THEN, Device, Screen, screen, viewing_path
from webapp.app import create_app
from webapp.base.settings import Settings
from webapp.services import Services


@pytest.fixture
def data_dir(tmp_path: Path) -> Path:
    """Where a server started by the test keeps what it has."""
    return tmp_path / "data"


@pytest.fixture
def settings(tmp_path: Path) -> Settings:
    return replace(Settings(), data_dir=tmp_path / "data", join_tries_address_count=5, join_tries_all_count=8)


@contextmanager
def serving(settings: Settings) -> Iterator[Flask]:
    """Give the application on the data there are, or on a database made ready."""
    put_database(settings.database)
    app = create_app(settings)
    yield app
    shared_of(app).store.close()


@pytest.fixture
def own_app(settings: Settings) -> Iterator[Flask]:
    """An application for one test, with the limits that people meet, and nothing on it."""
    with serving(settings) as app:
        yield app


@pytest.fixture(scope="session")
def common_app(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Flask]:
    """One that tests share, whose limits nobody reaches; each has devices and teams of its own on it."""
    settings = replace(Settings(), data_dir=tmp_path_factory.mktemp("common") / "data", **ROOMY)
    with serving(settings) as app:
        yield app


@pytest.fixture
def app(request: pytest.FixtureRequest) -> Flask:
    """The application: one of the test's own, or, where it is marked ``common_app``, the one tests share."""
    shared = request.node.get_closest_marker("common_app")
    found = request.getfixturevalue("common_app" if shared else "own_app")
    assert isinstance(found, Flask)
    return found


@pytest.fixture
def client(app: Flask) -> FlaskClient:
    """A device that has not been here before."""
    return app.test_client()


def make_team(client: FlaskClient, team: str = "Quay Otters", board: str = "First") -> str:
    """Make a team with a board, whose head coach ``client`` then is; return the board's id."""
    answer = client.post("/teams", data={"team": team, "board": board})
    assert answer.status_code == 303, answer.text
    return answer.headers["Location"].rsplit("/", 1)[1]


@pytest.fixture
def board(client: FlaskClient) -> str:
    """A board whose head coach is ``client``."""
    return make_team(client)


def shared_of(app: Flask) -> Services:
    found = app.extensions["quintet"]
    assert isinstance(found, Services)
    return found


@dataclass(frozen=True)
class FullHouse:
    """A database with a team that has some of everything, one of its boards, and its head coach's cookies."""

    database: Path
    board: str
    cookies: dict[Any, Any]

    def copied(self, settings: Settings) -> Settings:
        """Put a copy where ``settings`` look for it, and return them."""
        settings.data_dir.mkdir(parents=True)
        shutil.copyfile(self.database, settings.database)
        return settings

    def coach(self, app: Flask) -> FlaskClient:
        """Return the head coach's device, of an application on a copy."""
        client = app.test_client()
        client._cookies = dict(self.cookies)  # type: ignore[attr-defined]
        return client


@pytest.fixture(scope="session")
def full_house(tmp_path_factory: pytest.TempPathFactory) -> FullHouse:
    """The team of :func:`tests.webapp.transfer.teams.full_team`, played and drawn once; tests take copies."""
    from tests.webapp.transfer.teams import full_team

    settings = replace(Settings(), data_dir=tmp_path_factory.mktemp("full") / "data")
    with serving(settings) as app:
        client = app.test_client()
        board = full_team(app, client)
        shared_of(app).store.scrub()  # all of it in the one file
    return FullHouse(settings.database, board, client._cookies)  # type: ignore[attr-defined]


@pytest.fixture(scope="session")
def steady(full_house: FullHouse, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Flask]:
    """An application with that team, for what is refused; each test sees that nothing has changed there."""
    settings = replace(
        Settings(), data_dir=tmp_path_factory.mktemp("steady") / "data", teams_address_count=10_000
    )
    with serving(full_house.copied(settings)) as app:
        yield app


@pytest.fixture
def steady_client(steady: Flask, full_house: FullHouse) -> FlaskClient:
    """The head coach's device there."""
    return full_house.coach(steady)


@pytest.fixture
def device(server: LiveServer) -> Device:
    """A head coach's device on a board of its own."""
    device = Device(server)
    device.make_team()
    return device


@pytest.fixture
def coach(device: Device) -> Iterator[Screen]:
    """That device's screen."""
    with device.coach() as found:
        yield found


@pytest.fixture
def playing(device: Device) -> Iterator[Screen]:
    """That device's screen, two steps into a chain: ``FIRST`` and ``THEN``."""
    with device.coach() as found:
        found.act(*FIRST)
        found.act(*THEN)
        yield found


@pytest.fixture
def viewer(device: Device, server: LiveServer) -> Iterator[Screen]:
    """A phone on the same board."""
    with screen(server, viewing_path(device.share())) as found:
        yield found
