"""Scripted steps as values: who stands where, who runs which way, what the ball does, where it leads."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Final, Literal

from engine.floor.alignment import Alignment, Position
from engine.floor.formations import Formation
from engine.game.recover import Recovery
from engine.game.recover import check as check_spots
from engine.rules.rule_sets import DEFAULT, RuleSet

Spot = tuple[float, float]
Place = tuple[int, int]
Kind = Literal["side", "base", "timeout", "last", "entry", "free"]
Style = Literal["cut", "dribble", "screen"]
Doing = Literal["pass", "hand", "shot", "loose", "gather"]

#: How the text form of a scripted step begins, and how long it may be.
PREFIX: Final = "script:"
TEXT_MAX_CHARS: Final = 4096

KINDS: Final[tuple[Kind, ...]] = ("side", "base", "timeout", "last", "entry", "free")
PLAYERS: Final = ("1", "2", "3", "4", "5")
#: Everybody and everything that can stand on the floor, in the order it is written in.
ACTORS: Final = (*PLAYERS, "x1", "x2", "x3", "x4", "x5", "c", "k1", "k2", "k3", "k4", "k5", "k6")
STYLES: Final[Mapping[str, Style]] = {"c": "cut", "d": "dribble", "s": "screen"}
DOINGS: Final[Mapping[str, Doing]] = {"p": "pass", "h": "hand", "s": "shot", "l": "loose", "g": "gather"}


@dataclass(frozen=True, slots=True)
class DrawnRun:
    """Somebody's way: from where he then is through ``points``, beginning at ``start``."""

    who: str
    style: Style
    start: int
    lasts: int
    points: tuple[Place, ...]

    @property
    def end(self) -> int:
        """When he is there."""
        return self.start + self.lasts

    @property
    def text(self) -> str:
        """Its part of the text form."""
        code = next(code for code, style in STYLES.items() if style == self.style)
        return _joined(self.who, code, self.start, self.lasts, *(v for point in self.points for v in point))


@dataclass(frozen=True, slots=True)
class Event:
    """What the ball does. ``giver`` and ``taker`` are players, 0 nobody; ``place`` is where it is left."""

    kind: Doing
    start: int
    end: int
    giver: int
    taker: int
    place: Place | None

    @property
    def text(self) -> str:
        """Its part of the text form."""
        code = next(code for code, kind in DOINGS.items() if kind == self.kind)
        who = (number for number in (self.giver, self.taker) if number)
        return _joined(code, self.start, self.end, *who, *(self.place or ()))


@dataclass(frozen=True, slots=True)
class Script:
    """A scripted step. ``places``: (who, x, y) in the order of ``ACTORS``; ``ball``: a player, or a place.

    ``on``: (player, spot) for those who end on a spot, in rising order.
    """

    kind: Kind
    places: tuple[tuple[str, int, int], ...]
    ball: int | Place
    runs: tuple[DrawnRun, ...]
    events: tuple[Event, ...]
    on: tuple[tuple[int, str], ...]

    @property
    def text(self) -> str:
        """The text form, as :func:`engine.script.read` reads it."""
        parts = [f"as={self.kind}", "at=" + _joined(*(v for place in self.places for v in place))]
        parts.append("ball=" + (str(self.ball) if isinstance(self.ball, int) else _joined(*self.ball)))
        parts += ["go=" + run.text for run in self.runs]
        parts += ["do=" + event.text for event in self.events]
        if self.on:
            parts.append("on=" + _joined(*(v for pair in self.on for v in pair)))
        return PREFIX + ";".join(parts)

    @property
    def holder(self) -> int:
        """Who has the ball at the end; 0 if it lies on the floor or was shot."""
        if self.events:
            return self.events[-1].taker
        return self.ball if isinstance(self.ball, int) else 0

    @property
    def lies(self) -> Place | None:
        """Where the ball lies on the floor at the end, if it does."""
        if self.events:
            return self.events[-1].place
        return None if isinstance(self.ball, int) else self.ball

    @property
    def over(self) -> bool:
        """Whether it ends with a shot."""
        return bool(self.events) and self.events[-1].kind == "shot"

    @property
    def on_spots(self) -> bool:
        """Whether play by rule can go on from where it ends."""
        return len(self.on) == len(PLAYERS) and self.holder != 0

    @property
    def lasts(self) -> int:
        """How long it takes."""
        return max((*(run.end for run in self.runs), *(event.end for event in self.events)), default=0)

    def ends(self) -> dict[str, Place]:
        """Return where everybody and everything is at the end."""
        found = {who: (x, y) for who, x, y in self.places}
        # In the order of their starts, and nobody's overlap.
        return found | {run.who: run.points[-1] for run in self.runs}

    def placed(self, spots: Mapping[str, Spot]) -> Script:
        """Return it with whoever ends on a spot ending exactly there. ``spots``: by name, in metres."""
        goals = {str(number): _cm(spots[spot]) for number, spot in self.on}
        last = {run.who: index for index, run in enumerate(self.runs)}
        runs = tuple(
            replace(run, points=(*run.points[:-1], goals[run.who]))
            if run.who in goals and last[run.who] == index
            else run
            for index, run in enumerate(self.runs)
        )
        places = tuple(
            (who, *goals[who]) if who in goals and who not in last else (who, x, y)
            for who, x, y in self.places
        )
        return replace(self, places=places, runs=runs)

    def position(self, before: Position) -> Position:
        """Return where it leads: everybody on spots, or ``before`` with everybody off them.

        Off spots the ball counts as at the spot of whoever has it (after a shot, who shot; if it lies on the
        floor, who is nearest), so that there is one who has it when everybody gets back.
        """
        if self.on_spots:
            spot_of = dict(self.on)
            lineup = tuple(sorted((spot, number) for number, spot in self.on))
            return Position(Alignment(frozenset(spot_of.values()), spot_of[self.holder]), lineup)
        ends = self.ends()
        off = tuple((int(who), *ends[who]) for who in PLAYERS)
        ball = before.where()[self._last_with_it()]
        alignment = Alignment(before.alignment.occupied, ball, over=self.over)
        return Position(alignment, before.lineup, off)

    def _last_with_it(self) -> int:
        if self.over:
            return self.events[-1].giver
        if self.lies is None:
            return self.holder
        (x, y), ends = self.lies, self.ends()
        return min(map(int, PLAYERS), key=lambda n: _squared(ends[str(n)], (x, y)))


def check(found: Script, formation: Formation, rules: RuleSet = DEFAULT) -> None:
    """Raise ``IllegalAction`` if it ends on spots that ``rules`` do not let everybody stand on together."""
    if found.on_spots:
        lineup = tuple(sorted((spot, number) for number, spot in found.on))
        check_spots(Recovery((), lineup), formation, rules)


def _joined(*values: str | int) -> str:
    return ",".join(map(str, values))


def _cm(spot: Spot) -> Place:
    return round(spot[0] * 100), round(spot[1] * 100)


def _squared(a: Place, b: Place) -> int:
    return (a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2
