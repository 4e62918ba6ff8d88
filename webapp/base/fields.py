"""Values that come in from outside, read more strictly than usual, and what is said when they are wrong."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator, Mapping
from typing import Any, Final, cast

from marshmallow import ValidationError, fields, validate

from engine.words.spoken import Said, later, say

NAME_MAX_CHARS: Final = 40

#: Control characters, halves of characters and the like.
_UNSEEN: Final = frozenset(("Cc", "Cs", "Co", "Cn"))
#: Marks that turn the line's direction.
_TURNING: Final = frozenset("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")


def between(least: int, most: int | None = None) -> validate.Range:
    """Return what holds a number to bounds, and says so."""
    key = "least" if most is None else "between"
    return validate.Range(least, most, error=later(f"refusals.fields.{key}"))


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


class Number(fields.Float):
    """A finite number within bounds; unlike with the plain field, neither a text nor ``true`` is one."""

    def __init__(self, least: float, most: float, **given: Any) -> None:
        sentence = Said("refusals.fields.must_number_from", least=f"{least:g}", most=f"{most:g}")
        super().__init__(validate=validate.Range(least, most, error=cast(Any, sentence)), **given)
        self._sentence = sentence

    def _deserialize(self, value: Any, attr: str | None, data: Any, **given: Any) -> float:
        if isinstance(value, bool) or not isinstance(value, int | float) or abs(value) > 1e9:
            raise ValidationError(str(self._sentence))
        return float(value)


class Line(fields.String):
    """Visible text on one line, spaces around it dropped and between words single."""

    def __init__(self, least: int = 0, most: int = NAME_MAX_CHARS, **given: Any) -> None:
        super().__init__(**given)
        self._least, self._most = least, most

    def _deserialize(self, value: Any, attr: str | None, data: Any, **given: Any) -> str:
        text = super()._deserialize(value, attr, data, **given)
        assert isinstance(text, str)
        if any(unicodedata.category(c) in _UNSEEN or c in _TURNING for c in text):
            raise ValidationError(say("refusals.fields.must_plain_text_on"))
        text = " ".join(text.split())
        if not self._least <= len(text) <= self._most:
            key = "from_to_characters" if self._least else "most_characters"
            raise ValidationError(say(f"refusals.fields.{key}", least=self._least, most=self._most))
        return text


class Name(Line):
    """A name: 1 to 40 visible characters on one line."""

    def __init__(self, **given: Any) -> None:
        super().__init__(1, NAME_MAX_CHARS, **given)


class OneOf(fields.String):
    """One of a few words; the sentence says which, or ``sentence`` says what is meant."""

    def __init__(self, words: Any, sentence: Said | None = None, **given: Any) -> None:
        error: Any = sentence or Said("refusals.fields.must_one")
        super().__init__(validate=validate.OneOf(tuple(words), error=error), **given)


class YesNo(fields.Boolean):
    """``true`` or ``false`` and nothing that is taken for one."""

    def _deserialize(self, value: Any, attr: str | None, data: Any, **given: Any) -> bool:
        if not isinstance(value, bool):
            raise ValidationError(say("refusals.fields.must_yes_or_no"))
        return value


# marshmallow fills these in itself.
validate.Length.message_min = later("refusals.fields.length_least")
validate.Length.message_max = later("refusals.fields.length_most")
validate.Length.message_all = later("refusals.fields.length_between")
validate.Length.message_equal = later("refusals.fields.length_exact")
validate.OneOf.default_message = later("refusals.fields.must_one")
validate.Equal.default_message = later("refusals.fields.equal")
validate.Regexp.default_message = later("refusals.fields.pattern")

#: What is said to a coach instead of marshmallow's own sentences.
_PLAINLY: Final[Mapping[str, Said]] = {
    "Missing data for required field.": Said("refusals.fields.missing"),
    "Unknown field.": Said("refusals.fields.not_known_here_leave"),
    "Field may not be null.": Said("refusals.fields.must_not_empty"),
    "Not a valid string.": Said("refusals.fields.must_text"),
    "Not a valid list.": Said("refusals.fields.must_list"),
    "Not a valid integer.": Said("refusals.fields.must_whole_number"),
    "Not a valid number.": Said("refusals.fields.must_number"),
    "Number too large.": Said("refusals.fields.too_large"),
    "Not a valid boolean.": Said("refusals.fields.must_yes_or_no"),
    "Not a valid mapping type.": Said("refusals.fields.must_group_named_values"),
    "Invalid input type.": Said("refusals.fields.must_group_named_values"),
}


def plainly(sentence: object) -> str:
    """Return a complaint of a schema in the language spoken."""
    return str(_PLAINLY.get(str(sentence), sentence))


def complaints(messages: Any, place: tuple[str, ...] = ()) -> Iterator[tuple[str, str]]:
    """Yield all that marshmallow complains about as (place, sentence), places joined by dots."""
    if isinstance(messages, Mapping):
        for where, inner in messages.items():
            # Of a mapping's entry marshmallow tells key and value apart; a reader need not.
            step = () if where in ("key", "value", "_schema") else (_printable(where),)
            yield from complaints(inner, (*place, *step))
        return
    for sentence in messages if isinstance(messages, list) else [messages]:
        yield ".".join(place), plainly(sentence)


def _printable(where: object) -> str:
    return "".join(c if c.isprintable() else "?" for c in str(where)[:NAME_MAX_CHARS])
