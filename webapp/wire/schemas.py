"""Shapes of what comes in from outside: what they share, forms, and reading a body by one.

Unknown fields are refused. What a screen says on its socket is in :mod:`webapp.wire.live_messages`.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any, Final, NoReturn

from marshmallow import Schema, ValidationError, fields, validate

from engine.words.spoken import later, say, spoken
from webapp.base.fields import NAME_MAX_CHARS, Name, complaints, plainly
from webapp.wire.refusals import Problems, Refused

#: Version of the messages; a page from another version is asked to load again.
VERSION: Final = 1

#: The five places of a board.
PLACES: Final = ("1", "2", "3", "4", "5")
#: Teaching stages of one rule set.
STAGES_MAX: Final = 12
#: Nothing on or beside a half court is further than this from the basket.
FAR_CM: Final = 2000
SEQ_MAX: Final = 2**53 - 1  # the largest whole number a browser holds exactly


ID: Final = validate.Regexp(
    r"\A[A-Za-z0-9_-]{1,64}\Z", error=later("refusals.messages.must_letters_digits_or")
)
#: Steps of one line.
LINE_MAX: Final = 500
PLACE: Final = fields.String(validate=validate.OneOf(PLACES, error=later("refusals.messages.must_place")))

#: What ships by its name; the team's own, with or without its version.
REF: Final = validate.Regexp(
    r"\A(?:[a-z_]{1,40}|[rf]_[A-Za-z0-9_-]{1,40}(?:@[1-9][0-9]{0,5})?)\Z",
    error=later("refusals.messages.must_name_one_ships"),
)


class _NewTeam(Schema):
    team = Name(required=True)
    board = Name(required=True)


class _NewLink(Schema):
    kind = fields.String(required=True, validate=validate.OneOf(("view", "coach")))
    name = Name(required=True)


class _NewCode(Schema):
    link = fields.String(validate=ID)


class _Rename(Schema):
    name = Name(required=True)


class _Join(Schema):
    code = fields.String(required=True, validate=validate.Length(1, 40))


NEW_TEAM: Final[Schema] = _NewTeam()
NEW_LINK: Final[Schema] = _NewLink()
NEW_CODE: Final[Schema] = _NewCode()
RENAME: Final[Schema] = _Rename()
JOIN: Final[Schema] = _Join()


def read_json(text: bytes) -> Any:
    """Return the JSON body in ``text``; an empty body is an empty object. Raises ``Refused``."""
    try:
        return parse_json(text.decode() or "{}", "bad_form")
    except UnicodeDecodeError:
        raise Refused("bad_form", why=say("refusals.messages.request_not_text")) from None


def read_body(schema: Schema, text: bytes) -> dict[str, Any]:
    """Return the checked JSON body in ``text``; an empty body is an empty object. Raises ``Refused``."""
    return load_by(schema, read_json(text), "bad_form")


def read_all(schema: Schema, text: bytes) -> dict[str, Any]:
    """Return the checked JSON body in ``text``. Raises ``Problems`` naming all that is wrong and where."""
    return checked(schema, read_json(text))


def checked(schema: Schema, data: Any) -> dict[str, Any]:
    """Return ``data`` checked. Raises ``Problems`` naming all that is wrong and where."""
    try:
        loaded = schema.load(data)
    except ValidationError as error:
        raise Problems(list(complaints(error.messages))) from None
    assert isinstance(loaded, dict)
    return loaded


def read_form(schema: Schema, form: Mapping[str, str]) -> dict[str, Any]:
    """Return the checked fields of a form. Raises ``Refused`` (``bad_form``)."""
    return load_by(schema, dict(form), "bad_form")


def parse_json(text: str, code: str) -> Any:
    """Return the JSON in ``text``. Raises ``Refused`` with ``code``."""
    try:
        return json.loads(text, parse_constant=_no_constant)
    except (ValueError, RecursionError):
        why = (
            say("refusals.messages.not_json")
            if code == "unreadable"
            else say("refusals.messages.request_not_json")
        )
        raise Refused(code, why=why) from None


def _no_constant(name: str) -> NoReturn:
    raise ValueError(name)


def load_by(schema: Schema, data: Any, code: str) -> dict[str, Any]:
    """Return ``data`` checked. Raises ``Refused`` with ``code``, naming the first thing that is wrong."""
    if not isinstance(data, dict):
        raise Refused(code, why=say("refusals.messages.must_object_2"))
    try:
        loaded = schema.load(data)
    except ValidationError as error:
        raise Refused(code, why=_first(error.messages, code)) from None
    assert isinstance(loaded, dict)
    return loaded


def _first(messages: Any, code: str) -> str:
    """Return the first complaint as one line: where, then what."""
    path = []
    while isinstance(messages, dict):
        where, messages = next(iter(messages.items()))
        if where not in ("key", "value"):  # of a mapping's entry
            path.append(str(where)[:NAME_MAX_CHARS])
    complaint = plainly(messages[0] if isinstance(messages, list) else messages)
    printable = "".join(c if c.isprintable() else "?" for c in ".".join(path))
    if code == "bad_form":
        is_known = spoken().has(f"refusals.labels.{printable}")
        called = say(f"refusals.labels.{printable}") if is_known else printable.capitalize()
        return say("general.label", what=called, whose=complaint)
    return say("general.label", what=printable, whose=complaint.rstrip("."))
