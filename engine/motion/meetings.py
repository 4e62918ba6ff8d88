"""Where two team-mates meet: screens on and off the ball, and hand-offs."""

from __future__ import annotations

from engine.floor.formations import LANE
from engine.game.steps import Move, Step
from engine.motion import routes
from engine.motion.profile import elapsed
from engine.motion.scene import Scene
from engine.motion.speeds import (
    CATCH_S,
    CUT,
    DRIBBLE,
    DRIVE,
    OFF_BALL,
    REACH_M,
    REACTION_S,
    RELEASE_S,
    SCREEN_SET_S,
    duration,
)
from engine.motion.ways import cut, drive_path, go_at_rim, share_at, way
from engine.rules.movements import STEP


def ball_screen(scene: Scene, step: Step, moves: dict[str, Move]) -> float:
    """Schedule a ball screen, the drive off it and the screener's roll; return when the drive starts."""
    screener, handler, direction = step.action.spot, step.ball.origin, step.action.direction
    assert screener is not None
    assert direction is not None
    hand, start, change = STEP[direction], scene.at(handler), scene.change(screener)
    place = routes.beside_defender(start, hand, routes.SCREEN_BESIDE_M)
    out = routes.short(scene.at(screener), place, change.first)
    there = scene.run(screener, scene.base, out, OFF_BALL, "screen")
    path = drive_path(scene, step, screened=True)
    by = routes.beside_defender(start, hand, routes.PAST_SCREEN_M)
    passing = duration(DRIVE, path.length) * elapsed(share_at(path, by))
    leaves = there.end + max(RELEASE_S, SCREEN_SET_S - passing)
    run = go_at_rim(scene, moves.pop(handler), path, leaves)
    scene.ready = run.end
    roll = moves.pop(screener, None)
    if roll is not None:
        path = routes.short(place, scene.at(roll.target), change.bend)
        scene.run(screener, run.start + passing + RELEASE_S + change.delay, path, OFF_BALL)
    return run.start


def screen(scene: Scene, setter: Move, user: Move, start: float, ball: str) -> float:
    """Schedule a screen off the ball; return when the user has gone past it.

    The screener goes and stands beside the user's defender. A ``screened_cut`` goes round him to the rim; a
    player who comes off toward another spot goes round him on the side of that spot. Then the screener
    takes the place he is to have.
    """
    at, to, change = scene.at(user.origin), scene.at(user.target), scene.change(user.origin)
    mine = scene.change(setter.origin)
    if user.manner == "screened_cut":
        hand = routes.back_screen_hand(at, scene.at(ball), scene.ground.court)
        hand = -hand if mine.first else hand
        path, pace = routes.cut_off_screen(at, to, hand, change.bend), CUT
    else:
        hand = -routes.side(at, to) if mine.first else routes.side(at, to)
        path, pace = routes.come_off(at, to, hand, change.bend), OFF_BALL
    place = routes.beside_defender(at, hand, routes.SCREEN_BESIDE_M)
    out = routes.short(scene.at(setter.origin), place, mine.bend)
    there = scene.run(setter.origin, start + mine.delay, out, OFF_BALL, "screen")
    by = routes.beside_defender(at, hand, routes.PAST_SCREEN_M)
    passing = duration(pace, path.length) * elapsed(share_at(path, by))
    leaves = there.end + max(RELEASE_S, SCREEN_SET_S - passing) + change.delay
    run = scene.run(user.origin, leaves, path, pace)
    past = run.start + passing + RELEASE_S
    # By where he was sent: on the spot of the user he has only a step to go.
    scene.run(setter.origin, past, routes.short(place, scene.at(setter.target)), OFF_BALL)
    return past


def hand_off(scene: Scene, step: Step, moves: dict[str, Move]) -> None:
    """Schedule a hand-off: on the ring between the two spots, else at the giver's place."""
    giver = step.ball.origin
    taker = next(move.origin for move in step.moves if move.manner == "take_hand_off")
    if scene.is_ring(giver) and scene.is_ring(taker):
        _between(scene, giver, taker, moves)
    else:
        _at_giver(scene, giver, taker, moves)


def _between(scene: Scene, giver: str, taker: str, moves: dict[str, Move]) -> None:
    """The giver dribbles to half way; the receiver, coming at speed, takes the ball as he goes by."""
    angles = scene.angle(giver), scene.angle(taker)
    origin = scene.runs_from(taker)
    start = None if origin == taker else scene.at(origin)
    dribble, path = routes.hand_off(scene.ground.court, *angles, start, scene.change(taker).bend)
    place, by = routes.hand_off_places(scene.ground.court, *angles)
    gives, takes = duration(DRIBBLE, dribble.length), duration(OFF_BALL, path.length)
    meet = takes * elapsed(share_at(path, by))
    at = max(scene.base + gives, max(scene.starts(taker, scene.base + REACTION_S), scene.free(taker)) + meet)
    scene.run(giver, at - gives, dribble, DRIBBLE, "hand")
    run = scene.run(taker, at - meet, path, OFF_BALL, "carry")
    scene.event("hand", at, at, giver, taker)
    scene.ready = run.end
    del moves[taker]
    move = moves.pop(giver, None)
    if move is None:
        return
    change, leaves = scene.change(giver), at + RELEASE_S
    if move.target in LANE:
        # In front of his defender: the ball goes back to where he came from. If a team-mate stands in the
        # way there, the other way round.
        hand = routes.ball_side(place, scene.at(giver)) * (-1 if change.first else 1)
        on, pace = routes.cut(place, scene.at(move.target), hand, change.bend), CUT
    else:
        on, pace = routes.short(place, scene.at(move.target), change.bend), OFF_BALL
    scene.run(giver, leaves + change.delay, on, pace)


def _at_giver(scene: Scene, giver: str, taker: str, moves: dict[str, Move]) -> None:
    """The giver stands and holds the ball out; the receiver comes, and takes it as he goes by or arrives."""
    take = moves.pop(taker)
    start, goal, change = scene.at(scene.runs_from(taker)), scene.at(take.target), scene.change(taker)
    if take.target == giver:
        path = routes.short(start, goal, change.bend)
        run = scene.run(taker, scene.base, path, OFF_BALL, "carry")
        at = run.time_left_with(REACH_M)
        scene.ready = run.end + CATCH_S
    else:
        path = routes.past(start, scene.at(giver), goal, change.bend)
        run = scene.run(taker, scene.base + REACTION_S, path, OFF_BALL, "carry")
        at = run.start + run.duration * elapsed(share_at(path, scene.at(giver)))
        scene.ready = run.end
    scene.event("hand", at, at, giver, taker)
    move = moves.pop(giver, None)
    if move is not None and move.manner == "cut":
        cut(scene, move, at, taker)
    elif move is not None:
        scene.run(giver, at + RELEASE_S + scene.change(giver).delay, way(scene, move), OFF_BALL)
