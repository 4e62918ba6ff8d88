"""A team's everything as one document: what is written, in which order.

Left out on purpose: keys, links, codes and recovery sheets, which belong to this server; the list of who
changed what when; and players and lineups that were taken out. The order is fixed and ids stay, so that a
team brought to an empty server and written there gives the same document.
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from typing import Any, Final

from sqlalchemy import select
from sqlalchemy.orm import Session

from webapp.chains.lines_of_play import unplayable
from webapp.plays import playbook
from webapp.plays.playbook import Branch, Ruled
from webapp.store.tables import Board, Chain, Design, DesignVersion, Lineup, Node, Place, Player, Team
from webapp.transfer import inks
from webapp.wire.refusals import Refused
from webapp.wire.schemas import PLACES

FORMAT: Final = "quintet-team"
VERSION: Final = 1

Json = dict[str, Any]


def write(session: Session, team_id: str) -> Json:
    """Return the document of a team."""
    team = session.get_one(Team, team_id)
    players = [_player(row) for row in session.scalars(_live(Player, team_id))]
    known = {player["id"] for player in players}
    return {
        "format": FORMAT,
        "version": VERSION,
        "team": {
            "id": team.id,
            "name": team.name,
            "made": team.made,
            "calls": ordered(json.loads(team.calls)),
            **({"language": team.language} if team.language else {}),
        },
        "players": players,
        "lineups": [_lineup(row, known) for row in session.scalars(_live(Lineup, team_id))],
        "designs": _designs(session, team_id),
        **_boards_and_chains(session, team_id, known),
    }


def text(document: Mapping[str, Any]) -> str:
    """Return a document as text: one line for each thing in its lists."""
    parts = []
    for name, value in document.items():
        lines = ",\n".join(map(_dump, value)) if isinstance(value, list) else ""
        parts.append(f'"{name}": ' + (f"[\n{lines}\n]" if lines else _dump(value)))
    return "{\n" + ",\n".join(parts) + "\n}\n"


def _dump(value: Any) -> str:
    return json.dumps(value, ensure_ascii=False, separators=(", ", ": "))


def ordered(value: Any) -> Any:
    """Return ``value`` with the keys of all its mappings in order."""
    if isinstance(value, dict):
        return {key: ordered(value[key]) for key in sorted(value)}
    return [ordered(item) for item in value] if isinstance(value, list) else value


def _live(table: type[Player] | type[Lineup], team_id: str) -> Any:
    mine = select(table).where(table.team_id == team_id, table.deleted.is_(None))
    return mine.order_by(table.made, table.id)


def _player(row: Player) -> Json:
    return {
        "id": row.id,
        "number": row.number,
        "name": row.name,
        "positions": json.loads(row.positions),
        "hand": row.hand,
        "may": None if row.may is None else json.loads(row.may),
        "lane": json.loads(row.lane),
        "made": row.made,
    }


def _lineup(row: Lineup, players: set[str]) -> Json:
    kept = json.loads(row.places)
    places = {place: who if (who := kept.get(place)) in players else None for place in PLACES}
    return {"id": row.id, "name": row.name, "places": places, "made": row.made}


def _designs(session: Session, team_id: str) -> list[Json]:
    rows = session.scalars(select(Design).where(Design.team_id == team_id).order_by(Design.made, Design.id))
    versions: dict[str, list[Json]] = {}
    mine = select(DesignVersion).join(Design, Design.id == DesignVersion.design_id)
    for row in session.scalars(mine.where(Design.team_id == team_id).order_by(DesignVersion.version)):
        version = {"version": row.version, "made": row.made, "data": ordered(json.loads(row.data))}
        versions.setdefault(row.design_id, []).append(version)
    return [
        {
            "id": row.id,
            "kind": row.kind,
            "made": row.made,
            "deleted": row.deleted,
            "versions": versions.get(row.id, []),
        }
        for row in rows
    ]


def _boards_and_chains(session: Session, team_id: str, players: set[str]) -> Json:
    chains = list(
        session.scalars(select(Chain).where(Chain.team_id == team_id).order_by(Chain.made, Chain.id))
    )
    by_root = {chain.root_id: chain for chain in chains}
    trees = playbook.tree(session, list(by_root))
    at = {root: {node.id: index for index, node in enumerate(nodes)} for root, nodes in trees.items()}
    rows = session.execute(
        select(Board, Place)
        .join(Place, Place.board_id == Board.id)
        .where(Board.team_id == team_id)
        .order_by(Board.made, Board.id)
    )
    boards = [
        _board(board, players)
        | {
            "stands": {
                "chain": by_root[place.root_id].id,
                "node": at[place.root_id][place.cursor_id],
                "tip": at[place.root_id][place.tip_id],
            }
        }
        for board, place in rows
    ]
    roots = {
        row.id: row
        for row in session.scalars(
            select(Node).where(Node.id.in_(select(Chain.root_id).where(Chain.team_id == team_id)))
        )
    }
    known: dict[tuple[str, str], Ruled | None] = {}
    written = []
    drawn = inks.written(session, team_id)
    for chain in chains:
        root, nodes = roots[chain.root_id], trees[chain.root_id]
        refs = (root.formation or "", root.rules or "")
        if refs not in known:
            known[refs] = _ruled(session, team_id, refs)
        one = _chain(chain, refs, nodes, at[chain.root_id], known[refs])
        ink = inks.pages(drawn, [node.id for node in nodes])
        written.append(one | ({"ink": ink} if ink else {}))
    return {"boards": boards, "chains": written}


def _ruled(session: Session, team_id: str, refs: tuple[str, str]) -> Ruled | None:
    try:
        return playbook.ruled_by(session, team_id, *refs)
    except Refused:
        return None


def _board(row: Board, players: set[str]) -> Json:
    kept = json.loads(row.places)
    return {
        "id": row.id,
        "name": row.name,
        "formation": row.formation,
        "rules": row.rules,
        "stage": row.stage,
        "court": row.court,
        "level": row.level,
        "places": {place: kept[place] for place in PLACES if kept.get(place) in players},
        "made": row.made,
    }


def _chain(
    chain: Chain,
    refs: tuple[str, str],
    nodes: Sequence[Branch],
    at: Mapping[int, int],
    ruled: Ruled | None,
) -> Json:
    steps = [(-1 if node.parent is None else at[node.parent], node.actions) for node in nodes]
    written = {
        "id": chain.id,
        "board": chain.board_id,
        "formation": refs[0],
        "rules": refs[1],
        "name": chain.name,
        "note": chain.note,
        "tags": json.loads(chain.tags),
        "pinned": chain.pinned,
        "kept": chain.kept,
        "made": chain.made,
        "used": chain.used,
        "deleted": chain.deleted,
        "tree": [[*step, node.made] for step, node in zip(steps, nodes, strict=True)],
        "line": at[chain.line_id],
    }
    # Left out where nobody has set them, as in files of before.
    written |= {"occasion": chain.occasion} if chain.occasion else {}
    written |= {"rank": chain.rank} if chain.rank else {}
    stopped = unplayable(ruled.shape, ruled.ruling, steps) if ruled else {}
    return written | ({"stopped": list(stopped)} if stopped else {})
