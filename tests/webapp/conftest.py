"""The application itself, on a database of its own, for pages that need no socket; and a live board."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from flask import Flask
from flask.testing import FlaskClient

from tests.prepared import put_database
from tests.server import LiveServer
from tests.webapp.screens import Device, Screen, screen, viewing_path
from webapp.app import create_app
from webapp.services import Services
from webapp.settings import Settings


@pytest.fixture
def settings(tmp_path: Path) -> Settings:
    return replace(Settings(), data_dir=tmp_path / "data", join_tries_address_count=5, join_tries_all_count=8)


@pytest.fixture
def app(settings: Settings) -> Iterator[Flask]:
    put_database(settings.database)
    app = create_app(settings)
    yield app
    shared_of(app).store.close()


@pytest.fixture
def client(app: Flask) -> FlaskClient:
    """A device that has not been here before."""
    return app.test_client()


def shared_of(app: Flask) -> Services:
    found = app.extensions["quintet"]
    assert isinstance(found, Services)
    return found


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
def viewer(device: Device, server: LiveServer) -> Iterator[Screen]:
    """A phone on the same board."""
    with screen(server, viewing_path(device.share())) as found:
        yield found
