"""The application itself, on a database of its own, for pages that need no socket."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from flask import Flask
from flask.testing import FlaskClient

from webapp.app import create_app
from webapp.services import Services
from webapp.settings import Settings


@pytest.fixture
def settings(tmp_path: Path) -> Settings:
    return replace(Settings(), data_dir=tmp_path / "data", join_tries_address_count=5, join_tries_all_count=8)


@pytest.fixture
def app(settings: Settings) -> Iterator[Flask]:
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
