"""The yardstick of the fan-out: ``websockets`` and nothing else. What comes in goes out to everybody else.

Run as a process of its own; prints the port it listens on and serves until its standard input is closed.
"""

from __future__ import annotations

import asyncio
import sys
from contextlib import suppress

from websockets.asyncio.server import ServerConnection, broadcast, serve
from websockets.exceptions import ConnectionClosed


async def main() -> None:
    """Serve until nobody listens any more."""
    everybody: set[ServerConnection] = set()

    async def handle(connection: ServerConnection) -> None:
        everybody.add(connection)
        with suppress(ConnectionClosed):
            async for message in connection:
                broadcast(everybody, message)
        everybody.discard(connection)

    # No compression, as our own server agrees to none; as many may wait to get in.
    async with serve(handle, "127.0.0.1", 0, compression=None, backlog=1024) as server:
        print(server.sockets[0].getsockname()[1], flush=True)
        await asyncio.get_running_loop().run_in_executor(None, sys.stdin.read)


if __name__ == "__main__":
    asyncio.run(main())
