"""The search for the least changes that keep team-mates apart: later starts, and routes bent further."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache, partial
from itertools import product
from math import hypot
from typing import Final

from engine.floor.court import Court
from engine.floor.formations import LANE, POSTS, Formation
from engine.game.composites import runs_once
from engine.game.steps import Step
from engine.motion.clearance import Clash, Memory, clashes, clashes_of, exempt
from engine.motion.scene import NO_CHANGE, Adjustment, Changes
from engine.motion.sets import NOTHING, Key, Sets, cost
from engine.motion.table import movements
from engine.motion.timeline import build
from engine.motion.values import Run, Timeline

#: Searched for with a little to spare, and looked at closely, so that a coarser check finds nothing.
CLEAR_M: Final = 0.63
EVERY_S: Final = 0.04

#: No route comes nearer to the edge of the court than this, metres.
_EDGE_M: Final = 0.22

#: Two moments so far apart, seconds, are of different runs of one player.
_OTHER_RUN_S: Final = 0.8

#: Nobody is bent to run further than so many times the straight way; on a step or two it is not looked at.
#: (Who takes a hand-off on the run goes round the giver.)
DETOUR: Final = 1.6
_STEP_M: Final = 0.8

_DELAYS: Final = tuple(tenth / 10 for tenth in range(9))
_BENDS: Final = (0.0, 0.5, -0.5, 1.0, -1.0, 1.5, -1.5, 2.0, -2.0, 2.5, -2.5, 3.0, -3.0)

#: Sets of changes looked at before a search gives up, and before it goes on the thorough way.
MOST_TRIES: Final = 1500
THOROUGH_TRIES: Final = 400


class NoWay(Exception):
    """No set of small changes keeps the players apart."""


def options(steps: Sequence[Step]) -> dict[Key, tuple[Adjustment, ...]]:
    """Return what may be changed for each player and step, the least change first.

    Whoever begins a single step begins it at once: he cannot be delayed.
    """
    found: dict[Key, tuple[Adjustment, ...]] = {}
    once = runs_once(steps)
    for number, step in enumerate(steps):
        if step.is_shot:
            for spot in step.before.occupied:
                found[number, spot] = _combine(_DELAYS, _BENDS)
            continue
        for move in step.moves:
            if number == 0 and once is not None:
                continue  # his one run is of the second step
            origin = (
                once.origin if number and once is not None and move.target == once.target else move.origin
            )
            delays, bends = _freedom(step, number, origin, move.target, move.manner)
            firsts: tuple[float, ...] = (
                _BENDS if step.action.about.has_screener and move.manner == "roll" else (0.0,)
            )
            if move.manner == "set_screen" or (move.manner == "cut" and step.ball.kind == "hand_off"):
                firsts = (0.0, 1.0)
            found[number, move.origin] = _combine(delays, bends, firsts)
    return {key: changes for key, changes in found.items() if changes}


def _freedom(
    step: Step, number: int, origin: str, target: str, manner: str
) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Return the delays and the bends that one move allows."""
    actor = step.ball.origin if step.before.cutter is None else step.before.cutter
    begins = number == 0 and (
        (
            (
                origin in (actor, step.ball.origin)
                and manner in ("dribble", "drive", "fill", "post_up", "flash")
            )
            and not step.action.about.has_screener
        )
        or (manner == "back_cut" and step.ball.kind == "hold")
    )
    inside = {*POSTS, *LANE}
    bends = _BENDS if origin in inside or target in inside else _BENDS[:1] + _BENDS[1::2]
    if manner == "take_hand_off":
        return (0.0,), bends if bends is _BENDS else (0.0,)
    delays = (0.0,) if begins or manner == "set_screen" else _DELAYS
    return delays, (0.0,) if manner == "slide" and origin not in inside else bends


@lru_cache(maxsize=64)
def _combine(
    delays: tuple[float, ...], bends: tuple[float, ...], firsts: tuple[float, ...] = (0.0,)
) -> tuple[Adjustment, ...]:
    every = (Adjustment(*parts) for parts in product(delays, bends, firsts))
    return tuple(sorted((change for change in every if change != NO_CHANGE), key=cost))


