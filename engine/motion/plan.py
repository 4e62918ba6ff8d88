"""What each action looks like in time: the ball, the actor, then the team-mates who react."""

from __future__ import annotations

from math import hypot

from engine.formations import POSTS, RIM
from engine.motion import routes
from engine.motion.profile import elapsed
from engine.motion.scene import Scene
from engine.motion.speeds import (
    CATCH_S,
    CUT,
    DRIBBLE,
    DRIVE,
    FOLLOW_THROUGH_S,
    HOLD_READY_S,
    OFF_BALL,
    REACTION_S,
    RELEASE_S,
    SCREEN_SET_S,
    SHOT_S,
    SHOT_S_PER_M,
    duration,
)
from engine.motion.values import Run
from engine.movements import STEP, is_baseline
from engine.moves import Move, Step
from engine.paths import Path
from engine.rebounding import tasks


def play(scene: Scene, step: Step) -> None:
    """Schedule one step on ``scene``."""
    scene.begin(step)
    moves = {move.origin: move for move in step.moves}
    match step.action.kind:
        case "pass" | "skip" | "post_entry" | "kick_out" | "high_low" | "dump_off" | "cutter_pass":
            _pass(scene, step, moves)
        case "dribble_at" | "dribble_to" | "dribble_out":
            _dribble(scene, step, moves)
        case "hand_off":
            _hand_off(scene, step, moves)
        case "back_cut":
            _back_cut(scene, step, moves)
        case "drive":
            _drive(scene, step, moves)
        case "ball_screen":
            _ball_screen(scene, step, moves)
        case "fill" | "post_up":
            _leave_lane(scene, moves)
        case "back_screen":
            _back_screen(scene, step, moves)
        case "shot":
            _shot(scene, step)
        case kind:
            raise AssertionError(kind)


def _pass(scene: Scene, step: Step, moves: dict[str, Move]) -> None:
    giver = step.ball.origin
    event = scene.throw(giver, step.ball.target, scene.base)
    scene.ready = event.end + CATCH_S
    if giver in moves:
        _cut(scene, moves.pop(giver), event.start + FOLLOW_THROUGH_S, step.ball.target)
    _others(scene, moves, scene.base)


def _dribble(scene: Scene, step: Step, moves: dict[str, Move]) -> None:
    move = moves.pop(step.ball.origin)
    start = scene.base
    cutter = next((m for m in moves.values() if m.manner == "back_cut"), None)
    change = scene.change(move.origin)
    if scene.is_ring(move.origin):
        path = routes.along_ring(scene.court, scene.angle(move.origin), scene.angle(move.target), change.bend)
    else:
        path = routes.run_out(scene.at(move.origin), scene.at(move.target), change.bend)
    if cutter is not None:
        # He is dribbled at only when he is there: not much before he arrives from an earlier run.
        start = max(start, scene.free(cutter.origin) - 0.4 * duration(DRIBBLE, path.length))
    run = scene.run(move.origin, start + change.delay, path, DRIBBLE, "dribble")
    scene.ready = run.end
    if cutter is not None:
        _cut(scene, moves.pop(cutter.origin), run.start + REACTION_S, move.origin)
    _others(scene, moves, scene.base)


def _hand_off(scene: Scene, step: Step, moves: dict[str, Move]) -> None:
    giver = step.ball.origin
    taker = next(m.origin for m in step.moves if m.manner == "take_hand_off")
    angles = scene.angle(giver), scene.angle(taker)
    dribble = routes.to_hand_off(scene.court, *angles)
    path = routes.through_hand_off(scene.court, *angles)
    takes, gives = duration(OFF_BALL, path.length), duration(DRIBBLE, dribble.length)
    place, by = routes.hand_off_places(scene.court, *angles)
    meet = takes * elapsed(_share(path, by))
    ready = max(scene.base + REACTION_S, scene.free(taker))
    # Both at once: the giver is there when the receiver, coming at speed, goes by.
    at = max(scene.base + gives, ready + meet)
    scene.run(giver, at - gives, dribble, DRIBBLE, "hand")
    run = scene.run(taker, at - meet, path, OFF_BALL, "carry")
    scene.event("hand", at, at, giver, taker)
    scene.ready = run.end
    moves.pop(taker)
    cutter, change = moves.pop(giver), scene.change(giver)
    hand = routes.ball_side(place, scene.at(giver))
    cut = routes.cut(place, scene.at(cutter.target), hand, change.bend)
    scene.run(giver, at + RELEASE_S + change.delay, cut, CUT)
    _others(scene, moves, scene.base)


def _back_cut(scene: Scene, step: Step, moves: dict[str, Move]) -> None:
    cutter = next(m for m in step.moves if m.manner == "back_cut")
    run = _cut(scene, moves.pop(cutter.origin), scene.base, step.ball.origin)
    scene.ready = run.start + CATCH_S
    _others(scene, moves, scene.base)


def _drive(scene: Scene, step: Step, moves: dict[str, Move]) -> None:
    run = _go_at_rim(scene, step, moves.pop(step.ball.origin), scene.base, screened=False)
    scene.ready = run.end
    _others(scene, moves, run.start)


