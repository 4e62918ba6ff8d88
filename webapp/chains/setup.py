"""A board's card, put together from what the store keeps, and changed as a coach asks."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import replace
from typing import Any, Final

from sqlalchemy.orm import Session

from engine.floor.formations import FIVE_OUT, FORMATIONS, Formation
from engine.rules.rule_sets import DEFAULT, RuleSet
from engine.rules.rule_sets import shipped as shipped_rules
from webapp.chains.state import Card
from webapp.store.tables import Board, Team
from webapp.team import designs
from webapp.team.design_schemas import read_formation, read_rules
from webapp.team.designs import DesignForm
from webapp.team.squad import placed, players, read_places
from webapp.wire.refusals import Refused

#: What a coach is told, as a key of the browser's texts: each screen says it in its own language.
NOT_UNDERSTOOD: Final = "not_understood"


def rules_in(found: DesignForm) -> RuleSet:
    """Return the rule set itself. Raises ``Problems`` if a kept one cannot be read any more."""
    return shipped_rules(found.ref) if found.shipped else read_rules(found.form)[1]


def formation_in(found: DesignForm) -> Formation:
    """Return the formation itself. Raises ``Problems`` if a kept one cannot be read any more."""
    return FORMATIONS[found.ref] if found.shipped else read_formation(found.form)[1]


def card_of(session: Session, board: Board) -> tuple[Card, str | None]:
    """Return a board's card, and a sentence if something it was set to cannot be used any more."""
    team = session.get_one(Team, board.team_id)
    notice = None
    try:
        shaped = designs.find(session, team.id, "formation", board.formation, deleted=True)
        ruled = designs.find(session, team.id, "rules", board.rules, deleted=True)
        shape, rules = formation_in(shaped), rules_in(ruled)
    except Refused:
        notice = NOT_UNDERSTOOD
        shaped, ruled = designs.shipped("formation", FIVE_OUT.name), designs.shipped("rules", DEFAULT.name)
        shape, rules = FIVE_OUT, DEFAULT
    card = Card(
        id=board.id,
        name=board.name,
        team_id=team.id,
        team=team.name,
        formation=shaped.ref,
        shape=shape,
        formation_name=shaped.title,
        court=board.court,
        level=board.level,
        rules_ref=ruled.ref,
        rules=rules,
        stage=board.stage if board.stage is None or board.stage < len(rules.stages) else None,
        places=read_places(board.places),
        roster=players(session, team.id),
        calls=json.loads(team.calls),
    )
    return card, notice


def played_by(session: Session, card: Card, formation: str, rules: str) -> Card:
    """Return the card set to the versions a chain is played by, deleted or not. Raises ``Refused``."""
    if (formation, rules) == (card.formation, card.rules_ref):
        return card
    shaped = designs.find(session, card.team_id, "formation", formation, deleted=True)
    ruled = designs.find(session, card.team_id, "rules", rules, deleted=True)
    return replace(
        card,
        formation=shaped.ref,
        shape=formation_in(shaped),
        formation_name=shaped.title,
        rules_ref=ruled.ref,
        rules=rules_in(ruled),
        stage=card.stage if ruled.ref == card.rules_ref else None,
    )


def changed(session: Session, card: Card, message: Mapping[str, Any]) -> Card:
    """Return the card with what ``message`` sets. Raises ``Refused``, ``Problems`` for the places.

    Other rules begin with all their stages, unless the message says which.
    """
    chosen: dict[str, Any] = {name: message[name] for name in ("court", "level") if name in message}
    if "formation" in message:
        found = designs.find(session, card.team_id, "formation", message["formation"])
        chosen |= {"formation": found.ref, "shape": formation_in(found), "formation_name": found.title}
    if "rules" in message:
        found = designs.find(session, card.team_id, "rules", message["rules"])
        chosen |= {"rules_ref": found.ref, "rules": rules_in(found)}
        if found.ref != card.rules_ref:
            chosen["stage"] = None
    if "stage" in message:
        stages = chosen.get("rules", card.rules).stages
        if message["stage"] is not None and message["stage"] >= len(stages):
            raise Refused("no_stage")
        chosen["stage"] = message["stage"]
    if "places" in message:
        members = {member.id for member in card.roster}
        chosen["places"] = placed(card.places, message["places"], members)
    return replace(card, **chosen)
