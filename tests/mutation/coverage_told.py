"""Branch coverage by package, from what was measured."""

from __future__ import annotations

import json
from collections import defaultdict
from pathlib import PurePosixPath
from typing import Any

from tests.mutation.copies import KEPT


def tell() -> None:
    """Print how much of each package's statements and branches the tests without a browser run."""
    report: dict[str, Any] = json.loads((KEPT / "measured" / "report.json").read_text("utf-8"))
    packages: dict[str, list[dict[str, int]]] = defaultdict(list)
    for path, found in report["files"].items():
        packages[PurePosixPath(path).parent.as_posix()].append(found["summary"])
    for package, files in sorted(packages.items()):
        covered = sum(file["covered_lines"] + file["covered_branches"] for file in files)
        there = sum(file["num_statements"] + file["num_branches"] for file in files)
        branches = (
            sum(file["covered_branches"] for file in files),
            sum(file["num_branches"] for file in files),
        )
        print(f"{package}: {100 * covered / max(1, there):.1f} % ({branches[0]} of {branches[1]} branches)")
    for path, found in sorted(report["files"].items()):
        if found["missing_lines"]:
            print(f"  {path}: no test runs {_ranges(found['missing_lines'])}")


def _ranges(lines: list[int]) -> str:
    runs: list[list[int]] = []
    for line in lines:
        if runs and line == runs[-1][1] + 1:
            runs[-1][1] = line
        else:
            runs.append([line, line])
    return ", ".join(str(a) if a == b else f"{a}-{b}" for a, b in runs)
