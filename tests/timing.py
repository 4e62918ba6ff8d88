"""A plugin of pytest: notes how long every test takes, and keeps all workers busy to the end of a run.

With ``--dist loadfile`` a worker is given the tests of a file together, so that what a file makes is made
once; of all that is left it is always given what should take longest (``tests/durations.json``), so that in
the end nobody waits for somebody's long file. A file longer than that is good for is given in parts.
"""

from __future__ import annotations

import time
from typing import Any

import pytest
from xdist.scheduler import LoadScopeScheduling

from tests.durations import LAST, Known, Run, file_of, known

#: Whose tests share what is costly to make, for each of their parameters up to a dash (a formation, of a
#: formation and a court), and with whom.
TOGETHER = {
    "tests/engine/motion/": "tests/engine/motion/",
    "tests/engine/pack/": "tests/engine/pack/",
    "tests/js/test_packs.py": "tests/engine/pack/",
}
#: A file that takes longer is given out in parts of about this, seconds.
PART_S = 25.0


def units(nodeids: list[str], known: Known) -> tuple[dict[str, str], dict[str, float]]:
    """Return which unit each test is given out with, and how long each unit should take, seconds."""
    expected = known.expected(nodeids)
    wholes: dict[str, list[str]] = {}
    for nodeid in nodeids:
        wholes.setdefault(_whole(nodeid), []).append(nodeid)
    unit_of: dict[str, str] = {}
    seconds: dict[str, float] = {}
    for whole, its in wholes.items():
        all_s = sum(expected[nodeid] for nodeid in its)
        parts = 1 if whole.startswith(tuple(TOGETHER)) else max(1, round(all_s / PART_S))
        so_far = 0.0
        for nodeid in its:
            part = min(parts - 1, int(so_far / all_s * parts)) if all_s else 0
            unit = f"{whole} {part + 1}/{parts}"
            unit_of[nodeid] = unit
            seconds[unit] = seconds.get(unit, 0.0) + expected[nodeid]
            so_far += expected[nodeid]
    return unit_of, seconds


def _whole(nodeid: str) -> str:
    """Return what the tests have in common that are best given out together."""
    file, parameter = file_of(nodeid), nodeid.partition("[")[2].rstrip("]").partition("-")[0]
    folder = next((shared for each, shared in TOGETHER.items() if file.startswith(each)), None)
    return f"{folder}[{parameter}" if folder and parameter else file


class LongestFirst(LoadScopeScheduling):  # type: ignore[misc]
    """Gives out what should take longest first."""

    def __init__(self, config: pytest.Config, log: Any = None) -> None:
        super().__init__(config, log)
        self._unit_of: dict[str, str] = {}
        self._seconds: dict[str, float] = {}

    def _split_scope(self, nodeid: str) -> str:
        if not self._unit_of:
            assert self.collection is not None
            self._unit_of, self._seconds = units(self.collection, known())
        return self._unit_of[nodeid]

    def _assign_work_unit(self, node: Any) -> None:
        longest = max(self.workqueue, key=lambda unit: self._seconds[unit])
        self.workqueue.move_to_end(longest, last=False)
        super()._assign_work_unit(node)


@pytest.hookimpl(tryfirst=True)
def pytest_xdist_make_scheduler(config: pytest.Config, log: Any) -> LongestFirst | None:
    """Give out files, the longest first."""
    return LongestFirst(config, log) if config.getoption("dist") == "loadfile" else None


class Recorder:
    """Notes how long every test takes, and writes it down at the end."""

    def __init__(self) -> None:
        self.run = Run()
        self.began = time.monotonic()

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        """Note a part of a test."""
        self.run.add(report.nodeid, report.when or "call", report.duration)

    def pytest_sessionfinish(self) -> None:
        """Write it down."""
        if self.run.tests:
            self.run.wall_s = round(time.monotonic() - self.began, 1)
            self.run.write(LAST)


def pytest_configure(config: pytest.Config) -> None:
    """Take notes in the process that hears of all tests."""
    if not hasattr(config, "workerinput"):
        config.pluginmanager.register(Recorder(), "durations")
