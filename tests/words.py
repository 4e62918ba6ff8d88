"""The texts in English, for tests that look at them."""

from __future__ import annotations

from typing import Any

from engine.words.language import english


def spoken_table() -> dict[str, Any]:
    """Return what is said of courts, rules, findings and steps, by section."""
    found: dict[str, Any] = {}
    for capability in ("court", "rules", "findings", "steps"):
        found |= english().tables[capability]
    return found
