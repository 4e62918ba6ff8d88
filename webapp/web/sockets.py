"""The live sockets: who may open one, and what is done with what it says."""

from __future__ import annotations

import json
import logging
import threading
import time
from collections.abc import Callable, Iterable
from functools import partial
from typing import TYPE_CHECKING, Any, Final

from flask import Blueprint, Flask, Response, request
from flask_sock import Sock
from simple_websocket import Server
from sqlalchemy.orm import Session

from webapp.access.devices import presented
from webapp.access.keys import SEEN_EVERY_S, coach_key, require_live
from webapp.access.links import find_link
from webapp.base.limits import Pace
from webapp.base.network import same_site
from webapp.base.settings import Settings
from webapp.boards import messages
from webapp.live.connection import POLICY, TRY_LATER, Connection, Role
from webapp.services import Services, services
from webapp.store.database import Superseded
from webapp.store.tables import Key
from webapp.wire import live_messages, schemas
from webapp.wire.refusals import Refused

if TYPE_CHECKING:
    from _typeshed.wsgi import StartResponse, WSGIEnvironment

_LOG: Final = logging.getLogger("quintet")
_PONG: Final = json.dumps({"t": "pong"})

live: Final = Blueprint("live", __name__, url_prefix="/live")
_sock: Final = Sock()


def socket_options(settings: Settings) -> dict[str, Any]:
    """Return what every socket is opened with."""
    return {
        "ping_interval": settings.ping_interval_s,
        "max_message_size": settings.message_max_bytes,
        "thread_class": partial(threading.Thread, daemon=True),
    }


def without_compression(wsgi: Callable[..., Iterable[bytes]]) -> Callable[..., Iterable[bytes]]:
    """Return ``wsgi`` without the offer to compress sockets: accepted, it doubles the work of a broadcast."""

    def plain(environ: dict[str, Any], start_response: Any) -> Iterable[bytes]:
        environ.pop("HTTP_SEC_WEBSOCKET_EXTENSIONS", None)
        return wsgi(environ, start_response)

    return plain


@live.before_request
def from_our_pages() -> None:
    """Refuse a socket opened by another site's page, or by none."""
    if not same_site(request.headers.get("Origin", ""), request.host):
        raise Refused("other_site")


class _Unsaid(Response):
    """An answer nobody is there to take."""

    def __call__(self, environ: WSGIEnvironment, start_response: StartResponse) -> Iterable[bytes]:
        if "gunicorn.socket" in environ:
            raise StopIteration  # closes the line without a word
        return super().__call__(environ, start_response)


@live.errorhandler(ConnectionError)
def left(_error: ConnectionError) -> Response:
    """A screen that leaves while it is being let in is no fault of anybody's."""
    return _Unsaid()


def board(ws: Server, board_id: str) -> None:
    """Serve a coach's screen."""
    secrets = presented(request)

    def authorise(session: Session) -> tuple[str, str]:
        found, key = coach_key(session, board_id, secrets)
        return found.id, key.id

    _serve(ws, "coach", authorise)


def view(ws: Server, token: str) -> None:
    """Serve a phone that follows."""

    def authorise(session: Session) -> tuple[str, str]:
        link = find_link(session, token, "view")
        return link.board_id, link.id

    _serve(ws, "viewer", authorise)


_sock.route("/board/<board_id>", bp=live)(board)
_sock.route("/view/<token>", bp=live)(view)


def _serve(ws: Server, role: Role, authorise: Callable[[Session], tuple[str, str]]) -> None:
    shared = services()
    settings = shared.settings

    def connect(board_id: str, credential: str) -> Connection:
        return Connection(
            ws,
            role,
            board_id,
            credential,
            outbox_max_count=settings.outbox_max_count,
            send_timeout_s=settings.send_timeout_s,
            send_buffer_bytes=settings.send_buffer_bytes,
        )

    try:
        with shared.store.read() as session:
            board_id, credential = authorise(session)
    except Refused as refusal:
        _turn_away(connect("", ""), messages.gone(refusal), POLICY)
        return
    connection = connect(board_id, credential)
    if not shared.relay.admit(connection):
        full = Refused("full" if role == "viewer" else "full_coaches")
        _turn_away(connection, messages.refused(full, None), TRY_LATER)
        return
    try:
        # Asked once more: it may have been turned off after the first look and before it could be found to
        # be closed. From here on, turning it off finds it.
        with shared.store.read() as session:
            authorise(session)
        screen = _Screen(shared, connection)
        connection.run(screen.hear, screen.still_silent)
    except Refused as refusal:
        _turn_away(connection, messages.gone(refusal), POLICY)
    finally:
        shared.relay.leave(connection)
        shared.inks.left(connection)


