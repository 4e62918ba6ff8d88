"""What a step looks like in time: the ball, the one who acts, then the team-mates who react.

It goes by what the ball does and by the manner of each move, not by the name of the action, so that other
rules make timelines too.
"""

from __future__ import annotations

from math import hypot

from engine.game.rebounding import tasks
from engine.game.steps import Move, Step
from engine.motion.meetings import ball_screen, hand_off, screen
from engine.motion.scene import Scene
from engine.motion.speeds import (
    CATCH_S,
    DRIBBLE,
    FOLLOW_THROUGH_S,
    HOLD_READY_S,
    LEFT_S,
    OFF_BALL,
    REACTION_S,
    SHOT_S,
    SHOT_S_PER_M,
    duration,
)
from engine.motion.ways import after_shot, cut, drive_path, go_at_rim, reaction, style_of, way

#: A player dribbled at is expected on his spot when this share of the dribble is still to come.
_ARRIVES_BEFORE = 0.4


def play(scene: Scene, step: Step) -> None:
    """Schedule one step on ``scene``."""
    scene.begin(step)
    moves = {move.origin: move for move in step.moves}
    match step.ball.kind:
        case "pass":
            _pass(scene, step, moves)
        case "dribble":
            if step.action.about.has_screener:
                start = ball_screen(scene, step, moves)
            elif moves[step.ball.origin].manner == "drive":
                start = _drive(scene, step, moves)
            else:
                start = _dribble(scene, step, moves)
            _others(scene, moves, start)
        case "hand_off":
            hand_off(scene, step, moves)
            _others(scene, moves, scene.base)
        case "shot":
            _shot(scene, step)
        case _:
            _hold(scene, step, moves)


def _pass(scene: Scene, step: Step, moves: dict[str, Move]) -> None:
    giver, catcher = (
        step.ball.origin,
        next((m.origin for m in step.moves if m.target == step.ball.target), step.ball.target),
    )
    event = scene.throw(giver, catcher, scene.base)
    scene.ready = event.end + CATCH_S
    move = moves.pop(giver, None)
    leaves = event.start + FOLLOW_THROUGH_S
    if move is not None and move.manner == "screen_away":
        user = next(m for m in moves.values() if m.manner == "come_off")
        screen(scene, move, moves.pop(user.origin), leaves, step.ball.target)
    elif move is not None and move.manner == "cut":
        cut(scene, move, leaves, step.ball.target)
    elif move is not None:
        scene.run(giver, leaves + scene.change(giver).delay, way(scene, move), OFF_BALL)
    _others(scene, moves, scene.base)


def _dribble(scene: Scene, step: Step, moves: dict[str, Move]) -> float:
    move = moves.pop(step.ball.origin)
    change = scene.change(move.origin)
    path = way(scene, move)
    mate = moves.get(move.target)
    start = scene.base
    if mate is not None:
        # He is dribbled at only when he is there: not much before he arrives from an earlier run.
        lasts = duration(DRIBBLE, path.length)
        start = max(start, scene.free(mate.origin) - _ARRIVES_BEFORE * lasts)
    run = scene.run(move.origin, start + change.delay, path, DRIBBLE, "dribble")
    scene.ready = run.end
    if mate is not None and mate.manner in ("cut", "back_cut"):
        cut(scene, moves.pop(mate.origin), run.start + REACTION_S, move.origin)
    return scene.base


def _drive(scene: Scene, step: Step, moves: dict[str, Move]) -> float:
    run = go_at_rim(scene, moves.pop(step.ball.origin), drive_path(scene, step), scene.base)
    scene.ready = run.end
    return run.start


def _hold(scene: Scene, step: Step, moves: dict[str, Move]) -> None:
    """The ball stays: somebody cuts, or a cutter makes his choice."""
    by = {move.manner: move for move in reversed(step.moves)}
    setter, user, denied = by.get("set_screen"), by.get("screened_cut"), by.get("back_cut")
    if setter is not None and user is not None:
        del moves[setter.origin], moves[user.origin]
        scene.ready = screen(scene, setter, user, scene.base, step.ball.origin)
        _others(scene, moves, scene.base)
    elif denied is not None:
        run = cut(scene, moves.pop(denied.origin), scene.base, step.ball.origin)
        scene.ready = run.start + CATCH_S
        _others(scene, moves, scene.base)
    else:
        # A choice of his own: he reacts to nobody.
        _others(scene, moves, scene.base - REACTION_S)
        # Where he runs once, his choice and the ball action are one, and begin as one.
        scene.ready = scene.base + (HOLD_READY_S if scene.once is None else 0.0)


def _shot(scene: Scene, step: Step) -> None:
    shooter = step.ball.origin
    at = scene.at(shooter)
    begin = max(scene.base, scene.free(shooter))
    end = begin + SHOT_S + SHOT_S_PER_M * hypot(at.x, at.y)
    scene.event("shot", begin, end, shooter, None)
    for spot, task in sorted(tasks(step.before, scene.ground.court, scene.ground.formation).items()):
        change = scene.change(spot)
        start = begin + (FOLLOW_THROUGH_S if spot == shooter else REACTION_S) + change.delay
        run = after_shot(scene.ground, spot, task.point, task.gets_back, start, change.bend)
        if run is not None:
            scene.add(run)
    scene.ready = max(end, scene.settled)


def _others(scene: Scene, moves: dict[str, Move], base: float) -> None:
    """Let the team-mates react to what begins at ``base``."""
    for spot, move in moves.items():
        if scene.has_moved(spot) or scene.has_moved(move.target):
            _react_later(scene, move, base)
        elif scene.number or scene.once is None or spot != scene.once.origin:
            scene.add(reaction(scene.ground, move, base, scene.change(spot)))
        # Else he runs in the second step, straight to where that takes him.


def _react_later(scene: Scene, move: Move, base: float) -> None:
    """Let somebody react who is still on his way from an earlier step, or goes where somebody else is."""
    spot = move.origin
    path = way(scene, move)
    start = scene.starts(spot, base + REACTION_S)
    if scene.runs_from(spot) != spot and move.target in scene.stood:
        # He need not wait for the ball, but comes when the place is left.
        start = max(start, base + REACTION_S + LEFT_S - duration(OFF_BALL, path.length))
    if scene.free(move.target) > 0.0 and move.target in scene.left:
        # Who follows a player still on his way there comes when he has left again.
        left = scene.free(move.target) + REACTION_S + LEFT_S
        start = max(start, left - duration(OFF_BALL, path.length))
    scene.run(spot, start + scene.change(spot).delay, path, OFF_BALL, style_of(move))
