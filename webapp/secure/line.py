"""An encrypted line that one thread reads while another writes, as a live screen's is."""

from __future__ import annotations

import selectors
import socket
import ssl
import threading
import time
from typing import Any, Final

#: The most that one TLS record carries (RFC 8446, section 5.1).
_RECORD_BYTES: Final = 16384

# Windows has no poll; "select" cannot watch a socket with a high number.
_Selector: Final = getattr(selectors, "PollSelector", selectors.SelectSelector)


class SharedLine:
    """Looks like the TLS socket it is made of, and may be read and written at the same time.

    OpenSSL allows one call on a connection at a time; Python 3.11 does not see to that. So the socket is
    made never to wait, once this is used, every call to it happens under one lock, and waiting happens
    outside of it.

    ``recv`` gives a whole record however little was asked for: what OpenSSL kept back would not wake up
    anybody who waits for the socket to become readable, as simple-websocket does.
    """

    def __init__(self, sock: ssl.SSLSocket) -> None:
        self._sock = sock
        self._timeout = sock.gettimeout()
        self._using = threading.Lock()
        self._sending = threading.Lock()
        self._in_use = False

    def settimeout(self, timeout_s: float | None) -> None:
        """Set how long a call may take; ``None`` is for ever."""
        self._timeout = timeout_s

    def recv(self, size: int) -> bytes:
        """Return what has come, at least one byte; none when the line has ended."""
        deadline = self._deadline()
        while True:
            with self._using:
                self._never_wait()
                try:
                    return self._sock.recv(max(size, _RECORD_BYTES))
                except ssl.SSLWantReadError:
                    wanted = selectors.EVENT_READ
                except ssl.SSLWantWriteError:
                    wanted = selectors.EVENT_WRITE
            self._wait(wanted, deadline)

    def send(self, data: bytes) -> int:
        """Send all of ``data``, one sender at a time, and return how much that was."""
        self.sendall(data)
        return len(data)

    def sendall(self, data: bytes) -> None:
        """Send all of ``data``, one sender at a time."""
        deadline = self._deadline()
        with self._sending:
            rest = memoryview(data)
            while rest:
                with self._using:
                    self._never_wait()
                    try:
                        rest = rest[self._sock.send(rest) :]
                        continue
                    except ssl.SSLWantWriteError:
                        wanted = selectors.EVENT_WRITE
                    except ssl.SSLWantReadError:
                        wanted = selectors.EVENT_READ
                self._wait(wanted, deadline)

    def shutdown(self, how: int) -> None:
        """Cut the line under the encryption, which wakes up whoever waits on it."""
        socket.socket.shutdown(self._sock, how)

    def close(self) -> None:
        """Close the socket."""
        with self._using:
            self._sock.close()

    def __getattr__(self, name: str) -> Any:
        return getattr(self._sock, name)

    def _never_wait(self) -> None:
        if not self._in_use:
            self._in_use = True
            self._sock.setblocking(False)

    def _deadline(self) -> float | None:
        return None if self._timeout is None else time.monotonic() + self._timeout

    def _wait(self, wanted: int, deadline: float | None) -> None:
        left = None if deadline is None else max(deadline - time.monotonic(), 0.0)
        with _Selector() as selector:
            try:
                selector.register(self._sock, wanted)
            except ValueError:
                raise OSError("the line has been closed") from None
            if not selector.select(left):
                raise TimeoutError("timed out")
