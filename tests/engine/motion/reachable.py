"""Every different movement a formation can reach, built as a timeline, for the tests beside this file."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

from engine.floor.court import half_court
from engine.floor.formations import FORMATIONS, Formation
from engine.floor.markings import Point
from engine.game.composites import runs_once
from engine.game.lane import default_choice
from engine.game.moves import legal, resolve
from engine.game.steps import Move, Step
from engine.motion import Run, Timeline, timeline
from engine.motion.table import changes_in, digest, load, movements, standing
from tests.depth import deep
from tests.graphs import reach

FLOORS = [(formation, court) for formation in FORMATIONS for court in ("fiba", "nba", "ncaa", "nfhs")]

#: FIBA's court is looked at whole. Of the others' timelines one in so many, from which on: what one of NBA
#: and high school leaves out the other looks at; a college court has FIBA's line and a high school's lane.
EVERY = {"nba": (0, deep(2, 1)), "nfhs": (deep(1, 0), deep(2, 1)), "ncaa": (0, deep(3, 1))}


@dataclass(frozen=True)
class Played:
    """One set of movements as it is played: its steps, timeline, and all who may stand around it."""

    steps: tuple[Step, ...]
    line: Timeline
    around: frozenset[str]

    @property
    def name(self) -> str:
        first = self.steps[0].before
        words = " + ".join(step.action.text for step in self.steps)
        return f"{words}, ball {first.ball}, {sorted(first.occupied)}"

    def parts(self) -> Iterator[tuple[int, Step, Move, list[Run]]]:
        """Yield each move with its step's number and the runs made for it, in order."""
        who = {spot: spot for spot in self.steps[0].before.occupied}
        used: dict[str, int] = {}
        once = runs_once(self.steps)
        for number, step in enumerate(self.steps):
            for move in step.moves:
                origin = who[move.origin]
                runs = list(self.line.runs_of.get(origin, ()))[used.get(origin, 0) :]
                if number + 1 < len(self.steps):
                    # The lane choice of a composite is one run; what follows belongs to the second step.
                    # Who is moved on by that makes his one run then.
                    runs = [] if once is not None and move.origin == once.origin else runs[:1]
                used[origin] = used.get(origin, 0) + len(runs)
                yield number, step, move, runs
            travel = {move.origin: move.target for move in step.moves}
            who = {travel.get(spot, spot): origin for spot, origin in who.items()}


@lru_cache(maxsize=3)
def step_groups(formation: Formation) -> dict[str, list[tuple[frozenset[str], tuple[Step, ...]]]]:
    """Return every step of the reachable graph, and every composite, by what moves.

    Of those in which the same moves and the same players stand around, one.
    """
    found: dict[str, dict[frozenset[str], tuple[Step, ...]]] = {}
    for steps in _all_groups(formation):
        found.setdefault(movements(steps), {}).setdefault(standing(steps), steps)
    return {text: list(groups.items()) for text, groups in found.items()}


def _all_groups(formation: Formation) -> Iterator[tuple[Step, ...]]:
    graph = reach(formation)
    for step in graph.steps:
        yield (step,)
    for alignment in graph.alignments:
        choice = default_choice(alignment, formation)
        if choice is None:
            continue
        now = set(legal(alignment, formation))
        first = resolve(alignment, choice, formation)
        for action in legal(first.after, formation):
            if action not in now:
                yield first, resolve(first.after, action, formation)


def played(formation_name: str, court_name: str, everything: bool = False) -> list[Played]:
    """Return every different timeline there is on one floor, or as many as ``EVERY`` says.

    Two groups of steps play the same timeline if their movements are the same and the same changes keep
    their players apart; then all who stand around either stand around both.
    """
    formation, court = FORMATIONS[formation_name], half_court(court_name)
    found: dict[object, tuple[tuple[Step, ...], set[str]]] = {}
    table = load(formation_name)
    for text, groups in step_groups(formation).items():
        row = table.rows.get(digest(text))
        for around, steps in groups:
            changes = None if row is None else changes_in(row, row[0] & around, court_name)
            key = text, None if changes is None else id(changes)
            found.setdefault(key, (steps, set()))[1].update(around)
    first, every = (0, 1) if everything else EVERY.get(court_name, (0, 1))
    looked = list(found.values())[first::every]
    return [Played(s, timeline(s, court, formation), frozenset(around)) for s, around in looked]


def across(start: Sequence[float], point: Sequence[float]) -> float:
    """Return how far ``point`` lies to one side of the line from ``start`` to the basket, signed."""
    length = (start[0] ** 2 + start[1] ** 2) ** 0.5
    ux, uy = -start[0] / length, -start[1] / length
    return ux * (point[1] - start[1]) - uy * (point[0] - start[0])


def along(start: Sequence[float], point: Sequence[float]) -> float:
    """Return how far ``point`` lies from ``start`` along the line to the basket."""
    length = (start[0] ** 2 + start[1] ** 2) ** 0.5
    return (-start[0] * (point[0] - start[0]) - start[1] * (point[1] - start[1])) / length


def distance(a: Sequence[float], b: Sequence[float]) -> float:
    return ((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2) ** 0.5


def passing_defender(path_points: Sequence[Point]) -> Point:
    """Return the first point level with the nominal defender, one metre from the start to the basket."""
    start = path_points[0]
    return next(point for point in path_points if along(start, point) >= 1.0)