def solve(
    steps: Sequence[Step],
    still: Iterable[str],
    courts: Sequence[Court],
    formation: Formation,
    tries: int = MOST_TRIES,
    thorough: bool = False,
    memory: Memory | None = None,
) -> Changes:
    """Return the least changes with which nobody comes too near to anybody, on any of ``courts``.

    ``still``: the spots of standing players to keep clear of. Best first: a set of changes is tried, and
    where two players clash, each change of either of them is tried on top of it. ``thorough``: only those
    that clear this clash and whoever stands, each looked at by itself; slow for one clash, quick for many.
    ``memory``: of searches before, to which runs are added. Raises ``NoWay`` when no way is found in
    ``tries`` sets of changes.
    """
    free, allowed, still = options(steps), exempt(steps), frozenset(still)
    keys = _keys_by_origin(steps, free)
    order = list(courts)
    sets, found = Sets(free), NOTHING
    # Most sets of changes leave most runs as they are: each run is looked at once.
    memory = memory or Memory()
    for _ in range(tries):
        clash = _first_clash(steps, found.changes, still, allowed, order, formation, memory)
        if clash is None:
            return found.changes
        whose = [(key, who) for key, who in changeable(clash, keys) if key not in found.changes]
        if thorough:
            near, court = {*still, clash.one, clash.other}, order[0]
            looks = {
                who: partial(
                    _clears,
                    who,
                    near - {who},
                    steps,
                    allowed,
                    court,
                    formation,
                    clash.time if len(keys[who]) > 1 else None,
                )
                for _, who in whose
            }
            sets.branch(found, [(key, looks[who]) for key, who in whose])
        else:
            sets.branch(found, [(key, None) for key, _ in whose])
        following = sets.next()
        if following is None:
            break
        found = following
    raise NoWay(f"{movements(steps)} beside {sorted(still)}")


def changeable(clash: Clash, keys: Mapping[str, Sequence[Key]]) -> list[tuple[Key, str]]:
    """Return what may be changed about a clash, and about whom; who leaves the court clashes with himself."""
    return [(key, who) for who in dict.fromkeys((clash.one, clash.other)) for key in keys.get(who, ())]


def _clears(
    who: str,
    avoid: Iterable[str],
    steps: Sequence[Step],
    allowed: frozenset[frozenset[str]],
    court: Court,
    formation: Formation,
    time: float | None,
    changes: Changes,
) -> bool:
    """Say whether, with ``changes``, a player stays in the court and clear of those he is to avoid.

    ``time``: of who runs twice, when he has to be clear: his other run is seen to by other changes.
    """
    line = build(steps, court, formation, changes)
    if _leaves(line, court, Memory()) == who:
        return False
    return not any(
        time is None or abs(clash.time - time) < _OTHER_RUN_S
        for other in avoid
        for clash in clashes_of(line, who, other, allowed, CLEAR_M, EVERY_S)
    )


def _is_detour(run: Run) -> bool:
    (x0, y0), (x1, y1) = run.path.start, run.path.end
    straight = hypot(x1 - x0, y1 - y0)
    return run.style != "carry" and straight > _STEP_M and run.path.length > DETOUR * straight


def _keys_by_origin(steps: Sequence[Step], free: Mapping[Key, object]) -> dict[str, list[Key]]:
    who = {spot: spot for spot in steps[0].before.occupied}
    found: dict[str, list[Key]] = {}
    for number, step in enumerate(steps):
        for spot, origin in who.items():
            if (number, spot) in free:
                found.setdefault(origin, []).append((number, spot))
        travel = step.travel
        who = {travel.get(spot, spot): origin for spot, origin in who.items()}
    return found


def _first_clash(
    steps: Sequence[Step],
    changes: Changes,
    still: frozenset[str],
    allowed: frozenset[frozenset[str]],
    order: list[Court],
    formation: Formation,
    memory: Memory,
) -> Clash | None:
    """Return the earliest clash on the first court that has one; that court is looked at first next time."""
    for i, court in enumerate(order):
        line = build(steps, court, formation, changes)
        out = _leaves(line, court, memory)
        found = clashes(line, still, allowed, CLEAR_M, EVERY_S, memory)
        if out is not None:
            found = [Clash(out, out, 0.0, 0.0)]
        if found:
            order.insert(0, order.pop(i))
            return min(found, key=lambda clash: clash.time)
    return None


def _leaves(line: Timeline, court: Court, memory: Memory) -> str | None:
    """Return who runs too near to the edge of the court, or goes a long way round, or nobody."""
    for run in line.runs:
        key = court.standard.name, run.path.controls
        if key not in memory.inside:
            inside = all(court.in_court(corner, _EDGE_M) for corner in run.path.box)
            memory.inside[key] = inside and not _is_detour(run)
        if not memory.inside[key]:
            return run.origin
    return None
