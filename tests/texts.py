"""The texts of engine/locales and the code that says them, for tests that read both."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, Final

from engine.words.language import CATEGORIES, english

#: What says a text, by its key.
SAYS: Final = frozenset(("say", "said", "Said", "later"))
#: Modules whose complaints are to whoever calls them with what cannot be; what they write is for programmers.
FOR_PROGRAMMERS: Final = (
    "engine/motion/",
    "engine/pack/",
    "engine/words/",
    "engine/floor/paths.py",
    "engine/game/graph.py",
    "engine/floor/standards.py",
    "webapp/migrations/",
    "webapp/secure/line.py",
    #: The team that a new server begins with: what it calls itself and its plays are the team's own words.
    "webapp/boards/demo.py",
)


def texts(found: Any = None, key: str = "") -> Iterator[tuple[str, Any]]:
    """Yield every text by its key; of one that turns on a number all forms."""
    found = english().tables if found is None else found
    for part, inner in found.items():
        whole = f"{key}.{part}" if key else part
        is_text = isinstance(inner, str) or ("other" in inner and CATEGORIES.issuperset(inner))
        if is_text:
            yield whole, inner
        else:
            yield from texts(inner, whole)
