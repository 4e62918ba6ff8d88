"""How long tests take: what a run took, by file, and what the next one had better begin with.

    python3 -m tests.durations               the table of the last run (.artifacts/durations.json)
    python3 -m tests.durations FILE          of another: such a file, or the log of one with --durations=0 -vv
    python3 -m tests.durations --tests 40    and its forty longest tests
    python3 -m tests.durations --keep        keep it in tests/durations.json, by which runs are laid out

Seconds throughout. What a test waits for is in them as much as what it works.
"""

from __future__ import annotations

import argparse
import json
import re
import sys
from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parent.parent
#: Where every run leaves what it took.
LAST = ROOT / ".artifacts" / "durations.json"
#: What is known of the tests before a run.
KEPT = ROOT / "tests" / "durations.json"
PARTS = ("setup", "call", "teardown")
#: A test that takes this long is kept by name; of the others, the sum of their file is enough.
LONG_S = 2.0
#: What a test is taken to need that nothing is known of, without a browser and with one.
UNKNOWN_S, UNKNOWN_BROWSER_S = 0.5, 5.0
_LINE = re.compile(r"^([\d.]+)s (setup|call|teardown) +(\S.*?)\s*$")


@dataclass
class Run:
    """What a run took: ``tests[nodeid][part]``, and the time on the wall if it is known."""

    tests: dict[str, dict[str, float]] = field(default_factory=dict)
    wall_s: float | None = None

    def add(self, nodeid: str, part: str, seconds: float) -> None:
        """Note a part of a test."""
        parts = self.tests.setdefault(nodeid, {})
        parts[part] = parts.get(part, 0.0) + seconds

    def write(self, path: Path) -> None:
        """Write it where :func:`read` finds it again."""
        path.parent.mkdir(parents=True, exist_ok=True)
        rounded = {
            nodeid: {part: round(seconds, 3) for part, seconds in parts.items()}
            for nodeid, parts in self.tests.items()
        }
        path.write_text(json.dumps({"wall_s": self.wall_s, "tests": rounded}, indent=0) + "\n", "utf-8")

    def total(self, nodeid: str) -> float:
        """Return what a test took, all its parts."""
        return sum(self.tests[nodeid].values())


@dataclass(frozen=True)
class Known:
    """What is known of tests before a run: seconds of a file as a whole, and of its long tests."""

    files: Mapping[str, float] = field(default_factory=dict)
    tests: Mapping[str, float] = field(default_factory=dict)

    def expected(self, nodeids: Iterable[str]) -> dict[str, float]:
        """Return how long each of these, which are all there is of their files, should take."""
        by_file: dict[str, list[str]] = defaultdict(list)
        for nodeid in nodeids:
            by_file[file_of(nodeid)].append(nodeid)
        found: dict[str, float] = {}
        for file, its in by_file.items():
            long = {nodeid: self.tests[nodeid] for nodeid in its if nodeid in self.tests}
            rest = len(its) - len(long)
            unknown = UNKNOWN_BROWSER_S if file.startswith("e2e/") else UNKNOWN_S
            left = max(0.0, self.files[file] - sum(long.values())) if file in self.files else unknown * rest
            found |= {nodeid: left / rest for nodeid in its if nodeid not in long} | long
        return found


def file_of(nodeid: str) -> str:
    """Return the file a test is in."""
    return nodeid.partition("::")[0]


def read(path: Path) -> Run:
    """Read what a run took: from what it left, from what it printed with ``--durations=0 -vv``, or from a
    list of parts, each with its test, its name (``setup``, ``call``, ``teardown``) and its seconds.
    """
    text = path.read_text("utf-8", errors="replace")
    run = Run()
    if text.startswith("{"):
        made = json.loads(text)
        return Run(made["tests"], made["wall_s"])
    if text.startswith("["):
        for nodeid, part, seconds, *_ in json.loads(text):
            run.add(nodeid, part, seconds)
        return run
    for line in text.splitlines():
        if found := _LINE.match(line):
            run.add(found[3], found[2], float(found[1]))
        elif end := re.search(r"^=+ .*\d+ passed.* in ([\d.]+)s", line):
            run.wall_s = float(end[1])
    return run


