"""What a coach's eye would find odd in any movement, counted.

``python -m tests.engine.motion.seen [FOLDER]`` prints a table, a row for each formation and court: timelines
looked at, routes through a team-mate, off the court, longer than 1.6 times the straight way, and drives that
get further from the basket, run away from the baseline or behind the board; then the longest way round that
is no detour. With a folder these and the worst of each are drawn there, to be looked at.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from dataclasses import dataclass
from math import hypot
from pathlib import Path as FilePath
from typing import Final

from engine.floor.court import Court, half_court, places
from engine.floor.formations import FORMATIONS, Formation
from engine.floor.paths import marking_svg
from engine.motion.clearance import Memory, clashes, exempt
from engine.motion.values import Run
from engine.rules.movements import is_baseline
from tests.engine.motion.reachable import FLOORS, Played, played

#: Longer than so many times the straight way a run looks like a detour; shorter runs than this have none.
DETOUR: Final = 1.6
STEP_M: Final = 0.8
#: What asks for a way round: behind the board, behind the defender, past a screen or a giver.
ROUND: Final = frozenset(("slide", "back_cut", "screened_cut", "come_off", "take_hand_off"))
#: A baseline drive is nowhere further from the baseline than where it begins or ends, and this, metres.
OFF_BASELINE_M: Final = 0.5


@dataclass(frozen=True)
class Oddity:
    """One thing seen: ``what`` kind, ``how`` bad it is (metres, or times the straight way), and in what."""

    what: str
    how: float
    who: str
    one: Played


def oddities(one: Played, court: Court, memory: Memory) -> Iterator[Oddity]:
    """Yield all that is odd about a timeline."""
    for clash in clashes(one.line, one.around, exempt(one.steps), every=0.05, memory=memory):
        yield Oddity("through a team-mate", clash.metres, clash.one, one)
    for run in one.line.runs:
        if not all(court.in_court(point, 0.2) for point in run.path.samples):
            yield Oddity("off the court", 0.0, run.origin, one)
    for _, step, move, runs in one.parts():
        for run in runs:
            straight = _straight(run)
            if move.manner not in ROUND and straight > STEP_M:
                times = run.path.length / straight
                if times > DETOUR:
                    yield Oddity("a detour", times, run.origin, one)
        if move.manner == "drive":
            assert step.action.direction is not None
            yield from _driven(one, runs, is_baseline(step.ball.origin, step.action.direction))


def _straight(run: Run) -> float:
    a, b = run.path.start, run.path.end
    return hypot(b.x - a.x, b.y - a.y)


def _driven(one: Played, runs: list[Run], baseline: bool) -> Iterator[Oddity]:
    for run in runs:
        points = run.path.samples
        far = [hypot(*point) for point in points]
        if max(far) > far[0] + 0.05:
            yield Oddity("a drive away from the basket", max(far) - far[0], run.origin, one)
        off = max(point.y for point in points) - max(points[0].y, points[-1].y)
        if baseline and off > OFF_BASELINE_M:
            yield Oddity("a baseline drive away from it", off, run.origin, one)
        # Behind the board nobody can drive.
        if any(point.y < -0.35 and abs(point.x) < 0.95 for point in points):
            yield Oddity("a drive behind the board", 0.0, run.origin, one)


KINDS: Final = (
    "through a team-mate",
    "off the court",
    "a detour",
    "a drive away from the basket",
    "a baseline drive away from it",
    "a drive behind the board",
)


def longest(looked: list[Played]) -> Oddity:
    """Return the run that is longest beside the straight way, of those that nothing asks to go round."""
    ways = (
        Oddity("the longest way", run.path.length / _straight(run), run.origin, one)
        for one in looked
        for _, _, move, runs in one.parts()
        for run in runs
        if move.manner not in ROUND and _straight(run) > STEP_M
    )
    return max(ways, key=lambda way: way.how)


def seen(looked: list[Played], court_name: str) -> list[Oddity]:
    """Return all that is odd in what is played on one court."""
    court, memory = half_court(court_name), Memory()
    return [oddity for one in looked for oddity in oddities(one, court, memory)]


def picture(oddity: Oddity, formation: Formation, court: Court) -> str:
    """Return an SVG of all routes of the timeline that an oddity is of, his own thicker."""
    (x0, y0), (x1, y1) = court.box
    box = f"{x0 * 100:.0f} {y0 * 100:.0f} {(x1 - x0) * 100:.0f} {(y1 - y0) * 100:.0f}"
    where = places(court, formation)
    drawn = [f'<path d="{marking_svg(mark)}" stroke="#999" stroke-width="4"/>' for mark in court.markings]
    for run in oddity.one.line.runs:
        colour = "#c00" if run.origin == oddity.who else "#06c"
        drawn.append(f'<path d="{run.path.svg()}" stroke="{colour}" stroke-width="9"/>')
    for spot in oddity.one.steps[0].before.occupied:
        x, y = where[spot]
        drawn.append(f'<circle cx="{100 * x:.0f}" cy="{100 * y:.0f}" r="30" stroke="#000" stroke-width="5"/>')
    opening = f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{box}" width="600" fill="none">'
    return f"{opening}{''.join(drawn)}</svg>"


def main(folders: list[str]) -> None:
    """Print the table, and draw the worst of each kind into a folder if one is given."""
    print("formation court timelines | " + " | ".join(KINDS))
    for formation_name, court_name in FLOORS:
        looked = played(formation_name, court_name, everything=True)
        found = seen(looked, court_name)
        counts = [sum(oddity.what == kind for oddity in found) for kind in KINDS]
        print(formation_name, court_name, len(looked), "|", " | ".join(map(str, counts)), flush=True)
        found.append(longest(looked))
        for kind in (*KINDS, "the longest way"):
            worst = sorted((oddity for oddity in found if oddity.what == kind), key=lambda o: -o.how)[:2]
            for number, oddity in enumerate(worst):
                print(f"    {kind} {oddity.how:.2f}: {oddity.one.name}, who began at {oddity.who}")
                for folder in folders:
                    name = f"{formation_name}-{court_name}-{kind.replace(' ', '-')}-{number}.svg"
                    drawn = picture(oddity, FORMATIONS[formation_name], half_court(court_name))
                    (FilePath(folder) / name).write_text(drawn, "utf-8")


if __name__ == "__main__":
    main(sys.argv[1:])