def _turn_away(connection: Connection, text: str, code: int) -> None:
    connection.finish(text, code)
    connection.run(lambda _text: None, lambda: False)


class _Screen:
    """One connected screen: how much nonsense it has sent, and how fast."""

    def __init__(self, shared: Services, connection: Connection) -> None:
        self._shared, self._connection = shared, connection
        self._pace = Pace(shared.settings.messages_per_s, shared.settings.messages_burst_count)
        self._nonsense = 0
        self._greeted = False
        self._since = time.monotonic()

    def still_silent(self) -> bool:
        """Whether it has had its time to greet and has not."""
        patience_s = self._shared.settings.hello_timeout_s
        return not self._greeted and time.monotonic() - self._since > patience_s

    def hear(self, text: str | bytes) -> None:
        """Do what one message asks, and answer it."""
        connection, message_id = self._connection, None
        if not self._pace.allow():
            connection.finish(messages.refused(Refused("too_fast"), None), POLICY)
            return
        try:
            message = live_messages.read_message(text)
            message_id = message.get("id")
            self._follow(message)
        except Refused as refusal:
            self._refuse(refusal, message_id)
        except Superseded:
            connection.finish(messages.refused(Refused("taken_over"), message_id), TRY_LATER)
            self._shared.superseded()
        except Exception:
            _LOG.exception("a live message failed")
            connection.say(messages.refused(Refused("failed"), message_id))

    def _follow(self, message: dict[str, Any]) -> None:
        kind, connection = message["t"], self._connection
        if kind == "ping":
            connection.say(_PONG)
        elif kind == "hello":
            self._greet(message)
        elif kind == "ink" and message["do"] == "show":
            self._shared.inks.hear(connection, message, self._may_change)
        elif connection.role != "coach":
            raise Refused("viewer")
        elif kind == "look":
            self._shared.boards.look(connection, message["at"])
        elif kind == "show":
            self._shared.boards.show(connection, message)
        elif kind == "ink":
            self._shared.inks.hear(connection, message, self._may_change)
        elif kind == "keep":
            self._shared.boards.keep(connection, message, self._may_change)
        else:
            self._shared.boards.change(connection, message, self._may_change)

    def _greet(self, message: dict[str, Any]) -> None:
        if message["v"] != schemas.VERSION:
            raise Refused("old_page")
        self._shared.boards.greet(self._connection)
        if not self._greeted and self._connection.role == "coach":
            self._note_seen()
        self._greeted = True

    def _may_change(self, session: Session) -> None:
        require_live(session, self._connection.credential)

    def _note_seen(self) -> None:
        now = int(time.time())
        with self._shared.store.read() as session:
            key = session.get(Key, self._connection.credential)
            fresh = key is None or key.seen > now - SEEN_EVERY_S
        if not fresh:
            with self._shared.store.write() as session:
                session.get_one(Key, self._connection.credential).seen = now

    def _refuse(self, refusal: Refused, message_id: str | None) -> None:
        connection = self._connection
        if refusal.code == "gone_key":
            connection.finish(messages.gone(refusal), POLICY)
            return
        if refusal.code in ("unreadable", "viewer", "old_page", "pair"):
            self._nonsense += 1
            if self._nonsense >= self._shared.settings.garbage_max_count:
                connection.finish(messages.refused(refusal, message_id), POLICY)
                return
        connection.say(messages.refused(refusal, message_id))
        if refusal.code == "stale":
            self._shared.boards.catch_up(connection)


def register(app: Flask) -> None:
    """Let ``app`` serve the live sockets."""
    app.register_blueprint(live)
    app.config["SOCK_SERVER_OPTIONS"] = socket_options(app.extensions["quintet"].settings)
    app.wsgi_app = without_compression(app.wsgi_app)  # type: ignore[method-assign]
