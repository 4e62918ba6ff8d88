"""A language: its tables of texts, and how a text is filled in.

A language is a folder, a capability a file in it. A text is a template with named slots (``{spot}``), or,
where it turns on a number ``n``, an object of templates by the plural categories of Unicode CLDR (zero, one,
two, few, many, other). Which of them a number falls into is told by a function handed in: this module knows
English only.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from typing import Any, Final

#: The plural categories of Unicode CLDR (https://cldr.unicode.org/index/cldr-spec/plural-rules).
CATEGORIES: Final = frozenset(("zero", "one", "two", "few", "many", "other"))
ENGLISH_TAG: Final = "en"
#: The file that tells of the language itself: its own name, direction, numbers and lists.
ABOUT: Final = "language"
#: In a section of the forms of spots' names: how every spot is said that has no text of its own there.
ANY_SPOT: Final = "any_spot"
#: What a spot may be called in a step's sentence: its name, and the forms of engine/floor/spot_names.py.
SPOT_SLOTS: Final = frozenset(("s", "at", "the", "to", "from"))
_SLOT: Final = re.compile(r"\{(\w+)\}")

Table = Mapping[str, Any]


@dataclass(frozen=True)
class Language:
    """One language; ``tag`` is its BCP 47 tag, ``plural`` gives a number's CLDR category."""

    tag: str
    tables: Mapping[str, Table]
    plural: Callable[[int], str]

    @property
    def name(self) -> str:
        """Return what the language calls itself."""
        return str(self.tables[ABOUT]["name"])

    @property
    def direction(self) -> str:
        """Return "ltr" or "rtl"."""
        return str(self.tables[ABOUT]["direction"])

    def say(self, key: str, /, **given: object) -> str:
        """Return the text of ``key`` ("capability.key"), its slots filled in from ``given``.

        ``n`` is a number that chooses the plural form, and is written with its digits in groups. Raise
        ``KeyError`` for a key or a slot that is missing: a fault of the program's.
        """
        return self.fill(self.text(key, given.get("n")), given)

    def text(self, key: str, n: object = None) -> str:
        """Return a key's template, in the plural form for ``n``."""
        found: Any = self.tables
        for part in key.split("."):
            found = found[part]
        if isinstance(found, Mapping):
            assert isinstance(n, int), f"{key} turns on a number"
            found = found.get(self.plural(n), found["other"])
        return str(found)

    def fill(self, template: str, given: Mapping[str, object]) -> str:
        """Return a template with its slots filled in."""
        return _SLOT.sub(lambda slot: str(self.written(slot[1], given[slot[1]])), template)

    def has(self, key: str) -> bool:
        """Return whether there is a text of that key."""
        found: Any = self.tables
        for part in key.split("."):
            if not isinstance(found, Mapping) or part not in found:
                return False
            found = found[part]
        return True

    def table(self, capability: str, section: str) -> Mapping[str, str]:
        """Return one section's plain texts by key."""
        found: Mapping[str, str] = self.tables[capability][section]
        return found

    def listed(self, items: Iterable[str], how: str = "and") -> str:
        """Return ``items`` one after the other; ``how`` is a list of the language's file."""
        names, patterns = list(items), self.tables[ABOUT]["lists"][how]
        if len(names) < 2:
            return "".join(names)
        if len(names) == 2:
            return self.fill(patterns["two"], {"a": names[0], "b": names[1]})
        said = names[0]
        for name in names[1:-1]:
            said = self.fill(patterns["more"], {"a": said, "b": name})
        return self.fill(patterns["last"], {"a": said, "b": names[-1]})

    def decimal(self, value: float, digits: int) -> str:
        """Return a number to so many digits after the language's decimal sign."""
        return f"{value:.{digits}f}".replace(".", self.tables[ABOUT]["numbers"]["decimal"])

    def whole(self, number: int) -> str:
        """Return a whole number with its digits in groups."""
        return f"{number:,}".replace(",", self.tables[ABOUT]["numbers"]["group"])

    def written(self, slot: str, value: object) -> object:
        """Return what stands in a slot."""
        return self.whole(value) if slot == "n" and isinstance(value, int) else value


def english_plural(n: int) -> str:
    """Return the CLDR category of a whole number in English."""
    return "one" if n == 1 else "other"


def load(
    tag: str, folder: Traversable, plural: Callable[[int], str], beneath: Language | None = None
) -> Language:
    """Read a language's folder; what it does not say is taken from ``beneath``.

    Raise ``OSError`` if there is no such folder, ``ValueError`` if a file in it is not JSON or is something
    else than texts by key.
    """
    tables: dict[str, Table] = dict(beneath.tables) if beneath else {}
    for file in sorted(folder.iterdir(), key=lambda each: each.name):
        if file.name.endswith(".json"):
            name = file.name.removesuffix(".json")
            tables[name] = _over(tables.get(name, {}), json.loads(file.read_text("utf-8")), name)
    return Language(tag, tables, plural)


def _over(beneath: Any, texts: Any, where: str) -> Table:
    if not isinstance(texts, dict):
        raise ValueError(f"{where} must be texts by key.")
    made: dict[str, Any] = dict(beneath) if isinstance(beneath, Mapping) else {}
    for key, text in texts.items():
        known, place = made.get(key, made.get(ANY_SPOT)), f"{where}.{key}"
        if isinstance(beneath, Mapping) and beneath and known is None:
            raise ValueError(f"there is no text {place}.")
        if not isinstance(text, str) and not _is_plural(text):
            made[key] = _over(known or {}, text, place)
            continue
        if known is not None and _slots(text) - _given(known):
            raise ValueError(f"{place} has a slot that nothing is given for.")
        if known is not None and isinstance(known, Mapping) and not _is_plural(known):
            raise ValueError(f"{place} must be texts by key.")
        made[key] = text
    return made


def _is_plural(text: Any) -> bool:
    return isinstance(text, Mapping) and "other" in text and CATEGORIES.issuperset(text)


def _slots(text: Any) -> set[str]:
    """Return the slots of a text; of one that turns on a number also that number."""
    if isinstance(text, str):
        return set(_SLOT.findall(text))
    return {"n"}.union(*(_SLOT.findall(form) for form in text.values() if isinstance(form, str)))


def _given(known: Any) -> set[str]:
    """Return the slots that whoever says a text fills in: a spot comes in all its forms."""
    slots = _slots(known)
    return slots | SPOT_SLOTS if slots & SPOT_SLOTS else slots


@cache
def english() -> Language:
    """Return English, which has every text."""
    return load(ENGLISH_TAG, files("engine") / "locales" / ENGLISH_TAG, english_plural)
