"""The language in which this thread of work speaks just now: English unless whoever called says another.

It is kept in a context variable, as a request or a socket has one language for all that is said to it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from contextvars import ContextVar
from typing import Any

from engine.words.language import Language, english

_SPOKEN: ContextVar[Language | None] = ContextVar("spoken", default=None)


def spoken() -> Language:
    """Return the language spoken now."""
    return _SPOKEN.get() or english()


def speak(language: Language) -> None:
    """Speak a language from now on, in this context."""
    _SPOKEN.set(language)


@contextmanager
def speaking(language: Language) -> Iterator[None]:
    """Speak a language within a block."""
    token = _SPOKEN.set(language)
    try:
        yield
    finally:
        _SPOKEN.reset(token)


def say(key: str, /, **given: object) -> str:
    """Return a text in the language spoken now; see :meth:`engine.words.language.Language.say`."""
    return spoken().say(key, **given)


def listed(items: Iterable[str], how: str = "and") -> str:
    """Return items one after the other, as the language spoken now lists them."""
    return spoken().listed(items, how)


def decimal(value: float, digits: int) -> str:
    """Return a number to so many digits, as the language spoken now writes it."""
    return spoken().decimal(value, digits)


def table(capability: str, section: str) -> Mapping[str, str]:
    """Return a section's texts in the language spoken now."""
    return spoken().table(capability, section)


class Said:
    """A text that is put into words only when it is shown, for what is set up before anybody is spoken to."""

    def __init__(self, key: str, /, **given: object) -> None:
        self._key, self._given = key, given

    def __str__(self) -> str:
        return say(self._key, **self._given)

    def format(self, *_: object, **given: Any) -> str:
        """Return the text, as what fills in a text does; ``given`` fills the slots that are left."""
        return say(self._key, **{**given, **self._given})


def later(key: str, /, **given: object) -> Any:
    """Return a :class:`Said` for a library that takes texts."""
    return Said(key, **given)
