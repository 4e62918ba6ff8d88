"""From the coach's act to the last of many viewers having it, beside a bare ``websockets`` broadcast.

Both servers are processes of their own; the same lean client stands at both, its viewers in one loop. Ours
checks the act, stores it safely on the disk and works out who runs where before it tells anybody; the
yardstick passes on a message of the same length that it has been handed. Rounds are played at both in turn.
"""

from __future__ import annotations

import asyncio
import json
import statistics
import subprocess
import sys
import time
from collections.abc import Callable
from contextlib import AsyncExitStack

from tests.benchmarks.lean_client import LeanClient, connect, new_id
from tests.benchmarks.parts import running_server, told
from tests.server import ROOT, LiveServer
from tests.webapp.screens import Device, viewing_path

VIEWERS = (50, 200, 500)
ROUNDS = 25
PATIENCE_S = 30.0
HELLO = json.dumps({"t": "hello", "v": 1, "seen": None}).encode()


class Crowd:
    """Viewers, counted as a marked message reaches them."""

    def __init__(self, size: int) -> None:
        self.size = size
        self._mark, self._had = b"-", 0
        self._all = asyncio.Event()
        self.last = 0.0
        self.bytes = 0

    def heard(self, message: bytes) -> None:
        if self._mark in message:
            self.bytes = len(message)
            self._had += 1
            if self._had == self.size:
                self.last = time.perf_counter()
                self._all.set()

    async def time(self, mark: bytes, act: Callable[[], None]) -> float:
        """Do ``act`` and return how long it takes until every viewer has a message with ``mark``, seconds."""
        self._mark, self._had = mark, 0
        self._all.clear()
        begin = time.perf_counter()
        act()
        await asyncio.wait_for(self._all.wait(), PATIENCE_S)
        return self.last - begin


async def gather(crowd: Crowd, host: str, path: str, stack: AsyncExitStack) -> None:
    """Let all viewers of a crowd in, a few at a time."""
    for count in range(crowd.size):
        viewer = await connect(host, path, "", crowd.heard)
        stack.callback(viewer.transport.abort)
        if path != "/":
            viewer.send(HELLO)
        if count % 20 == 0:
            await asyncio.sleep(0)


class Coach:
    """A coach who plays a pass as the chain's first action, again and again."""

    def __init__(self, device: Device) -> None:
        self._device = device
        self._seq = -1
        self._offered = asyncio.Event()

    async def connect(self, stack: AsyncExitStack) -> None:
        """Open the board."""
        cookie = "; ".join(f"{k}={v}" for k, v in self._device.cookies.items())
        path = f"/live/board/{self._device.board_id}"
        self._line: LeanClient = await connect(self._device.server.host, path, cookie, self._heard)
        stack.callback(self._line.transport.abort)
        self._line.send(HELLO)
        await self.ready()

    async def ready(self) -> None:
        """Wait until the server has said what can be played next, as a coach does."""
        await asyncio.wait_for(self._offered.wait(), PATIENCE_S)

    def act(self, mark: str) -> None:
        """Play; ``mark`` is the message's id."""
        self._offered.clear()
        act = {"t": "act", "id": mark, "base": self._seq, "at": 0, "a": ["pass:right_wing"]}
        self._line.send(json.dumps(act).encode())

    def _heard(self, message: bytes) -> None:
        said = json.loads(message)
        if said["t"] == "refused":
            raise SystemExit(said["message"])
        if said["t"] in ("state", "step"):
            self._seq = said["seq"]
        if said["t"] == "offers":
            self._offered.set()


async def side_by_side(server: LiveServer, bare_host: str, size: int) -> tuple[list[float], list[float]]:
    """Return the times of all rounds with ``size`` viewers: ours, and the yardstick's."""
    device = Device(server)
    device.make_team()
    async with AsyncExitStack() as stack:
        ours, bare = Crowd(size), Crowd(size)
        await gather(ours, server.host, viewing_path(device.share()), stack)
        await gather(bare, bare_host, "/", stack)
        coach = Coach(device)
        await coach.connect(stack)
        driver = await connect(bare_host, "/", "", lambda _message: None)
        stack.callback(driver.transport.abort)
        times: tuple[list[float], list[float]] = ([], [])
        for count in range(ROUNDS + 3):
            mark = new_id()
            taken = await ours.time(mark.encode(), lambda mark=mark: coach.act(mark))
            await coach.ready()
            mark = new_id()
            message = mark.encode().ljust(ours.bytes, b".")
            taken_bare = await bare.time(mark.encode(), lambda message=message: driver.send(message))
            if count >= 3:  # the first few warm both up
                times[0].append(taken)
                times[1].append(taken_bare)
        return times


def main() -> None:
    """Print the times and their ratios, one line a number of viewers."""
    command = [sys.executable, "-m", "tests.benchmarks.yardstick"]
    with (
        running_server("--viewers", str(max(VIEWERS) + 20)) as server,
        subprocess.Popen(command, cwd=ROOT, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as bare,
    ):
        assert bare.stdout is not None
        bare_host = f"127.0.0.1:{bare.stdout.readline().strip()}"
        print("coach's act to the last viewer, beside a bare websockets broadcast (= 1.00)")
        for size in VIEWERS:
            ours, yardstick = asyncio.run(side_by_side(server, bare_host, size))
            ratio = statistics.median(ours) / statistics.median(yardstick)
            print(f"  {size} viewers: {ratio:.2f}  (ours {told(ours)}; bare {told(yardstick)})")


if __name__ == "__main__":
    main()