def known() -> Known:
    """Return what has been kept of earlier runs."""
    if not KEPT.exists():
        return Known()
    made = json.loads(KEPT.read_text("utf-8"))
    return Known(made["files"], made["tests"])


def keep(run: Run) -> None:
    """Keep what ``run`` took of the files it ran; forget files that are no more."""
    files, before = _sums(run), known()
    kept = {file: seconds for file, seconds in before.files.items() if (ROOT / file).exists()}
    kept |= {file: round(sum(parts.values()), 1) for file, parts in files.items()}
    tests = {nodeid: seconds for nodeid, seconds in before.tests.items() if file_of(nodeid) in kept}
    tests = {nodeid: seconds for nodeid, seconds in tests.items() if file_of(nodeid) not in files}
    tests |= {nodeid: round(run.total(nodeid), 1) for nodeid in run.tests if run.total(nodeid) >= LONG_S}
    made = {"files": dict(sorted(kept.items())), "tests": dict(sorted(tests.items()))}
    KEPT.write_text(json.dumps(made, indent=1, ensure_ascii=False) + "\n", "utf-8")


def table(run: Run, longest: int = 0) -> str:
    """Return the run by file, the longest first, and its ``longest`` tests."""
    files, counts = _sums(run), defaultdict(int)
    for nodeid in run.tests:
        counts[file_of(nodeid)] += 1
    whole: dict[str, float] = {part: sum(parts[part] for parts in files.values()) for part in PARTS}
    lines = [f"{'seconds':>9}{'set-up':>9}{'call':>9}{'tear-down':>11}{'tests':>7}  file"]
    rows = sorted(files.items(), key=lambda item: -sum(item[1].values()))
    for file, parts in rows:
        lines.append(_row(parts, counts[file], file))
    lines.append(_row(whole, len(run.tests), "all of it"))
    if run.wall_s is not None:
        lines.append(f"{run.wall_s:>9.1f}  on the wall")
    if longest:
        lines += ["", f"{'seconds':>9}{'set-up':>9}{'call':>9}{'tear-down':>11}{'':>7}  test"]
        for nodeid in sorted(run.tests, key=lambda nodeid: -run.total(nodeid))[:longest]:
            lines.append(_row(run.tests[nodeid], None, nodeid))
    return "\n".join(lines)


def _sums(run: Run) -> dict[str, dict[str, float]]:
    files: dict[str, dict[str, float]] = {}
    for nodeid, parts in run.tests.items():
        its = files.setdefault(file_of(nodeid), dict.fromkeys(PARTS, 0.0))
        for part, seconds in parts.items():
            its[part] += seconds
    return files


def _row(parts: Mapping[str, float], count: int | None, name: str) -> str:
    setup, call, teardown = (parts.get(part, 0.0) for part in PARTS)
    number = "" if count is None else str(count)
    return f"{setup + call + teardown:>9.1f}{setup:>9.1f}{call:>9.1f}{teardown:>11.1f}{number:>7}  {name}"


def main(argv: list[str]) -> Any:
    """Print the table of a run, or keep what it took."""
    parser = argparse.ArgumentParser(prog="python3 -m tests.durations", description="How long tests take.")
    parser.add_argument("file", nargs="?", type=Path, default=LAST, help="what a run left, or printed")
    parser.add_argument("--tests", type=int, default=0, metavar="N", help="list its N longest tests too")
    parser.add_argument("--keep", action="store_true", help="keep it, for the layout of the next run")
    given = parser.parse_args(argv)
    if not given.file.exists():
        return f"There is no {given.file}: run some tests first."
    run = read(given.file)
    if given.keep:
        keep(run)
    print(table(run, given.tests))
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
