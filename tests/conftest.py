"""Fixtures that start real servers."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from hypothesis import settings

from tests.server import Servers

# How long an example takes says more about what else the machine is doing than about the code.
settings.register_profile("quintet", deadline=None)
settings.load_profile("quintet")


@pytest.fixture
def live_server() -> Iterator[Servers]:
    """Start a server with ``live_server(data_dir, *options, **settings)``; ended after the test."""
    servers = Servers()
    yield servers
    servers.end()


@pytest.fixture(scope="module")
def module_servers() -> Iterator[Servers]:
    """The same for servers that all tests of a module share."""
    servers = Servers()
    yield servers
    servers.end()
