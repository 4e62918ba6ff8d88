"""The tests' own plugin of pytest: how they are given out, and what all of them may ask for."""

from __future__ import annotations

import gc
from collections.abc import Iterator

import pytest
from hypothesis import settings

from tests.server import LiveServer, Servers, SharedServers, no_errors

pytest_plugins = ["tests.timing"]

# How long an example takes says more about what else the machine is doing than about the code.
settings.register_profile("quintet", deadline=None)
settings.load_profile("quintet")

# Tests make and keep hundreds of thousands of positions, steps and ways, among which there are no circles.
# Looking through them for some after every few hundred took a third of the time; it is done later now.
gc.set_threshold(100_000, 20, 20)

#: Tests make more teams and try more codes than people do.
ROOMY = {
    "teams_address_count": 10_000,
    "join_tries_address_count": 10_000,
    "join_tries_all_count": 10_000,
    "device_tries_address_count": 10_000,
    "device_tries_all_count": 10_000,
    "viewers_interval_s": 0,
}
#: Some also draw faster and say more nonsense.
PATIENT = {**ROOMY, "messages_burst_count": 5_000, "garbage_max_count": 1_000}


@pytest.fixture
def live_server() -> Iterator[Servers]:
    """Start a server with ``live_server(data_dir, *options, **settings)``; ended after the test.

    For tests that end it, fill it, or need it to be new.
    """
    servers = Servers()
    yield servers
    servers.end()


@pytest.fixture(scope="module")
def module_servers() -> Iterator[Servers]:
    """The same for servers that all tests of a module share."""
    servers = Servers()
    yield servers
    servers.end()


@pytest.fixture(scope="session")
def shared_server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[SharedServers]:
    """Find the server all share that want it so: ``shared_server(*options, **settings)``; left running."""
    servers = SharedServers(tmp_path_factory.mktemp("servers"))
    yield servers
    servers.end()


@pytest.fixture
def server(request: pytest.FixtureRequest, shared_server: SharedServers) -> Iterator[LiveServer]:
    """A server most tests share, whose limits nobody reaches; a test has teams of its own on it.

    One that is marked ``ends_server`` may end it: these share another, and find it running. All others fail
    if the server writes anything to its error log.
    """
    if request.node.get_closest_marker("ends_server"):
        yield shared_server.to_end(**ROOMY)
    else:
        with no_errors(shared_server(**ROOMY)) as server:
            yield server
