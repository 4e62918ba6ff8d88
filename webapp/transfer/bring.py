"""Bringing a document into a team: what is new comes in, and of what differs the coach says whose counts.

Ids stay where they are free. Nothing that was played here is ever taken out, and no version of rules or of
a formation is changed: chains are played by them.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from sqlalchemy import func, insert, select
from sqlalchemy.orm import Session

from webapp.chains import history
from webapp.plays import playbook
from webapp.store.tables import Board, Chain, Design, Lineup, Node, Place, Player, Team
from webapp.team import designs
from webapp.team.squad import LINEUPS_MAX, PLAYERS_MAX
from webapp.transfer import inks
from webapp.transfer.changes import Item
from webapp.transfer.incoming import Choice, Coming, Json, free_id
from webapp.transfer.read_document import path
from webapp.wire.refusals import Refused

Items = Mapping[str, list[Item]]


def new_team(session: Session, given: Json) -> Team:
    """Store the team of a document, with nothing in it yet."""
    calls = json.dumps(given["calls"], ensure_ascii=False)
    team = Team(
        id=free_id(session, Team, given["id"]),
        name=given["name"],
        made=given["made"],
        calls=calls,
        language=given.get("language", ""),
    )
    session.add(team)
    session.flush()
    return team


def bring(session: Session, team: Team, items: Items, choices: Mapping[str, Choice]) -> list[str]:
    """Bring all ``items`` into a team and return the boards they came to.

    ``choices``: for each kind, whose counts where they differ. Raises ``Refused`` if it is too much for one
    team; nothing may be committed then.
    """
    coming = _Everything(session, team, choices)
    if choices["players"] == "theirs":
        changing = [item for item in items["players"] if item.status == "different"]
        coming.leaving = {item.mine["id"] for item in changing if item.mine is not None}
    coming.team_itself(items["team"][0])
    for kind, take in (
        ("players", coming.player),
        ("lineups", coming.lineup),
        ("designs", coming.design),
        ("boards", coming.board),
        ("chains", coming.chain),
    ):
        for item in items[kind]:
            take(item)
        session.flush()
    coming.stand()
    session.flush()
    _fits(session, team.id)
    return [coming.boards[item.theirs["id"]] for item in items["boards"]]


def _fits(session: Session, team_id: str) -> None:
    def count(table: type[Any], *more: Any) -> int:
        mine = select(func.count()).select_from(table)
        return session.scalar(mine.where(table.team_id == team_id, table.deleted.is_(None), *more)) or 0

    if count(Player) > PLAYERS_MAX:
        raise Refused("full_squad", most=PLAYERS_MAX)
    if count(Lineup) > LINEUPS_MAX:
        raise Refused("full_lineups", most=LINEUPS_MAX)
    if count(Design, Design.kind == "rules") > designs.OWN_MAX:
        raise Refused("full_rules", most=designs.OWN_MAX)
    if count(Design, Design.kind == "formation") > designs.OWN_MAX:
        raise Refused("full_formations", most=designs.OWN_MAX)
    if count(Chain, Chain.kept) > playbook.KEPT_MAX:
        raise Refused("full_playbook", most=playbook.KEPT_MAX)


@dataclass
class _Everything(Coming):
    """A whole document: its boards and chains as well."""

    boards: dict[str, str] = field(default_factory=dict)
    chains: dict[str, str] = field(default_factory=dict)
    #: A chain's nodes, in the order of the document, where all of them were stored.
    nodes: dict[str, list[int]] = field(default_factory=dict)
    trees: dict[str, list[list[Any]]] = field(default_factory=dict)
    standing: list[tuple[Board, Json]] = field(default_factory=list)

    def board(self, item: Item) -> None:
        """Take a board in; where it stands is settled once the chains are there."""
        theirs, choice = item.theirs, self.choices["boards"]
        row = self.row(Board, item)
        if row is not None and (item.status == "same" or choice == "mine"):
            self.boards[theirs["id"]] = row.id
            return
        if row is None or choice == "both":
            row = Board(
                id=free_id(self.session, Board, theirs["id"]), team_id=self.team.id, made=theirs["made"]
            )
        row.name, row.court, row.level = theirs["name"], theirs["court"], theirs["level"]
        row.formation, row.rules = self.ref(theirs["formation"]), self.ref(theirs["rules"])
        row.stage = theirs["stage"]
        places = self.seats(theirs["places"])
        row.places = json.dumps({place: who for place, who in places.items() if who is not None})
        self.session.add(row)
        self.session.flush()
        self.boards[theirs["id"]] = row.id
        self.standing.append((row, theirs["stands"]))

    def chain(self, item: Item) -> None:
        """Take a chain in, or the branches of it that are missing here."""
        theirs, choice = item.theirs, self.choices["chains"]
        self.trees[theirs["id"]] = theirs["tree"]
        row = self.row(Chain, item)
        if row is not None and (item.status == "same" or choice == "mine"):
            self.chains[theirs["id"]] = row.id
            return
        refs = self.ref(theirs["formation"]), self.ref(theirs["rules"])
        if row is None or choice == "both" or refs != self._played_by(row):
            row = self._plant(theirs, *refs)
        else:
            self.chains[theirs["id"]] = row.id
            self.nodes[theirs["id"]] = self._graft(row, theirs["tree"])
        row.line_id = self.nodes[theirs["id"]][theirs["line"]]
        if "ink" in theirs:
            inks.bring(self.session, row, self.nodes[theirs["id"]], theirs["ink"])
        row.name, row.note = theirs["name"], theirs["note"]
        row.tags = json.dumps(theirs["tags"], ensure_ascii=False)
        row.pinned, row.deleted = theirs["pinned"], theirs["deleted"]
        row.occasion, row.rank = theirs.get("occasion", ""), theirs.get("rank", 0)
        row.kept = bool(row.kept) or theirs["kept"]
        row.made, row.used = theirs["made"], theirs["used"]

    def _played_by(self, row: Chain) -> tuple[str, str]:
        root = self.session.get_one(Node, row.root_id)
        return root.formation or "", root.rules or ""

    def _plant(self, theirs: Json, formation: str, rules: str) -> Chain:
        """Store a whole chain anew."""
        first = (self.session.scalar(select(func.max(Node.id))) or 0) + 1
        board, depths, rows = self.boards[theirs["board"]], [0], []
        for index, (parent, actions, made) in enumerate(theirs["tree"]):
            if index:
                depths.append(depths[parent] + 1)
            rows.append(
                {
                    "id": first + index,
                    "board_id": board,
                    "parent_id": first + parent if index else None,
                    "depth": depths[index],
                    "actions": actions,
                    "formation": None if index else formation,
                    "rules": None if index else rules,
                    "made": made,
                }
            )
        self.session.execute(insert(Node), rows)
        row = Chain(
            id=free_id(self.session, Chain, theirs["id"]),
            team_id=self.team.id,
            board_id=board,
            root_id=first,
            line_id=first,
            made=theirs["made"],
            used=theirs["used"],
        )
        self.session.add(row)
        self.session.flush()
        self.chains[theirs["id"]] = row.id
        self.nodes[theirs["id"]] = [first + index for index in range(len(rows))]
        return row

    def _graft(self, row: Chain, tree: list[list[Any]]) -> list[int]:
        """Add the branches that a chain does not have, and return the nodes of ``tree`` in it."""
        root = self.session.get_one(Node, row.root_id)
        found, depths = [root.id], [0]
        for parent, actions, _ in tree[1:]:
            depths.append(depths[parent] + 1)
            words = tuple(actions.split())
            found.append(history.node_after(self.session, root.board_id, found[parent], depths[-1], words))
        return found

    def stand(self) -> None:
        """Let the boards that came stand where they stood."""
        for board, stands in self.standing:
            chain = self.session.get_one(Chain, self.chains[stands["chain"]])
            if stands["chain"] not in self.nodes:
                board.formation, board.rules = self._played_by(chain)
            cursor, tip = self._node(chain, stands, "node"), self._node(chain, stands, "tip")
            place = self.session.get(Place, board.id)
            if place is None:
                place = Place(board_id=board.id, seq=0)
                self.session.add(place)
            else:
                place.seq += 1
            place.root_id, place.cursor_id, place.tip_id = chain.root_id, cursor, tip

    def _node(self, chain: Chain, stands: Json, which: str) -> int:
        known = self.nodes.get(stands["chain"])
        if known is not None:
            return known[stands[which]]
        # The chain stays as it is here, so only the way to where the board stands is added.
        tree = self.trees[stands["chain"]]
        way = [[at - 1, tree[index][1], 0] for at, index in enumerate(path(tree, stands[which]))]
        return self._graft(chain, way)[-1]
