"""What a screen may say on its socket, by schema: taps, setup, recoveries, lines brought along, ink."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Final

from marshmallow import Schema, ValidationError, fields, validate, validates_schema

from engine.floor.standards import STANDARDS
from engine.words.spoken import later, listed, say
from webapp.base.fields import WholeNumber, YesNo, between
from webapp.wire.engine_values import LEVELS
from webapp.wire.refusals import Refused
from webapp.wire.schemas import FAR_CM, ID, LINE_MAX, PLACE, REF, SEQ_MAX, STAGES_MAX, load_by, parse_json
from webapp.wire.text_forms import ACTED, ACTION, PLAYED

_SEQ: Final = between(0, SEQ_MAX)


class _Hello(Schema):
    v = WholeNumber(required=True)
    seen = WholeNumber(required=True, allow_none=True, validate=_SEQ)


class _Ping(Schema):
    pass


class _Look(Schema):
    at = WholeNumber(required=True, validate=_SEQ)


class _Show(_Look):
    seq = WholeNumber(required=True, validate=_SEQ)
    # "rest": everybody stands there; "step": that one step plays; "on": it plays to the end.
    plays = fields.String(required=True, validate=validate.OneOf(("rest", "step", "on")))


class _Change(Schema):
    id = fields.String(required=True, validate=ID)
    base = WholeNumber(required=True, validate=_SEQ)
    # The id of the change it was made after, where the screen sent that one itself.
    after = fields.String(validate=ID)


class _Act(_Change):
    at = WholeNumber(required=True, validate=_SEQ)
    a = fields.List(fields.String(validate=ACTED), required=True, validate=validate.Length(1, 2))


class _Fresh(_Change):
    chain = fields.String(validate=ID)


class _Level(fields.Float):
    def _deserialize(self, value: Any, attr: str | None, data: Any, **given: Any) -> float:
        # By value in the table, so that text, true and not-a-number cannot slip in.
        if isinstance(value, bool) or not isinstance(value, int | float) or value not in LEVELS:
            raise ValidationError(
                say("refusals.messages.must_one", choices=listed(map(str, LEVELS), "comma"))
            )
        return float(value)


class _Setup(_Fresh):
    formation = fields.String(validate=REF)
    rules = fields.String(validate=REF)
    stage = WholeNumber(allow_none=True, validate=between(0, STAGES_MAX - 1))
    places = fields.Dict(PLACE, fields.String(validate=ID, allow_none=True))
    court = fields.String(validate=validate.OneOf(STANDARDS))
    level = _Level()


def _whole(value: Any) -> None:
    if isinstance(value, bool) or not isinstance(value, int) or abs(value) > FAR_CM:
        raise ValidationError(say("refusals.messages.must_two_whole_numbers"))


class _Recover(_Change):
    at = WholeNumber(required=True, validate=_SEQ)
    where = fields.Dict(
        PLACE,
        fields.List(fields.Raw(validate=_whole), validate=validate.Length(equal=2)),
        required=True,
        validate=validate.Length(equal=5, error=later("refusals.messages.must_say_where_each")),
    )
    spots = fields.Dict(
        PLACE,
        fields.String(validate=ACTION),
        validate=validate.Length(equal=5, error=later("refusals.messages.must_say_where_each_five")),
    )


class _Line(Schema):
    id = fields.String(required=True, validate=ID)
    chain = fields.String(required=True, validate=ID)
    formation = fields.String(required=True, validate=REF)
    rules = fields.String(required=True, validate=REF)
    line = fields.List(
        fields.List(fields.String(validate=PLAYED), required=True, validate=validate.Length(1, 2)),
        required=True,
        validate=validate.Length(0, LINE_MAX),
    )


class _Open(_Line):
    base = WholeNumber(required=True, validate=_SEQ)
    after = fields.String(validate=ID)
    depth = WholeNumber(required=True, validate=_SEQ)
    undo = YesNo()


#: Tools and colours of ink, by their index (static/js/ink/model.js names them).
INK_TOOLS: Final = 7
INK_COLOURS: Final = 3
#: Points of one stroke, three numbers each: x and y in whole centimetres, pressure 0 to 100; the first point
#: as it is, each next one as the difference to the one before.
INK_POINTS_MAX: Final = 240
#: Strokes rubbed out, or brought back, at once.
INK_RUB_MAX: Final = 400
#: What each kind of ink message must have, beside ``do``.
_INK_NEEDS: Final[Mapping[str, frozenset[str]]] = {
    "show": frozenset(),
    "begin": frozenset({"s", "chain", "line", "tool", "colour", "p"}),
    "more": frozenset({"s", "p"}),
    "drop": frozenset({"s"}),
    "put": frozenset({"k", "s", "chain", "formation", "rules", "line", "tool", "colour", "p"}),
    "rub": frozenset({"k", "chain", "line", "ss"}),
    "back": frozenset({"k", "chain", "line", "ss"}),
}


def _drawn(numbers: list[int]) -> None:
    if len(numbers) % 3:
        raise ValidationError(say("refusals.messages.must_three_numbers_point"))


class _Ink(Schema):
    do = fields.String(required=True, validate=validate.OneOf(tuple(_INK_NEEDS)))
    k = fields.String(validate=ID)
    s = fields.String(validate=ID)
    ss = fields.List(fields.String(validate=ID), validate=validate.Length(1, INK_RUB_MAX))
    chain = fields.String(validate=ID)
    formation = fields.String(validate=REF)
    rules = fields.String(validate=REF)
    line = fields.List(
        fields.List(fields.String(validate=PLAYED), required=True, validate=validate.Length(1, 2)),
        validate=validate.Length(0, LINE_MAX),
    )
    tool = WholeNumber(validate=between(0, INK_TOOLS - 1))
    colour = WholeNumber(validate=between(0, INK_COLOURS - 1))
    p = fields.List(
        WholeNumber(validate=between(-2 * FAR_CM, 2 * FAR_CM)),
        validate=(validate.Length(3, 3 * INK_POINTS_MAX), _drawn),
    )

    @validates_schema
    def _has_its_parts(self, data: dict[str, Any], **_given: Any) -> None:
        needed = _INK_NEEDS[data["do"]]
        if needed != data.keys() - {"do"}:
            wrong = sorted(needed ^ (data.keys() - {"do"}))
            raise ValidationError(
                say("refusals.messages.must_given_for_one", choices=listed(wrong, "comma")), "do"
            )


#: What a screen may say, by its ``t``.
MESSAGES: Final[Mapping[str, Schema]] = {
    "hello": _Hello(),
    "ping": _Ping(),
    "look": _Look(),
    "show": _Show(),
    "act": _Act(),
    "undo": _Change(),
    "redo": _Change(),
    "fresh": _Fresh(),
    "open": _Open(),
    "keep": _Line(),
    "setup": _Setup(),
    "recover": _Recover(),
    "ink": _Ink(),
}


def read_message(text: str | bytes) -> dict[str, Any]:
    """Return the checked message in ``text``, its kind under ``t``.

    Raises ``Refused`` (``unreadable``) with the reason for anything else.
    """
    if isinstance(text, bytes):
        raise Refused("unreadable", why=say("refusals.messages.must_text"))
    message = parse_json(text, "unreadable")
    if not isinstance(message, dict):
        raise Refused("unreadable", why=say("refusals.messages.must_object"))
    kind = message.pop("t", None)
    schema = MESSAGES.get(kind) if isinstance(kind, str) else None
    if schema is None:
        raise Refused(
            "unreadable", why=say("refusals.messages.t_must_one", choices=listed(MESSAGES, "comma"))
        )
    return {"t": kind, **load_by(schema, message, "unreadable")}
