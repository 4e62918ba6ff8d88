"""The figures of a chain, over all of its parts: after a recovery or a scripted step a new one begins."""

from __future__ import annotations

from itertools import pairwise
from math import dist, hypot
from typing import Any

from engine import script
from engine.floor.alignment import Position, start
from engine.floor.court import Court, half_court, spots
from engine.game import recover
from engine.game.play import advance
from engine.game.steps import Step
from engine.motion.clock import film_of
from engine.motion.report import of_film
from engine.motion.speeds import OFF_BALL, duration
from webapp.chains.state import BoardState, Card, Played


def chain_report(standing: BoardState) -> dict[str, Any]:
    """Return seconds, metres and seconds in the lane without the ball by player, and each step's times.

    Times are from the start of the chain. Nobody is counted in the lane while everybody gets back on spots,
    or while a step is played as it was drawn.
    """
    card = standing.card
    court = half_court(card.court)
    tally = _Tally(card, court, start(card.shape))
    for step in standing.steps:
        tally.take(step)
    tally.close()
    return {
        "seconds": round(tally.seconds, 2),
        "players": {
            str(n): {"metres": round(tally.metres[n], 1), "lane_seconds": round(tally.lane[n], 2)}
            for n in sorted(tally.metres)
        },
        "steps": [{name: round(t, 2) for name, t in step.items()} for step in tally.steps],
    }


class _Tally:
    """The figures so far, and the part of the chain that is still to be put on the clock."""

    def __init__(self, card: Card, court: Court, first: Position) -> None:
        self._card, self._court, self._first = card, court, first
        self._part: list[tuple[Step, ...]] = []
        self.seconds = 0.0
        self.metres = {number: 0.0 for _, number in first.lineup}
        self.lane = dict(self.metres)
        self.steps: list[dict[str, float]] = []

    def take(self, step: Played) -> None:
        """Take in the next step of the chain."""
        if step.actions[0].startswith(recover.PREFIX):
            self.close()
            self._get_back(step)
            self._first = step.after
        elif step.actions[0].startswith(script.PREFIX):
            self.close()
            self._as_drawn(step.actions[0])
            self._first = step.after
        else:
            self._part.append(advance(step.before, step.actions, self._card.shape, self._card.rules)[1])

    def close(self) -> None:
        """Put what is left on the clock."""
        if not self._part:
            return
        card = self._card
        film = film_of(self._first, self._part, self._court, card.shape, card.level)
        figures = of_film(film, self._court)
        for number in self.metres:
            self.metres[number] += figures.metres[number]
            self.lane[number] += figures.lane[number].total
        for cue in film.cues:
            self._mark(cue.start, cue.ready, cue.end)
        self.seconds += film.end
        self._part = []

    def _get_back(self, step: Played) -> None:
        places, where = spots(self._court, self._card.shape), step.after.where()
        longest = 0.0
        for number, x, y in recover.read(step.actions[0], self._card.shape).where:
            spot = places[where[number]]
            metres = hypot(x / 100 - spot.x, y / 100 - spot.y)
            self.metres[number] += metres
            longest = max(longest, metres)
        took = duration(OFF_BALL, longest) if longest else 0.0
        self._mark(0.0, took, took)
        self.seconds += took

    def _as_drawn(self, text: str) -> None:
        drawn = script.read(text, self._card.shape).placed(spots(self._court, self._card.shape))
        here = {who: (x, y) for who, x, y in drawn.places}
        for run in drawn.runs:
            ways = pairwise((here[run.who], *run.points))
            here[run.who] = run.points[-1]
            if run.who in script.PLAYERS:
                self.metres[int(run.who)] += sum(dist(a, b) for a, b in ways) / 100
        took = drawn.lasts / 100
        self._mark(0.0, took, took)
        self.seconds += took

    def _mark(self, begin: float, ready: float, end: float) -> None:
        self.steps.append(
            {"start": self.seconds + begin, "ready": self.seconds + ready, "end": self.seconds + end}
        )
