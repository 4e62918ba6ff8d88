"""Tests written in JavaScript are pytest's too: each ``test("...")`` of a ``*.test.js`` is an item.

Node's own runner runs a file once, and its tests are looked up in what it reported.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from subprocess import TimeoutExpired
from tempfile import TemporaryDirectory
from typing import Any

import pytest

from tests.js.supplied import supplied
from tests.node import HOME, node

#: A test at the left margin, with its name written out.
_TEST = re.compile(r"""^test\((["'`])(.+?)\1,""", re.MULTILINE)
#: The file of what the engine works out for tests, written once a run.
_SUPPLIED = pytest.StashKey[Path]()


def pytest_collect_file(file_path: Path, parent: pytest.Collector) -> JsFile | None:
    """Collect ``*.test.js``."""
    return JsFile.from_parent(parent, path=file_path) if file_path.name.endswith(".test.js") else None


class JsTestFailed(Exception):
    """A test in JavaScript failed; the message is Node's."""


@dataclass(frozen=True)
class Outcome:
    """How a test ended. ``left``: it was skipped, or marked as still to do."""

    passed: bool
    left: bool
    why: str


class JsFile(pytest.File):
    """A file of tests in JavaScript."""

    wrote = ""

    def collect(self) -> Iterator[JsTest]:
        """Return its tests by name. A file without any is an error, as is a name that is there twice."""
        names = self.names
        if not names:
            raise self.CollectError(f'{self.path.name} has no test("...", ...) at its left margin.')
        if twice := {name for name in names if names.count(name) > 1}:
            raise self.CollectError(f"{self.path.name} has more than one test called {sorted(twice)}.")
        return (JsTest.from_parent(self, name=name) for name in names)

    @cached_property
    def names(self) -> list[str]:
        """What its tests are called, in order."""
        return [name for _, name in _TEST.findall(self.path.read_text("utf-8"))]

    @cached_property
    def outcomes(self) -> dict[str, Outcome] | str:
        """How its tests ended, by name; or in a sentence, that Node ran others than are in the file."""
        supplied = _supplied(self.config)
        report = supplied.with_name(f"{self.path.stem}.lines")
        reporter = (HOME / "report.js").as_uri()
        words = ["--test", f"--test-reporter={reporter}", f"--test-reporter-destination={report}"]
        given = {"QUINTET_SUPPLIED": str(supplied)}
        try:
            ended = node([*words, str(self.path)], environment=given)
        except TimeoutExpired as late:
            return f"Node was not done after {late.timeout} s."
        told = [json.loads(line) for line in report.read_text("utf-8").splitlines()]
        self.wrote = "".join(each["wrote"] for each in told if "wrote" in each) + ended.stderr
        found = {each.pop("name"): Outcome(**each) for each in told if "name" in each}
        if sorted(found) == sorted(self.names):
            return found
        return f"Node ran {sorted(found)}, not {sorted(self.names)}."


class JsTest(pytest.Item):
    """A test in JavaScript."""

    def runtest(self) -> None:
        """Look up how it ended. Raises ``JsTestFailed``."""
        assert isinstance(self.parent, JsFile)
        outcomes = self.parent.outcomes
        self.add_report_section("call", "all that the file wrote", self.parent.wrote)
        if isinstance(outcomes, str):
            raise JsTestFailed(outcomes)
        outcome = outcomes[self.name]
        if outcome.left or not outcome.passed:
            raise JsTestFailed(outcome.why or "It was left out; a test that is there is run.")

    def repr_failure(self, excinfo: pytest.ExceptionInfo[BaseException], style: Any = None) -> Any:
        """Return Node's own message; pytest's way to it says nothing."""
        if isinstance(excinfo.value, JsTestFailed):
            return f"{self.path.name}: {self.name}\n{excinfo.value}"
        return super().repr_failure(excinfo, style)

    def reportinfo(self) -> tuple[Path, int | None, str]:
        """Return where it is, and what it is called."""
        return self.path, None, self.name


def _supplied(config: pytest.Config) -> Path:
    if _SUPPLIED not in config.stash:
        folder = TemporaryDirectory(prefix="quintet-js-")
        config.add_cleanup(folder.cleanup)
        file = Path(folder.name) / "supplied.json"
        file.write_text(json.dumps(supplied()), "utf-8")
        config.stash[_SUPPLIED] = file
    return config.stash[_SUPPLIED]
