"""What comes in about the playbook: changes made on a device, perhaps while it had no network."""

from __future__ import annotations

import unicodedata
from collections.abc import Mapping
from typing import Any, Final

from marshmallow import Schema, ValidationError, fields, validate

from engine.words.spoken import listed, say
from webapp.base.fields import Line, YesNo
from webapp.plays.playbook import OCCASIONS
from webapp.wire import schemas
from webapp.wire.refusals import Refused
from webapp.wire.text_forms import ACTION_FORM, PLAYED_ERROR, SCRIPT_FORM

NAME_MAX_CHARS: Final = 80
NOTE_MAX_CHARS: Final = 2000
TAGS_MAX: Final = 12
TAG_MAX_CHARS: Final = 30
#: The most that a play's rank among the pinned ones may be.
RANK_MAX: Final = 9999
#: Changes in one parcel.
OPS_MAX: Final = 100
#: No line that comes in has more steps than this, whatever the settings allow.
LINE_MAX: Final = 2000

#: An action, a recovery (five times a place, the spot it went back to and where it was), or a scripted step.
STEP_ACTION: Final = validate.Regexp(
    rf"\A(?:{ACTION_FORM}|recover:[a-z_0-9=@,;-]{{1,240}}|{SCRIPT_FORM})\Z", error=PLAYED_ERROR
)


class Note(fields.String):
    """Text of several lines; spaces at the ends of lines and around the whole are dropped."""

    def _deserialize(self, value: Any, attr: str | None, data: Any, **given: Any) -> str:
        text = super()._deserialize(value, attr, data, **given)
        assert isinstance(text, str)
        text = text.replace("\r\n", "\n").replace("\t", " ")
        if any(unicodedata.category(c) in ("Cc", "Cs", "Co", "Cn") and c != "\n" for c in text):
            raise ValidationError(say("refusals.play_changes.must_plain_text"))
        text = "\n".join(line.rstrip() for line in text.split("\n")).strip()
        if len(text) > NOTE_MAX_CHARS:
            raise ValidationError(
                say("refusals.play_changes.must_have_at_most", note_max_chars=NOTE_MAX_CHARS)
            )
        return text


class Few(fields.List[Any]):
    """A list of ``least`` to ``most`` things, counted before any of them is looked at."""

    def __init__(self, inner: Any, least: int, most: int, **given: Any) -> None:
        super().__init__(inner, **given)
        self._least, self._most = least, most

    def _deserialize(self, value: Any, attr: str | None, data: Any, **given: Any) -> list[Any]:
        if isinstance(value, list) and not self._least <= len(value) <= self._most:
            raise ValidationError(say("refusals.play_changes.must_list", least=self._least, most=self._most))
        return super()._deserialize(value, attr, data, **given)


class Tags(Few):
    """A list of words, each once."""

    def __init__(self, **given: Any) -> None:
        super().__init__(Line(1, TAG_MAX_CHARS), 0, TAGS_MAX, **given)

    def _deserialize(self, value: Any, attr: str | None, data: Any, **given: Any) -> list[Any]:
        return list(dict.fromkeys(super()._deserialize(value, attr, data, **given)))


def steps(**given: Any) -> Few:
    """Return the field of a line: a list of steps, each a list of one or two text forms."""
    return Few(Few(fields.String(validate=STEP_ACTION), 1, 2), 0, LINE_MAX, **given)


def _id(**given: Any) -> fields.String:
    return fields.String(validate=schemas.ID, **given)


class Occasion(fields.String):
    """When a play is wanted: one of ``OCCASIONS``, or "" for none in particular."""

    def __init__(self, **given: Any) -> None:
        super().__init__(validate=validate.OneOf(("", *OCCASIONS)), **given)


class Rank(fields.Integer):
    """Where a play stands among the pinned ones of its occasion, from 0."""

    def __init__(self, **given: Any) -> None:
        super().__init__(strict=True, validate=validate.Range(0, RANK_MAX), **given)


class _Op(Schema):
    id = _id(required=True)
    op = fields.String(required=True)
    chain = _id(required=True)


class _Line(_Op):
    board = _id(required=True)
    formation = fields.String(required=True, validate=schemas.REF)
    rules = fields.String(required=True, validate=schemas.REF)
    line = steps(required=True)


class _Save(_Line):
    name = Line(0, NAME_MAX_CHARS)
    note = Note()
    tags = Tags()
    occasion = Occasion()


class _Edit(_Op):
    name = Line(0, NAME_MAX_CHARS)
    note = Note()
    tags = Tags()
    pinned = YesNo()
    occasion = Occasion()
    rank = Rank()
    line = steps()


class _Copy(_Op):
    to = _id(required=True, data_key="as")
    name = Line(0, NAME_MAX_CHARS)


class _Parcel(Schema):
    ops = Few(fields.Raw(), 0, OPS_MAX, required=True)


PARCEL: Final[Schema] = _Parcel()

#: What may be done, by its ``op``.
OPS: Final[Mapping[str, Schema]] = {
    "save": _Save(),
    "line": _Line(),
    "edit": _Edit(),
    "delete": _Op(),
    "restore": _Op(),
    "duplicate": _Copy(),
    "renew": _Copy(),
}


def read_op(given: Any) -> dict[str, Any]:
    """Return one change, checked. Raises ``Problems``, ``Refused`` (``bad_form``)."""
    if not isinstance(given, dict):
        raise Refused("bad_form", why=say("refusals.play_changes.change_must_group_named"))
    kind = given.get("op")
    schema = OPS.get(kind) if isinstance(kind, str) else None
    if schema is None:
        raise Refused("bad_form", why=say("refusals.play_changes.op_must_one", choices=listed(OPS, "comma")))
    return schemas.checked(schema, given)
