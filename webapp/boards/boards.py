"""The boards in use: each change checked, stored, and only then told to everybody on the board."""

from __future__ import annotations

import json
import threading
from collections import OrderedDict
from collections.abc import Callable, Mapping
from contextlib import AbstractContextManager
from dataclasses import dataclass, replace
from typing import Any, Final
from weakref import WeakValueDictionary

from sqlalchemy import select
from sqlalchemy.orm import Session

from webapp.boards import messages
from webapp.boards.changes import CHANGES
from webapp.chains import history, setup
from webapp.chains.earlier import with_earlier
from webapp.chains.state import BoardState, replay
from webapp.live.connection import Connection, Role
from webapp.live.frames import text_frame
from webapp.live.relay import Relay
from webapp.plays import playbook
from webapp.plays.playbook import ChainWithLine, bring
from webapp.store.database import Store
from webapp.store.tables import Board, Node
from webapp.wire.refusals import Refused

_KEPT: Final = 128


@dataclass(frozen=True, slots=True)
class Limits:
    """``chain``: steps in one chain. ``viewer_steps``: steps a phone is given when it joins."""

    chain: int
    viewer_steps: int


class Boards:
    """Where the boards stand, kept in memory and worked out from the store when they are not.

    Each board has a lock: changes of it, and screens that begin to hear it, come one after the other.
    """

    def __init__(self, store: Store, relay: Relay, limits: Limits) -> None:
        self._store, self._relay, self._limits = store, relay, limits
        self._locks: dict[str, threading.RLock] = {}
        self._kept: OrderedDict[str, BoardState] = OrderedDict()
        self._lock = threading.Lock()
        #: The screen that changed a board last.
        self._led: WeakValueDictionary[str, Connection] = WeakValueDictionary()

    def standing(self, board_id: str) -> BoardState:
        """Return where the board stands. Raises ``Refused`` (``no_board``)."""
        with self._of(board_id):
            with self._lock:
                known = self._kept.get(board_id)
                if known is not None:
                    self._kept.move_to_end(board_id)
                    return known
            with self._store.read() as session:
                loaded = history.load(session, board_id)
                return self._keep(with_earlier(session, loaded))

    def held(self, board_id: str) -> AbstractContextManager[Any]:
        """Return what keeps the board as it stands: no change of it, and no screen that begins to hear it."""
        return self._of(board_id)

    def greet(self, connection: Connection) -> None:
        """Give a screen the whole board; from then on it hears every change, and misses none."""
        with self._of(connection.board_id):
            standing = self.standing(connection.board_id)
            self._relay.enter(connection)
            connection.say(self._state(standing, connection.role, None))
            connection.sent_seq = standing.seq
        if connection.role == "coach":
            self._offer(standing, connection)

    def seen(self, board_id: str) -> str:
        """Return the whole board as a phone is told it. Raises ``Refused`` (``no_board``)."""
        return self._state(self.standing(board_id), "viewer", None)

    def catch_up(self, connection: Connection) -> None:
        """Give a screen that was behind the whole board, unless it has been given it as it stands already.

        What a screen had sent in a row after losing touch is all refused; one answer is enough.
        """
        if connection.sent_seq != self.standing(connection.board_id).seq:
            self.greet(connection)

    def look(self, connection: Connection, at: int) -> None:
        """Tell one screen what could be tapped after ``at`` steps; change nothing. Raises ``Refused``.

        Should the board move on meanwhile, the answer's ``seq`` says that it is about an older chain.
        """
        standing = self.standing(connection.board_id)
        if at > len(standing.steps):
            raise Refused("at", steps=len(standing.steps))
        connection.say(messages.look(standing, at))

    def show(self, connection: Connection, message: Mapping[str, Any]) -> None:
        """Tell the phones where in the chain a coach is looking; nothing is stored and nothing answered.

        Of several coaches it is the one who changed the board last: another who looks something up drags
        nobody along. What is said of a chain that has changed meanwhile is left aside.
        """
        board_id = connection.board_id
        screens = self._relay.screens(board_id)
        alone = sum(screen.role == "coach" for screen in screens) == 1
        if message["seq"] == self.standing(board_id).seq and (alone or self._led.get(board_id) is connection):
            self._relay.broadcast(board_id, text_frame(json.dumps(message)), "viewer")

    def change(
        self,
        connection: Connection,
        message: Mapping[str, Any],
        allowed: Callable[[Session], None],
    ) -> None:
        """Do what a coach's ``message`` asks, store it, then tell the board.

        ``allowed`` is asked within the same transaction and raises if the coach may not (any more). A message
        that was done before is answered again. Raises ``Refused``; after ``stale`` the screen has been given
        the board as it stands.
        """
        board_id = connection.board_id
        with self._of(board_id):
            standing = self.standing(board_id)
            try:
                with self._store.write() as session:
                    allowed(session)
                    done = history.find_change(session, board_id, message["id"])
                    if done is None and _follows(message, standing):
                        changed = self._next(session, standing, message)
                        history.record(session, changed, connection.credential)
                        if changed.root != standing.root:
                            changed = with_earlier(session, changed)
            except Refused:
                raise
            except Exception:
                self._forget(board_id)  # whether it was stored is unknown now; the store is asked again
                raise
            if done is not None:
                self._answer_again(connection, standing, message["id"])
                return
            if not _follows(message, standing):
                raise Refused("stale")
            self._keep(changed)
            self._led[board_id] = connection
            self._tell(changed)
        self._offer(changed, None)

    def keep(
        self, connection: Connection, message: Mapping[str, Any], allowed: Callable[[Session], None]
    ) -> None:
        """Store the line in ``message`` beside what is played, without moving the board. Raises ``Refused``.

        Done twice, it is there once. Every coach's screen is told of the new way.
        """
        board_id = connection.board_id
        standing = self.standing(board_id)
        with self._store.write() as session:
            allowed(session)
            brought = self._bring(session, standing, message)
            legal, why = brought.legal, brought.why
        connection.say(messages.kept(message["id"], legal, len(message["line"]), why))
        self._offer(self.standing(board_id), None)

    def _bring(self, session: Session, standing: BoardState, message: Mapping[str, Any]) -> ChainWithLine:
        named = (message["chain"], message["formation"], message["rules"], message["line"])
        return bring(session, standing.card.team_id, standing.card.id, *named, self._limits.chain)

    def _open(self, session: Session, standing: BoardState, message: Mapping[str, Any]) -> BoardState:
        brought = self._bring(session, standing, message)
        root = session.get_one(Node, brought.root)
        card = setup.played_by(session, standing.card, str(root.formation), str(root.rules))
        line = zip(brought.nodes, map(tuple, message["line"]), strict=False)
        steps = replay(card.shape, card.rules, line)
        opened = replace(standing, card=card, root=brought.root, chain=history.tag_of(session, brought.root))
        depth = min(message["depth"], len(steps))
        return replace(opened, steps=steps[:depth], ahead=steps[depth:])

    def team_changed(self, team_id: str) -> None:
        """Let every board of a team take in what has just been stored of its squad and its calls."""
        with self._store.read() as session:
            ids = list(session.scalars(select(Board.id).where(Board.team_id == team_id)))
        for board_id in ids:
            with self._of(board_id):
                self._forget(board_id)
                if not self._relay.screens(board_id):
                    continue
                standing = self.standing(board_id)
                self._tell_all(standing, None)
            self._offer(standing, None)

    def _next(self, session: Session, standing: BoardState, message: Mapping[str, Any]) -> BoardState:
        kind = message["t"]
        change = self._open if kind == "open" else CHANGES[kind]
        changed = change(session, standing, message)
        if len(changed.steps) > self._limits.chain:
            raise Refused("full_chain", steps=self._limits.chain)
        return history.numbered(changed, message["id"], "crossed" if message.get("undo") else kind)

    def _tell(self, standing: BoardState) -> None:
        text, board_id = messages.changed(standing), standing.card.id
        if text is not None:
            self._relay.broadcast(board_id, text_frame(text))
            return
        assert standing.change is not None
        self._tell_all(standing, standing.change[0])

    def _tell_all(self, standing: BoardState, message_id: str | None) -> None:
        roles: tuple[Role, ...] = ("coach", "viewer")
        for role in roles:
            frame = text_frame(self._state(standing, role, message_id))
            self._relay.broadcast(standing.card.id, frame, role)

    def _answer_again(self, connection: Connection, standing: BoardState, message_id: str) -> None:
        last = standing.change is not None and standing.change[0] == message_id
        text = messages.changed(standing) if last else None
        connection.say(text if text is not None else self._state(standing, connection.role, message_id))
        self._offer(standing, connection)

    def _state(self, standing: BoardState, role: Role, message_id: str | None) -> str:
        viewers = self._relay.viewers(standing.card.id)
        return messages.state(standing, role, viewers, self._limits.viewer_steps, message_id)

    def _offer(self, standing: BoardState, only: Connection | None) -> None:
        """Send what may be tapped, and where the chain branches, to ``only`` or to every coach.

        Nothing is sent if the board has moved on meanwhile. Working it out takes time, so it is done without
        holding the board.
        """
        with self._store.read() as session:
            tree = playbook.tree(session, [standing.root])[standing.root]
        frame = text_frame(messages.offers(standing, tree))
        with self._of(standing.card.id):
            now = self.standing(standing.card.id)
            if (now.seq, now.card) != (standing.seq, standing.card):
                return
            if only is not None:
                only.post(frame)
            else:
                self._relay.broadcast(standing.card.id, frame, "coach")

    def _keep(self, standing: BoardState) -> BoardState:
        with self._lock:
            self._kept[standing.card.id] = standing
            self._kept.move_to_end(standing.card.id)
            while len(self._kept) > _KEPT:
                self._kept.popitem(last=False)
        return standing

    def _forget(self, board_id: str) -> None:
        with self._lock:
            self._kept.pop(board_id, None)

    def _of(self, board_id: str) -> threading.RLock:
        with self._lock:
            return self._locks.setdefault(board_id, threading.RLock())


def _follows(message: Mapping[str, Any], standing: BoardState) -> bool:
    """Whether a message was made on the board as it stands: after so many changes, and after that one."""
    if message["base"] != standing.seq:
        return False
    after, last = message.get("after"), standing.change
    return after is None or (last is not None and after == last[0])
