"""A tap in the line between a browser and a server: what was asked and what came back, as it was sent."""

from __future__ import annotations

import contextlib
import gzip
import re
import socket
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field

_REQUEST = re.compile(rb"(GET|HEAD|POST|PUT|DELETE) (\S+) HTTP/1\.1\r\n")
_CHUNK_BYTES = 65536


@dataclass
class Exchange:
    """One request, and all that came back until the next one on the same line; of a socket, all it said."""

    method: str
    path: str
    asked: bytes
    answer: bytearray = field(default_factory=bytearray)

    @property
    def status(self) -> int:
        """The status of the answer, 0 before there is one."""
        return int(self.answer[9:12] or b"0")

    def header(self, name: str) -> str:
        """Return a header of the request, "" without it."""
        found = re.search(rb"\r\n" + name.encode() + rb": ([^\r]*)", self.asked, re.IGNORECASE)
        return found[1].decode() if found else ""

    @property
    def body(self) -> bytes:
        """What came after the headers, as it was sent."""
        return bytes(self.answer.partition(b"\r\n\r\n")[2])

    @property
    def gzipped_bytes(self) -> int:
        """The size of the body under gzip, whether it was sent so or not."""
        return len(self.body if self.body[:2] == b"\x1f\x8b" else gzip.compress(self.body, 9, mtime=0))

    @property
    def by_worker(self) -> bool:
        """Whether the worker asked, or the browser for it: a page itself asks by tags, but for its API."""
        plain = not self.path.startswith(("/api/", "/live/"))
        return self.path == "/sw.js" or (plain and self.header("Sec-Fetch-Dest") == "empty")


class Tap:
    """What has gone through: ``exchanges``, in the order they were asked. ``host`` is the address to use."""

    def __init__(self, port: int) -> None:
        self.exchanges: list[Exchange] = []
        self._port = port
        self._listener = socket.create_server(("127.0.0.1", 0))
        self._lines: list[socket.socket] = []
        self.host = f"127.0.0.1:{self._listener.getsockname()[1]}"
        threading.Thread(target=self._accept, daemon=True).start()

    def close(self) -> None:
        """Cut everything."""
        for line in [self._listener, *self._lines]:
            with contextlib.suppress(OSError):
                line.shutdown(socket.SHUT_RDWR)
            line.close()

    def _accept(self) -> None:
        with contextlib.suppress(OSError):
            while True:
                near = self._listener.accept()[0]
                try:
                    far = socket.create_connection(("127.0.0.1", self._port))
                except OSError:
                    near.close()  # there is no server just now
                    continue
                self._lines += [near, far]
                asked: list[Exchange] = []
                for pump in (self._ask, self._answer):
                    threading.Thread(target=pump, args=(near, far, asked), daemon=True).start()

    def _ask(self, near: socket.socket, far: socket.socket, asked: list[Exchange]) -> None:
        with contextlib.suppress(OSError):
            while data := near.recv(_CHUNK_BYTES):
                found = _REQUEST.match(
                    data
                )  # browsers send no request before they have the answer to the last
                if found:
                    asked.append(Exchange(found[1].decode(), found[2].decode(), data))
                    self.exchanges.append(asked[-1])
                far.sendall(data)
        with contextlib.suppress(OSError):
            far.shutdown(socket.SHUT_WR)

    def _answer(self, near: socket.socket, far: socket.socket, asked: list[Exchange]) -> None:
        with contextlib.suppress(OSError):
            while data := far.recv(_CHUNK_BYTES):
                asked[-1].answer += data
                near.sendall(data)
        with contextlib.suppress(OSError):
            near.shutdown(socket.SHUT_RDWR)


@contextmanager
def tapped(port: int) -> Iterator[Tap]:
    """Tap the line to the server on ``port``."""
    tap = Tap(port)
    try:
        yield tap
    finally:
        tap.close()
