"""One live screen: its socket, the one bounded outbox in front of it, and the one thread that sends."""

from __future__ import annotations

import contextlib
import socket
import threading
from collections import deque
from collections.abc import Callable
from typing import Any, Final, Literal

from simple_websocket import ConnectionClosed, Server
from wsproto.utilities import LocalProtocolError

from webapp.live.frames import text_frame

Role = Literal["coach", "viewer"]

# Close codes of RFC 6455, section 7.4.1, and (1012, 1013) of the registry it set up.
NORMAL: Final = 1000
POLICY: Final = 1008
RESTART: Final = 1012
TRY_LATER: Final = 1013

#: A woken thread may look before the reading thread has noted that the connection has ended, so it looks
#: again after so long without being woken.
_LOOK_AGAIN_S: Final = 2.0
_GOODBYE_S: Final = 0.5
_DEAD: Final = (OSError, ConnectionClosed, LocalProtocolError)


class _WholeSends:
    """A socket whose ``send`` sends all of it, one sender at a time.

    The reading thread of simple-websocket answers pings on the same socket; without this its bytes would
    land in the middle of ours.
    """

    def __init__(self, sock: socket.socket) -> None:
        self._sock = sock
        self._lock = threading.Lock()

    def send(self, data: bytes) -> int:
        with self._lock:
            self._sock.sendall(data)
        return len(data)

    def __getattr__(self, name: str) -> Any:
        return getattr(self._sock, name)


class Connection:
    """A screen on a board. ``credential`` is the id of the key or the link that opened it.

    Anybody may :meth:`post`, which never waits. The thread in :meth:`run` alone sends; a screen that does
    not keep up is hung up on, and nobody else is delayed.
    """

    def __init__(
        self,
        ws: Server,
        role: Role,
        board_id: str,
        credential: str,
        *,
        outbox_max_count: int,
        send_timeout_s: float,
        send_buffer_bytes: int,
    ) -> None:
        self.role: Final = role
        self.board_id: Final = board_id
        self.credential: Final = credential
        #: The change up to which it was last given the whole board.
        self.sent_seq = -1
        self._ws = ws
        self._outbox: deque[bytes] = deque()
        self._outbox_max_count = outbox_max_count
        self._lock = threading.Lock()
        self._closing = False
        self._close_code = NORMAL
        sock: socket.socket = ws.sock
        with contextlib.suppress(OSError):  # a screen that is gone already is found out when it is sent to
            sock.settimeout(send_timeout_s)
            sock.setsockopt(socket.SOL_SOCKET, socket.SO_SNDBUF, send_buffer_bytes)
            sock.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
        ws.sock = _WholeSends(sock)

    def post(self, frame: bytes) -> None:
        """Put ``frame`` into the outbox; if that is full, hang up."""
        with self._lock:
            if self._closing:
                return
            full = len(self._outbox) >= self._outbox_max_count
            if full:
                self._closing = True
                self._outbox.clear()
            else:
                self._outbox.append(frame)
        if full:
            self.hang_up()
        self._ws.event.set()

    def say(self, text: str) -> None:
        """Put one message for this screen alone into the outbox."""
        self.post(text_frame(text))

    def finish(self, text: str | None, code: int) -> None:
        """Say ``text`` instead of all that still waits, and close; nothing more is taken from the screen."""
        with self._lock:
            if self._closing:
                return
            self._closing = True
            self._close_code = code
            self._outbox.clear()
            if text is not None:
                self._outbox.append(text_frame(text))
        self._ws.event.set()

    def hang_up(self) -> None:
        """Cut the line, which also wakes a thread that is stuck sending or reading on it."""
        with contextlib.suppress(OSError):
            self._ws.sock.shutdown(socket.SHUT_RDWR)

    def run(self, handle: Callable[[str | bytes], None], still_silent: Callable[[], bool]) -> None:
        """Send and handle messages until the connection ends; ``handle`` is called in this thread.

        ``still_silent`` says whether the screen has had its time to greet and has not.
        """
        ws = self._ws
        try:
            while ws.connected and ws.thread.is_alive():
                ws.event.wait(_LOOK_AGAIN_S)
                ws.event.clear()
                while ws.input_buffer and not self._closing:
                    handle(ws.receive(timeout=0))
                    # The answers to a burst are many; only what others cause may pile up.
                    self._flush()
                if still_silent():
                    self.finish(None, POLICY)
                self._flush()
                if self._closing:
                    ws.close(self._close_code)
                    break
        except _DEAD:
            pass
        finally:
            with self._lock:
                self._closing = True
                self._outbox.clear()
            # The server must not linger on this socket in the thread that accepts everybody.
            ws.thread.join(_GOODBYE_S)
            self.hang_up()

    def _flush(self) -> None:
        while True:
            with self._lock:
                if not self._outbox:
                    return
                frame = self._outbox.popleft()
            self._ws.sock.send(frame)
