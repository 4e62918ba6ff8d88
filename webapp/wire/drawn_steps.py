"""A scripted step as it crosses the wire: whole centimetres, seconds with two decimals."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from engine.floor.alignment import Position
from engine.floor.court import half_court, spots
from engine.floor.formations import Formation
from engine.script import PLAYERS, Event, Script
from engine.script.telling import words
from webapp.wire.engine_values import Json, phrase_wire, position_wire


def script_wire(position: Position, script: Script, court_name: str, formation: Formation) -> Json:
    """Return a scripted step in the form of a step: everybody goes as drawn, to his spot on this court.

    ``from``: where everybody and everything on the floor is at its start; ``has``: who has the ball then, or
    ``lies``: where it lies.
    """
    placed = script.placed(spots(half_court(court_name), formation))
    said, end = words(script), script.lasts / 100
    # Who counts as having the ball is worked out before anybody's end is moved: the same on every court.
    after = position_wire(script.position(position))
    if "off" in after:
        ends = placed.ends()
        after["off"] = {who: [*ends[who]] for who in PLAYERS}
        # Whoever joins after this step has not seen where the ball was left.
        if placed.lies is not None:
            after["lies"] = [*placed.lies]
    ball = {"has": placed.ball} if isinstance(placed.ball, int) else {"lies": [*placed.ball]}
    return ball | {
        "a": [script.text],
        "say": [phrase_wire(phrase) for phrase in said.chain],
        "who": [[number, *phrase_wire(phrase)] for number, phrase in said.who.items()],
        "ball": phrase_wire(said.ball),
        "tl": {"ready": end, "end": end, "runs": [*_runs(placed)], "ball": [*map(_event, placed.events)]},
        "after": after,
        "from": {who: [x, y] for who, x, y in placed.places},
    }


def _runs(placed: Script) -> Iterator[list[Any]]:
    here = {who: (x, y) for who, x, y in placed.places}
    for run in placed.runs:
        path = "L".join(f"{x} {y}" for x, y in (here[run.who], *run.points))
        here[run.who] = run.points[-1]
        who = int(run.who) if run.who in PLAYERS else run.who
        yield [who, run.start / 100, run.lasts / 100, f"M{path}", run.style]


def _event(event: Event) -> list[Any]:
    place = [] if event.place is None else [[*event.place]]
    return [event.kind, event.start / 100, event.end / 100, event.giver, event.taker, *place]
