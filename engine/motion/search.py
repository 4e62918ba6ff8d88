"""The command that makes the tables of changes.

``python -m engine.motion.search [--missing] [FORMATION ...]`` writes ``table_FORMATION.json`` beside this
module: run it after any change to rules, spots, routes or speeds. It takes some minutes a formation.
``--missing`` keeps what is there and still does, and looks for the rest only.
"""

from __future__ import annotations

import json
import sys
import time
from collections.abc import Iterable, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path as FilePath

from engine.floor.court import Court, half_court
from engine.floor.formations import FORMATIONS, Formation
from engine.floor.standards import STANDARDS
from engine.game.closure import closure
from engine.game.lane import default_choice
from engine.game.steps import Step
from engine.motion.clearance import clashes, exempt
from engine.motion.scene import Changes
from engine.motion.solve import CLEAR_M, EVERY_S, MOST_TRIES, THOROUGH_TRIES, NoWay, solve
from engine.motion.table import Row, changes_in, digest, load, movements, standing
from engine.motion.timeline import TRIES, build
from engine.rules.rule_sets import DEFAULT


@dataclass(slots=True)
class Case:
    """One set of movements: steps that have it, and every set of standing players it occurs with."""

    steps: tuple[Step, ...]
    standing: set[frozenset[str]] = field(default_factory=set)


def cases(formation: Formation) -> dict[str, Case]:
    """Return every different set of movements of every valid alignment, composites included, by its words."""
    steps_of = closure(formation, DEFAULT)
    found: dict[str, Case] = {}
    for alignment, steps in steps_of.items():
        for step in steps:
            _add(found, (step,))
        choice = default_choice(alignment, formation)
        if choice is None:
            continue
        now = {step.action: step for step in steps}
        first = now[choice]
        for step in steps_of[first.after]:
            if step.action not in now:
                _add(found, (first, step))
    return found


def _add(found: dict[str, Case], steps: tuple[Step, ...]) -> None:
    found.setdefault(movements(steps), Case(steps)).standing.add(standing(steps))


def row(case: Case, courts: Sequence[Court], formation: Formation) -> dict[str, Changes]:
    """Return the entries of one set of movements, by the standing players who make them necessary.

    Keys as in the table: spots, then, where no changes would do everywhere, an @ and a court.
    """
    alone = _everywhere(case.steps, (), courts, formation)
    everybody = frozenset().union(*case.standing)
    allowed = exempt(case.steps)
    matter: frozenset[str] = frozenset()
    for court in courts:
        line = build(case.steps, court, formation, alone[""] if "" in alone else alone[court.standard.name])
        found = clashes(line, everybody, allowed, CLEAR_M, EVERY_S)
        matter |= {clash.other for clash in found}
    entries = _keyed("", alone)
    for combination in sorted({some & matter for some in case.standing} - {frozenset()}, key=sorted):
        still = frozenset().union(*(some for some in case.standing if some & matter == combination))
        entries |= _keyed(" ".join(sorted(combination)), _everywhere(case.steps, still, courts, formation))
    return entries


def _everywhere(
    steps: Sequence[Step], still: Iterable[str], courts: Sequence[Court], formation: Formation
) -> dict[str, Changes]:
    """Return the changes under "" if the same do on all courts, else under the name of each court."""
    for tries, thorough in ((MOST_TRIES, False), (THOROUGH_TRIES, True)):
        with suppress(NoWay):
            return {"": solve(steps, still, courts, formation, tries, thorough)}
    return {
        court.standard.name: solve(steps, still, (court,), formation, THOROUGH_TRIES, True)
        for court in courts
    }


def entries(case: Case, courts: Sequence[Court], formation: Formation) -> tuple[dict[str, Changes], bool]:
    """Return the entries of one set of movements, and whether they clear it wherever it occurs.

    Where no way does beside all who may stand around at once, it is looked for beside those who stand around
    together; where there is none even so, no changes are entered.
    """
    with suppress(NoWay):
        return row(case, courts, formation), True
    found: dict[str, Changes] = {}
    is_clear = True
    for still in sorted(case.standing, key=sorted):
        for court in courts:
            changes: Changes | None = None
            for tries, thorough in ((TRIES, False), (THOROUGH_TRIES, True), (4 * MOST_TRIES, False)):
                with suppress(NoWay):
                    changes = solve(case.steps, still, (court,), formation, tries, thorough)
                    break
            if changes is None:
                changes, is_clear = {}, False
            found |= _keyed(" ".join(sorted(still)), {court.standard.name: changes})
    return found, is_clear


