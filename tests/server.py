"""A real server process on a free port, for tests that need one; and ways to end it, kind and unkind."""

from __future__ import annotations

import fcntl
import http.client
import itertools
import os
import re
import signal
import ssl
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from pathlib import Path
from queue import Empty, Queue
from typing import IO

from tests.prepared import put_database
from tests.warm import WARM, Process

ROOT = Path(__file__).resolve().parent.parent
_NUMBERS = itertools.count(1)
#: Packs are named by their contents, so all test servers, of all runs, may share them.
PACKS = Path(tempfile.gettempdir()) / f"quintet-test-packs-{os.getuid()}"
#: What the database is called in a data folder.
DATABASE = "quintet.sqlite3"
START_TIMEOUT_S = 60.0
#: Whether coverage looks on: it begins with an interpreter, and tells servers apart by where they began.
MEASURED = "COVERAGE_PROCESS_START" in os.environ
_LINE = re.compile(r"open at (http://\S+)/ - your coaching link: (http://\S+)")
_SECURE_LINE = re.compile(r"On a coach's own tablet: https://(\S+?):(\d+)/c/\S+")


def begin(
    words: Sequence[str],
    settings: Mapping[str, str],
    errors: IO[str],
    *,
    cold: bool,
    cwd: Path = ROOT,
) -> subprocess.Popen[str] | Process:
    """Run ``python3 -m webapp`` with ``words``: ``cold``, or in a fork of a loaded interpreter.

    What it says can be read from its ``stdout``; its errors go to a file.
    """
    environment = {**os.environ, "QUINTET_NO_SETUP": "1", **settings}
    if cwd != ROOT:
        environment["PYTHONPATH"] = str(ROOT)
    if not cold and not MEASURED:
        return WARM.begin(words, environment, cwd, errors)
    return subprocess.Popen(
        [sys.executable, "-m", "webapp", *words],
        cwd=cwd,
        env=environment,
        stdout=subprocess.PIPE,
        stderr=errors,
        text=True,
        start_new_session=True,
    )


class DidNotStart(AssertionError):
    """The server ended instead of starting. ``status`` is its exit status, ``error`` its standard error."""

    def __init__(self, status: int, error: str) -> None:
        super().__init__(f"exit status {status}: {error}")
        self.status, self.error = status, error


@dataclass
class LiveServer:
    """A running server. ``url`` has no slash at its end; ``coach_url`` is the coaching link of this start.

    ``settings`` are server settings by name (``{"viewers_max_count": 3}``), ``options`` command-line options.
    """

    data_dir: Path
    settings: Mapping[str, object] = field(default_factory=dict)
    options: tuple[str, ...] = ()
    #: Whether it is started as people start it, in an interpreter of its own; otherwise in a fork of a loaded
    #: one, which costs a fifth.
    cold: bool = False
    port: int = 0
    url: str = ""
    coach_url: str = ""
    #: With an option for HTTPS: where that is, and all that was said at the start.
    secure_port: int = 0
    secure_name: str = ""
    said: str = ""

    def __post_init__(self) -> None:
        self._errors = self.data_dir.parent / f"{self.data_dir.name}.{next(_NUMBERS)}.errors"

    def start(self) -> LiveServer:
        """Start it and wait until it says where it is. Raises ``DidNotStart``."""
        words = ["--no-open", "--data", str(self.data_dir), "--port", str(self.port)]
        words += ["--https-port", str(self.secure_port), *self.options]
        settings = {f"QUINTET_{name.upper()}": str(value) for name, value in self.settings.items()}
        with self._errors.open("a") as errors:
            self.process = begin(words, {"QUINTET_PACKS_DIR": str(PACKS), **settings}, errors, cold=self.cold)
        assert self.process.stdout is not None
        secure = "--https" in self.options or "--certificate" in self.options
        self.said = _first_lines(self.process.stdout, 8 if "--https" in self.options else 1 + secure)
        found, found_secure = _LINE.search(self.said), _SECURE_LINE.search(self.said)
        if found is None or (secure and found_secure is None):
            self._kill()
            raise DidNotStart(self.process.returncode, self.errors())
        self.url, self.coach_url = found[1], found[2]
        self.port = int(self.url.rsplit(":", 1)[1])
        if found_secure is not None:
            self.secure_name, self.secure_port = found_secure[1], int(found_secure[2])
        return self

    def over_tls(self, context: ssl.SSLContext, host: str = "127.0.0.1") -> SecureSide:
        """The same server, as a device finds it that calls it ``host`` and trusts what ``context`` trusts."""
        return SecureSide(self, f"https://{host}:{self.secure_port}", context)

    def wire(self, timeout_s: float) -> http.client.HTTPConnection:
        """Open a connection to it."""
        name, _, port = self.host.partition(":")
        return http.client.HTTPConnection(name, int(port), timeout=timeout_s)

    @property
    def tls(self) -> ssl.SSLContext | None:
        """What its live sockets are opened with: nothing, over plain HTTP."""
        return None

    @property
    def host(self) -> str:
        """Its address and port."""
        return self.url.removeprefix("http://")

    def errors(self) -> str:
        """What it has written to standard error."""
        return self._errors.read_text()

    def kill_group(self) -> None:
        """End every process of it with SIGKILL, and wait until the last of them is gone."""
        if self.process.poll() is not None:
            return
        self._kill()
        # Only its first process is ours to wait for; the others hold this lock for as long as they are there.
        with suppress(FileNotFoundError), (self.data_dir / "server.lock").open() as lock:
            until = time.monotonic() + START_TIMEOUT_S
            while not _is_free(lock):
                assert time.monotonic() < until, "A process of a killed server lives on."
                time.sleep(0.01)

    def kill_master(self) -> None:
        """End its first process alone with SIGKILL."""
        self.process.kill()
        self._ended()

    @contextmanager
    def frozen(self) -> Iterator[None]:
        """Let it say nothing for a while, its lines left open, as on a network that swallows everything."""
        os.killpg(self.process.pid, signal.SIGSTOP)
        try:
            yield
        finally:
            os.killpg(self.process.pid, signal.SIGCONT)

    def stop(self) -> int:
        """Ask it to stop (SIGTERM) and return its exit status."""
        if self.process.poll() is None:
            self.process.terminate()
        return self._ended()

    def restart(self) -> LiveServer:
        """Start it again on the same data and port, in a fork however it was started before."""
        self.cold = False
        return self.start()

    def _kill(self) -> None:
        if self.process.poll() is None:
            with suppress(ProcessLookupError):  # it has ended just now
                os.killpg(self.process.pid, signal.SIGKILL)
        self._ended()

    def _ended(self) -> int:
        return self.process.wait(30)


