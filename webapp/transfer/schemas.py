"""The shape of a document, and how much may be in it. The published form of the same is
``static/schema/team-1.json``; a test holds every document written to both.
"""

from __future__ import annotations

import json
from typing import Any, Final

from marshmallow import Schema, ValidationError, fields, validate

from engine.floor.standards import STANDARDS
from engine.rules.actions import KINDS
from webapp.base.fields import Line, Name, OneOf, WholeNumber, YesNo
from webapp.plays import playbook
from webapp.plays import schemas as playbook_schemas
from webapp.plays.schemas import Few
from webapp.team import designs, squad, squad_schemas
from webapp.transfer import inks
from webapp.transfer.document import FORMAT, VERSION
from webapp.wire import schemas
from webapp.wire.engine_values import LEVELS

#: Of each kind, how much one document may hold; nodes of all chains together.
BOARDS_MAX: Final = 500
CHAINS_MAX: Final = 50_000
DESIGNS_MAX: Final = 2 * designs.KEPT_MAX
NODES_MAX: Final = 200_000
#: A version of a design, as JSON.
DESIGN_MAX_CHARS: Final = 65_536

#: The last second of the year 9999, since 1970 UTC.
_LAST_S: Final = 253_402_300_799


def _when(**given: Any) -> WholeNumber:
    late = validate.Range(0, _LAST_S, error="must be a time in seconds since 1970.")
    return WholeNumber(required=True, validate=late, **given)


def _id(**given: Any) -> fields.String:
    return fields.String(required=True, validate=_ID, **given)


#: Shorter than on the wire, as the refs of designs are made of them.
_ID: Final = validate.Regexp(r"\A[A-Za-z0-9_-]{1,64}\Z", error="must be 1 to 64 letters, digits, - or _.")
_DESIGN_ID: Final = validate.Regexp(
    r"\A[A-Za-z0-9_-]{1,40}\Z", error="must be 1 to 40 letters, digits, - or _."
)
#: What ships, or one version of one of the team's own.
_REF: Final = validate.Regexp(
    r"\A(?:[a-z_]{1,40}|[rf]_[A-Za-z0-9_-]{1,40}@[1-9][0-9]{0,5})\Z",
    error="must be the name of one that ships, or one version of one in this file.",
)
_INDEX: Final = validate.Range(0, NODES_MAX, error="must be a place in the list of steps.")


class _Player(squad_schemas.NewPlayer):
    id = _id()
    made = _when()


class _Lineup(Schema):
    id = _id()
    name = Name(required=True)
    places = fields.Dict(
        schemas.PLACE,
        fields.String(validate=_ID, allow_none=True),
        required=True,
        validate=validate.Length(equal=5, error="must name all five places."),
    )
    made = _when()


def _small(value: Any) -> None:
    if not isinstance(value, dict):
        raise ValidationError("must be a group of named values.")
    if len(json.dumps(value)) > DESIGN_MAX_CHARS:
        raise ValidationError("is larger than rules or a formation can be.")


class _Version(Schema):
    version = WholeNumber(required=True, validate=validate.Range(1, designs.VERSIONS_MAX))
    made = _when()
    data = fields.Raw(required=True, validate=_small)


class _Design(Schema):
    id = fields.String(required=True, validate=_DESIGN_ID)
    kind = OneOf(("rules", "formation"), required=True)
    made = _when()
    deleted = _when(allow_none=True)
    versions = Few(fields.Nested(_Version()), 1, designs.VERSIONS_MAX, required=True)


class _Stands(Schema):
    chain = _id()
    node = WholeNumber(required=True, validate=_INDEX)
    tip = WholeNumber(required=True, validate=_INDEX)


class _Level(fields.Float):
    def _deserialize(self, value: Any, attr: str | None, data: Any, **given: Any) -> float:
        if isinstance(value, bool) or not isinstance(value, int | float) or value not in LEVELS:
            raise ValidationError(f"must be one of {', '.join(map(str, LEVELS))}.")
        return float(value)


