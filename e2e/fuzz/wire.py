"""A bad line between one device and the server: a forwarder of TCP with a port of its own.

What it does to a line is what networks do: cuts it in the middle of a message, refuses it, keeps it open
and carries nothing, carries it late or in small pieces. It never changes, repeats or reorders what it
carries, but for asking that a line be closed after one request.

The app's own files it gives from the device's side, whatever the line does, as the worker of an installed app
does: a device can be opened without a network.
"""

from __future__ import annotations

import contextlib
import http.client
import socket
import struct
import threading
from dataclasses import dataclass, field
from typing import Literal

Way = Literal["up", "down"]

_CHUNK = 65536
#: With this, closing throws away what is under way and tells the other side so.
_ABRUPT = struct.pack("ii", 1, 0)
_HEAD_MAX = 65536
#: A piece of a slow line, bytes, and the pause after it, seconds.
_PIECE, _PAUSE_S = 700, 0.002


@dataclass(eq=False)
class _Line:
    """One connection: the device's end, and the server's once it is there."""

    near: socket.socket
    far: socket.socket | None = None
    gone: bool = False
    #: Nothing is carried any more, and nobody is told.
    mute: bool = False

    def cut(self) -> None:
        self.gone = True
        for end in (self.near, self.far):
            if end is not None:
                with contextlib.suppress(OSError):
                    end.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, _ABRUPT)
                with contextlib.suppress(OSError):
                    end.shutdown(socket.SHUT_RDWR)  # wakes whoever reads it
                end.close()


@dataclass(eq=False)
class Wire:
    """The line of one device. ``url`` is where that device finds the server. Use it as a context manager."""

    host: str
    port: int
    url: str = ""
    _lines: set[_Line] = field(default_factory=set)
    _shell: dict[str, bytes] = field(default_factory=dict)
    _up: bool = True
    _stalled: bool = False
    _slow: bool = False
    _left: dict[Way, int] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self._changed = threading.Condition()
        self._door = socket.create_server(("127.0.0.1", 0))
        self.url = f"http://127.0.0.1:{self._door.getsockname()[1]}"
        threading.Thread(target=self._accept, daemon=True).start()

    def __enter__(self) -> Wire:
        return self

    def __exit__(self, *_: object) -> None:
        self.cut()
        with contextlib.suppress(OSError):
            self._door.shutdown(socket.SHUT_RDWR)
        self._door.close()

    # ---- what may happen to it

    @property
    def up(self) -> bool:
        """Whether new lines are taken."""
        return self._up

    @property
    def good(self) -> bool:
        """Whether what is sent arrives."""
        return self._up and not self._stalled

    def cut(self) -> None:
        """End every line at once, wherever a message is, and refuse new ones."""
        with self._changed:
            self._up = False
        self.drop()

    def drop(self) -> None:
        """End every line at once; new ones are taken."""
        with self._changed:
            lines, self._lines = self._lines, set()
            self._left.clear()
            self._changed.notify_all()
        for line in lines:
            line.cut()

    def fray(self, way: Way, count: int) -> None:
        """Carry so many more bytes one way, then end every line; new ones are taken."""
        with self._changed:
            self._left[way] = count

    def stall(self) -> None:
        """Carry nothing until :meth:`restore`, without a word to anybody."""
        with self._changed:
            self._stalled = True

    def mute(self) -> None:
        """Carry nothing on the lines there are, ever, without a word to anybody; new ones are good."""
        with self._changed:
            for line in self._lines:
                line.mute = True
            self._changed.notify_all()

    def slow(self) -> None:
        """Carry everything in small pieces."""
        with self._changed:
            self._slow = True

    def restore(self) -> None:
        """Be a good line again; what was held up goes on."""
        with self._changed:
            self._up, self._stalled, self._slow = True, False, False
            self._left.clear()
            self._changed.notify_all()

    # ---- carrying

    def _accept(self) -> None:
        while True:
            try:
                near, _ = self._door.accept()
            except OSError:
                return
            near.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
            threading.Thread(target=self._take, args=(_Line(near),), daemon=True).start()

    def _take(self, line: _Line) -> None:
        """Give what the device has itself; anything else is the beginning of a line to the server."""
        with contextlib.suppress(OSError):
            while head := _head(line.near):
                path = head.split(b" ", 2)[1].decode("latin-1")
                if path == "/join" or path.startswith(("/static/", "/engine/", "/manifest")):
                    line.near.sendall(self._own(path))
                    continue
                # One request a line, so that no later one for the device's own files is sent along it.
                plain = b"\r\nUpgrade: websocket\r\n" not in head
                self._connect(line, head.replace(b": keep-alive\r\n", b": close\r\n", 1) if plain else head)
                return
        line.cut()

    def _connect(self, line: _Line, head: bytes) -> None:
        with self._changed:
            self._lines.add(line)
            while self._stalled and self._up and not line.gone:
                self._changed.wait()
            refused = not self._up or line.gone
        if refused:
            return self._end(line)
        try:
            far = socket.create_connection((self.host, self.port))
        except OSError:
            return self._end(line)
        far.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
        line.far = far
        if line.gone:
            return self._end(line)
        threading.Thread(target=self._carry, args=(line, far, line.near, "down", b""), daemon=True).start()
        self._carry(line, line.near, far, "up", head)

    def _end(self, line: _Line) -> None:
        with self._changed:
            self._lines.discard(line)
        line.cut()

    def _carry(self, line: _Line, source: socket.socket, sink: socket.socket, way: Way, data: bytes) -> None:
        with contextlib.suppress(OSError):
            while data or (data := source.recv(_CHUNK)):
                count = self._allowed(line, way, len(data))
                if line.gone:
                    return
                sink.sendall(data[:count])
                data = data[count:]
                if self._used_up(way, count):
                    self.drop()
                    return
        if not line.mute:
            self._end(line)

    def _allowed(self, line: _Line, way: Way, count: int) -> int:
        """Wait until something may be carried, and return how much of ``count``."""
        with self._changed:
            if self._slow:
                self._changed.wait(_PAUSE_S)
                count = min(count, _PIECE)
            while (self._stalled or line.mute) and not line.gone:
                self._changed.wait()
            return min(count, self._left.get(way, count))

    def _used_up(self, way: Way, count: int) -> bool:
        with self._changed:
            if way not in self._left:
                return False
            self._left[way] -= count
            return self._left[way] <= 0

    def _own(self, path: str) -> bytes:
        """Return an answer that the device keeps, fetched once past the line."""
        if path not in self._shell:
            source = http.client.HTTPConnection(self.host, self.port, timeout=20)
            source.request("GET", path, headers={"Host": self.url.removeprefix("http://")})
            answer = source.getresponse()
            body = answer.read()
            kept = ("Content-Type", "Content-Security-Policy")
            life = "no-store" if path == "/join" else "max-age=86400"
            lines = [f"HTTP/1.1 {answer.status} {answer.reason}", f"Content-Length: {len(body)}"]
            lines += [f"{name}: {answer.headers[name]}" for name in kept if name in answer.headers]
            lines += [f"Cache-Control: {life}", "", ""]
            self._shell[path] = "\r\n".join(lines).encode() + body
            source.close()
        return self._shell[path]


def _head(sock: socket.socket) -> bytes:
    """Return a request's head and what came with it, nothing if the device has closed."""
    found = b""
    while b"\r\n\r\n" not in found and len(found) < _HEAD_MAX:
        data = sock.recv(_CHUNK)
        if not data:
            return b""
        found += data
    return found
