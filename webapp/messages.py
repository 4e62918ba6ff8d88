"""What the server says on a live board, as text. What costs work is made once and kept."""

from __future__ import annotations

import json
from functools import lru_cache
from typing import Any, Final

from engine import recover
from engine.alignment import Position, start
from engine.formations import Formation
from engine.licences import Licence
from engine.rules import RuleSet
from webapp.chain import Played, Standing
from webapp.connection import Role
from webapp.refusals import Refused
from webapp.schemas import VERSION
from webapp.squad import Member
from webapp.wire import choices, floor_wire, offers_wire, position_wire, recovery_wire, step_wire

#: Steps are about 1.5 kB of text, offers about 40 kB.
_STEPS_KEPT: Final = 4096
_OFFERS_KEPT: Final = 256


def _dump(value: Any) -> str:
    return json.dumps(value, separators=(",", ":"), ensure_ascii=False)


@lru_cache(maxsize=_STEPS_KEPT)
def _step(
    before: Position,
    actions: tuple[str, ...],
    formation: Formation,
    court: str,
    level: float,
    rules: RuleSet,
) -> str:
    if actions[0].startswith(recover.PREFIX):
        return _dump(recovery_wire(before, recover.read(actions[0], formation), court, formation))
    return _dump(step_wire(before, actions, formation, court, level, rules))


@lru_cache(maxsize=_OFFERS_KEPT)
def _offers(
    position: Position,
    formation: Formation,
    court: str,
    level: float,
    rules: RuleSet,
    licences: tuple[tuple[int, Licence], ...],
) -> str:
    # Without the outer braces: the message they belong to goes around them.
    return _dump(offers_wire(position, formation, court, level, rules, dict(licences)))[1:-1]


def _played(standing: Standing, step: Played) -> str:
    card = standing.card
    return _step(step.before, step.actions, card.shape, card.court, card.level, card.rules)


def changed(standing: Standing) -> str | None:
    """Return what tells everybody of the last change, or ``None`` if it takes a whole new state."""
    if standing.change is None or standing.change[1] not in ("act", "recover", "redo", "undo"):
        return None
    message_id, kind = standing.change
    said = {"t": "back" if kind == "undo" else "step", "seq": standing.seq, "id": message_id}
    said |= {"depth": len(standing.steps), "ahead": len(standing.ahead)}
    text = _dump(said)
    if kind == "undo":
        return text
    return f'{text[:-1]},"step":{_played(standing, standing.steps[-1])}}}'


def state(standing: Standing, role: Role, viewers: int, steps_max_count: int, message_id: str | None) -> str:
    """Return the whole board for a screen of ``role``; a phone gets only the last ``steps_max_count`` steps.

    ``message_id``: the change it answers, if it answers one.
    """
    card = standing.card
    first = max(0, len(standing.steps) - steps_max_count) if role == "viewer" else 0
    shown = standing.steps[first:]
    begin = shown[0].before if shown else standing.position if first else start(card.shape)
    head = {
        "t": "state",
        "v": VERSION,
        "seq": standing.seq,
        "id": message_id,
        "role": role,
        "board": {
            "id": card.id,
            "name": card.name,
            "team": card.team,
            "formation": card.formation,
            "court": card.court,
            "level": card.level,
            "formation_name": card.formation_name,
            "rules": card.rules_ref,
            "rules_title": card.rules.title,
            "stage": card.stage,
            "stages": [stage.title for stage in card.rules.stages],
        },
        "floor": floor_wire(card.court, card.shape),
        "choices": choices(),
        "viewers": viewers,
        "ahead": len(standing.ahead),
        "first": first,
        "start": position_wire(begin),
        "squad": {str(n): _named(member) for n, member in enumerate(card.squad, start=1)},
        "calls": card.calls,
    }
    if role == "coach":
        head |= {"bench": [_named(member) for member in card.bench], "notice": standing.notice}
    return f'{_dump(head)[:-1]},"steps":[{",".join(_played(standing, step) for step in shown)}]}}'


def _named(member: Member | None) -> dict[str, str] | None:
    return None if member is None else {"id": member.id, "number": member.number, "name": member.name}


def offers(standing: Standing, at: int | None = None) -> str:
    """Return all that may be tapped now, or could be after ``at`` steps of the chain, worked out."""
    card = standing.card
    position = standing.position if at is None else standing.cut(at).position
    licences = tuple(card.licences.items())
    found = _offers(position, card.shape, card.court, card.level, card.installed, licences)
    where = "" if at is None else f'"at":{at},'
    return f'{{"t":"offers","seq":{standing.seq},{where}{found}}}'


def refused(refusal: Refused, message_id: str | None) -> str:
    """Return the answer to a message that is not followed."""
    return _dump({"t": "refused", "id": message_id, "code": refusal.code, "message": str(refusal)})


def gone(refusal: Refused) -> str:
    """Return the last message to a screen that may not go on: its ``code`` says whether its link or its key
    has been turned off.
    """
    return _dump({"t": "gone", "code": refusal.code, "message": str(refusal)})