class _Board(Schema):
    id = _id()
    name = Name(required=True)
    formation = fields.String(required=True, validate=_REF)
    rules = fields.String(required=True, validate=_REF)
    stage = WholeNumber(required=True, allow_none=True, validate=validate.Range(0, schemas.STAGES_MAX - 1))
    court = OneOf(STANDARDS, required=True)
    level = _Level(required=True)
    places = fields.Dict(schemas.PLACE, fields.String(validate=_ID), required=True)
    made = _when()
    stands = fields.Nested(_Stands(), required=True)


class _Tree(fields.Field[Any]):
    """A list of ``[parent, actions, made]``, the start first, every parent before its children.

    Checked by hand, as there are many.
    """

    def _deserialize(self, value: Any, attr: str | None, data: Any, **given: Any) -> Any:
        if not isinstance(value, list) or not 1 <= len(value) <= playbook.TREE_MAX * 4:
            raise ValidationError(f"must be a list of 1 to {playbook.TREE_MAX * 4} steps.")
        known = set()
        for index, node in enumerate(value):
            complaint = _node(index, node)
            if complaint is None and (node[0], node[1]) in known:
                complaint = "is there twice."
            if complaint is not None:
                raise ValidationError(f"must be steps one after the other: number {index} {complaint}")
            known.add((node[0], node[1]))
        return [list(node) for node in value]


def _node(index: int, node: Any) -> str | None:
    """Return what is wrong with one node of a tree."""
    if not isinstance(node, list) or len(node) != 3 or [type(part) for part in node] != [int, str, int]:
        return "is not a number, actions and a time."
    parent, actions, made = node
    if not 0 <= made <= _LAST_S:
        return "has no time that can be."
    if index == 0:
        return None if (parent, actions) == (-1, "") else "is not a start."
    if not 0 <= parent < index:
        return "comes before the step it follows."
    words = actions.split(" ")
    if len(words) > 2 or not all(playbook_schemas.STEP_ACTION.regex.match(word) for word in words):
        return "is not one action or two."
    return None


class _Inked(fields.Field[Any]):
    """What was drawn on a chain's steps. Checked by hand, as there may be much of it."""

    def _deserialize(self, value: Any, attr: str | None, data: Any, **given: Any) -> Any:
        wrong = inks.complaint(value)
        if wrong is not None:
            raise ValidationError(f"must be drawings: {wrong}. Save the file anew, or leave its ink out.")
        return value


class _Chain(Schema):
    id = _id()
    board = _id()
    formation = fields.String(required=True, validate=_REF)
    rules = fields.String(required=True, validate=_REF)
    name = Line(0, playbook_schemas.NAME_MAX_CHARS, required=True)
    note = playbook_schemas.Note(required=True)
    tags = playbook_schemas.Tags(required=True)
    pinned = YesNo(required=True)
    kept = YesNo(required=True)
    made = _when()
    used = _when()
    deleted = _when(allow_none=True)
    tree = _Tree(required=True)
    line = WholeNumber(required=True, validate=_INDEX)
    ink = _Inked()
    stopped = Few(WholeNumber(validate=_INDEX), 1, NODES_MAX)


class _Team(Schema):
    id = _id()
    name = Name(required=True)
    made = _when()
    calls = fields.Dict(
        OneOf(KINDS, "must be the name of an action."), fields.Nested(squad_schemas.Call()), required=True
    )


class _Document(Schema):
    format = OneOf((FORMAT,), required=True)
    version = WholeNumber(required=True, validate=validate.Equal(VERSION, error="must be {other}."))
    team = fields.Nested(_Team(), required=True)
    players = Few(fields.Nested(_Player()), 0, squad.PLAYERS_MAX, required=True)
    lineups = Few(fields.Nested(_Lineup()), 0, squad.LINEUPS_MAX, required=True)
    designs = Few(fields.Nested(_Design()), 0, DESIGNS_MAX, required=True)
    boards = Few(fields.Nested(_Board()), 1, BOARDS_MAX, required=True)
    chains = Few(fields.Nested(_Chain()), 1, CHAINS_MAX, required=True)


DOCUMENT: Final[Schema] = _Document()
