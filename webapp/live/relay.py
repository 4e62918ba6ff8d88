"""Who is on which board, and the one way from a board to its screens."""

from __future__ import annotations

import json
import threading
import time
from collections.abc import Collection
from typing import Final

from webapp.live.connection import POLICY, RESTART, Connection, Role
from webapp.live.frames import text_frame

#: How long all goodbyes together may take when the server stops.
_GOODBYES_S: Final = 0.7


class Relay:
    """The live screens of this server. Nothing here waits for a screen."""

    def __init__(self, viewers_max_count: int, coaches_max_count: int, viewers_interval_s: float) -> None:
        self._most: Final[dict[Role, int]] = {"viewer": viewers_max_count, "coach": coaches_max_count}
        self._interval_s = viewers_interval_s
        self._lock = threading.Lock()
        self._left = threading.Condition(self._lock)
        self._admitted: set[Connection] = set()
        self._rooms: dict[str, set[Connection]] = {}
        self._counted: dict[str, float] = {}
        self._counting: set[str] = set()
        self._stopping = False

    @property
    def stopping(self) -> bool:
        """Whether the server is stopping."""
        return self._stopping

    def admit(self, connection: Connection) -> bool:
        """Take ``connection`` in if there is a place for its role; it must :meth:`leave` in the end."""
        with self._lock:
            taken = sum(c.role == connection.role for c in self._admitted)
            if self._stopping or taken >= self._most[connection.role]:
                return False
            self._admitted.add(connection)
            return True

    def enter(self, connection: Connection) -> None:
        """Let an admitted connection hear its board from now on."""
        with self._lock:
            room = self._rooms.setdefault(connection.board_id, set())
            new = connection in self._admitted and connection not in room
            if new:
                room.add(connection)
        if new and connection.role == "viewer":
            self._count_changed(connection.board_id)

    def leave(self, connection: Connection) -> None:
        """Forget ``connection``."""
        with self._lock:
            self._admitted.discard(connection)
            self._left.notify_all()
            room = self._rooms.get(connection.board_id, set())
            was_there = connection in room
            room.discard(connection)
            if not room:
                self._rooms.pop(connection.board_id, None)
        if was_there and connection.role == "viewer":
            self._count_changed(connection.board_id)

    def broadcast(self, board_id: str, frame: bytes, role: Role | None = None) -> None:
        """Post ``frame`` to every screen on the board, or to those of one role."""
        for connection in self.screens(board_id):
            if role is None or connection.role == role:
                connection.post(frame)

    def screens(self, board_id: str) -> tuple[Connection, ...]:
        """Return the screens that hear the board, the coaches' first, as they wait for an answer."""
        with self._lock:
            return tuple(sorted(self._rooms.get(board_id, ()), key=lambda c: c.role))

    def viewers(self, board_id: str) -> int:
        """Return how many phones follow the board."""
        return sum(connection.role == "viewer" for connection in self.screens(board_id))

    def revoke(self, credentials: Collection[str], goodbye: str) -> int:
        """Close every screen opened with one of ``credentials`` with a last message; return how many."""
        with self._lock:
            hit = [c for c in self._admitted if c.credential in credentials]
        for connection in hit:
            connection.finish(goodbye, POLICY)
            self.leave(connection)
        return len(hit)

    def close_all(self) -> None:
        """Close every screen because the server stops; they come back by themselves. Returns when all have
        gone, cutting the line to those that do not take their goodbye.
        """
        with self._lock:
            self._stopping = True
            everyone = list(self._admitted)
        for connection in everyone:
            connection.finish(None, RESTART)
        with self._left:
            self._left.wait_for(lambda: not self._admitted, _GOODBYES_S)
            stuck = list(self._admitted)
        for connection in stuck:
            connection.hang_up()

    def _count_changed(self, board_id: str) -> None:
        """Tell the coaches the number of viewers: at once, or when the interval since the last is over."""
        with self._lock:
            if board_id in self._counting or self._stopping:
                return
            wait_s = self._counted.get(board_id, -self._interval_s) + self._interval_s - time.monotonic()
            self._counting.add(board_id)
        if wait_s <= 0:
            self._send_count(board_id)
        else:
            timer = threading.Timer(wait_s, self._send_count, (board_id,))
            timer.daemon = True
            timer.start()

    def _send_count(self, board_id: str) -> None:
        with self._lock:
            self._counting.discard(board_id)
            if board_id in self._rooms:
                self._counted[board_id] = time.monotonic()
            else:
                self._counted.pop(board_id, None)
        frame = text_frame(json.dumps({"t": "viewers", "n": self.viewers(board_id)}))
        self.broadcast(board_id, frame, "coach")
