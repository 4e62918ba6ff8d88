"""Ink: what coaches draw over the court. It stays with the step it was drawn on, apart from what is played.

Three kinds of message: what is being drawn (``begin``, ``more``, ``drop``) is only told on; what has been
drawn, rubbed out or brought back (``put``, ``rub``, ``back``) is stored, answered and then told on; and with
``show`` a screen asks for all ink of the chain it is shown. A stroke is known by the id its sender gave it,
so what is sent twice is there once.
"""

from __future__ import annotations

import json
import threading
import time
from collections import OrderedDict
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import accumulate
from typing import Any, Final

from sqlalchemy import delete, func, select, text, update
from sqlalchemy.orm import Session

from webapp.boards.boards import Boards
from webapp.chains.state import BoardState
from webapp.live.connection import Connection
from webapp.live.frames import text_frame
from webapp.live.relay import Relay
from webapp.plays.playbook import bring, own, tree
from webapp.store.database import Store
from webapp.store.tables import Board, Chain, Ink, Node
from webapp.wire.refusals import Refused
from webapp.wire.schemas import FAR_CM

#: Strokes of one step, and of one chain, its branches together.
STEP_MAX: Final = 300
CHAIN_MAX: Final = 1000
_KEPT: Final = 64

#: The order strokes were stored in.
DRAWN: Final = text("ink.rowid")

#: Asked within the transaction; raises if the coach may not (any more).
Allowed = Callable[[Session], None]


@dataclass(frozen=True, slots=True)
class Drawn:
    """A stroke. ``points``: x and y in centimetres of the floor, as on the wire, and pressure from 0 to 1."""

    tool: int
    colour: int
    points: tuple[tuple[float, float, float], ...]


def points_of(numbers: Sequence[int]) -> tuple[tuple[float, float, float], ...]:
    """Return the points that ``numbers`` stand for: the first as it is, each other after the one before."""
    x, y, pressure = (accumulate(numbers[axis::3]) for axis in range(3))
    return tuple((float(a), float(b), c / 100) for a, b, c in zip(x, y, pressure, strict=True))


def on_paper(session: Session, nodes: Iterable[int]) -> dict[int, tuple[Drawn, ...]]:
    """Return the strokes drawn after each of ``nodes``, in the order they were drawn."""
    rows = select(Ink).where(Ink.node_id.in_(list(nodes)), Ink.gone.is_(False)).order_by(DRAWN)
    found: dict[int, tuple[Drawn, ...]] = {}
    for row in session.scalars(rows):
        stroke = Drawn(row.tool, row.colour, points_of(json.loads(row.points)))
        found[row.node_id] = (*found.get(row.node_id, ()), stroke)
    return found


class Inks:
    """The ink of the boards in use."""

    def __init__(self, store: Store, relay: Relay, boards: Boards) -> None:
        self._store, self._relay, self._boards = store, relay, boards
        self._lock = threading.Lock()
        #: What a screen is shown of a chain, by its id; forgotten with every change of its ink.
        self._kept: OrderedDict[str, bytes] = OrderedDict()
        #: The stroke each screen is drawing, and on which chain.
        self._wet: dict[Connection, str] = {}

    def hear(self, connection: Connection, message: Mapping[str, Any], allowed: Allowed) -> None:
        """Do what one message asks. What cannot be done is answered as such and never changes the board."""
        if message["do"] == "show":
            self._show(connection)
        elif message["do"] in ("begin", "more", "drop"):
            self._growing(connection, message)
        else:
            self._change(connection, message, allowed)

    def left(self, connection: Connection) -> None:
        """Take back what a screen that has gone was in the middle of drawing."""
        stroke = self._wet.pop(connection, None)
        if stroke is not None:
            self._tell(connection, {"do": "drop", "s": stroke})

    def brought(self, team_id: str) -> None:
        """Show every screen of a team's boards its ink anew: more of it has come in than was drawn here."""
        with self._store.read() as session:
            boards = list(session.scalars(select(Board.id).where(Board.team_id == team_id)))
        for board_id in boards:
            with self._boards.held(board_id):
                with self._lock:
                    self._kept.clear()
                for screen in self._relay.screens(board_id):
                    self._show(screen)

    def _show(self, connection: Connection) -> None:
        with self._boards.held(connection.board_id):
            chain = self._boards.standing(connection.board_id).chain.id
            with self._lock:
                known = self._kept.get(chain)
            if known is None:
                with self._store.read() as session:
                    known = text_frame(_dump({"t": "inks", "chain": chain, "pages": _pages(session, chain)}))
                with self._lock:
                    self._kept[chain] = known
                    while len(self._kept) > _KEPT:
                        self._kept.popitem(last=False)
            connection.post(known)

    def _growing(self, connection: Connection, message: Mapping[str, Any]) -> None:
        if message["do"] == "begin":
            self.left(connection)
            if message["chain"] != self._boards.standing(connection.board_id).chain.id:
                return  # not on show here yet; it is told of once it is
            self._wet[connection] = message["s"]
        elif self._wet.get(connection) != message["s"]:
            return
        if message["do"] == "drop":
            self.left(connection)
        else:
            self._tell(connection, message)

    def _change(self, connection: Connection, message: Mapping[str, Any], allowed: Allowed) -> None:
        board_id, chain = connection.board_id, message["chain"]
        with self._boards.held(board_id):
            standing = self._boards.standing(board_id)
            try:
                with self._store.write() as session:
                    allowed(session)
                    node = _node(session, standing, message)
                    if message["do"] == "put":
                        _put(session, node, chain, message)
                    else:
                        _set_gone(session, node, message["ss"], gone=message["do"] == "rub")
                        if message["do"] == "back" and _live(session, chain) > CHAIN_MAX:
                            raise Refused("full_ink")
            except Refused as refusal:
                if refusal.code == "gone_key":
                    raise
                self.left(connection)
                connection.say(_dump({"t": "inked", "k": message["k"], "message": str(refusal)}))
                return
            with self._lock:
                self._kept.pop(chain, None)
            connection.say(_dump({"t": "inked", "k": message["k"]}))
            if self._wet.get(connection) == message.get("s"):
                self._wet.pop(connection, None)
            if chain == standing.chain.id:
                self._tell(connection, {name: message[name] for name in message if name not in _OWN})

    def _tell(self, connection: Connection, message: Mapping[str, Any]) -> None:
        """Tell all other screens of the board."""
        frame = text_frame(_dump({**message, "t": "ink"}))
        for screen in self._relay.screens(connection.board_id):
            if screen is not connection:
                screen.post(frame)


