"""The playbook as a page lists it: every chain with its tree, and how it stands with the rules."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from engine.words.spoken import Said
from webapp.chains.lines_of_play import Line, reach
from webapp.plays.playbook import Branch, Ruled, actions_of, line_to, newest, ruled_by, tree
from webapp.store.tables import Chain, Node
from webapp.team import designs
from webapp.team.designs import Kind
from webapp.wire.refusals import Refused

Json = dict[str, Any]

_UNREADABLE = Said("refusals.play_list.what_chain_was_played")
_DELETED = {
    "rules": Said("refusals.play_list.rules_played_by_have"),
    "formation": Said("refusals.play_list.formation_played_has_been"),
}


def listing(session: Session, team_id: str) -> list[Json]:
    """Return the chains of a team's playbook, the last used first, deleted ones left out."""
    kept = select(Chain).where(Chain.team_id == team_id, Chain.kept, Chain.deleted.is_(None))
    chains = list(session.scalars(kept.order_by(Chain.used.desc(), Chain.id)))
    roots = {
        row.id: row
        for row in session.scalars(
            select(Node).where(Node.id.in_(select(Chain.root_id).where(Chain.team_id == team_id)))
        )
    }
    trees = tree(session, [chain.root_id for chain in chains])
    known = _Known(
        cache(lambda formation, rules: _ruled(session, team_id, formation, rules)),
        cache(lambda kind, ref: _is_there(session, team_id, kind, ref)),
    )
    return [_chain(known, chain, roots[chain.root_id], trees[chain.root_id]) for chain in chains]


@dataclass(frozen=True, slots=True)
class _Known:
    """What one listing looks up only once: what refs name, and whether it is still among the team's."""

    ruled: Callable[[str, str], Ruled | None]
    is_there: Callable[[Kind, str], bool]


def _ruled(session: Session, team_id: str, formation: str, rules: str) -> Ruled | None:
    try:
        return ruled_by(session, team_id, formation, rules)
    except Refused:
        return None


def _is_there(session: Session, team_id: str, kind: Kind, ref: str) -> bool:
    try:
        designs.find(session, team_id, kind, ref)
    except Refused:
        return False
    return True


def _chain(known: _Known, chain: Chain, root: Node, nodes: list[Branch]) -> Json:
    formation, rules = root.formation or "", root.rules or ""
    line = line_to(nodes, chain.line_id)
    steps = actions_of(nodes, line)
    ruled = known.ruled(formation, rules)
    at = {node.id: index for index, node in enumerate(nodes)}
    return {
        "id": chain.id,
        "name": chain.name,
        "note": chain.note,
        "tags": json.loads(chain.tags),
        "formation": formation,
        "formation_name": ruled.formation.title if ruled else "",
        "rules": rules,
        "rules_title": ruled.rules.title if ruled else "",
        "pinned": chain.pinned,
        "occasion": chain.occasion,
        "rank": chain.rank,
        "made": chain.made,
        "used": chain.used,
        "tree": [[-1 if node.parent is None else at[node.parent], node.actions] for node in nodes],
        "line": line,
        "stops": stops(ruled, steps),
        "today": _today(known, formation, rules, steps),
    }


def stops(ruled: Ruled | None, line: Line) -> Json | None:
    """Return where a line ends by the very version it was played by, if it is not legal to its end."""
    if ruled is None:
        return {"legal": 0, "of": len(line), "why": str(_UNREADABLE)}
    far = reach(ruled.shape, ruled.ruling, line)
    return None if far.why is None else {"legal": far.legal, "of": len(line), "why": far.why}


def _today(known: _Known, formation: str, rules: str, line: Line) -> Json | None:
    """Return how far a line is legal by the newest version, if that is another or has been deleted."""
    now = known.ruled(newest(formation), newest(rules))
    if now is None:
        return None
    refs: tuple[tuple[Kind, str], ...] = (("rules", newest(rules)), ("formation", newest(formation)))
    gone = [kind for kind, ref in refs if not known.is_there(kind, ref)]
    if not gone and (now.formation.ref, now.rules.ref) == (formation, rules):
        return None
    far = reach(now.shape, now.ruling, line)
    return {
        "rules": now.rules.ref,
        "version": now.rules.version,
        "legal": far.legal,
        "of": len(line),
        "why": str(_DELETED[gone[0]]) if gone else far.why,
    }
