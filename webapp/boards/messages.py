"""What the server says on a live board, as text. What costs work is made once and kept."""

from __future__ import annotations

import json
from collections.abc import Sequence
from functools import lru_cache
from typing import Any, Final

from engine import script
from engine.errors import QuintetError
from engine.floor.alignment import Position, start
from engine.floor.formations import Formation
from engine.game import recover
from engine.game.licences import Licence
from engine.rules.rule_sets import RuleSet
from webapp.chains.state import BoardState, Earlier, Played
from webapp.live.connection import Role
from webapp.plays.playbook import Branch
from webapp.team.squad import Member
from webapp.wire.drawn_steps import script_wire
from webapp.wire.engine_values import (
    choices,
    floor_wire,
    offers_wire,
    position_wire,
    recovery_wire,
    step_wire,
)
from webapp.wire.refusals import Refused
from webapp.wire.schemas import VERSION

#: Steps are about 1.5 kB of text (scripted ones up to 12), offers about 40 kB.
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
    if actions[0].startswith(script.PREFIX):
        return _dump(script_wire(before, script.read(actions[0], formation), court, formation))
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


def _played(standing: BoardState, step: Played) -> str:
    card = standing.card
    return _step(step.before, step.actions, card.shape, card.court, card.level, card.rules)


def changed(standing: BoardState) -> str | None:
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


def state(
    standing: BoardState, role: Role, viewers: int, steps_max_count: int, message_id: str | None
) -> str:
    """Return the whole board for a screen of ``role``; a phone gets only the last ``steps_max_count`` steps
    and no first name, but every number of the squad; a coach also what redo brings back. ``at``: when the
    board last changed, seconds since 1970.

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
        "start": _begins(standing, first, begin),
        "at": standing.at,
        "squad": {str(n): _worn(member, role) for n, member in enumerate(card.squad, start=1)},
        "bench": [_worn(member, role) for member in card.bench],
        "calls": card.calls,
    }
    if role == "coach":
        head |= {"notice": standing.notice}
        head |= {"chain": {"id": standing.chain.id, "name": standing.chain.name, "kept": standing.chain.kept}}
        head |= {"change": None if standing.change is None else standing.change[0]}
        head |= {"arrived": standing.arrived}
        head |= {"earlier": [_earlier(one) for one in standing.earlier]}
        head |= {"licences": {member.id: _licence(member) for member in card.roster if _is_limited(member)}}
        head |= {"installed": _installed(standing)}
    parts = [_dump(head)[:-1], f'"steps":{_all(standing, shown)}']
    if role == "coach":
        parts.append(f'"undone":{_all(standing, standing.ahead)}')
    return f"{','.join(parts)}}}"


def _earlier(one: Earlier) -> dict[str, Any]:
    return {
        "chain": one.chain,
        "name": one.name,
        "formation": one.formation,
        "rules": one.rules,
        "line": [list(actions) for actions in one.line],
        "depth": one.depth,
        "at": one.at,
        "to": one.to,
    }


def _begins(standing: BoardState, first: int, begin: Position) -> Any:
    """Return the position before the steps that are told, as the step before them ends on this court."""
    if begin.off:
        return json.loads(_played(standing, standing.steps[first - 1]))["after"]
    return position_wire(begin)


def _all(standing: BoardState, steps: Sequence[Played]) -> str:
    return f"[{','.join(_played(standing, step) for step in steps)}]"


def _worn(member: Member | None, role: Role) -> dict[str, str] | None:
    """Names stay with coaches: a phone, which may be anybody's, is told the number alone."""
    if member is None:
        return None
    shown = {"id": member.id, "number": member.number}
    return {**shown, "name": member.name} if role == "coach" else shown


def _licence(member: Member) -> dict[str, Any]:
    return {"may": None if member.may is None else list(member.may), "lane": list(member.lane)}


def _is_limited(member: Member) -> bool:
    return member.may is not None or bool(member.lane)


def _installed(standing: BoardState) -> list[str] | None:
    """Return the kinds of actions taught so far; ``None`` if they all are."""
    rules = standing.card.installed
    return None if rules is standing.card.rules else sorted(rules.actions | rules.lane)


def offers(standing: BoardState, tree: Sequence[Branch]) -> str:
    """Return all that may be tapped now, worked out, and where the chain branches.

    ``tree``: the whole chain, parents first.
    """
    forks = _dump(forks_wire(standing, tree))
    return f'{{"t":"offers","seq":{standing.seq},"forks":{forks},{_offered(standing)}}}'


def look(standing: BoardState, at: int) -> str:
    """Return all that could be tapped after ``at`` steps of the chain."""
    return f'{{"t":"offers","seq":{standing.seq},"at":{at},{_offered(standing.cut(at))}}}'


def _offered(standing: BoardState) -> str:
    card = standing.card
    licences = tuple(card.licences.items())
    return _offers(standing.position, card.shape, card.court, card.level, card.installed, licences)


def kept(message_id: str, legal: int, of: int, why: str | None) -> str:
    """Return the answer to a line stored beside what is played: ``legal`` of its ``of`` steps."""
    return _dump({"t": "kept", "id": message_id, "legal": legal, "of": of, "why": why})


#: Other ways told of; a chain with more has them all in the store.
_FORKS_MAX: Final = 60


def forks_wire(standing: BoardState, tree: Sequence[Branch]) -> list[dict[str, Any]]:
    """Return where the chain on the board branches: after how many steps, and what else was played there.

    Each other way is given to its end, along what was added last.
    """
    path = [*standing.steps, *standing.ahead]
    depth_of = {standing.root: 0} | {step.node: depth for depth, step in enumerate(path, start=1)}
    last = {branch.parent: branch for branch in tree}
    found: dict[int, list[dict[str, Any]]] = {}
    count = 0
    for branch in reversed(tree):
        at = None if branch.parent is None else depth_of.get(branch.parent)
        if at is None or branch.id in depth_of or count >= _FORKS_MAX:
            continue
        line, then = [list(step.actions) for step in path[:at]], branch
        say = _say(standing, path, at, tuple(branch.actions.split()))
        if say is None:
            continue
        line.append(branch.actions.split())
        while then.id in last:
            then = last[then.id]
            line.append(then.actions.split())
        found.setdefault(at, []).append({"line": line, "say": say, "steps": len(line)})
        count += 1
    return [{"depth": depth, "others": found[depth]} for depth in sorted(found)]


def _say(standing: BoardState, path: Sequence[Played], at: int, actions: tuple[str, ...]) -> Any:
    """Return what a step after ``at`` steps says, or ``None`` if it is not legal any more."""
    card, before = standing.card, path[at - 1].after if at else start(standing.card.shape)
    try:
        text = _step(before, actions, card.shape, card.court, card.level, card.rules)
    except QuintetError:
        return None
    return json.loads(text)["say"]


def refused(refusal: Refused, message_id: str | None) -> str:
    """Return the answer to a message that is not followed."""
    return _dump({"t": "refused", "id": message_id, "code": refusal.code, "message": str(refusal)})


def gone(refusal: Refused) -> str:
    """Return the last message to a screen that may not go on: its ``code`` says whether its link or its key
    has been turned off.
    """
    return _dump({"t": "gone", "code": refusal.code, "message": str(refusal)})
