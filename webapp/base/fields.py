"""Values that come in from outside, read more strictly than usual, and what is said when they are wrong."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator, Mapping
from typing import Any, Final

from marshmallow import ValidationError, fields, validate

NAME_MAX_CHARS: Final = 40

#: Control characters, halves of characters and the like.
_UNSEEN: Final = frozenset(("Cc", "Cs", "Co", "Cn"))
#: Marks that turn the line's direction.
_TURNING: Final = frozenset("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")


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
        sentence = f"must be a number from {least:g} to {most:g}."
        super().__init__(validate=validate.Range(least, most, error=sentence), **given)
        self._sentence = sentence

    def _deserialize(self, value: Any, attr: str | None, data: Any, **given: Any) -> float:
        if isinstance(value, bool) or not isinstance(value, int | float) or abs(value) > 1e9:
            raise ValidationError(self._sentence)
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
            raise ValidationError("must be plain text on one line.")
        text = " ".join(text.split())
        if not self._least <= len(text) <= self._most:
            least = f"{self._least} to " if self._least else "at most "
            raise ValidationError(f"must have {least}{self._most} characters.")
        return text


class Name(Line):
    """A name: 1 to 40 visible characters on one line."""

    def __init__(self, **given: Any) -> None:
        super().__init__(1, NAME_MAX_CHARS, **given)


class OneOf(fields.String):
    """One of a few words; the sentence says which, or ``sentence`` says what is meant."""

    def __init__(self, words: Any, sentence: str = "must be one of: {choices}.", **given: Any) -> None:
        super().__init__(validate=validate.OneOf(tuple(words), error=sentence), **given)


class YesNo(fields.Boolean):
    """``true`` or ``false`` and nothing that is taken for one."""

    def _deserialize(self, value: Any, attr: str | None, data: Any, **given: Any) -> bool:
        if not isinstance(value, bool):
            raise ValidationError("must be yes or no.")
        return value


#: What is said to a coach instead of marshmallow's own sentences.
_PLAINLY: Final[Mapping[str, str]] = {
    "Missing data for required field.": "This is missing.",
    "Unknown field.": "This is not known here: leave it out.",
    "Field may not be null.": "This must not be empty.",
    "Not a valid string.": "This must be text.",
    "Not a valid list.": "This must be a list.",
    "Not a valid integer.": "This must be a whole number.",
    "Not a valid mapping type.": "This must be a group of named values.",
    "Invalid input type.": "This must be a group of named values.",
}


def complaints(messages: Any, place: tuple[str, ...] = ()) -> Iterator[tuple[str, str]]:
    """Yield all that marshmallow complains about as (place, sentence), places joined by dots."""
    if isinstance(messages, Mapping):
        for where, inner in messages.items():
            # Of a mapping's entry marshmallow tells key and value apart; a reader need not.
            step = () if where in ("key", "value", "_schema") else (_printable(where),)
            yield from complaints(inner, (*place, *step))
        return
    for sentence in messages if isinstance(messages, list) else [messages]:
        plain = _PLAINLY.get(str(sentence), str(sentence))
        yield ".".join(place), f"This {plain}" if plain.startswith("must ") else plain


def _printable(where: object) -> str:
    return "".join(c if c.isprintable() else "?" for c in str(where)[:NAME_MAX_CHARS])
