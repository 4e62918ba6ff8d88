"""Serving with the simple server of the web framework, for where gunicorn does not run. Good for one team."""

from __future__ import annotations

import logging
import signal
import socket
import threading
from typing import TYPE_CHECKING, Any, TypeVar

from flask import Flask
from werkzeug.serving import ThreadedWSGIServer, WSGIRequestHandler

from webapp.app import create_app
from webapp.base.settings import Settings
from webapp.services import Services

if TYPE_CHECKING:
    from webapp.secure.door import Door


_Kind = TypeVar("_Kind", bound=ThreadedWSGIServer)


class _Quiet(WSGIRequestHandler):
    """Says nothing of each request: addresses hold the secrets of links."""

    def log_request(self, code: int | str = "-", size: int | str = "-") -> None:
        pass


class _Secure(ThreadedWSGIServer):
    """Greets each device over TLS, in the thread that answers it."""

    door: Door

    def finish_request(self, request: Any, client_address: Any) -> None:
        try:
            line = self.door.admit(request)
        except OSError:
            return  # it does not trust us, or has gone
        with line:
            super().finish_request(line, client_address)


def run(settings: Settings, listener: socket.socket, door: Door | None) -> None:
    """Serve on ``listener``, and over HTTPS at ``door``, until stopped."""
    logging.getLogger("werkzeug").setLevel(logging.ERROR)
    stop = threading.Event()
    for name in ("SIGINT", "SIGTERM", "SIGHUP", "SIGBREAK"):
        number = getattr(signal, name, None)
        if number is not None:
            signal.signal(number, lambda *_: stop.set())
    app = create_app(settings, superseded=stop.set)
    servers = [_server(ThreadedWSGIServer, listener, app)]
    if door is not None:
        secure = _server(_Secure, door.listener, app)
        secure.door = door
        servers.append(secure)
    threads = [threading.Thread(target=server.serve_forever, daemon=True) for server in servers]
    for thread in threads:
        thread.start()
    _wait(stop)
    shared: Any = app.extensions["quintet"]
    assert isinstance(shared, Services)
    shared.relay.close_all()
    for server, thread in zip(servers, threads, strict=True):
        server.shutdown()
        thread.join(settings.shutdown_grace_s)
        server.server_close()


def _server(kind: type[_Kind], listener: socket.socket, app: Flask) -> _Kind:
    host, port = listener.getsockname()
    return kind(host, port, app, _Quiet, fd=listener.detach())


def _wait(stop: threading.Event) -> None:
    # A wait without a limit cannot be interrupted on Windows.
    while not stop.wait(0.5):
        pass
