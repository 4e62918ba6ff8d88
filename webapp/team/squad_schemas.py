"""What comes in about a team's squad, lineups and calls. Of a player, no more is taken than is needed."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Mapping
from typing import Any, Final

from marshmallow import Schema, ValidationError, fields, validate

from engine.errors import QuintetError
from engine.rules.actions import KINDS, LANE_CHOICES, parse
from engine.words.spoken import Said, later, say
from webapp.base.fields import Line, Name, OneOf
from webapp.wire import schemas
from webapp.wire.text_forms import ACTION_MAX_CHARS

PLAYER_NAME_MAX_CHARS: Final = 20
POSITIONS: Final = ("guard", "wing", "big")
HANDS: Final = ("right", "left", "")

_CALL_MAX: Final = 30
_SIGNAL_MAX: Final = 60

#: A first name may have these besides letters.
_BETWEEN: Final = frozenset(" -'’.")


class _FirstName(Line):
    """A first name or nickname, or nothing."""

    def __init__(self, **given: Any) -> None:
        super().__init__(0, PLAYER_NAME_MAX_CHARS, **given)

    def _deserialize(self, value: Any, attr: str | None, data: Any, **given: Any) -> str:
        text = super()._deserialize(value, attr, data, **given)
        if any(unicodedata.category(c)[0] not in "LM" and c not in _BETWEEN for c in text):
            raise ValidationError(say("refusals.squad_form.must_first_name_or"))
        return text


def _lane_choice(text: str) -> None:
    """Let pass the kind or the text form of a cutter's choice."""
    try:
        if text not in LANE_CHOICES and not parse(text).is_lane_choice:
            raise ValidationError(say("refusals.squad_form.must_something_cutter_can"))
    except QuintetError as error:
        raise ValidationError(str(error)) from None


_NUMBER: Final = validate.Regexp(
    r"\A(?:[0-9]|00|[1-9][0-9])\Z", error=later("refusals.squad_form.must_number_from")
)


class _Strict(Schema):
    """Says why nothing more about a player is taken."""

    error_messages = {"unknown": later("refusals.squad_form.number_first_name_how")}  # noqa: RUF012


class _ChangedPlayer(_Strict):
    number = fields.String(validate=_NUMBER)
    name = _FirstName()
    positions = fields.List(OneOf(POSITIONS), validate=validate.Length(0, len(POSITIONS)))
    hand = OneOf(HANDS, Said("refusals.squad_form.must_right_left_or"))
    may = fields.List(
        OneOf(KINDS, Said("refusals.text_forms.must_name_action")),
        allow_none=True,
        validate=validate.Length(0, len(KINDS)),
    )
    lane = fields.List(
        fields.String(validate=[validate.Length(1, ACTION_MAX_CHARS), _lane_choice]),
        validate=validate.Length(0, 12),
    )


class NewPlayer(_ChangedPlayer):
    """A player of whom at least the number is known."""

    number = fields.String(required=True, validate=_NUMBER)


def _places(**given: Any) -> fields.Dict:
    return fields.Dict(schemas.PLACE, fields.String(validate=schemas.ID, allow_none=True), **given)


class _NewLineup(Schema):
    name = Name(required=True)
    places = _places(required=True)


class _ChangedLineup(Schema):
    name = Name()
    places = _places()


class Call(Schema):
    """What is called out for an action, and its hand signal."""

    call = Line(0, _CALL_MAX, load_default="")
    signal = Line(0, _SIGNAL_MAX, load_default="")


class _Calls(Schema):
    calls = fields.Dict(
        OneOf(KINDS, Said("refusals.text_forms.must_name_action")), fields.Nested(Call()), required=True
    )


class _Erase(Schema):
    confirm = OneOf(("erase",), Said("refusals.squad_form.must_word_erase"), required=True)


NEW_PLAYER: Final[Schema] = NewPlayer()
CHANGED_PLAYER: Final[Schema] = _ChangedPlayer()
NEW_LINEUP: Final[Schema] = _NewLineup()
CHANGED_LINEUP: Final[Schema] = _ChangedLineup()
ERASE: Final[Schema] = _Erase()
NOTHING: Final[Schema] = schemas.NEW_CODE

_CALLS: Final = _Calls()


def read_calls(text: bytes) -> dict[str, dict[str, str]]:
    """Return a team's calls by kind of action, those that say nothing left out. Raises ``Problems``."""
    body = schemas.read_json(text)
    given = body if isinstance(body, dict) and "calls" in body else {"calls": body}
    calls: Mapping[str, Mapping[str, str]] = schemas.checked(_CALLS, given)["calls"]
    said = {kind: {what: word for what, word in call.items() if word} for kind, call in calls.items()}
    return {kind: call for kind, call in said.items() if call}


def read_language(given: bytes, known: Iterable[str]) -> str:
    """Return the tag of a language among those ``known``, or "". Raises ``Problems``."""
    schema = Schema.from_dict({"language": OneOf(("", *known), required=True)})
    language: str = schemas.read_all(schema(), given)["language"]
    return language