def _ball_screen(scene: Scene, step: Step, moves: dict[str, Move]) -> None:
    screener, handler, direction = step.action.spot, step.ball.origin, step.action.direction
    assert screener is not None
    assert direction is not None
    hand, start = STEP[direction], scene.at(handler)
    place = routes.beside_defender(start, hand, routes.SCREEN_BESIDE_M)
    there = scene.run(screener, scene.base, routes.short(scene.at(screener), place), OFF_BALL, "screen")
    by = routes.beside_defender(start, hand, routes.PAST_SCREEN_M)
    path = _drive_path(scene, step, screened=True)
    passing = duration(DRIVE, path.length) * elapsed(_share(path, by))
    leaves = there.end + max(RELEASE_S, SCREEN_SET_S - passing)
    run = _go_at_rim(scene, step, moves.pop(handler), leaves, screened=True)
    roll, change = moves.pop(screener), scene.change(screener)
    path = routes.short(place, scene.at(roll.target), change.bend)
    scene.run(screener, run.start + passing + RELEASE_S + change.delay, path, OFF_BALL)
    scene.ready = run.end
    _others(scene, moves, run.start)


def _leave_lane(scene: Scene, moves: dict[str, Move]) -> None:
    _others(scene, moves, scene.base - REACTION_S)
    scene.ready = scene.base + HOLD_READY_S


def _back_screen(scene: Scene, step: Step, moves: dict[str, Move]) -> None:
    screener = next(m for m in step.moves if m.manner == "set_screen")
    user = next(m for m in step.moves if m.manner == "screened_cut")
    start, change = scene.at(user.origin), scene.change(user.origin)
    hand = routes.back_screen_hand(start, scene.at(step.ball.origin), scene.court)
    place = routes.beside_defender(start, hand, routes.SCREEN_BESIDE_M)
    bend = scene.change(screener.origin).bend
    out = routes.short(scene.at(screener.origin), place, bend)
    there = scene.run(screener.origin, scene.base, out, OFF_BALL, "screen")
    path = routes.cut_off_screen(start, scene.at(RIM), hand, change.bend)
    by = routes.beside_defender(start, hand, routes.PAST_SCREEN_M)
    passing = duration(CUT, path.length) * elapsed(_share(path, by))
    leaves = there.end + max(RELEASE_S, SCREEN_SET_S - passing) + change.delay
    run = scene.run(user.origin, leaves, path, CUT)
    free = run.start + passing + RELEASE_S
    pop = routes.short(place, scene.at(screener.target))
    scene.run(screener.origin, free, pop, OFF_BALL)
    scene.ready = free


def _shot(scene: Scene, step: Step) -> None:
    shooter = step.ball.origin
    at = scene.at(shooter)
    end = scene.base + SHOT_S + SHOT_S_PER_M * hypot(at.x, at.y)
    scene.event("shot", scene.base, end, shooter, None)
    for spot, task in sorted(tasks(step.before, scene.court, scene.formation).items()):
        change = scene.change(spot)
        start = scene.base + (FOLLOW_THROUGH_S if spot == shooter else REACTION_S) + change.delay
        path = routes.bowed(scene.at(spot), task.point, 0.7 * change.bend)
        if path.length > 0.05:
            scene.run(spot, start, path, OFF_BALL if task.gets_back else CUT)
    scene.ready = max([end, *(run.end for run in scene.runs)])


def _cut(scene: Scene, move: Move, start: float, ball: str) -> Run:
    """Cut to the rim: in front of the defender, or behind him when denied or dribbled at."""
    change = scene.change(move.origin)
    at = scene.at(move.origin)
    hand = routes.ball_side(at, scene.at(ball))
    if move.manner == "back_cut":
        hand = -hand
    path = routes.cut(at, scene.at(move.target), hand, change.bend)
    return scene.run(move.origin, start + change.delay, path, CUT)


def _drive_path(scene: Scene, step: Step, screened: bool) -> Path:
    spot, direction = step.ball.origin, step.action.direction
    assert direction is not None
    return routes.drive(
        scene.at(spot),
        scene.at(step.ball.target),
        STEP[direction],
        is_baseline(spot, direction),
        screened,
        scene.change(spot).bend,
    )


def _go_at_rim(scene: Scene, step: Step, move: Move, start: float, screened: bool) -> Run:
    change = scene.change(move.origin)
    path = _drive_path(scene, step, screened)
    return scene.run(move.origin, start + change.delay, path, DRIVE, "dribble")


def _others(scene: Scene, moves: dict[str, Move], base: float) -> None:
    """Let the team-mates react to what begins at ``base``."""
    for spot, move in moves.items():
        change = scene.change(spot)
        path = _way(scene, move, change.bend)
        scene.run(spot, base + REACTION_S + change.delay, path, OFF_BALL)


def _way(scene: Scene, move: Move, bend: int) -> Path:
    at, to = scene.at(move.origin), scene.at(move.target)
    if move.manner == "slide":
        return routes.slide(at, to)
    if scene.is_ring(move.origin) and scene.is_ring(move.target):
        return routes.along_ring(scene.court, scene.angle(move.origin), scene.angle(move.target), bend)
    if move.target in POSTS:
        return routes.short(at, to, bend)
    return routes.run_out(at, to, bend)


def _share(path: Path, by: tuple[float, float]) -> float:
    """Return the share of ``path`` after which it is nearest to ``by``."""
    samples = path.samples
    nearest = min(range(len(samples)), key=lambda i: hypot(samples[i].x - by[0], samples[i].y - by[1]))
    along = sum(
        hypot(samples[i].x - samples[i - 1].x, samples[i].y - samples[i - 1].y) for i in range(1, nearest + 1)
    )
    return along / path.length
