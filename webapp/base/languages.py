"""The languages this server speaks, and which of them somebody is spoken to in."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
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

#: A tag of BCP 47 as folders are called, language, script and region: de, pt-BR, zh-Hant-TW.
_TAG: Final = re.compile(r"[a-z]{2,3}(-[A-Z][a-z]{3})?(-([A-Z]{2}|[0-9]{3}))?")
#: English dates are written as this country writes them: 3 May 2026.
_ENGLISH_DATES: Final = "en-GB"


class CannotSpeak(BadSetting):
    """A folder of a language cannot be read; ``str(error)`` is the sentence."""


def languages(more: Path | None) -> Mapping[str, Language]:
    """Return every language by its BCP 47 tag: those that come along, and those in the folder ``more``.

    Raise ``CannotSpeak`` for a folder that is not there, or is not a language's.
    """
    found = {ENGLISH_TAG: english()}
    shipped = files("engine") / "locales"
    try:
        folders = [*shipped.iterdir(), *(more.iterdir() if more else ())]
    except OSError as error:
        raise CannotSpeak(say("server.languages.cannot_read", folder=more, error=error.strerror)) from error
    for folder in sorted(folders, key=lambda each: each.name):
        tag = folder.name
        if not folder.is_dir() or tag in found or tag.startswith(("_", ".")):
            continue
        if not _TAG.fullmatch(tag):
            raise CannotSpeak(say("server.languages.no_tag", folder=folder))
        try:
            found[tag] = load(tag, folder, plural(tag), english())
        except (OSError, ValueError) as error:
            raise CannotSpeak(say("server.languages.cannot_read", folder=folder, error=error)) from error
    return found


def chosen(known: Mapping[str, Language], team: str, accepted: LanguageAccept) -> Language:
    """Return the language for somebody: the team's if it has chosen one, else what the browser asks for."""
    if team in known:
        return known[team]
    for asked, quality in accepted:
        found = _nearest(asked, known) if quality > 0 else None
        if found is not None:
            return known[found]
    return known[ENGLISH_TAG]


def _nearest(asked: str, known: Iterable[str]) -> str | None:
    """Return the tag that is asked for, else one of the same language: as RFC 4647 looks up, then wider."""
    tags = {tag.lower(): tag for tag in known}
    parts = asked.lower().split("-")
    for length in range(len(parts), 0, -1):
        if "-".join(parts[:length]) in tags:
            return tags["-".join(parts[:length])]
    return next((tag for low, tag in tags.items() if low.split("-")[0] == parts[0]), None)


def plural(tag: str) -> Callable[[int], str]:
    """Return what gives a number's plural category in a language, by Unicode CLDR.

    Raise ``CannotSpeak`` for a language that CLDR does not know.
    """
    rule = _locale(tag).plural_form
    return lambda n: str(rule(n))


def long_date(then: float) -> str:
    """Return the day of ``then`` (seconds since 1970) at the server's, as the language spoken writes it."""
    tag = spoken().tag
    day = datetime.fromtimestamp(then)
    return format_date(day, "long", _locale(_ENGLISH_DATES if tag == ENGLISH_TAG else tag))


def _locale(tag: str) -> Locale:
    for name in (tag, tag.split("-")[0]):
        try:
            return Locale.parse(name, sep="-")
        except (UnknownLocaleError, ValueError):
            continue
    raise CannotSpeak(say("server.languages.unknown", tag=tag))
