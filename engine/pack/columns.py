"""Columns: short texts that a screen reads back without knowing any basketball.

A column is one text with one character a value, from ``]`` (0) upwards, so that it needs no escapes in JSON
and packs well. Spots, actions, templates and routes stand in lists and are named by their place in them.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Hashable, Iterable, Mapping, Sequence
from graphlib import TopologicalSorter
from itertools import pairwise
from typing import Final, Generic, TypeVar

from engine.rules.actions import Action

#: The character of 0: what comes from there on needs no escape.
ZERO: Final = 93
#: Characters end before the surrogates.
MOST: Final = 0xD7FF - ZERO
_CHARACTERS: Final = tuple(map(chr, range(ZERO, ZERO + MOST + 1)))

K = TypeVar("K", bound=Hashable)


_TOO_MUCH: Final = "A value does not fit into one character."
#: What stands for 0.
NOTHING: Final = _CHARACTERS[0]


def character(value: int) -> str:
    """Return one value of a column. Raises ``ValueError`` for a value below 0 or above ``MOST``."""
    if not 0 <= value <= MOST:
        raise ValueError(_TOO_MUCH)
    return _CHARACTERS[value]


def text(values: Iterable[int]) -> str:
    """Return a column. Raises ``ValueError`` for a value below 0 or above ``MOST``."""
    listed = list(values)
    if listed and not 0 <= min(listed) <= max(listed) <= MOST:
        raise ValueError(_TOO_MUCH)
    return "".join(map(_CHARACTERS.__getitem__, listed))


class Numbers(Generic[K]):
    """Numbers things, the commonest first, so that most take one byte. They may have been counted already."""

    def __init__(self, things: Iterable[K] | Mapping[K, int]) -> None:
        counted = Counter(things)
        self.things: list[K] = sorted(counted, key=lambda thing: (-counted[thing], repr(thing)))
        self._number = {thing: number for number, thing in enumerate(self.things)}

    def __getitem__(self, thing: K) -> int:
        return self._number[thing]


class Arrivals(Generic[K]):
    """Numbers things in the order they first come along."""

    def __init__(self) -> None:
        self._number: dict[K, int] = {}

    def __getitem__(self, thing: K) -> int:
        return self._number.setdefault(thing, len(self._number))

    @property
    def things(self) -> list[K]:
        """All things so far, in order."""
        return list(self._number)


def in_order(lists: Iterable[Sequence[Action]]) -> list[Action]:
    """Return all actions in one order that each of ``lists`` keeps. Raises ``CycleError`` without one."""
    before: dict[Action, set[Action]] = {}
    for actions in lists:
        for action in actions:
            before.setdefault(action, set())
        for first, second in pairwise(actions):
            before[second].add(first)
    by_text = sorted(before, key=lambda action: action.text)
    sorter = TopologicalSorter({key: sorted(before[key], key=lambda action: action.text) for key in by_text})
    return list(sorter.static_order())


def hundredths(seconds: float) -> int:
    """Return a time as it is written: whole hundredths of a second."""
    return round(seconds * 100)
