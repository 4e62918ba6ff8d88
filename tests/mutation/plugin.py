"""What pytest does for the trials: tell which test runs what, or run the tests given, in the order given."""

from __future__ import annotations

import contextlib
import functools
import json
import os
import subprocess
import sys
from collections import defaultdict
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import settings

#: A file for what is found out about the tests; and one that says which tests are wanted.
MEASURED, WANTED = "QUINTET_MUTATION_MEASURED", "QUINTET_MUTATION_WANTED"
#: The profile of hypothesis to measure with.
PROFILE = "measured"
_EXAMPLES = 10
_ENDING_S = 10.0


@pytest.hookimpl(tryfirst=True)
def pytest_configure(config: pytest.Config) -> None:
    # Few examples reach what many do, and under coverage each takes longer.
    settings.register_profile(PROFILE, deadline=None, max_examples=_EXAMPLES, derandomize=True)
    if MEASURED in os.environ:
        config.pluginmanager.register(_Measure(Path(os.environ[MEASURED])))
        _end_kindly()
    if WANTED in os.environ:
        config.pluginmanager.register(_Wanted(Path(os.environ[WANTED])))


class _Measure:
    """Tells coverage which test runs, and keeps how long each took and what it shares with others."""

    def __init__(self, file: Path) -> None:
        self._file = file
        self._tests: dict[str, dict[str, Any]] = defaultdict(
            lambda: {"s": 0.0, "set_up_s": 0.0, "passed": True}
        )

    @pytest.hookimpl(wrapper=True, tryfirst=True)
    def pytest_runtest_setup(self, item: pytest.Item) -> Iterator[None]:
        _forget()
        item.user_properties.append(("shared", _shared(item)))
        with _measured(item, "setup"):
            return (yield)

    @pytest.hookimpl(wrapper=True, tryfirst=True)
    def pytest_runtest_call(self, item: pytest.Item) -> Iterator[None]:
        with _measured(item, "call"):
            return (yield)

    @pytest.hookimpl(wrapper=True, tryfirst=True)
    def pytest_runtest_teardown(self, item: pytest.Item) -> Iterator[None]:
        with _measured(item, "teardown"):
            return (yield)

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        test, said = self._tests[report.nodeid], dict(report.user_properties)
        test["passed"] &= report.outcome == "passed"
        test["s"] = sum(said.get(phase, 0.0) for phase in ("setup", "call", "teardown"))
        test["set_up_s"], test["shared"] = said.get("setup", 0.0), said.get("shared", [])

    def pytest_sessionfinish(self, session: pytest.Session) -> None:
        if "PYTEST_XDIST_WORKER" not in os.environ:
            self._file.write_text(json.dumps(self._tests), "utf-8")


class _Wanted:
    """Runs the tests named in a file, in that order, and no others."""

    def __init__(self, file: Path) -> None:
        self._order = {name: place for place, name in enumerate(json.loads(file.read_text("utf-8")))}

    @pytest.hookimpl(trylast=True)
    def pytest_collection_modifyitems(self, items: list[pytest.Item]) -> None:
        items[:] = sorted((i for i in items if i.nodeid in self._order), key=lambda i: self._order[i.nodeid])


@contextlib.contextmanager
def _measured(item: pytest.Item, phase: str) -> Iterator[None]:
    """Tell coverage what runs, and keep what it takes: processor time, of servers that have ended too.

    How long it takes says more about what else the machine is doing.
    """
    from coverage import Coverage

    running = Coverage.current()
    if running is not None:
        running.switch_context(f"{item.nodeid} ({phase})")
    begun = sum(os.times()[:4])
    try:
        yield
    finally:
        item.user_properties.append((phase, round(sum(os.times()[:4]) - begun, 3)))


def _forget() -> None:
    """Empty the caches of the code, so that each test runs all that it relies on, whoever ran before.

    Rule sets stay: each is equal to itself alone.
    """
    for name, module in list(sys.modules.items()):
        if name.split(".")[0] in ("engine", "webapp"):
            for value in list(vars(module).values()):
                if isinstance(value, functools._lru_cache_wrapper) and value.__name__ != "shipped":
                    value.cache_clear()


def _shared(item: pytest.Item) -> list[str]:
    """Name what a test uses that was set up once for several."""
    found = getattr(item, "_fixtureinfo", None)
    known = found.name2fixturedefs if found else {}
    # Those of pytest itself and of its plugins belong to no folder; one of a module is made for each anew.
    used = {name: by[-1] for name, by in known.items() if by[-1].baseid and by[-1].scope != "function"}
    file = item.nodeid.partition("::")[0]
    return [f"{file if by.scope == 'module' else by.baseid}::{name}" for name, by in used.items()]


def _end_kindly() -> None:
    """Let servers that are left over at the end of a test write down what they ran before they are killed."""
    from tests.server import Servers

    kill = Servers.end

    def end(servers: Servers) -> None:
        for server in servers._started:
            if server.process.poll() is None:
                server.process.terminate()
        for server in servers._started:
            with contextlib.suppress(subprocess.TimeoutExpired):
                server.process.wait(_ENDING_S)
        kill(servers)

    Servers.end = end  # type: ignore[assignment, method-assign]
