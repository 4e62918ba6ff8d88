"""Runs tests in a private copy, again and again: what never changes is loaded once, each run is a fork of it.

Started in the copy. A line of JSON in, ``{"arguments": [...], "environment": {...}, "s": 60}``, is a run of
pytest; a line out, ``{"status": 1, "said": "..."}``, what came of it; a run that was cut short has no status.
"""

from __future__ import annotations

import contextlib
import importlib
import json
import os
import signal
import sys
import tempfile
import time
import traceback
from typing import Any

#: What tests import and no fault is put into.
_LOADED = (
    "pytest", "hypothesis", "hypothesis.strategies", "flask", "flask_sock", "sqlalchemy.orm", "marshmallow",
    "alembic.command", "cryptography.x509", "segno", "svgwrite", "fpdf", "fontTools.ttLib", "networkx",
    "websockets", "scipy.optimize", "shapely", "sportypy", "chess",
)  # fmt: skip
#: Pytest cannot rewrite the assertions of a plugin that is there before it, which is no matter.
_LOADED_EARLY = ("-W", "ignore:Module already imported:pytest.PytestAssertRewriteWarning")
_ENDING_S = 5.0


def main() -> None:
    """Answer until there is nothing more to read."""
    for name in _LOADED:
        with contextlib.suppress(ImportError):
            importlib.import_module(name)
    answers = os.fdopen(os.dup(1), "w", encoding="utf-8")
    for line in sys.stdin:
        print(json.dumps(_run(json.loads(line))), file=answers, flush=True)


def _run(wanted: dict[str, Any]) -> dict[str, Any]:
    with tempfile.TemporaryFile("w+", encoding="utf-8", errors="replace") as said:
        child = os.fork()
        if child == 0:
            _be_pytest(wanted, said.fileno())
        status = _waited(child, wanted["s"])
        said.seek(0)
        return {"status": status, "said": said.read()}


def _be_pytest(wanted: dict[str, Any], output: int) -> None:
    status = 70
    try:
        for stream in (1, 2):
            os.dup2(output, stream)
        os.dup2(os.open(os.devnull, os.O_RDONLY), 0)
        os.environ.update(wanted["environment"])
        import pytest

        status = int(pytest.main([*wanted["arguments"], *_LOADED_EARLY]))
    except BaseException:
        traceback.print_exc()
    finally:
        sys.stdout.flush()
        sys.stderr.flush()
        os._exit(status)


def _waited(child: int, s: float) -> int | None:
    end = time.monotonic() + s
    for sign, until in ((signal.SIGINT, end), (signal.SIGKILL, end + _ENDING_S)):
        while time.monotonic() < until:
            done, status = os.waitpid(child, os.WNOHANG)
            if done:
                return os.waitstatus_to_exitcode(status) if sign is signal.SIGINT else None
            time.sleep(0.05)
        os.kill(child, sign)
    os.waitpid(child, 0)
    return None


if __name__ == "__main__":
    main()
