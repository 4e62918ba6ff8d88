"""Which tests reach which line, measured once by coverage, in the servers too that tests start."""

from __future__ import annotations

import ast
import json
import os
import subprocess
import sys
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from tests.mutation.copies import KEPT, Copy
from tests.mutation.faults import Fault
from tests.mutation.plugin import MEASURED, PROFILE
from tests.mutation.sample import ROOT

_FILE = KEPT / "reach.json"
#: A server knows in which test it was started; gunicorn forks; what is killed kindly saves what it has.
_SETTINGS = """
[run]
branch = true
parallel = true
relative_files = true
sigterm = true
disable_warnings = no-data-collected, module-not-imported, module-not-measured
patch = fork, _exit
source = {engine}, {webapp}
data_file = {data}
context = ${{PYTEST_CURRENT_TEST-}}
[report]
exclude_also =
    if TYPE_CHECKING:
    if __name__ == .__main__.:
[json]
output = {json}
"""
#: What a test may be expected to take when it runs alone, at least: to be started, to be collected.
_LEAST_S = 0.02


@dataclass(frozen=True)
class Test:
    """A test that passes: its name for pytest, what it takes, the part of that to set up, what it shares."""

    name: str
    s: float
    set_up_s: float
    shared: tuple[str, ...]

    @property
    def function(self) -> str:
        """Its name without parameters."""
        return self.name.partition("[")[0]


class Reach:
    """Tests by the lines they reach."""

    def __init__(
        self, tests: Iterable[Test], lines: dict[str, dict[int, set[str]]], loaded: dict[str, set[str]]
    ):
        self._tests = {test.name: test for test in tests}
        self._lines, self._loaded = lines, loaded
        self._set_up_s: dict[str, float] = defaultdict(float)
        for test in self._tests.values():
            for shared in test.shared:
                self._set_up_s[shared] = max(self._set_up_s[shared], test.set_up_s)

    def set_up_s(self, shared: str) -> float:
        """Return what it takes to set up something that several tests share."""
        return self._set_up_s[shared]

    def tests_of(self, fault: Fault) -> list[Test]:
        """Return those that reach a fault: of each test function its quickest case, then the other cases."""
        lines = self._lines.get(fault.path, {})
        if fault.inside:
            names = lines.get(fault.line) or set().union(
                *(lines.get(line, ()) for line in range(fault.first, fault.line + 1))
            )
        else:  # it did what it does when it was imported: whatever uses the file, or a file that imports it
            names = self._loaded.get(fault.path, set())
        found = sorted((self._tests[name] for name in names if name in self._tests), key=lambda test: test.s)
        rank: dict[str, int] = defaultdict(int)
        ranked = []
        for test in found:
            ranked.append((rank[test.function], test.s, test))
            rank[test.function] += 1
        return [test for _, _, test in sorted(ranked, key=lambda entry: entry[:2])]


def measure(jobs: int, tests_in: Sequence[str]) -> None:
    """Run tests, all in ``tests_in``, under coverage, and add what it tells to what is kept. Takes long."""
    copy = Copy("measured")
    folder = KEPT / "measured"
    folder.mkdir(parents=True, exist_ok=True)
    settings, tests = folder / f"settings-{os.getpid()}.ini", folder / f"tests-{os.getpid()}.json"
    settings.write_text(
        _SETTINGS.format(
            engine=copy.folder / "engine",
            webapp=copy.folder / "webapp",
            data=folder / "lines",
            json=folder / "report.json",
        ),
        "utf-8",
    )
    (folder / "sitecustomize.py").write_text("import coverage\n\ncoverage.process_startup()\n", "utf-8")
    environment = {
        **copy.environment(),
        "PYTHONPATH": str(folder),
        "COVERAGE_PROCESS_START": str(settings),
        MEASURED: str(tests),
    }
    command = [sys.executable, "-m", "pytest", *tests_in, "-q", "-n", str(jobs), "--dist", "worksteal"]
    command += [
        "-p",
        "tests.mutation.plugin",
        "-p",
        "no:cacheprovider",
        f"--hypothesis-profile={PROFILE}",
        "--durations=15",
    ]
    subprocess.run(command, cwd=copy.folder, env=environment, check=False)
    coverage = [sys.executable, "-m", "coverage"]
    bare = {**os.environ, "PYTEST_CURRENT_TEST": ""}
    for words in (["combine", "-q", "--append"], ["json", "-q"]):
        subprocess.run([*coverage, *words, f"--rcfile={settings}"], cwd=copy.folder, env=bare, check=True)
    _keep(folder, tests)


def _keep(folder: Path, found: Path) -> None:
    from coverage import CoverageData

    tests: dict[str, dict[str, Any]] = json.loads(_FILE.read_text("utf-8"))["tests"] if _FILE.exists() else {}
    tests |= json.loads(found.read_text("utf-8"))
    sharing: dict[str, set[str]] = defaultdict(set)
    for name, test in tests.items():
        for shared in test["shared"]:
            sharing[shared].add(name)
    data = CoverageData(str(folder / "lines"))
    data.read()
    # Something set up for several tests, a server say, runs in the first of them and is used by all.
    meant: dict[str, set[str]] = {}
    for context in data.measured_contexts():
        name, _, phase = context.rpartition(" (")
        used = {name} if name in tests else set()
        if phase == "setup)":
            used |= {other for shared in tests.get(name, {}).get("shared", ()) for other in sharing[shared]}
        meant[context] = used
    lines = {
        path: {
            line: sorted({name for context in contexts for name in meant[context]})
            for line, contexts in data.contexts_by_lineno(path).items()
        }
        for path in data.measured_files()
    }
    _FILE.write_text(json.dumps({"tests": tests, "lines": lines}), "utf-8")


def is_measured() -> bool:
    """Whether there is anything to load."""
    return _FILE.exists()


def nothing() -> Reach:
    """Return what is known before anything was measured."""
    return Reach([], {}, {})


def load() -> Reach:
    """Return what was measured."""
    kept = json.loads(_FILE.read_text("utf-8"))
    tests = [
        Test(name, max(_LEAST_S, test["s"]), test["set_up_s"], tuple(test["shared"]))
        for name, test in kept["tests"].items()
        if test["passed"]
    ]
    lines = {
        path: {int(line): set(names) for line, names in by_line.items()}
        for path, by_line in kept["lines"].items()
        if path.endswith(".py")  # the lines of templates are told too
    }
    called = {path: _inside(path, by_line) for path, by_line in lines.items()}
    loaded: dict[str, set[str]] = {path: set(names) for path, names in called.items()}
    for path in lines:
        for other in _imported(path):
            loaded.setdefault(other, set()).update(called[path])
    return Reach(tests, lines, loaded)


def _inside(path: str, by_line: dict[int, set[str]]) -> set[str]:
    """Return the tests that call a function of a file."""
    found: set[str] = set()
    for node in ast.walk(_parsed(path)):
        if isinstance(node, ast.FunctionDef):
            for line in range(node.body[0].lineno, (node.end_lineno or 0) + 1):
                found |= by_line.get(line, set())
    return found


def _imported(path: str) -> Iterable[str]:
    for node in ast.walk(_parsed(path)):
        if isinstance(node, ast.ImportFrom) and node.module:
            base = node.module.replace(".", "/")
            for name in (base, *(f"{base}/{alias.name}" for alias in node.names)):
                for file in (f"{name}.py", f"{name}/__init__.py"):
                    if (ROOT / file).exists():
                        yield file


def _parsed(path: str) -> ast.Module:
    return ast.parse((ROOT / path).read_bytes())
