"""What the server's store holds of a board in the end, read as a server reads it that is started anew."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

from sqlalchemy import create_engine, select
from sqlalchemy.orm import Session

from e2e.fuzz.model import Line, Model
from webapp.chains import history
from webapp.chains.state import BoardState
from webapp.store.tables import Chain, Change, Node

#: Its file, in a server's folder.
DATABASE = "quintet.sqlite3"


def follow(path: Path) -> None:
    """Take the data over from the server that runs, as another one does when it starts."""
    with closing(sqlite3.connect(path, timeout=30)) as connection, connection:
        connection.execute("UPDATE server_lock SET generation = generation + 1")


def holds(path: Path, board_id: str, model: Model) -> BoardState:
    """Hold the store to everything that was done and seen, and return where the board stands."""
    engine = create_engine(f"sqlite:///{path}")
    try:
        with Session(engine) as session:
            return _holds(session, board_id, model)
    finally:
        engine.dispose()


def _holds(session: Session, board_id: str, model: Model) -> BoardState:
    nodes = {node.id: node for node in session.scalars(select(Node).where(Node.board_id == board_id))}
    lines: dict[int, tuple[int, Line]] = {}
    for node_id in sorted(nodes):  # parents first
        node = nodes[node_id]
        root, line = (node_id, ()) if node.parent_id is None else lines[node.parent_id]
        lines[node_id] = root, line if node.parent_id is None else (*line, tuple(node.actions.split()))
    assert len(set(lines.values())) == len(lines), "a step is in the tree twice"
    chains = {chain.root_id: chain.id for chain in session.scalars(select(Chain))}
    there = {(chains[root], line) for root, line in lines.values()}

    changes = session.scalars(select(Change).where(Change.board_id == board_id).order_by(Change.seq)).all()
    assert [change.seq for change in changes] == list(range(1, len(changes) + 1))
    assert len({change.message_id for change in changes}) == len(changes)
    for change in changes:
        root, line = lines[change.node_id]
        did = model.done.get(change.message_id)
        if did is not None and did.line is None:
            continue
        if did is None:  # a setting, sent once more on the board as somebody else had left it
            assert change.kind == "setup", f"nobody did change {change.seq}: {change.kind}, {line}"
            assert change.node_id == changes[change.seq - 2].node_id
            continue
        there_now = (chains[root] if did.chain else "", line)
        assert (did.chain, did.line) == there_now, f"change {change.seq} is not what {did} was"
        if change.seq in model.at:
            shown = model.at[change.seq][0]
            assert shown == line, f"after change {change.seq} {shown} was shown, not {line}"
    stored = {change.message_id for change in changes}
    for message_id, did in model.done.items():
        if (
            did.kind in ("act", "hand", "recover")
            and did.line is not None
            and (did.safe or message_id in stored)
        ):
            assert (did.chain, did.line) in there, f"lost: {did}"
    standing = history.load(session, board_id)
    assert standing.seq == len(changes)
    return standing
