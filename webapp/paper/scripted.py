"""A scripted step as a timeline, so that it is drawn as any other step is."""

from __future__ import annotations

from engine.floor.markings import Point
from engine.motion.values import BallEvent, BallKind, Run, Timeline
from engine.script import Script
from engine.script.laying import legs, metres, seconds


def timeline(script: Script) -> Timeline:
    """Return a script as a timeline, without a ball that is left on the floor or picked up from there.

    An actor's name stands for the spot he began on.
    """
    thrown = []
    kinds: dict[str, BallKind] = {"pass": "pass", "hand": "hand", "shot": "shot"}
    for event in script.events:
        if event.kind in kinds:
            taker = str(event.taker) if event.taker else None
            times = seconds(event.start), seconds(event.end)
            thrown.append(BallEvent(kinds[event.kind], *times, str(event.giver), taker))
    places = {who: metres(x, y) for who, x, y in script.places}
    runs = tuple(
        Run(drawn.who, leg.start, leg.duration, leg.path, drawn.style)
        for drawn, (_, leg) in zip(script.runs, legs(script), strict=True)
    )
    end = seconds(script.lasts)
    holder = str(script.ball) if isinstance(script.ball, int) else ""
    return Timeline(end, end, runs, tuple(thrown), holder, places)


def extent(script: Script) -> list[Point]:
    """Return every place that a drawing of the script has to show."""
    points = [(x, y) for _, x, y in script.places]
    points += [point for run in script.runs for point in run.points]
    points += [event.place for event in script.events if event.place is not None]
    if not isinstance(script.ball, int):
        points.append(script.ball)
    return [metres(x, y) for x, y in points]
