"""Every shape that comes in from outside, checked before anything else looks at it.

Unknown fields are refused. Schemas are built once, at the end of this file.
"""

from __future__ import annotations

import json
import unicodedata
from collections.abc import Mapping
from typing import Any, Final, NoReturn

from marshmallow import Schema, ValidationError, fields, validate

from engine.formations import FORMATIONS
from engine.standards import STANDARDS
from webapp.refusals import Refused
from webapp.wire import LEVELS

#: Version of the messages; a page from another version is asked to load again.
VERSION: Final = 1

#: The longest text form of an action is under 40 characters.
ACTION_MAX_CHARS: Final = 48
NAME_MAX_CHARS: Final = 40
SEQ_MAX: Final = 2**53 - 1  # the largest whole number a browser holds exactly


class WholeNumber(fields.Integer):
    """A whole number; unlike the plain field, ``true`` is not one."""

    def __init__(self, **given: Any) -> None:
        super().__init__(strict=True, **given)

    def _deserialize(self, value: Any, attr: str | None, data: Any, **given: Any) -> int:
        if isinstance(value, bool):
            raise self.make_error("invalid")
        number = super()._deserialize(value, attr, data, **given)
        assert isinstance(number, int)
        return number


class Name(fields.String):
    """A name: 1 to 40 visible characters on one line, spaces around it dropped."""

    def _deserialize(self, value: Any, attr: str | None, data: Any, **given: Any) -> str:
        text = super()._deserialize(value, attr, data, **given)
        assert isinstance(text, str)
        # Control characters, halves of characters and marks that turn the line's direction.
        if any(unicodedata.category(c) in ("Cc", "Cs", "Co", "Cn") or c in _TURNING for c in text):
            raise ValidationError("must be plain text on one line.")
        text = " ".join(text.split())
        if not 1 <= len(text) <= NAME_MAX_CHARS:
            raise ValidationError(f"must have 1 to {NAME_MAX_CHARS} characters.")
        return text


_TURNING: Final = frozenset("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")
_ID: Final = validate.Regexp(r"\A[A-Za-z0-9_-]{1,64}\Z", error="must be 1 to 64 letters, digits, - or _.")
_ACTION: Final = validate.Regexp(
    rf"\A[a-z_:]{{1,{ACTION_MAX_CHARS}}}\Z", error="must be the name of an action."
)
_SEQ: Final = validate.Range(0, SEQ_MAX)


class _Hello(Schema):
    v = WholeNumber(required=True)
    seen = WholeNumber(required=True, allow_none=True, validate=_SEQ)


class _Ping(Schema):
    pass


class _Change(Schema):
    id = fields.String(required=True, validate=_ID)
    base = WholeNumber(required=True, validate=_SEQ)


class _Act(_Change):
    at = WholeNumber(required=True, validate=_SEQ)
    a = fields.List(fields.String(validate=_ACTION), required=True, validate=validate.Length(1, 2))


class _Level(fields.Float):
    def _deserialize(self, value: Any, attr: str | None, data: Any, **given: Any) -> float:
        # By value in the table, so that text, true and not-a-number cannot slip in.
        if isinstance(value, bool) or not isinstance(value, int | float) or value not in LEVELS:
            raise ValidationError(f"must be one of {', '.join(map(str, LEVELS))}.")
        return float(value)


class _Setup(_Change):
    formation = fields.String(validate=validate.OneOf(FORMATIONS))
    court = fields.String(validate=validate.OneOf(STANDARDS))
    level = _Level()


class _NewTeam(Schema):
    team = Name(required=True)
    board = Name(required=True)


class _NewLink(Schema):
    kind = fields.String(required=True, validate=validate.OneOf(("view", "coach")))
    name = Name(required=True)


class _NewCode(Schema):
    pass


class _Rename(Schema):
    name = Name(required=True)


class _Join(Schema):
    code = fields.String(required=True, validate=validate.Length(1, 40))


#: What a screen may say, by its ``t``.
MESSAGES: Final[Mapping[str, Schema]] = {
    "hello": _Hello(),
    "ping": _Ping(),
    "act": _Act(),
    "undo": _Change(),
    "redo": _Change(),
    "fresh": _Change(),
    "setup": _Setup(),
}

NEW_TEAM: Final[Schema] = _NewTeam()
NEW_LINK: Final[Schema] = _NewLink()
NEW_CODE: Final[Schema] = _NewCode()
RENAME: Final[Schema] = _Rename()
JOIN: Final[Schema] = _Join()


def read_message(text: str | bytes) -> dict[str, Any]:
    """Return the checked message in ``text``, its kind under ``t``.

    Raises ``Refused`` (``unreadable``) with the reason for anything else.
    """
    if isinstance(text, bytes):
        raise Refused("unreadable", why="it must be text")
    message = _json(text, "unreadable")
    if not isinstance(message, dict):
        raise Refused("unreadable", why="it must be an object")
    kind = message.pop("t", None)
    schema = MESSAGES.get(kind) if isinstance(kind, str) else None
    if schema is None:
        raise Refused("unreadable", why=f"t: must be one of {', '.join(MESSAGES)}")
    return {"t": kind, **_load(schema, message, "unreadable")}


def read_body(schema: Schema, text: bytes) -> dict[str, Any]:
    """Return the checked JSON body in ``text``; an empty body is an empty object. Raises ``Refused``."""
    try:
        decoded = text.decode()
    except UnicodeDecodeError:
        raise Refused("bad_form", why="The request is not text.") from None
    return _load(schema, _json(decoded or "{}", "bad_form"), "bad_form")


def read_form(schema: Schema, form: Mapping[str, str]) -> dict[str, Any]:
    """Return the checked fields of a form. Raises ``Refused`` (``bad_form``)."""
    return _load(schema, dict(form), "bad_form")


def _json(text: str, code: str) -> Any:
    try:
        return json.loads(text, parse_constant=_no_constant)
    except (ValueError, RecursionError):
        why = "it is not JSON" if code == "unreadable" else "The request is not JSON."
        raise Refused(code, why=why) from None


def _no_constant(name: str) -> NoReturn:
    raise ValueError(name)


def _load(schema: Schema, data: Any, code: str) -> dict[str, Any]:
    if not isinstance(data, dict):
        raise Refused(code, why="It must be an object.")
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
        path.append(str(where)[:NAME_MAX_CHARS])
    complaint = str(messages[0] if isinstance(messages, list) else messages)
    printable = "".join(c if c.isprintable() else "?" for c in ".".join(path))
    if code == "bad_form":
        return f"{printable.capitalize()}: {complaint}"
    return f"{printable}: {complaint.rstrip('.')}"
