"""The languages this server speaks, and which of them somebody is spoken to in."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import datetime
from importlib.resources import files
from pathlib import Path
from typing import Final

from babel import Locale, UnknownLocaleError
from babel.dates import format_date
from werkzeug.datastructures import LanguageAccept

from engine.words.language import ENGLISH_TAG, Language, english, load
from engine.words.spoken import say, spoken
from webapp.base.settings import BadSetting

#: English dates are written as this country writes them: 3 May 2026.
_ENGLISH_DATES: Final = "en-GB"


class CannotSpeak(BadSetting):
    """A folder of a language cannot be read; ``str(error)`` is the sentence."""


def languages(more: Path | None) -> Mapping[str, Language]:
    """Return every language by its BCP 47 tag: those that come along, and those in the folder ``more``.

    Raise ``CannotSpeak`` for a folder that is not a language's.
    """
    found = {ENGLISH_TAG: english()}
    shipped = files("engine") / "locales"
    folders = [*shipped.iterdir(), *(more.iterdir() if more else ())]
    for folder in sorted(folders, key=lambda each: each.name):
        if folder.is_dir() and folder.name not in found and not folder.name.startswith(("_", ".")):
            try:
                found[folder.name] = load(folder.name, folder, plural(folder.name), english())
            except (OSError, ValueError) as error:
                raise CannotSpeak(say("server.languages.cannot_read", folder=folder, error=error)) from error
    return found


def chosen(known: Mapping[str, Language], team: str, accepted: LanguageAccept) -> Language:
    """Return the language for somebody: the team's if it has chosen one, else what the browser asks for."""
    if team in known:
        return known[team]
    return known[accepted.best_match(list(known), ENGLISH_TAG) or ENGLISH_TAG]


def plural(tag: str) -> Callable[[int], str]:
    """Return what gives a number's plural category in a language, by Unicode CLDR."""
    rule = _locale(tag).plural_form
    return lambda n: str(rule(n))


def long_date(then: float) -> str:
    """Return the day of ``then`` (seconds since 1970) at the server's, as the language spoken writes it."""
    tag = spoken().tag
    day = datetime.fromtimestamp(then)
    return format_date(day, "long", _locale(_ENGLISH_DATES if tag == ENGLISH_TAG else tag))


def _locale(tag: str) -> Locale:
    try:
        return Locale.parse(tag, sep="-")
    except (UnknownLocaleError, ValueError):
        return Locale.parse(tag.split("-")[0])
