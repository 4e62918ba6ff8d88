"""The search for small changes that keep team-mates apart, and the command that makes the tables.

``python -m engine.motion.search [FORMATION ...]`` writes ``table_FORMATION.json`` beside this module: run it
after any change to rules, spots, routes or speeds. It takes some minutes a formation.
"""

from __future__ import annotations

import json
import sys
import time
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from heapq import heappop, heappush
from itertools import count, product
from pathlib import Path as FilePath
from typing import Final

from engine.court import Court, half_court
from engine.formations import FORMATIONS, LANE, POSTS, Formation
from engine.graph import reach
from engine.lane import default_choice
from engine.motion.clearance import Clash, clashes, exempt
from engine.motion.scene import NO_CHANGE, Change, Changes
from engine.motion.table import digest, movements, standing
from engine.motion.timeline import build
from engine.motion.values import Timeline
from engine.moves import Step, apply, legal
from engine.standards import STANDARDS

#: Searched for with a little to spare, and looked at closely, so that a coarser check finds nothing.
_CLEAR_M: Final = 0.63
_EVERY_S: Final = 0.04

#: No route comes nearer to the edge of the court than this, metres.
_EDGE_M: Final = 0.22

_DELAYS: Final = tuple(tenth / 10 for tenth in range(9))
_BENDS: Final = (0.0, 0.5, -0.5, 1.0, -1.0, 1.5, -1.5, 2.0, -2.0, 2.5, -2.5, 3.0, -3.0)
MOST_TRIES: Final = 20000

#: ... and so many for one way on all courts.
_COMMON_TRIES: Final = 4000

#: (number of the step, spot before it): whose change.
Key = tuple[int, str]


@dataclass(slots=True)
class Case:
    """One set of movements: steps that have it, and every set of standing players it occurs with."""

    steps: tuple[Step, ...]
    standing: set[frozenset[str]] = field(default_factory=set)


class NoWay(Exception):
    """No set of small changes keeps the players apart."""


def cases(formation: Formation) -> dict[str, Case]:
    """Return every different set of movements the formation can reach, composites included, by its words."""
    graph = reach(formation)
    found: dict[str, Case] = {}
    for step in graph.steps:
        _add(found, (step,))
    for alignment in graph.alignments:
        choice = default_choice(alignment, formation)
        if choice is None:
            continue
        now = legal(alignment, formation)
        first = apply(alignment, choice, formation)
        for action in legal(first.after, formation):
            if action not in now:
                _add(found, (first, apply(first.after, action, formation)))
    return found


def _add(found: dict[str, Case], steps: tuple[Step, ...]) -> None:
    found.setdefault(movements(steps), Case(steps)).standing.add(standing(steps))


def options(steps: Sequence[Step]) -> dict[Key, tuple[Change, ...]]:
    """Return what may be changed for each player and step, the least change first.

    Whoever begins a single step begins it at once: he cannot be delayed.
    """
    found: dict[Key, tuple[Change, ...]] = {}
    for number, step in enumerate(steps):
        if step.action.kind == "shot":
            for spot in step.before.occupied:
                found[number, spot] = _combine(_DELAYS, _BENDS)
            continue
        for move in step.moves:
            delays, bends = _freedom(step, number, move.origin, move.target, move.manner)
            firsts: tuple[float, ...] = (
                _BENDS if step.action.kind == "ball_screen" and move.manner == "roll" else (0.0,)
            )
            if move.manner == "set_screen" or (move.manner == "cut" and step.ball.kind == "hand_off"):
                firsts = (0.0, 1.0)
            found[number, move.origin] = _combine(delays, bends, firsts)
    return {key: changes for key, changes in found.items() if changes}


