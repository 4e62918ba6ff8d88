"""The shape of a document, and how much may be in it. The published form of the same is
``static/schema/team-1.json``; a test holds every document written to both.
"""

from __future__ import annotations

import json
from typing import Any, Final

from marshmallow import Schema, ValidationError, fields, validate

from engine.floor.standards import STANDARDS
from engine.rules.actions import KINDS
from engine.words.spoken import Said, later, listed, say
from webapp.base.fields import Line, Name, OneOf, WholeNumber, YesNo, between
from webapp.plays import playbook, playbook_schemas
from webapp.plays.playbook_schemas import Few
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
    late = validate.Range(0, _LAST_S, error=later("refusals.team_file.must_time_seconds_since"))
    return WholeNumber(required=True, validate=late, **given)


def _id(**given: Any) -> fields.String:
    return fields.String(required=True, validate=_ID, **given)


#: Shorter than on the wire, as the refs of designs are made of them.
_ID: Final = validate.Regexp(
    r"\A[A-Za-z0-9_-]{1,64}\Z", error=later("refusals.messages.must_letters_digits_or")
)
_DESIGN_ID: Final = validate.Regexp(
    r"\A[A-Za-z0-9_-]{1,40}\Z", error=later("refusals.team_file.must_letters_digits_or_2")
)
#: What ships, or one version of one of the team's own.
_REF: Final = validate.Regexp(
    r"\A(?:[a-z_]{1,40}|[rf]_[A-Za-z0-9_-]{1,40}@[1-9][0-9]{0,5})\Z",
    error=later("refusals.team_file.must_name_one_ships"),
)
_INDEX: Final = validate.Range(0, NODES_MAX, error=later("refusals.team_file.must_place_list_steps"))


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
        validate=validate.Length(equal=5, error=later("refusals.team_file.must_name_all_five")),
    )
    made = _when()


def _small(value: Any) -> None:
    if not isinstance(value, dict):
        raise ValidationError(say("refusals.fields.must_group_named_values"))
    if len(json.dumps(value)) > DESIGN_MAX_CHARS:
        raise ValidationError(say("refusals.team_file.larger_than_rules_or"))


class _Version(Schema):
    version = WholeNumber(required=True, validate=between(1, designs.VERSIONS_MAX))
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
            raise ValidationError(
                say("refusals.messages.must_one", choices=listed(map(str, LEVELS), "comma"))
            )
        return float(value)


class _Board(Schema):
    id = _id()
    name = Name(required=True)
    formation = fields.String(required=True, validate=_REF)
    rules = fields.String(required=True, validate=_REF)
    stage = WholeNumber(required=True, allow_none=True, validate=between(0, schemas.STAGES_MAX - 1))
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
            raise ValidationError(say("refusals.team_file.must_list_steps", tree_max=playbook.TREE_MAX * 4))
        known = set()
        for index, node in enumerate(value):
            complaint = _node(index, node)
            if complaint is None and (node[0], node[1]) in known:
                complaint = say("refusals.team_file.twice")
            if complaint is not None:
                raise ValidationError(
                    say("refusals.team_file.must_steps_one_after", index=index, complaint=complaint)
                )
            known.add((node[0], node[1]))
        return [list(node) for node in value]


def _node(index: int, node: Any) -> str | None:
    """Return what is wrong with one node of a tree."""
    if not isinstance(node, list) or len(node) != 3 or [type(part) for part in node] != [int, str, int]:
        return say("refusals.team_file.not_number_actions_time")
    parent, actions, made = node
    if not 0 <= made <= _LAST_S:
        return say("refusals.team_file.has_no_time_can")
    if index == 0:
        return None if (parent, actions) == (-1, "") else say("refusals.team_file.not_start")
    if not 0 <= parent < index:
        return say("refusals.team_file.comes_before_step_follows")
    words = actions.split(" ")
    if len(words) > 2 or not all(playbook_schemas.STEP_ACTION.regex.match(word) for word in words):
        return say("refusals.team_file.not_one_action_or")
    return None


class _Inked(fields.Field[Any]):
    """What was drawn on a chain's steps. Checked by hand, as there may be much of it."""

    def _deserialize(self, value: Any, attr: str | None, data: Any, **given: Any) -> Any:
        wrong = inks.complaint(value)
        if wrong is not None:
            raise ValidationError(say("refusals.team_file.must_drawings_save_file", wrong=wrong))
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
    occasion = playbook_schemas.Occasion()
    rank = playbook_schemas.Rank()
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
    language = fields.String(
        validate=validate.Regexp(r"\A[A-Za-z0-9-]{2,35}\Z", error=later("refusals.team_file.must_language"))
    )
    calls = fields.Dict(
        OneOf(KINDS, Said("refusals.text_forms.must_name_action")),
        fields.Nested(squad_schemas.Call()),
        required=True,
    )


class _Document(Schema):
    format = OneOf((FORMAT,), required=True)
    version = WholeNumber(
        required=True, validate=validate.Equal(VERSION, error=later("refusals.fields.equal"))
    )
    team = fields.Nested(_Team(), required=True)
    players = Few(fields.Nested(_Player()), 0, squad.PLAYERS_MAX, required=True)
    lineups = Few(fields.Nested(_Lineup()), 0, squad.LINEUPS_MAX, required=True)
    designs = Few(fields.Nested(_Design()), 0, DESIGNS_MAX, required=True)
    boards = Few(fields.Nested(_Board()), 1, BOARDS_MAX, required=True)
    chains = Few(fields.Nested(_Chain()), 1, CHAINS_MAX, required=True)


DOCUMENT: Final[Schema] = _Document()
