"""A live socket with nothing around it: it answers pings and hands over every text that comes."""

from __future__ import annotations

import asyncio
import os
from collections.abc import Callable

_TEXT, _PING, _PONG = 0x1, 0x9, 0xA


def frame(opcode: int, payload: bytes) -> bytes:
    """Return a client's frame (RFC 6455, section 5.2); a mask of zeros changes nothing."""
    size = len(payload)
    if size < 126:
        length = bytes((0x80 | size,))
    elif size < 65536:
        length = bytes((0x80 | 126,)) + size.to_bytes(2, "big")
    else:
        length = bytes((0x80 | 127,)) + size.to_bytes(8, "big")
    return bytes((0x80 | opcode,)) + length + bytes(4) + payload


class LeanClient(asyncio.Protocol):
    """``heard(message)`` is called with the bytes of every text that comes."""

    def __init__(self, host: str, path: str, cookie: str, heard: Callable[[bytes], None]) -> None:
        self._heard = heard
        self._buffer = bytearray()
        self._open = False
        self.ready = asyncio.get_running_loop().create_future()
        self._request = (
            f"GET {path} HTTP/1.1\r\nHost: {host}\r\nOrigin: http://{host}\r\nUpgrade: websocket\r\n"
            f"Connection: Upgrade\r\nSec-WebSocket-Key: {'A' * 22}==\r\nSec-WebSocket-Version: 13\r\n"
            f"Cookie: {cookie}\r\n\r\n"
        )

    def connection_made(self, transport: asyncio.BaseTransport) -> None:
        assert isinstance(transport, asyncio.Transport)
        self.transport = transport
        transport.write(self._request.encode())

    def send(self, text: bytes) -> None:
        """Send a text."""
        self.transport.write(frame(_TEXT, text))

    def data_received(self, data: bytes) -> None:
        self._buffer += data
        if not self._open:
            end = self._buffer.find(b"\r\n\r\n")
            if end < 0:
                return
            assert self._buffer.startswith(b"HTTP/1.1 101"), bytes(self._buffer[:end])
            del self._buffer[: end + 4]
            self._open = True
            self.ready.set_result(None)
        while self._take():
            pass

    def _take(self) -> bool:
        buffer = self._buffer
        if len(buffer) < 2:
            return False
        size, start = buffer[1], 2
        if size == 126:
            size, start = int.from_bytes(buffer[2:4], "big"), 4
        elif size == 127:
            size, start = int.from_bytes(buffer[2:10], "big"), 10
        if len(buffer) < start + size:
            return False
        opcode, payload = buffer[0] & 0xF, bytes(buffer[start : start + size])
        del buffer[: start + size]
        if opcode == _PING:
            self.transport.write(frame(_PONG, payload))
        elif opcode == _TEXT:
            self._heard(payload)
        return True


async def connect(host: str, path: str, cookie: str, heard: Callable[[bytes], None]) -> LeanClient:
    """Open a socket at ``host`` (with its port), and return it once it is open."""
    address, _, port = host.partition(":")
    _, client = await asyncio.get_running_loop().create_connection(
        lambda: LeanClient(host, path, cookie, heard), address, int(port)
    )
    await client.ready
    return client


def new_id() -> str:
    """Return a mark that is in no message yet."""
    return os.urandom(8).hex()
