"""How a spot is said where no locale table is at hand: in the engine's own sentences of refusal."""

from __future__ import annotations


def spot_words(spot: str) -> str:
    """Return a spot's name as it is said: ``left_short_corner`` is "left short corner"."""
    return spot.replace("_", " ")
