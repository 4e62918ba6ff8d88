"""From steps to a timeline: who runs when, by which route, and where the ball is."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from operator import attrgetter
from typing import Final

from engine.floor.court import Court, half_court
from engine.floor.formations import Formation
from engine.game.composites import runs_once
from engine.game.steps import Step
from engine.motion.clearance import clashes, exempt
from engine.motion.plan import play
from engine.motion.scene import Changes, Scene, ground
from engine.motion.speeds import check_level
from engine.motion.table import changes_for, standing
from engine.motion.values import Timeline

#: Movements that are in no table (a coach's own rules) are cleared on the spot, by a short search.
TRIES: Final = 300

#: How finely what is known is looked at again, seconds.
LOOK_S: Final = 0.1


def timeline(steps: Sequence[Step], court: Court, formation: Formation, level: float = 1.0) -> Timeline:
    """Return the timeline of one step, or of a lane choice and the ball action played over it.

    ``level``: 0.75 to 1.0, divides every duration and delay. Raises ``QuintetError`` for another level,
    ``ValueError`` for no step or more than two. Equal movements give the same timeline; players are told
    apart by their spots before the first step.
    """
    if not 1 <= len(steps) <= 2:
        raise ValueError(f"A timeline is made of one or two steps, not {len(steps)}.")
    return _cached(tuple(steps), court.standard.name, formation, check_level(level))


@lru_cache(maxsize=4096)
def _cached(steps: tuple[Step, ...], court_name: str, formation: Formation, level: float) -> Timeline:
    # By the court's name: a court holds all its markings, and would take longer to hash than to look up.
    if level != 1.0:
        return _cached(steps, court_name, formation, 1.0).slowed(level)
    court = half_court(court_name)
    known = changes_for(steps, formation.name, court_name)
    if known is not None:
        line = build(steps, court, formation, known)
        # What is known holds for where the default rules put the others; a coach's own may put somebody in
        # the way.
        if not clashes(line, standing(steps), exempt(steps), every=LOOK_S):
            return line
    from engine.motion.solve import NoWay, solve

    try:
        changes = solve(steps, standing(steps), (court,), formation, TRIES)
    except NoWay:
        changes = known or {}
    return build(steps, court, formation, changes)


_START: Final = attrgetter("start")


def build(steps: Sequence[Step], court: Court, formation: Formation, changes: Changes) -> Timeline:
    """Return the timeline at level 1.0 with the given changes, uncached."""
    here = ground(court, formation)
    scene = Scene(here, changes, runs_once(steps))
    for step in steps:
        play(scene, step)
    return Timeline(
        ready=scene.ready,
        end=max(scene.ready, scene.settled, *[event.end for event in scene.ball]),
        runs=tuple(sorted(scene.runs, key=_START)),
        ball=tuple(scene.ball),
        holder=steps[0].ball.origin,
        places=here.places,
    )