@dataclass
class SecureSide:
    """A running server's way in over HTTPS, for devices and screens."""

    server: LiveServer
    url: str
    tls: ssl.SSLContext

    @property
    def host(self) -> str:
        """Its address and port."""
        return self.url.removeprefix("https://")

    def wire(self, timeout_s: float) -> http.client.HTTPConnection:
        """Open a connection to it."""
        name, _, port = self.host.partition(":")
        return http.client.HTTPSConnection(name, int(port), timeout=timeout_s, context=self.tls)


def _is_free(lock: IO[str]) -> bool:
    try:
        fcntl.flock(lock, fcntl.LOCK_SH | fcntl.LOCK_NB)
    except BlockingIOError:
        return False
    return True


def _first_lines(stream: IO[str], count: int) -> str:
    lines: Queue[str] = Queue()

    def read() -> None:
        with stream:
            lines.put("".join(stream.readline() for _ in range(count)))  # all it says; then it is let go

    threading.Thread(target=read, daemon=True).start()
    try:
        return lines.get(timeout=START_TIMEOUT_S)
    except Empty:
        return ""


class Servers:
    """Starts servers and ends whatever is left of them."""

    def __init__(self) -> None:
        self._started: list[LiveServer] = []

    def __call__(self, data_dir: Path, *options: str, **settings: object) -> LiveServer:
        """Start a server on ``data_dir``; where there is no such folder yet, on a database made ready."""
        if not data_dir.exists():
            put_database(data_dir / DATABASE)
        return self._start(LiveServer(data_dir, settings, options))

    def from_nothing(self, data_dir: Path, *options: str, **settings: object) -> LiveServer:
        """Start one as people do for the first time: all that it needs, it has to load and to make."""
        return self._start(LiveServer(data_dir, settings, options, cold=True))

    def _start(self, server: LiveServer) -> LiveServer:
        self._started.append(server)
        return server.start()

    def end(self) -> None:
        """Kill all that still run."""
        for server in self._started:
            if server.process.poll() is None:
                server.kill_group()


@contextmanager
def no_errors(server: LiveServer) -> Iterator[LiveServer]:
    """Give the server, and see that it writes nothing to its error log meanwhile."""
    before = len(server.errors())
    yield server
    written = server.errors()[before:]
    assert written == "", f"The server has written to its error log:\n{written}"


class SharedServers:
    """Servers that tests share which want equal settings, each of them with teams of its own."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._servers = Servers()
        self._started: dict[object, LiveServer] = {}

    def __call__(self, *options: str, apart: str = "", **settings: object) -> LiveServer:
        """Return the server with these options and settings, started if it is the first time.

        Whoever uses it leaves it running. ``apart`` tells servers that are otherwise alike from each other.
        """
        server = self._find(apart, options, settings)
        assert server.process.poll() is None, f"A test has ended a server others share.\n{server.errors()}"
        return server

    def to_end(self, *options: str, **settings: object) -> LiveServer:
        """The same for tests that end it: it is started again, on what it holds, for the next."""
        server = self._find("to end", options, settings)
        return server if server.process.poll() is None else server.restart()

    def end(self) -> None:
        """End all of them."""
        self._servers.end()

    def _find(self, apart: str, options: tuple[str, ...], settings: Mapping[str, object]) -> LiveServer:
        wanted = apart, options, tuple(sorted(settings.items()))
        if wanted not in self._started:
            data_dir = self._folder / f"shared-{len(self._started) + 1}"
            self._started[wanted] = self._servers(data_dir, *options, **settings)
        return self._started[wanted]
