"""Serving with gunicorn: one worker process whose threads are the live places, and a master that minds it."""

from __future__ import annotations

import contextlib
import os
import signal
import socket
import threading
from functools import partial
from typing import TYPE_CHECKING, Any, Final

from flask import Flask
from gunicorn.app.base import BaseApplication  # type: ignore[import-untyped]
from gunicorn.arbiter import Arbiter  # type: ignore[import-untyped]
from gunicorn.workers.gthread import TConn, ThreadWorker  # type: ignore[import-untyped]

from webapp.app import create_app
from webapp.base.settings import Settings
from webapp.services import Services

if TYPE_CHECKING:
    from webapp.secure.door import Door

_WORKER_TIMEOUT_S: Final = 30
_KEEPALIVE_S: Final = 2


def run(settings: Settings, listener: socket.socket, door: Door | None) -> None:
    """Serve on ``listener``, and over HTTPS at ``door``, until stopped."""
    _OneWorker(_Application(settings, listener, door)).run()


class Worker(ThreadWorker):  # type: ignore[misc]
    """A worker that lets the live screens go when told to stop, and lets no slow goodbye hold up the rest.

    gunicorn speaks TLS on all its ports or on none; here it is on the one of ``door``.
    """

    door: Door | None = None

    def init_signals(self) -> None:
        """Treat the closing of the terminal, which all processes are told of, as being told to stop."""
        super().init_signals()
        signal.signal(signal.SIGHUP, self.handle_exit)

    def handle_exit(self, sig: int, frame: Any) -> None:
        """Begin to stop, once: with Ctrl-C the terminal and the master both say so."""
        if self.alive:
            # In a thread, as a signal may arrive in the middle of anything, locks included.
            threading.Thread(target=self._close_screens, daemon=True).start()
            super().handle_exit(sig, frame)

    def handle_quit(self, sig: int, frame: Any) -> None:
        """Stop in the same way; gunicorn's own may wait for a lock that what it interrupts holds."""
        self.handle_exit(sig, frame)

    def enqueue_req(self, conn: TConn) -> None:
        """Take a connection in; its goodbye, which may take two seconds, is said in a thread of its own."""
        if not isinstance(conn.close, partial):
            conn.close = partial(_close_aside, conn.close)
            if self.door is not None and conn.server[1] == self.door.port:
                # Begun in the thread that will answer: a device that is slow to greet keeps nobody waiting.
                conn.init = partial(_admit, self.door, conn, conn.init)
        super().enqueue_req(conn)

    def _close_screens(self) -> None:
        found = self.app.callable
        if isinstance(found, Flask):
            shared = found.extensions["quintet"]
            assert isinstance(shared, Services)
            shared.relay.close_all()


def _admit(door: Door, conn: TConn, go_on: Any) -> None:
    if not conn.initialized:
        conn.sock = door.admit(conn.sock)
    go_on()


def _close_aside(close: Any, graceful: bool = False) -> None:
    if graceful:
        threading.Thread(target=_close_gracefully, args=(close,), daemon=True).start()
    else:
        close()


def _close_gracefully(close: Any) -> None:
    with contextlib.suppress(OSError):  # a live screen's socket has been closed by its own thread already
        close(graceful=True)


class _Application(BaseApplication):  # type: ignore[misc]
    """What gunicorn is told."""

    def __init__(self, settings: Settings, listener: socket.socket, door: Door | None) -> None:
        self._settings, self._listener, self._door = settings, listener, door
        self._life = os.pipe()
        super().__init__()

    def load_config(self) -> None:
        """Set the configuration; no file and no command line are looked at."""
        settings = self._settings
        live = settings.viewers_max_count + settings.coaches_max_count
        doors = [self._listener] if self._door is None else [self._listener, self._door.listener]
        wanted = {
            "bind": [f"fd://{each.detach()}" for each in doors],
            "workers": 1,
            "worker_class": Worker,
            "threads": settings.threads_count,
            "worker_connections": settings.threads_count + live,
            "keepalive": _KEEPALIVE_S,
            # The master's patience with the worker; the worker's own with its pages ends sooner.
            "graceful_timeout": settings.shutdown_grace_s + 1,
            "timeout": _WORKER_TIMEOUT_S,
            "loglevel": "warning",
            "post_fork": self._after_fork,
            "control_socket_disable": True,
            "sendfile": False,  # it would go past the encryption
            "forwarded_allow_ips": "",  # whose word is taken is a setting of ours
        }
        for name, value in wanted.items():
            if name in self.cfg.settings:  # the last is newer than the oldest gunicorn that will do
                self.cfg.set(name, value)

    def load(self) -> Flask:
        """Make the application, in the worker."""
        return create_app(self._settings, _stop_master)

    def _after_fork(self, _arbiter: Arbiter, worker: Worker) -> None:
        """Make the worker end with its master, however that ends: the pipe closes, and with the worker go
        the port and the lock on the data, so that a new server can start at once.
        """
        worker.door = self._door
        worker.cfg.set("graceful_timeout", self._settings.shutdown_grace_s)
        reading, writing = self._life
        os.close(writing)
        threading.Thread(target=_end_with_master, args=(reading,), daemon=True).start()


def _end_with_master(reading: int) -> None:
    os.read(reading, 1)  # nothing is ever written: this returns when the master's end is closed
    os._exit(0)


def _stop_master() -> None:
    os.kill(os.getppid(), signal.SIGTERM)


class _OneWorker(Arbiter):  # type: ignore[misc]
    """A master that never has two workers, whatever signal it gets."""

    def handle_hup(self) -> None:
        """Stop: the terminal has been closed."""
        self.handle_term()

    def handle_ttin(self) -> None:
        """Do nothing."""

    def handle_ttou(self) -> None:
        """Do nothing."""

    def handle_usr2(self) -> None:
        """Do nothing."""
