"""Commands run by forks of one interpreter that has all of Quintet loaded: loading is most of a start.

A fork runs ``python3 -m webapp`` as it is, in a session, with an environment and with streams of its own. It
is a process like any other, that can be killed; only what it would import is there before it begins. Tests
of starting itself use an interpreter of their own for each command (:func:`tests.server.begin`).
"""

from __future__ import annotations

import atexit
import contextlib
import gc
import importlib
import json
import os
import runpy
import select
import signal
import socket
import struct
import subprocess
import sys
import threading
import weakref
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import IO, Any

import sqlalchemy.orm

#: What servers and commands come to import.
_LOADED = (
    "webapp.serving.command", "webapp.app", "webapp.access.links", "webapp.boards.teams",
    "webapp.serving.gunicorn", "webapp.serving.plain", "webapp.secure.door", "webapp.backup.subcommands",
    "webapp.store.database", "webapp.transfer.bring", "webapp.transfer.read_document",
    "sqlalchemy.dialects.sqlite", "alembic.command",
)  # fmt: skip
_ROOT = Path(__file__).resolve().parent.parent
_NUMBER = struct.Struct("!i")


class Process:
    """A fork, as the one who asked for it sees it: what tests use of ``subprocess.Popen``."""

    def __init__(self, told: int, stdout: IO[str]) -> None:
        self._told, self.stdout = told, stdout
        self.pid = self._number()
        self.returncode: int | None = None
        self._ended = threading.Lock()
        # Not before nobody waits any more, in whichever thread.
        weakref.finalize(self, os.close, told)

    def poll(self) -> int | None:
        """Return its exit status if it has ended."""
        with self._ended:
            if self.returncode is None and select.select([self._told], [], [], 0)[0]:
                self.returncode = self._number()
        return self.returncode

    def wait(self, timeout: float | None = None) -> int:
        """Wait until it has ended, and return its exit status."""
        if self.poll() is None:
            select.select([self._told], [], [], timeout)
        status = self.poll()
        if status is None:
            raise subprocess.TimeoutExpired(f"process {self.pid}", timeout or 0)
        return status

    def terminate(self) -> None:
        """Ask it to stop."""
        self._send(signal.SIGTERM)

    def kill(self) -> None:
        """Kill it."""
        self._send(signal.SIGKILL)

    def _send(self, number: int) -> None:
        if self.poll() is None:
            with contextlib.suppress(ProcessLookupError):  # it has ended just now
                os.kill(self.pid, number)

    def _number(self) -> int:
        found = os.read(self._told, _NUMBER.size)
        assert found, "The interpreter that commands are forks of has ended."
        number: int = _NUMBER.unpack(found)[0]
        return number


class Warm:
    """The interpreter that is forked, begun when it is first wanted."""

    def __init__(self) -> None:
        self._line: socket.socket | None = None
        self._asking = threading.Lock()

    def begin(
        self, words: Sequence[str], environment: Mapping[str, str], cwd: Path, errors: IO[str]
    ) -> Process:
        """Run ``python3 -m webapp`` with ``words``, what it says given to be read, its errors to a file."""
        told, telling = os.pipe()
        reading, writing = os.pipe()
        asked = json.dumps({"words": [*words], "environment": {**environment}, "cwd": str(cwd)}).encode()
        with self._asking:
            line = self._line = self._line or self._began()
            socket.send_fds(line, [_NUMBER.pack(len(asked))], [writing, errors.fileno(), telling])
            line.sendall(asked)
        for ours in (telling, writing):
            os.close(ours)
        return Process(told, os.fdopen(reading, encoding="utf-8"))

    def _began(self) -> socket.socket:
        ours, its = socket.socketpair()
        with its:
            # Its own streams and folder are nobody's: each fork is given others.
            process = subprocess.Popen(
                [sys.executable, "-m", "tests.warm", str(its.fileno())],
                cwd=_ROOT,
                pass_fds=[its.fileno()],
                stdin=subprocess.DEVNULL,
                start_new_session=True,
            )
        atexit.register(self._end, ours, process)
        return ours

    def _end(self, line: socket.socket, process: subprocess.Popen[bytes]) -> None:
        line.close()
        process.wait()


WARM = Warm()


def main(line: socket.socket) -> None:
    """Answer until there is nothing more to read. Returns in each fork as well, when its command is done."""
    for name in _LOADED:
        importlib.import_module(name)
    sqlalchemy.orm.configure_mappers()  # the rest of loading the tables, which waits until they are used
    gc.freeze()  # what is shared stays so as long as nobody looks through it for garbage
    assert threading.active_count() == 1  # or a fork might wait for what nobody gives back
    woken, waking = os.pipe()
    os.set_blocking(waking, False)
    signal.signal(signal.SIGCHLD, lambda *_: None)
    signal.set_wakeup_fd(waking)
    telling: dict[int, int] = {}
    while True:
        ready = select.select([line, woken], [], [])[0]
        if woken in ready:
            os.read(woken, 4096)
            _tell_of_ended(telling)
        if line in ready:
            head, handles, _, _ = socket.recv_fds(line, _NUMBER.size, 3)
            if not head:
                return
            asked = json.loads(line.recv(_NUMBER.unpack(head)[0], socket.MSG_WAITALL))
            pid = os.fork()
            if pid == 0:
                line.detach()
                return _be_the_command(asked, *handles[:2])
            telling[pid] = handles[2]
            os.write(handles[2], _NUMBER.pack(pid))
            for handle in handles[:2]:
                os.close(handle)


def _tell_of_ended(telling: dict[int, int]) -> None:
    while telling:
        pid, status = os.waitpid(-1, os.WNOHANG)
        if pid == 0:
            return
        handle = telling.pop(pid)
        with contextlib.suppress(BrokenPipeError):  # nobody wants to know any more
            os.write(handle, _NUMBER.pack(os.waitstatus_to_exitcode(status)))
        os.close(handle)


def _be_the_command(asked: Any, output: int, errors: int) -> None:
    os.setsid()
    signal.set_wakeup_fd(-1)
    signal.signal(signal.SIGCHLD, signal.SIG_DFL)
    os.dup2(output, 1)
    os.dup2(errors, 2)
    os.closerange(3, max(map(int, os.listdir("/dev/fd"))) + 1)
    os.environ.clear()
    os.environ.update(asked["environment"])
    os.chdir(asked["cwd"])
    sys.argv = ["webapp", *asked["words"]]
    runpy.run_module("webapp", run_name="__main__", alter_sys=True)


if __name__ == "__main__":
    main(socket.socket(fileno=int(sys.argv[1])))
