"""From the README's command to the first page answered, beside a bare import of what pages are answered with.

Once set up: on data that is there already, on a new folder, and with the simple server. The command is given
to the interpreter that ``.venv`` was made with, as somebody does who types it, and goes on in ``.venv`` by
itself; the bare import is in ``.venv``. All in turn, in one run, each started as a process of its own.
"""

from __future__ import annotations

import http.client
import os
import re
import signal
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import Final

from webapp.bootstrap import ROOT, SKIP, VENV

ROUNDS: Final = 11
#: The bare minimum for this server's pages, its live boards, its storage and its schemas.
BARE: Final = "import flask, flask_sock, sqlalchemy.orm, marshmallow"
_ADDRESS: Final = re.compile(r"open at http://(\S+)/ ")


def _environment() -> dict[str, str]:
    """Return the environment of somebody at a keyboard: set up as the README says, and byte code kept."""
    left_out = (SKIP, "PYTHONDONTWRITEBYTECODE")
    return {name: value for name, value in os.environ.items() if name not in left_out}


def bare() -> float:
    """Return the seconds a bare import takes."""
    begun = time.perf_counter()
    subprocess.run([str(VENV / "bin/python"), "-c", BARE], check=True, env=_environment(), cwd=ROOT)
    return time.perf_counter() - begun


def first_page(data: Path, *options: str) -> float:
    """Return the seconds from the README's command to the whole first page."""
    given = ["--no-open", "--port", "0", "--data", str(data), *options]
    python = getattr(sys, "_base_executable", sys.executable)
    begun = time.perf_counter()
    server = subprocess.Popen(
        [python, "-m", "webapp", *given],
        cwd=ROOT,
        env=_environment(),
        stdout=subprocess.PIPE,
        text=True,
        start_new_session=True,
    )
    try:
        assert server.stdout is not None
        found = _ADDRESS.search(server.stdout.readline())
        if found is None:
            raise SystemExit("The server did not start; what it said stands above.")
        wire = http.client.HTTPConnection(found[1], timeout=60)
        wire.request("GET", "/")
        answer = wire.getresponse()
        answer.read()
        taken = time.perf_counter() - begun
        wire.close()
        if answer.status != 200:
            raise SystemExit(f"The first page was answered with {answer.status}.")
        return taken
    finally:
        os.killpg(server.pid, signal.SIGKILL)
        server.wait()
        assert server.stdout is not None
        server.stdout.close()


def main() -> None:
    """Print the medians, and each beside the bare import."""
    if os.name == "nt":
        raise SystemExit("This benchmark ends servers by their process group, which Windows has not.")
    with tempfile.TemporaryDirectory() as folder:
        there = Path(folder) / "there"
        kinds: dict[str, Callable[[int], float]] = {
            "bare import": lambda _: bare(),
            "data that is there": lambda _: first_page(there),
            "a new folder": lambda turn: first_page(Path(folder) / f"new{turn}"),
            "data that is there, --plain": lambda _: first_page(there, "--plain"),
        }
        times: dict[str, list[float]] = {name: [] for name in kinds}
        for turn in range(-1, ROUNDS):
            for name, measure in kinds.items():
                taken = measure(turn)
                if turn >= 0:  # the first writes the byte code, and the data that is there after it
                    times[name].append(taken)
    least = statistics.median(times["bare import"])
    print(f"from the README's command to the first page; {ROUNDS} rounds")
    for name, taken_s in times.items():
        median = statistics.median(taken_s)
        print(
            f"{name}: median {median * 1000:.0f} ms, fastest {min(taken_s) * 1000:.0f} ms, "
            f"ratio {median / least:.2f}"
        )


if __name__ == "__main__":
    main()
