"""One trial: a fault is put in, the tests that reach it run, and either one fails or nobody noticed."""

from __future__ import annotations

import hashlib
import json
import os
import time
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from pathlib import Path

from tests.mutation.copies import KEPT, Copy
from tests.mutation.faults import Fault
from tests.mutation.plugin import WANTED
from tests.mutation.reach import Reach, Test
from tests.mutation.sample import ROOT

RESULTS = KEPT / "results.jsonl"
#: Pytest's exit status when it found no test.
_NOTHING_COLLECTED = 5


@dataclass(frozen=True)
class Result:
    """What became of a fault.

    ``outcome``: "caught", "survived", "slow" (the tests were cut short) or "unreached" (no test runs it).
    ``by``: the test that failed. ``ran`` of the ``reaching`` tests were run, in ``s`` seconds.
    """

    name: str
    key: str
    outcome: str
    by: str
    ran: int
    reaching: int
    s: float


@dataclass(frozen=True)
class Limits:
    """``whole_s``: how long a trial may last. ``tests_s``: processor time that its tests should take."""

    whole_s: float
    tests_s: float


def name_of(fault: Fault) -> str:
    """Name a fault in the file as it is now."""
    whole = f"{fault.path} {fault.start} {fault.end} {fault.new} ".encode() + (ROOT / fault.path).read_bytes()
    return hashlib.sha256(whole).hexdigest()[:16]


def kept_results() -> dict[str, Result]:
    """Return the last result of every fault tried so far, by its name."""
    if not RESULTS.exists():
        return {}
    lines = RESULTS.read_text("utf-8").splitlines()
    return {found["name"]: Result(**found) for found in map(json.loads, lines)}


def keep(result: Result) -> None:
    """Add a result to those kept."""
    RESULTS.parent.mkdir(parents=True, exist_ok=True)
    with RESULTS.open("a", encoding="utf-8") as file:
        file.write(json.dumps(asdict(result), ensure_ascii=False) + "\n")


def chosen(tests: Sequence[Test], reach: Reach, s: float) -> list[Test]:
    """Return as many of ``tests`` as fit in ``s`` seconds, at least one; those that share something last."""
    taken: list[Test] = []
    paid: set[str] = set()
    for test in tests:
        takes = test.s
        if test.shared:
            takes += (
                sum(reach.set_up_s(shared) for shared in test.shared if shared not in paid) - test.set_up_s
            )
        if taken and takes > s:
            continue
        s -= takes
        paid.update(test.shared)
        taken.append(test)
    return sorted(taken, key=lambda test: (bool(test.shared), test.shared, test.name if test.shared else ""))


def tried(fault: Fault, copy: Copy, reach: Reach, limits: Limits, files: Sequence[str] = ()) -> Result:
    """Put ``fault`` into ``copy`` and run what reaches it, or all in ``files``."""
    source = (ROOT / fault.path).read_bytes()
    reaching = reach.tests_of(fault)
    tests = [] if files else chosen(reaching, reach, limits.tests_s)
    begun = time.monotonic()
    if not files and not tests:
        return Result(name_of(fault), fault.key(source), "unreached", "", 0, 0, 0.0)
    path = copy.folder / fault.path
    times = path.stat()
    path.write_bytes(fault.applied(source))
    # Compiled files go by the second and the size: the time of a changed file is never that of another.
    os.utime(path, (times.st_atime, times.st_mtime + 2 + fault.start))
    try:
        outcome, by = _run(copy, [test.name for test in tests], files, limits.whole_s)
    finally:
        path.write_bytes(source)
        os.utime(path, (times.st_atime, times.st_mtime))
    s = round(time.monotonic() - begun, 1)
    return Result(name_of(fault), fault.key(source), outcome, by, len(tests), len(reaching), s)


def _run(copy: Copy, names: Sequence[str], files: Sequence[str], limit_s: float) -> tuple[str, str]:
    environment: dict[str, str] = {}
    if not files:
        files = list(dict.fromkeys(name.partition("::")[0] for name in names))
        wanted = copy.temporary / "wanted.json"
        wanted.write_text(json.dumps(names), "utf-8")
        environment[WANTED] = str(wanted)
    arguments = [*files, "-x", "-q", "--tb=no", "-p", "tests.mutation.plugin", "-p", "no:cacheprovider"]
    done = copy.run([*arguments, "--hypothesis-seed=0"], environment, limit_s)
    copy.end_left_over()
    if done["status"] is None:
        return "slow", ""
    if done["status"] == 0:
        return "survived", ""
    said: str = done["said"]
    if done["status"] == _NOTHING_COLLECTED:
        raise RuntimeError(f"none of the tests is there any more:\n{said}")
    failed = [line for line in said.splitlines() if line.startswith(("FAILED ", "ERROR "))]
    return "caught", failed[0].split(" ", 1)[1] if failed else f"status {done['status']}: {said[-300:]}"


def reasons() -> dict[str, str]:
    """Return why a fault cannot be noticed, by its key, for those that were looked at."""
    found: dict[str, str] = json.loads((Path(__file__).parent / "equivalent.json").read_text("utf-8"))
    return found
