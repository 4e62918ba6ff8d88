"""Serving with the simple server of the web framework, for where gunicorn does not run. Good for one team."""

from __future__ import annotations

import logging
import signal
import socket
import threading
from typing import Any

from werkzeug.serving import WSGIRequestHandler, make_server

from webapp.app import create_app
from webapp.services import Services
from webapp.settings import Settings


class _Quiet(WSGIRequestHandler):
    """Says nothing of each request: addresses hold the secrets of links."""

    def log_request(self, code: int | str = "-", size: int | str = "-") -> None:
        pass


def run(settings: Settings, listener: socket.socket) -> None:
    """Serve on ``listener`` until stopped."""
    logging.getLogger("werkzeug").setLevel(logging.ERROR)
    stop = threading.Event()
    for name in ("SIGINT", "SIGTERM", "SIGHUP", "SIGBREAK"):
        number = getattr(signal, name, None)
        if number is not None:
            signal.signal(number, lambda *_: stop.set())
    app = create_app(settings, superseded=stop.set)
    host, port = listener.getsockname()
    server = make_server(host, port, app, threaded=True, request_handler=_Quiet, fd=listener.detach())
    serving = threading.Thread(target=server.serve_forever, daemon=True)
    serving.start()
    _wait(stop)
    shared: Any = app.extensions["quintet"]
    assert isinstance(shared, Services)
    shared.relay.close_all()
    server.shutdown()
    serving.join(settings.shutdown_grace_s)
    server.server_close()


def _wait(stop: threading.Event) -> None:
    # A wait without a limit cannot be interrupted on Windows.
    while not stop.wait(0.5):
        pass