def _freedom(
    step: Step, number: int, origin: str, target: str, manner: str
) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Return the delays and the bends that one move allows."""
    begins = (
        manner in ("dribble", "fill", "post_up", "set_screen")
        and number == 0
        and origin
        in (
            step.ball.origin,
            step.before.cutter,
        )
    )
    begins = begins or (number == 0 and step.action.kind == "back_cut" and manner == "back_cut")
    begins = begins or (number == 0 and step.action.kind == "drive" and manner == "drive")
    if manner == "take_hand_off":
        return (0.0,), (0.0,)
    delays = (0.0,) if begins or manner == "set_screen" else _DELAYS
    inside = {*POSTS, *LANE}
    if manner == "slide":
        return delays, (0.0,)
    if origin not in inside and target not in inside:
        return delays, _BENDS[:1] + _BENDS[1::2]
    return delays, _BENDS


def _cost(change: Change) -> float:
    """Return how much a change changes: half a bend, or a tenth of a second, is 1."""
    return 10.0 * change.delay + sum(
        2.0 * abs(b) + max(0.0, abs(b) - 1.0) for b in (change.bend, change.first)
    )


def _combine(
    delays: Iterable[float], bends: Iterable[float], firsts: Iterable[float] = (0.0,)
) -> tuple[Change, ...]:
    every = (Change(*parts) for parts in product(delays, bends, firsts))
    return tuple(sorted((change for change in every if change != NO_CHANGE), key=_cost))


def solve(
    steps: Sequence[Step],
    still: Iterable[str],
    courts: Sequence[Court],
    formation: Formation,
    tries: int = MOST_TRIES,
) -> Changes:
    """Return the least changes with which nobody comes too near to anybody, on any of ``courts``.

    ``still``: the spots of standing players to keep clear of. Best first: a set of changes is tried, and
    where two players clash, each change of either of them is tried on top of it. Raises ``NoWay`` when no
    way is found in ``tries`` sets of changes.
    """
    free, allowed, still = options(steps), exempt(steps), frozenset(still)
    keys = _keys_by_origin(steps, free)
    order = list(courts)
    number = count()
    queue: list[tuple[float, int, dict[Key, Change]]] = [(0.0, next(number), {})]
    seen: set[frozenset[tuple[Key, Change]]] = set()
    for _ in range(tries):
        if not queue:
            break
        cost, _, changes = heappop(queue)
        clash = _first_clash(steps, changes, still, allowed, order, formation)
        if clash is None:
            return changes
        for who in (clash.one, clash.other):
            for key in keys.get(who, ()):
                if key in changes:
                    continue
                for change in free[key]:
                    child = {**changes, key: change}
                    mark = frozenset(child.items())
                    if mark not in seen:
                        seen.add(mark)
                        heappush(queue, (cost + _cost(change), next(number), child))
    raise NoWay(f"{movements(steps)} beside {sorted(still)}")


def _keys_by_origin(steps: Sequence[Step], free: Mapping[Key, object]) -> dict[str, list[Key]]:
    who = {spot: spot for spot in steps[0].before.occupied}
    found: dict[str, list[Key]] = {}
    for number, step in enumerate(steps):
        for spot, origin in who.items():
            if (number, spot) in free:
                found.setdefault(origin, []).append((number, spot))
        travel = {move.origin: move.target for move in step.moves}
        who = {travel.get(spot, spot): origin for spot, origin in who.items()}
    return found


def _first_clash(
    steps: Sequence[Step],
    changes: Changes,
    still: frozenset[str],
    allowed: frozenset[frozenset[str]],
    order: list[Court],
    formation: Formation,
) -> Clash | None:
    """Return the earliest clash on the first court that has one; that court is looked at first next time."""
    for i, court in enumerate(order):
        line = build(steps, court, formation, changes)
        out = _leaves(line, court)
        found = clashes(line, still, allowed, _CLEAR_M, _EVERY_S)
        if out is not None:
            found = [Clash(out, out, 0.0, 0.0)]
        if found:
            order.insert(0, order.pop(i))
            return min(found, key=lambda clash: clash.time)
    return None


def _leaves(line: Timeline, court: Court) -> str | None:
    """Return who runs too near to the edge of the court, or nobody."""
    for run in line.runs:
        if not all(court.in_court(point, _EDGE_M) for point in run.path.samples):
            return run.origin
    return None


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
        found = clashes(line, everybody, allowed, _CLEAR_M, _EVERY_S)
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
    try:
        return {"": solve(steps, still, courts, formation, _COMMON_TRIES)}
    except NoWay:
        return {court.standard.name: solve(steps, still, (court,), formation) for court in courts}


def _keyed(spots: str, found: Mapping[str, Changes]) -> dict[str, Changes]:
    return {f"{spots}@{court}" if court else spots: changes for court, changes in found.items()}


def make(formation: Formation) -> dict[str, dict[str, list[list[int | str]]]]:
    """Return a formation's table as plain data; sets of movements that need no change are left out."""
    courts = [half_court(name) for name in STANDARDS]
    table: dict[str, dict[str, list[list[int | str]]]] = {}
    failed, begun = 0, time.monotonic()
    for text, case in sorted(cases(formation).items()):
        try:
            entries = row(case, courts, formation)
        except NoWay as error:
            failed += 1
            print("no way:", error, file=sys.stderr, flush=True)
            continue
        if any(entries.values()):
            table[digest(text)] = {key: _plain(changes) for key, changes in entries.items()}
    made, took = sum(map(len, table.values())), time.monotonic() - begun
    print(f"{formation.name}: {len(table)} rows, {made} entries, {failed} failed, {took:.0f} s", flush=True)
    return table


def _plain(changes: Changes) -> list[list[int | str]]:
    return [
        [number, spot, *(round(10 * part) for part in (change.delay, change.bend, change.first))]
        for (number, spot), change in sorted(changes.items())
    ]


def main(names: Sequence[str]) -> None:
    """Write the tables of the named formations, or of all."""
    for name in names or FORMATIONS:
        table = make(FORMATIONS[name])
        target = FilePath(__file__).with_name(f"table_{name}.json")
        rows = ",\n".join(
            f"{json.dumps(key)}:{json.dumps(entries, separators=(',', ':'))}"
            for key, entries in sorted(table.items())
        )
        target.write_text("{\n" + rows + "\n}\n", "utf-8")


if __name__ == "__main__":
    main(sys.argv[1:])
