"""A line with delay: every byte, either way, arrives so much later than it was sent."""

from __future__ import annotations

import asyncio
import threading
from collections.abc import Iterator
from contextlib import contextmanager

_CHUNK_BYTES = 65536


@contextmanager
def slow_line(port: int, delay_s: float) -> Iterator[str]:
    """Listen on a free port and carry everything to ``port`` and back, ``delay_s`` late each way.

    Yields the address (host and port) to use instead.
    """
    loop, ready, addresses = asyncio.new_event_loop(), threading.Event(), []
    stop = asyncio.Event()
    lines: list[asyncio.StreamWriter] = []

    async def carry() -> None:
        async def accept(reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
            there, back = await asyncio.open_connection("127.0.0.1", port)
            lines.extend((writer, back))
            await asyncio.gather(_pump(reader, back, delay_s), _pump(there, writer, delay_s))

        server = await asyncio.start_server(accept, "127.0.0.1", 0)
        addresses.append("127.0.0.1:{1}".format(*server.sockets[0].getsockname()))
        ready.set()
        await stop.wait()
        server.close()
        for line in lines:
            line.transport.abort()
        await asyncio.gather(*(asyncio.all_tasks() - {asyncio.current_task()}), return_exceptions=True)

    thread = threading.Thread(target=loop.run_until_complete, args=(carry(),), daemon=True)
    thread.start()
    ready.wait()
    yield addresses[0]
    loop.call_soon_threadsafe(stop.set)
    thread.join()


async def _pump(reader: asyncio.StreamReader, writer: asyncio.StreamWriter, delay_s: float) -> None:
    """Carry one direction. Bytes wait for their time without holding up those that are read after them."""
    waiting: asyncio.Queue[tuple[float, bytes]] = asyncio.Queue()
    clock = asyncio.get_running_loop().time

    async def read() -> None:
        data = b"-"
        while data:
            try:
                data = await reader.read(_CHUNK_BYTES)
            except ConnectionError:
                data = b""
            await waiting.put((clock() + delay_s, data))

    reading = asyncio.create_task(read())
    try:
        while True:
            due, data = await waiting.get()
            await asyncio.sleep(due - clock())
            if not data:
                break
            writer.write(data)
            await writer.drain()
    except ConnectionError:
        pass
    finally:
        reading.cancel()
        writer.close()