def _keyed(spots: str, found: Mapping[str, Changes]) -> dict[str, Changes]:
    return {f"{spots}@{court}" if court else spots: changes for court, changes in found.items()}


Rows = dict[str, dict[str, list[list[int | str]]]]


@dataclass(frozen=True, slots=True)
class Kept:
    """The table there is: its rows as they are read and as they are written, and the keys that need none."""

    rows: Mapping[str, Row]
    plain: Rows
    clear: frozenset[str]


NOTHING = Kept({}, {}, frozenset())
_CLEAR: Row = (frozenset(), {(frozenset(), ""): {}})


def still_does(case: Case, known: Row, courts: Sequence[Court], formation: Formation) -> bool:
    """Say whether the changes of a row clear all that occurs, as the search would have it."""
    matter, _ = known
    allowed = exempt(case.steps)
    for combination in {some & matter for some in case.standing}:
        still = frozenset().union(*(some for some in case.standing if some & matter == combination))
        for court in courts:
            changes = changes_in(known, combination, court.standard.name)
            if changes is None:
                return False
            if clashes(build(case.steps, court, formation, changes), still, allowed, CLEAR_M, EVERY_S):
                return False
    return True


def make(formation: Formation, kept: Kept = NOTHING) -> tuple[Rows, list[str]]:
    """Return a formation's rows as plain data, and the keys of movements that need no change."""
    courts = [half_court(name) for name in STANDARDS]
    rows: Rows = {}
    clear: list[str] = []
    failed, begun = 0, time.monotonic()
    for text, case in sorted(cases(formation).items()):
        key = digest(text)
        known = kept.rows.get(key, _CLEAR if key in kept.clear else None)
        if known is not None and still_does(case, known, courts, formation):
            if key in kept.plain:
                rows[key] = kept.plain[key]
            else:
                clear.append(key)
            continue
        made, is_clear = entries(case, courts, formation)
        if not is_clear:
            failed += 1
            print("not everywhere:", text, file=sys.stderr, flush=True)
        if any(made.values()) or not is_clear:
            rows[key] = {name: _plain(changes) for name, changes in made.items()}
        else:
            clear.append(key)
    count, took = sum(map(len, rows.values())), time.monotonic() - begun
    print(
        f"{formation.name}: {len(rows)} rows, {count} entries, {failed} not clear everywhere, {took:.0f} s",
        flush=True,
    )
    return rows, sorted(clear)


def kept_of(formation: Formation) -> Kept:
    """Return a formation's table as it is now."""
    table, source = load(formation.name), _file(formation.name)
    return Kept(table.rows, json.loads(source.read_text("utf-8"))["rows"], table.clear)


def _file(name: str) -> FilePath:
    return FilePath(__file__).with_name(f"table_{name}.json")


def _plain(changes: Changes) -> list[list[int | str]]:
    return [
        [number, spot, *(round(10 * part) for part in (change.delay, change.bend, change.first))]
        for (number, spot), change in sorted(changes.items())
    ]


def text_of(rows: Rows, clear: Sequence[str]) -> str:
    """Return a table as it is kept: JSON, one row a line, the other keys in one string."""
    lines = ",\n".join(
        f"{json.dumps(key)}:{json.dumps(entries, separators=(',', ':'))}"
        for key, entries in sorted(rows.items())
    )
    return f'{{"clear":"{"".join(clear)}",\n"rows":{{\n{lines}\n}}}}\n'


def main(names: Sequence[str]) -> None:
    """Write the tables of the named formations, or of all."""
    missing = "--missing" in names
    for name in [name for name in names if name != "--missing"] or FORMATIONS:
        formation = FORMATIONS[name]
        text = text_of(*make(formation, kept_of(formation) if missing else NOTHING))
        _file(name).write_text(text, "utf-8")


if __name__ == "__main__":
    main(sys.argv[1:])
