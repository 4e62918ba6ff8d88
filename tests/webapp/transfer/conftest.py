"""A team that has some of everything, on a copy of its database, and another server to bring it to."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from flask import Flask
from flask.testing import FlaskClient

from tests.webapp.conftest import FullHouse, serving
from webapp.base.settings import Settings


@pytest.fixture
def settings(settings: Settings, full_house: FullHouse) -> Settings:
    """Where the copy is."""
    return full_house.copied(replace(settings, teams_address_count=10_000))


@pytest.fixture
def client(app: Flask, full_house: FullHouse) -> FlaskClient:
    """Its head coach's device."""
    return full_house.coach(app)


@pytest.fixture
def board(full_house: FullHouse) -> str:
    """A board of a team that has some of everything; ``client`` is its head coach."""
    return full_house.board


@pytest.fixture
def elsewhere(tmp_path: Path, settings: Settings) -> Iterator[Flask]:
    """Another server, with nothing on it."""
    with serving(replace(settings, data_dir=tmp_path / "elsewhere")) as app:
        yield app
