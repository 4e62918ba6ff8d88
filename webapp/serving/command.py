"""Serving: read the options, be the only server on the data, listen, say where, run until told to stop."""

from __future__ import annotations

import argparse
import gc
import logging
import os
import socket
import subprocess
import sys
import time
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Final

from engine.words.spoken import say
from webapp.base.languages import languages
from webapp.base.network import local_address
from webapp.base.settings import BadSetting, Settings, explained, from_environment

if TYPE_CHECKING:
    from webapp.secure.door import Door

_PORT_WAIT_S: Final = 2.0


class CannotServe(RuntimeError):
    """The server cannot start; ``str(error)`` is the one sentence that says why and what to do."""


def main(argv: Sequence[str]) -> int:
    """Serve until stopped; return the exit status: 0, or 1 with one sentence on standard error."""
    from webapp.secure.errors import NotSecure

    logging.basicConfig(format="%(levelname)s %(message)s", level=logging.WARNING)
    options = _parser().parse_args(argv)
    try:
        _serve(_settings(options), plain=options.plain, show=not options.no_open)
    except (CannotServe, BadSetting, NotSecure) as error:
        print(error, file=sys.stderr)
        return 1
    return 0


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="python3 -m webapp",
        description=say("server.serving.serve_quintet_open_browser"),
        epilog=say("server.serving.environment_variables_for_everything") + explained(),
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("--port", type=int, metavar="N", help=say("server.serving.port_listen_on_default"))
    parser.add_argument(
        "--local-network",
        action="store_true",
        default=None,
        help=say("server.serving.let_phones_tablets_on"),
    )
    parser.add_argument(
        "--https",
        action="store_true",
        default=None,
        help=say("server.serving.serve_https_as_well"),
    )
    parser.add_argument("--certificate", metavar="FILE", help=say("server.serving.serve_https_as_well_with"))
    parser.add_argument("--key", metavar="FILE", help=say("server.serving.private_key_certificate_pem"))
    parser.add_argument(
        "--https-port", type=int, metavar="N", help=say("server.serving.port_for_https_default")
    )
    parser.add_argument("--public-url", metavar="URL", help=say("server.serving.address_links_begin_with"))
    parser.add_argument("--proxy", metavar="ADDRESSES", help=say("server.serving.reverse_proxies_whose_word"))
    parser.add_argument(
        "--data", type=Path, metavar="DIR", help=say("server.serving.folder_for_boards_default")
    )
    parser.add_argument("--viewers", type=int, metavar="N", help=say("server.serving.phones_may_follow_at"))
    parser.add_argument(
        "--sources",
        action="store_true",
        default=None,
        help=say("server.serving.give_browsers_modules_as"),
    )
    parser.add_argument("--no-open", action="store_true", help=say("server.serving.do_not_open_browser"))
    parser.add_argument(
        "--plain",
        action="store_true",
        help=say("server.serving.use_simple_built_server"),
    )
    return parser


def _settings(options: argparse.Namespace) -> Settings:
    chosen = {
        "port_number": options.port,
        "local_network": options.local_network,
        "local_authority": options.https,
        "certificate_file": options.certificate,
        "key_file": options.key,
        "https_port_number": options.https_port,
        "public_url": options.public_url,
        "proxy_network": options.proxy,
        "data_dir": options.data,
        "viewers_max_count": options.viewers,
        "sources": options.sources,
    }
    given = {name: value for name, value in chosen.items() if value is not None}
    if "data_dir" in given:
        given["data_dir"] = given["data_dir"].resolve()
    settings = from_environment(os.environ, **given)
    languages(settings.more_languages)  # what is wrong with one is said here, before anything is started
    return settings


def _serve(settings: Settings, *, plain: bool, show: bool) -> None:
    from webapp.store.guard import AlreadyServed, ServerGuard
    from webapp.web.bundle import Head, NoBundle

    try:
        Head(settings)
    except NoBundle as error:
        raise CannotServe(str(error)) from None
    guard = ServerGuard(settings.data_dir / "server.lock")
    try:
        guard.acquire(settings.lock_wait_s)
    except AlreadyServed as error:
        raise CannotServe(str(error)) from None
    except OSError as error:
        raise CannotServe(
            say(
                "server.serving.folder_cannot_written_choose",
                data_dir=settings.data_dir,
                strerror=error.strerror,
            )
        ) from None
    listener = _listen(settings, settings.port_number, "--port")
    settings = replace(settings, port_number=listener.getsockname()[1])
    door = _secure_door(settings)
    if door is not None:
        settings = replace(settings, https_port_number=door.port)
    path = _prepare(settings)
    coach_url = f"http://127.0.0.1:{settings.port_number}{path}"
    _announce(settings, coach_url, path, door)
    if show:
        _open_browser(coach_url)
    if plain or os.name == "nt":
        from webapp.serving.plain import run
    else:
        from webapp.serving.gunicorn import run
    gc.freeze()  # the worker shares it with its master as long as neither touches it
    gc.enable()
    run(settings, listener, door)


def _secure_door(settings: Settings) -> Door | None:
    """Open the port for HTTPS, if there is to be one. Raises ``CannotServe`` or ``NotSecure``."""
    if not settings.has_https:
        return None
    from webapp.secure.door import Door, certificates_for

    certificates = certificates_for(settings)
    listener = _listen(settings, settings.https_port_number, "--https-port")
    return Door(listener, listener.getsockname()[1], certificates)


def _listen(settings: Settings, port: int, option: str) -> socket.socket:
    host = "0.0.0.0" if settings.local_network else "127.0.0.1"
    deadline = time.monotonic() + _PORT_WAIT_S
    while True:
        listener = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
        if os.name != "nt":
            listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            listener.bind((host, port))
            listener.listen(1024)
        except OSError as error:
            listener.close()
            if time.monotonic() < deadline:
                time.sleep(0.1)  # the server before may just be letting go of it
                continue
            raise CannotServe(
                say(
                    "server.serving.port_cannot_used_choose",
                    port=port,
                    strerror=error.strerror,
                    option=option,
                )
            ) from None
        return listener


def _prepare(settings: Settings) -> str:
    """Bring the data up to date, with a demo team if there is none; return the path of a coaching link."""
    from sqlalchemy.exc import DatabaseError

    from webapp.access.links import make_start_link
    from webapp.boards.demo import make_demo
    from webapp.boards.teams import first_board
    from webapp.store.database import Store
    from webapp.store.migrate import NewerData

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
            say("server.serving.data_cannot_used_choose", database=settings.database, orig=error.orig)
        ) from None
    return link.path


def _announce(settings: Settings, coach_url: str, path: str, door: Door | None) -> None:
    address = local_address() if settings.local_network else None
    here = f"{address or '127.0.0.1'}:{settings.port_number}"
    lines = [say("server.serving.quintet_open_at_http", here=here, coach_url=coach_url)]
    if door is not None:
        from webapp.secure.door import about

        lines += about(door, settings, here, path)
    print("\n".join(lines), flush=True)


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
