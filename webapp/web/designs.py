"""Rule sets and formations as JSON: read, copied, saved as a new version, deleted and brought back."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any, Final

from flask import Blueprint, request
from flask.typing import ResponseReturnValue
from marshmallow import Schema, fields

from engine.floor.standards import STANDARDS
from engine.words.spoken import listed, say
from webapp.base.fields import Line, Name, WholeNumber, between
from webapp.chains.setup import formation_in
from webapp.services import services
from webapp.team import designs
from webapp.team.design_schemas import TITLE_MAX, read_formation, read_rules
from webapp.team.designs import DesignForm, Form, Kind
from webapp.web.team_access import asking
from webapp.wire import schemas
from webapp.wire.engine_values import spots_wire
from webapp.wire.refusals import Refused

design: Final = Blueprint("design", __name__, url_prefix="/api/<any(rules, formations):what>")


class _CopiedRules(Schema):
    origin = fields.String(required=True, validate=schemas.REF, data_key="from")
    title = Line(1, TITLE_MAX, required=True)


class _CopiedFormation(Schema):
    origin = fields.String(required=True, validate=schemas.REF, data_key="from")
    title = Name(required=True, data_key="name")


class _Saved(Schema):
    version = WholeNumber(required=True, validate=between(1))
    data = fields.Raw(required=True)


@dataclass(frozen=True, slots=True)
class _Sort:
    """What is different between the two: what a copy takes, and how the JSON form is checked."""

    kind: Kind
    copied: Schema
    read: Callable[[Any], Form]


_SORTS: Final[Mapping[str, _Sort]] = {
    "rules": _Sort("rules", _CopiedRules(), lambda data: read_rules(data)[0]),
    "formations": _Sort("formation", _CopiedFormation(), lambda data: read_formation(data)[0]),
}
_SAVED: Final[Schema] = _Saved()


@design.get("/<ref>")
def show(what: str, ref: str) -> dict[str, Any]:
    """Return one version whole: the newest, or that in the ref; a formation's spots for ``?court=`` too."""
    kind = _SORTS[what].kind
    with services().store.read() as session:
        found = designs.find(session, asking(session).team.id, kind, ref, deleted="@" in ref)
    shown = {"ref": ref, "version": found.version, "shipped": found.shipped, "data": found.shown}
    if kind == "formation":
        shown["spots"] = spots_wire(_court(), formation_in(found))
    return shown


def _court() -> str:
    court = request.args.get("court", "fiba")
    if court not in STANDARDS:
        raise Refused(
            "bad_form", why=say("refusals.design.no_such_court_choose", choices=listed(STANDARDS, "comma"))
        )
    return court


@design.post("")
def copy(what: str) -> ResponseReturnValue:
    """Keep a copy of one, which is then the team's own."""
    sort = _SORTS[what]
    given = schemas.read_all(sort.copied, request.get_data())
    with services().store.write() as session:
        team = asking(session).team
        found = designs.find(session, team.id, sort.kind, given["origin"], deleted="@" in given["origin"])
        made = designs.add(session, team.id, sort.kind, found.shown, given["title"])
    return _ref(made), 201


@design.put("/<ref>")
def save(what: str, ref: str) -> dict[str, Any]:
    """Keep a new version; boards that are under way go on with theirs."""
    sort = _SORTS[what]
    given = schemas.read_all(_SAVED, request.get_data())
    form = sort.read(given["data"])
    with services().store.write() as session:
        team = asking(session).team
        return _ref(designs.save(session, team.id, sort.kind, ref, given["version"], form))


@design.delete("/<ref>")
def delete(what: str, ref: str) -> dict[str, Any]:
    """Take one out of the list; boards that use it go on, and it can be brought back."""
    with services().store.write() as session:
        gone = designs.delete(session, asking(session).team.id, _SORTS[what].kind, ref)
    return {"ref": gone, "restore": f"/api/{what}/{gone}/restore"}


@design.post("/<ref>/restore")
def restore(what: str, ref: str) -> dict[str, Any]:
    """Bring a deleted one back."""
    with services().store.write() as session:
        return _ref(designs.restore(session, asking(session).team.id, _SORTS[what].kind, ref))


def _ref(found: DesignForm) -> dict[str, Any]:
    return {"ref": found.newest_ref, "version": found.version}
