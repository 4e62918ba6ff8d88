"""How a spot and a formation are said in the engine's own sentences."""

from __future__ import annotations

from engine.words.spoken import table


def spot_words(spot: str) -> str:
    """Return a spot's name as it is said: ``left_short_corner`` is "left short corner"."""
    return table("court", "spots").get(spot, spot.replace("_", " "))


def formation_words(name: str) -> str:
    """Return a formation's name as it is said; one of the team's own is what the team calls it."""
    return table("court", "formations").get(name, name.replace("_", " "))


def formation_title(name: str) -> str:
    """Return the same as a title: "Five out"."""
    said = formation_words(name)
    return said[0].upper() + said[1:]
