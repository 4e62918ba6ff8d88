"""The route of one move, by its manner, with the bend that keeps its player clear of others."""

from __future__ import annotations

from functools import lru_cache
from itertools import pairwise
from math import hypot

from engine.floor.formations import POSTS
from engine.floor.markings import Point
from engine.floor.paths import Path
from engine.game.steps import Move, Step
from engine.motion import routes
from engine.motion.scene import Adjustment, Ground, Scene
from engine.motion.speeds import CUT, DRIVE, OFF_BALL, REACTION_S, duration
from engine.motion.values import Run, Style
from engine.rules.movements import STEP, is_baseline

#: How far inside the ring a player goes who changes places with a dribbler or a receiver, metres.
_INSIDE_M = 1.1

#: Who is so near to where he has to be after a shot does not run, metres along his way.
_THERE_M = 0.05

#: Moves that end in a screen.
_TO_SCREEN = ("screen_away", "set_screen", "help_screen")


def way(scene: Scene, move: Move) -> Path:
    """Return the route of a move that goes round nobody in particular."""
    return _way(scene.ground, scene.runs_from(move.origin), move, scene.change(move.origin).bend)


@lru_cache(maxsize=4096)
def _way(ground: Ground, origin: str, move: Move, bend: float) -> Path:
    at, to = ground.places[origin], ground.places[move.target]
    if origin in ground.angles and move.target in ground.angles:
        if move.manner == "slide":
            return routes.slide(at, to)
        if move.manner == "replace":
            return routes.inside_ring(at, to, _INSIDE_M + routes.BEND_M * bend)
        return routes.along_ring(ground.court, ground.angles[origin], ground.angles[move.target], bend)
    if move.target in POSTS:
        return routes.short(at, to, bend)
    return routes.run_out(at, to, bend)


@lru_cache(maxsize=8192)
def reaction(ground: Ground, move: Move, base: float, change: Adjustment) -> Run:
    """Return the run of a team-mate, not under way, who reacts to what begins at ``base``.

    Most runs are such, and the same in very many timelines: each is worked out once.
    """
    path = _way(ground, move.origin, move, change.bend)
    start = max(base + REACTION_S + change.delay, 0.0)
    return Run(move.origin, start, duration(OFF_BALL, path.length), path, style_of(move))


@lru_cache(maxsize=8192)
def after_shot(
    ground: Ground, spot: str, goal: Point, gets_back: bool, start: float, bend: float
) -> Run | None:
    """Return the run to where somebody has to be after a shot; None if he is there."""
    path = routes.bowed(ground.places[spot], goal, routes.BEND_M * bend)
    if path.length <= _THERE_M:
        return None
    lasts = duration(OFF_BALL if gets_back else CUT, path.length)
    return Run(spot, max(start, 0.0), lasts, path, "cut")


def style_of(move: Move) -> Style:
    """Return how a move looks that goes round nobody in particular."""
    return "screen" if move.manner in _TO_SCREEN else "cut"


def cut(scene: Scene, move: Move, start: float, ball: str) -> Run:
    """Schedule a cut: in front of the defender, or behind him when denied or dribbled at.

    ``ball``: the spot the ball is at, or comes from, as he cuts.
    """
    change = scene.change(move.origin)
    at = scene.at(move.origin)
    hand = routes.ball_side(at, scene.at(ball))
    if move.manner == "back_cut":
        hand = -hand
    path = routes.cut(at, scene.at(move.target), hand, change.bend)
    return scene.run(move.origin, start + change.delay, path, CUT)


def drive_path(scene: Scene, step: Step, screened: bool = False) -> Path:
    """Return the ball handler's drive; ``screened``: round a screener instead of the defender alone."""
    spot, direction = step.ball.origin, step.action.direction
    assert direction is not None
    drive = routes.baseline_drive if is_baseline(spot, direction) else routes.drive
    at, to = scene.at(spot), scene.at(step.ball.target)
    return drive(at, to, STEP[direction], screened, scene.change(spot).bend)


def go_at_rim(scene: Scene, move: Move, path: Path, start: float) -> Run:
    """Schedule the ball handler's drive along ``path`` (see :func:`drive_path`)."""
    return scene.run(move.origin, start + scene.change(move.origin).delay, path, DRIVE, "dribble")


@lru_cache(maxsize=4096)
def share_at(path: Path, by: tuple[float, float]) -> float:
    """Return the share of ``path`` after which it is nearest to ``by``."""
    samples = path.samples
    nearest = min(range(len(samples)), key=lambda i: hypot(samples[i].x - by[0], samples[i].y - by[1]))
    along = sum(hypot(b.x - a.x, b.y - a.y) for a, b in pairwise(samples[: nearest + 1]))
    return along / path.length if path.length else 0.0
