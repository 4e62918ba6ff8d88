"""What keeps team-mates apart, for every set of movements the shipped formations can reach: a look-up.

The tables are data files beside this module, found by :mod:`engine.motion.search`. A row belongs to a set
of movements. It holds one entry for each combination of standing players who would be in the way (the
empty one first), and each entry the changes that clear it on all four courts: number of the step, spot
before it, then delay, bend and first bend in tenths. Where no changes would do on all courts, there is an
entry for each court, its name after an @; where there is no way at all, one without changes. Movements that
need no change are only listed.
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from hashlib import blake2b
from importlib.resources import files
from typing import Final

from engine.game.steps import Step
from engine.motion.scene import Adjustment, Changes

#: Of a row: the standing players who matter; for each combination of them, and court ("": all), the changes.
Row = tuple[frozenset[str], Mapping[tuple[frozenset[str], str], Changes]]

#: Hexadecimal digits of a key.
_DIGITS: Final = 12

_NONE: Final[Changes] = {}


def movements(steps: Sequence[Step]) -> str:
    """Return the set of movements of one or two steps in words; equal texts have equal routes and times."""
    return "|".join(map(movement, steps))


def movement(step: Step) -> str:
    """Return the movements of one step in words."""
    if step.is_shot:
        return f"shot;{step.ball.origin};" + ",".join(sorted(step.before.occupied))
    moves = ",".join(f"{m.origin}>{m.target}:{m.manner}" for m in step.moves)
    return f"{step.action.text};{step.ball.origin}>{step.ball.target};{moves}"


def standing(steps: Sequence[Step]) -> frozenset[str]:
    """Return the spots whose players do not run in any of the steps; nobody is thought to on a shot."""
    if steps[0].action.kind == "shot":
        return frozenset()
    left = {move.origin for step in steps for move in step.moves}
    return steps[0].before.occupied - left


def digest(text: str) -> str:
    """Return the key of a row: twelve hexadecimal digits for the words of :func:`movements`."""
    return blake2b(text.encode(), digest_size=_DIGITS // 2).hexdigest()


@dataclass(frozen=True, slots=True)
class Table:
    """What is known of a formation: rows by digest, and the digests of movements that need no change."""

    rows: Mapping[str, Row]
    clear: frozenset[str]


@lru_cache(maxsize=16)
def load(formation_name: str) -> Table:
    """Return a formation's table; an empty one if none was made for it."""
    source = files("engine.motion").joinpath(f"table_{formation_name}.json")
    if not source.is_file():
        return Table({}, frozenset())
    data = json.loads(source.read_text("utf-8"))
    clear = data["clear"]
    return Table(
        {key: _row(entries) for key, entries in data["rows"].items()},
        frozenset(clear[at : at + _DIGITS] for at in range(0, len(clear), _DIGITS)),
    )


def _row(entries: Mapping[str, list[tuple[int, str, int, int, int]]]) -> Row:
    found: dict[tuple[frozenset[str], str], Changes] = {}
    for key, changes in entries.items():
        spots, _, court = key.partition("@")
        found[frozenset(spots.split()), court] = {
            (number, spot): Adjustment(delay / 10, bend / 10, first / 10)
            for number, spot, delay, bend, first in changes
        }
    return frozenset().union(*(spots for spots, _ in found)), found


def changes_for(steps: Sequence[Step], formation_name: str, court_name: str) -> Changes | None:
    """Return the changes that keep the players of ``steps`` apart; None if nothing is known of them.

    Known are the movements of the default rules in the shipped formations.
    """
    table, key = load(formation_name), digest(movements(steps))
    row = table.rows.get(key)
    if row is None:
        return _NONE if key in table.clear else None
    return changes_in(row, row[0] & standing(steps), court_name)


def changes_in(row: Row, matter: frozenset[str], court_name: str) -> Changes | None:
    """Return a row's changes where the players on ``matter`` stand in the way; None if it has none."""
    _, entries = row
    everywhere = entries.get((matter, ""))
    return entries.get((matter, court_name)) if everywhere is None else everywhere
