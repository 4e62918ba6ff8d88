"""Trying out rules and formations, saved or not: on a small court, side by side, measured, checked."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, Final

from flask import Blueprint, Response, request
from marshmallow import Schema, fields, validate
from sqlalchemy.orm import Session

from engine.errors import QuintetError
from engine.floor.alignment import start
from engine.floor.court import half_court
from engine.floor.formations import POSTS, Formation
from engine.floor.shapes import dragged, mirror_spot
from engine.floor.standards import STANDARDS
from engine.game.licences import Licences
from engine.game.play import NOBODY_LIMITED, advance
from engine.rules.compare import differences
from engine.rules.rule_sets import RuleSet
from engine.rules.vocabulary import TRIGGERS
from engine.words.spoken import Said, say
from webapp.base.fields import Number, OneOf, YesNo
from webapp.chains.setup import card_of, formation_in, rules_in
from webapp.services import services
from webapp.team import designs
from webapp.team.checks import checking
from webapp.team.design_schemas import (
    draft_formation,
    formation_form,
    formation_problems,
    read_formation,
    read_rules,
)
from webapp.web.team_access import Asking, asking, board_of
from webapp.wire import schemas
from webapp.wire.engine_values import distances_wire, floor_wire, position_wire, spots_wire, step_wire
from webapp.wire.refusals import Problems, Refused
from webapp.wire.text_forms import ACTION

trial: Final = Blueprint("trial", __name__, url_prefix="/api")

_CHAIN_MAX: Final = 80
#: Where a post may be dragged to, metres: whoever lets go beside the court has dragged to its edge.
_X_M: Final = (-9.0, 9.0)
_Y_M: Final = (-3.0, 14.0)

NEVER: Final = Said("refusals.trials.with_these_rules_never")


class _Floor(Schema):
    """Rules and a formation, each a ref or its JSON form, and a court."""

    rules = fields.Raw(required=True)
    formation = fields.Raw(required=True)
    court = OneOf(STANDARDS, required=True)


class _Preview(_Floor):
    trigger = OneOf(TRIGGERS, Said("refusals.trials.must_name_something_happens"))
    role = fields.String(validate=validate.Length(1, 40))
    chain = fields.List(fields.String(validate=ACTION), validate=validate.Length(0, _CHAIN_MAX))


class _Check(_Floor):
    squad = YesNo(load_default=False)


class _Compare(Schema):
    one = fields.Raw(required=True)
    other = fields.Raw(required=True)


class _Drag(Schema):
    spot = fields.String(required=True, validate=validate.Length(1, 40))
    x = Number(-5000, 5000, required=True)
    y = Number(-5000, 5000, required=True)
    pair = YesNo(load_default=False)


class _Measure(Schema):
    data = fields.Raw(required=True)
    court = OneOf(STANDARDS, required=True)
    drag = fields.Nested(_Drag())


_PREVIEW: Final[Schema] = _Preview()
_CHECK: Final[Schema] = _Check()
_COMPARE: Final[Schema] = _Compare()
_MEASURE: Final[Schema] = _Measure()


def _rules(session: Session, who: Asking, given: Any) -> RuleSet:
    if isinstance(given, str):
        return rules_in(designs.find(session, who.team.id, "rules", given, deleted="@" in given))
    return read_rules(given)[1]


def _formation(session: Session, who: Asking, given: Any) -> Formation:
    if isinstance(given, str):
        return formation_in(designs.find(session, who.team.id, "formation", given, deleted="@" in given))
    return read_formation(given)[1]


@trial.post("/rules/preview")
def preview() -> dict[str, Any]:
    """Play the shortest chain that shows a trigger, or a given chain, on a small court."""
    from engine.checker.samples import sample

    given = schemas.read_all(_PREVIEW, request.get_data())
    if ("trigger" in given) == ("chain" in given):
        raise Problems([("trigger", say("refusals.trials.say_either_what_happens"))])
    with services().store.read() as session:
        who = asking(session)
        rules, formation = _rules(session, who, given["rules"]), _formation(session, who, given["formation"])
    last: dict[str, Any] = {}
    chain = given.get("chain")
    if chain is None:
        with services().checks.place():
            chain = sample(given["trigger"], formation, rules, given.get("role"))
        if not chain:
            last = {"failed": str(NEVER)}
    steps, failed = _played(chain, formation, given["court"], rules)
    if chain:
        last = {"a": chain[min(len(steps), len(chain) - 1)], **failed}
        if "role" in given and not failed:
            last["who"] = _with_role(given["role"], chain, formation, rules)
    return {
        "floor": floor_wire(given["court"], formation),
        "start": position_wire(start(formation)),
        "steps": steps,
        "last": last,
    }


def _played(
    chain: Sequence[str], formation: Formation, court: str, rules: RuleSet
) -> tuple[list[dict[str, Any]], dict[str, str]]:
    """Return the steps of ``chain`` as far as they are legal, and why the next is not."""
    position, steps = start(formation), []
    for action in chain:
        try:
            steps.append(step_wire(position, [action], formation, court, 1.0, rules))
            position, _ = advance(position, [action], formation, rules)
        except QuintetError as error:
            return steps, {"failed": str(error)}
    return steps, {}


def _with_role(role: str, chain: Sequence[str], formation: Formation, rules: RuleSet) -> list[int]:
    """Return the players who have a role in the last action of a chain that has been played."""
    from engine.checker.samples import spots_with

    position, _ = advance(start(formation), chain[:-1], formation, rules)
    _, (step,) = advance(position, chain[-1:], formation, rules)
    return sorted(position.player(spot) for spot in spots_with(role, step, formation))


@trial.post("/rules/compare")
def compare() -> dict[str, Any]:
    """Say in what two rule sets differ."""
    given = schemas.read_all(_COMPARE, request.get_data())
    with services().store.read() as session:
        who = asking(session)
        problems: list[tuple[str, str]] = []
        found: list[RuleSet] = []
        for place in ("one", "other"):
            try:
                found.append(_rules(session, who, given[place]))
            except Problems as error:
                problems += [(f"{place}.{where}".rstrip("."), sentence) for where, sentence in error.problems]
    if problems:
        raise Problems(problems)
    one, other = found
    return {
        "one_title": one.title,
        "other_title": other.title,
        "differences": [[key, dict(about)] for key, about in differences(one, other)],
    }


@trial.post("/formations/measure")
def measure() -> dict[str, Any]:
    """Take a dragged spot into a formation that is being drawn, and measure it; nothing is saved."""
    given = schemas.read_all(_MEASURE, request.get_data())
    with services().store.read() as session:
        asking(session)
    form = formation_form(given["data"])
    if "drag" in given:
        form = _dragged(form, given["drag"], given["court"])
    formation = draft_formation(form)
    return {
        "data": form,
        "spots": spots_wire(given["court"], formation),
        "distances": distances_wire(given["court"], formation),
        "problems": [list(problem) for problem in formation_problems(form)],
    }


def _dragged(form: Mapping[str, Any], drag: Mapping[str, Any], court: str) -> dict[str, Any]:
    """Return the formation with a spot dragged; as a pair its mirror image goes along, where there is one."""
    spot, x = drag["spot"], drag["x"]
    if not drag["pair"]:
        return _moved(form, spot, x, drag["y"], court)
    other = mirror_spot(spot)
    # What stands on the middle line has no other side: there it stays.
    form = _moved(form, spot, 0.0 if other == spot else x, drag["y"], court)
    there = other in POSTS or other in [item["spot"] for item in form["ring"]]
    return _moved(form, other, -x, drag["y"], court) if other != spot and there else form


def _moved(form: Mapping[str, Any], spot: str, x: float, y: float, court: str) -> dict[str, Any]:
    x = min(max(x / 100, _X_M[0]), _X_M[1])
    y = min(max(y / 100, _Y_M[0]), _Y_M[1])
    kept = dragged(spot, x, y, half_court(court))
    if spot in POSTS:
        others = [item for item in form["moved"] if item["spot"] != spot]
        return {**form, "moved": [*others, {"spot": spot, **kept}]}
    if spot not in [item["spot"] for item in form["ring"]]:
        raise Problems([("drag.spot", say("refusals.trials.formation_has_no_such"))])
    ring = [{**item, **kept} if item["spot"] == spot else item for item in form["ring"]]
    return {**form, "ring": ring}


@trial.post("/rules/check")
def check() -> Response:
    """Check a rule set in a formation, telling line by line how far it is, and last what was found."""
    given = schemas.read_all(_CHECK, request.get_data())
    shared = services()
    with shared.store.read() as session:
        who = asking(session)
        rules, formation = _rules(session, who, given["rules"]), _formation(session, who, given["formation"])
        licences = _licences(session, who) if given["squad"] else NOBODY_LIMITED
    lines = checking(shared, rules, formation, half_court(given["court"]), licences)
    response = Response(lines, content_type="application/x-ndjson; charset=utf-8")
    response.call_on_close(lines.stop)
    return response


def _licences(session: Session, who: Asking) -> Licences:
    board = board_of(session, who)
    if board is None:
        raise Refused("no_board")
    return card_of(session, board)[0].licences