#: What of a message is between the server and its sender.
_OWN: Final = ("k", "formation", "rules")


def _node(session: Session, standing: BoardState, message: Mapping[str, Any]) -> int:
    """Return the step that a message is about, stored if it was played where there was no server."""
    line = [tuple(actions) for actions in message["line"]]
    if message["chain"] == standing.chain.id:
        played = (*standing.steps, *standing.ahead)[: len(line)]
        if [step.actions for step in played] == line:
            return played[-1].node if played else standing.root
    chain = session.get(Chain, message["chain"])
    if chain is not None:
        node: int | None = own(session, standing.card.team_id, chain.id).root_id
        for actions in line:
            if node is not None:
                after = select(Node.id).where(Node.parent_id == node, Node.actions == " ".join(actions))
                node = session.scalar(after)
        if node is not None:
            return node
    if message["do"] != "put":
        raise Refused("no_ink")
    refs = (message["formation"], message["rules"])
    brought = bring(
        session, standing.card.team_id, standing.card.id, message["chain"], *refs, message["line"]
    )
    if brought.legal < len(line):
        raise Refused("no_ink")
    return brought.nodes[-1] if brought.nodes else brought.root


def _put(session: Session, node: int, chain: str, message: Mapping[str, Any]) -> None:
    if session.get(Ink, (node, message["s"])) is not None:
        return
    if any(max(abs(x), abs(y)) > FAR_CM or not 0 <= f <= 1 for x, y, f in points_of(message["p"])):
        raise Refused("off_ink")
    count = select(func.count()).select_from(Ink)
    if (session.scalar(count.where(Ink.node_id == node)) or 0) >= STEP_MAX:
        # Rubbed out long since, so nobody brings it back any more.
        session.execute(delete(Ink).where(Ink.node_id == node, Ink.gone.is_(True)))
    here = session.scalar(count.where(Ink.node_id == node)) or 0
    if here >= STEP_MAX or _live(session, chain) >= CHAIN_MAX:
        raise Refused("full_ink")
    given = {"tool": message["tool"], "colour": message["colour"], "points": _dump(message["p"])}
    session.add(Ink(node_id=node, id=message["s"], chain_id=chain, made=int(time.time()), **given))


def _live(session: Session, chain: str) -> int:
    mine = select(func.count()).select_from(Ink).where(Ink.chain_id == chain, Ink.gone.is_(False))
    return session.scalar(mine) or 0


def _set_gone(session: Session, node: int, strokes: Sequence[str], *, gone: bool) -> None:
    session.execute(update(Ink).where(Ink.node_id == node, Ink.id.in_(strokes)).values(gone=gone))


def _pages(session: Session, chain_id: str) -> list[dict[str, Any]]:
    """Return all ink of a chain as it is shown: by lines, each stroke as id, tool, colour, points."""
    chain = session.get(Chain, chain_id)
    rows = select(Ink).where(Ink.chain_id == chain_id, Ink.gone.is_(False)).order_by(DRAWN)
    found: dict[int, list[str]] = {}
    for row in session.scalars(rows):
        head = _dump([row.id, row.tool, row.colour])[:-1]
        found.setdefault(row.node_id, []).append(f"{head},{row.points}]")
    if chain is None or not found:
        return []
    lines: dict[int, list[list[str]]] = {}
    for branch in tree(session, [chain.root_id])[chain.root_id]:
        before = [] if branch.parent is None else lines[branch.parent]
        lines[branch.id] = before if branch.parent is None else [*before, branch.actions.split()]
    return [
        {"line": lines[node], "strokes": [json.loads(stroke) for stroke in strokes]}
        for node, strokes in found.items()
        if node in lines
    ]


def _dump(value: Any) -> str:
    return json.dumps(value, separators=(",", ":"), ensure_ascii=False)
