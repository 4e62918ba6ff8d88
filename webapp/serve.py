"""Serving: read the options, be the only server on the data, listen, say where, run until told to stop."""

from __future__ import annotations

import argparse
import logging
import os
import socket
import subprocess
import sys
import time
from collections.abc import Sequence
from pathlib import Path
from typing import Final

from webapp.network import local_address
from webapp.settings import BadSetting, Settings, explained, from_environment

_PORT_WAIT_S: Final = 2.0


class CannotServe(RuntimeError):
    """The server cannot start; ``str(error)`` is the one sentence that says why and what to do."""


def main(argv: Sequence[str]) -> int:
    """Serve until stopped; return the exit status: 0, or 1 with one sentence on standard error."""
    logging.basicConfig(format="%(levelname)s %(message)s", level=logging.WARNING)
    options = _parser().parse_args(argv)
    try:
        _serve(_settings(options), plain=options.plain, show=not options.no_open)
    except (CannotServe, BadSetting) as error:
        print(error, file=sys.stderr)
        return 1
    return 0


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="python3 -m webapp",
        description="Serve Quintet and open it in the browser. Stop it with Ctrl-C; nothing is lost.",
        epilog="Environment variables, for everything else:\n" + explained(),
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument(
        "--port", type=int, metavar="N", help="port to listen on (default 8710; 0: a free one)"
    )
    parser.add_argument(
        "--local-network",
        action="store_true",
        default=None,
        help="let phones and tablets on the local network open the boards (default: this computer only)",
    )
    parser.add_argument("--data", type=Path, metavar="DIR", help="folder for the boards (default .quintet)")
    parser.add_argument(
        "--viewers", type=int, metavar="N", help="phones that may follow at once (default 200)"
    )
    parser.add_argument("--no-open", action="store_true", help="do not open the browser")
    parser.add_argument(
        "--plain",
        action="store_true",
        help="use the simple built-in server, good for one team; always so on Windows",
    )
    return parser


def _settings(options: argparse.Namespace) -> Settings:
    chosen = {
        "port_number": options.port,
        "local_network": options.local_network,
        "data_dir": options.data,
        "viewers_max_count": options.viewers,
    }
    given = {name: value for name, value in chosen.items() if value is not None}
    if "data_dir" in given:
        given["data_dir"] = given["data_dir"].resolve()
    return from_environment(os.environ, **given)


def _serve(settings: Settings, *, plain: bool, show: bool) -> None:
    from webapp.store.guard import AlreadyServed, ServerGuard

    guard = ServerGuard(settings.data_dir / "server.lock")
    try:
        guard.acquire(settings.lock_wait_s)
    except AlreadyServed as error:
        raise CannotServe(str(error)) from None
    except OSError as error:
        raise CannotServe(
            f"The folder {settings.data_dir} cannot be written to ({error.strerror}); choose another with "
            "--data."
        ) from None
    listener = _listen(settings)
    port = listener.getsockname()[1]
    coach_url = f"http://127.0.0.1:{port}{_prepare(settings)}"
    _announce(settings, port, coach_url)
    if show:
        _open_browser(coach_url)
    if plain or os.name == "nt":
        from webapp.serving.plain import run
    else:
        from webapp.serving.gunicorn import run
    run(settings, listener)


def _listen(settings: Settings) -> socket.socket:
    host = "0.0.0.0" if settings.local_network else "127.0.0.1"
    deadline = time.monotonic() + _PORT_WAIT_S
    while True:
        listener = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
        if os.name != "nt":
            listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            listener.bind((host, settings.port_number))
            listener.listen(1024)
        except OSError as error:
            listener.close()
            if time.monotonic() < deadline:
                time.sleep(0.1)  # the server before may just be letting go of it
                continue
            raise CannotServe(
                f"Port {settings.port_number} cannot be used ({error.strerror}); choose another with --port, "
                "or 0 for a free one."
            ) from None
        return listener


def _prepare(settings: Settings) -> str:
    """Bring the data up to date, with a demo team if there is none; return the path of a coaching link."""
    from sqlalchemy.exc import DatabaseError

    from webapp.links import make_start_link
    from webapp.store.database import Store
    from webapp.store.migrate import NewerData
    from webapp.teams import first_board, make_demo

    try:
        store = Store(settings.database, settings.busy_timeout_ms)
        with store.write() as session:
            board = first_board(session) or make_demo(session)
            link = make_start_link(session, board.id)
        store.close()
    except NewerData as error:
        raise CannotServe(str(error)) from None
    except DatabaseError as error:
        raise CannotServe(
            f"The data in {settings.database} cannot be used ({error.orig}); choose another folder with "
            "--data, or put a copy back in its place."
        ) from None
    return link.path


def _announce(settings: Settings, port: int, coach_url: str) -> None:
    address = local_address() if settings.local_network else None
    where = f"http://{address or '127.0.0.1'}:{port}/"
    print(f"Quintet is open at {where} - your coaching link: {coach_url}", flush=True)


def _open_browser(url: str) -> None:
    """Show ``url`` in the browser, if there is a screen to show it on."""
    has_screen = os.name == "nt" or sys.platform == "darwin"
    if has_screen or os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY"):
        # In a process of its own, so that neither a slow browser nor its end touches the server.
        subprocess.Popen(
            [sys.executable, "-m", "webbrowser", url],
            stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            start_new_session=True,
        )
