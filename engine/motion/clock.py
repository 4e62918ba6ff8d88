"""The clock: when each step of a chain starts, and what waits for what.

At game pace a step starts when its handler is ready after the one before; at taught pace when everybody
has arrived and stood for a breath. Who is still under way finishes his run before
his next one starts; a pass waits until its receiver is within a metre of the end of his, a screen until the
screener has ended his, a hand-off until the two are together, and a ball event for the hands it needs; then
the whole step, or the rest of it, is that much later.

What is laid is what crosses the wire, in whole hundredths of a second, so that a screen lays the same.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import hypot
from typing import Final

from engine.floor.alignment import Position
from engine.floor.court import Court, places
from engine.floor.formations import Formation
from engine.floor.markings import Point
from engine.floor.paths import line
from engine.game.play import follow
from engine.game.recover import Recovery
from engine.game.steps import Step
from engine.motion.film import STRAIGHT, Cue, Film, Leg, Toss, Who, standing
from engine.motion.guards import keep_to_men
from engine.motion.speeds import (
    ARM_M,
    BALL_MOST_M_S,
    HAND_S,
    LOOK_S,
    MEET_WITHIN_S,
    OFF_BALL,
    REACH_M,
    STRAY_S,
    THERE_M,
    duration,
)
from engine.motion.timeline import timeline
from engine.motion.values import BASKET, Timeline

#: Times on the wire have so many decimals.
_DECIMALS: Final = 2


def film_of(
    position: Position,
    groups: Sequence[Sequence[Step]],
    court: Court,
    formation: Formation,
    level: float = 1.0,
    breath: float | None = None,
) -> Film:
    """Return the film of ``groups`` of steps by rule (one each, or two for a composite) from ``position``.

    ``breath``: as in ``Film``; left out, it goes at game pace.
    """
    spots = places(court, formation)
    film = standing(
        {number: spots[spot] for spot, number in position.lineup},
        position.player(position.alignment.ball),
        breath,
    )
    for steps in groups:
        append(film, timeline(steps, court, formation, level), dict(position.lineup))
        for step in steps:
            position = follow(position, step)
    return film


def append(film: Film, step: Timeline, player: Mapping[str, int]) -> None:
    """Add a step by rule; ``player``: numbers by spot before it."""
    ready = film.cues[-1].ready if film.cues else 0.0
    start = _earliest(film, step, player, ready if film.breath is None else film.settled)
    cue = len(film.cues)
    late: dict[str, list[tuple[float, float]]] = {}
    end = start + _wire(step.end)
    for run in step.runs:
        who, planned, lasts = player[run.origin], _wire(run.start), _wire(run.duration)
        mine = film.legs[who]
        begin = max(start + planned, mine[-1].end if mine else 0.0)
        here = film.position(who, begin)
        bend = Point(here.x - run.path.start.x, here.y - run.path.start.y)
        late.setdefault(run.origin, []).append((planned, begin - start - planned))
        mine.append(Leg(begin, lasts, run.path, run.style, bend, cue))
        end = max(end, begin + lasts)
    slip = 0.0
    for kind, planned, until, giver, receiver in step.ball:
        planned = _wire(planned)
        slip = max(slip, _lateness(late, giver, planned))
        if receiver is not None:
            slip = max(slip, _lateness(late, receiver, planned))
        begin = max(start + planned + slip, film.tosses[-1].end if film.tosses else 0.0)
        a, b = player[giver], 0 if receiver is None else player[receiver]
        lasts = _wire(until) - planned
        if kind == "hand":
            begin, lasts = _meeting(film, a, b, begin), HAND_S
        # Players held up by an earlier run can be further apart than planned; the ball then takes its time.
        lasts = max(lasts, _apart(film, a, b, begin) / BALL_MOST_M_S)
        film.tosses.append(Toss(kind, begin, begin + lasts, a, b, cue))
        end = max(end, begin + lasts)
    keep_to_men(film, start, cue)
    film.cues.append(Cue(start, min(end, start + _wire(step.ready) + slip), end))


def get_back(film: Film, back: Recovery, spots: Mapping[str, Point], holder: int) -> None:
    """Add a recovery: everybody to where he was put by hand, then straight to his spot.

    ``spots``: where they lie, in metres. ``holder`` picks up a ball that lies on the floor.
    """
    start = film.settled
    _gather(film, holder, start)
    cue, lineup = len(film.cues), {number: spot for spot, number in back.lineup}
    end = start + STRAY_S
    for number, x, y in back.where:
        put = Point(x / 100, y / 100)
        home = line(put, spots[lineup[number]])
        film.legs[number].append(strayed(film.position(number, start), put, start, cue))
        if home.length > THERE_M:
            run = Leg(start + STRAY_S, _wire(duration(OFF_BALL, home.length)), home, "cut", STRAIGHT, cue)
            film.legs[number].append(run)
            end = max(end, run.end)
    keep_to_men(film, start, cue)
    film.cues.append(Cue(start, end, end))


def strayed(here: Point, there: Point, start: float, cue: int) -> Leg:
    """Return somebody's way to where a step begins."""
    return Leg(start, STRAY_S, line(here, there), "stray", STRAIGHT, cue)


def leave(film: Film, start: float, staying: Mapping[Who, object] | None = None) -> None:
    """Let the extras who are not in what begins now leave."""
    for who, spans in film.shown.items():
        if spans[-1][1] == float("inf") and who not in (staying or ()):
            spans[-1] = (spans[-1][0], start)


def _gather(film: Film, taker: int, start: float) -> None:
    holder, lies = film.ball_after()
    if not holder and lies is not None:
        film.tosses.append(Toss("gather", start, start + STRAY_S, 0, taker, len(film.cues), lies))


def _earliest(film: Film, step: Timeline, player: Mapping[str, int], start: float) -> float:
    """Return when the step may start: its handler has the ball, receivers can catch, screeners can go."""
    for run in step.runs:
        before = film.legs[player[run.origin]]
        if run.style == "screen" and before:
            # A screen must be set before it is used, so nobody goes before the screener can.
            start = max(start, before[-1].end - _wire(run.start))
    if film.tosses:
        last = film.tosses[-1]
        uses = [_wire(event.start) for event in step.ball]
        uses += [_wire(run.start) for run in step.runs if player[run.origin] == last.taker]
        if uses:
            start = max(start, (last.start if last.kind == "hand" else last.end) - min(uses))
    for event in step.ball:
        legs = film.legs[player[event.receiver]] if event.receiver is not None else []
        if event.kind == "pass" and legs:
            start = max(start, legs[-1].time_left_with(REACH_M) - _wire(event.start))
    return start


def _lateness(late: Mapping[str, Sequence[tuple[float, float]]], origin: str, t: float) -> float:
    """Return the greatest delay of the player's runs that were to begin by ``t``."""
    return max((delay for begin, delay in late.get(origin, ()) if begin <= t), default=0.0)


def _meeting(film: Film, one: int, other: int, t: float) -> float:
    """Return the first time from ``t`` on that two are within an arm's length, or the nearest they get."""
    best, least, look = t, _apart(film, one, other, t), t
    while least > ARM_M and look < t + MEET_WITHIN_S:
        gap = _apart(film, one, other, look)
        if gap < least:
            best, least = look, gap
        look += LOOK_S
    return best


def _apart(film: Film, one: int, other: int, t: float) -> float:
    x0, y0 = film.position(one, t)
    x1, y1 = film.position(other, t) if other else BASKET
    return hypot(x1 - x0, y1 - y0)


def _wire(seconds: float) -> float:
    return round(seconds, _DECIMALS)
