"""A film: a whole chain laid on one clock, and where everybody and the ball are at any time of it.

Steps are laid by :mod:`engine.motion.clock`, drawings by :mod:`engine.script.laying`. The browser lays the
same film by the same rules (``static/js/steps``) and is held to what this one says.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Final, Literal, NamedTuple, TypeVar

from engine.floor.markings import Point
from engine.floor.paths import Path
from engine.motion.profile import elapsed, travelled
from engine.motion.values import BASKET

#: A player's number, or the name of somebody who is only in a drawing.
Who = int | str
Kind = Literal["pass", "hand", "shot", "loose", "gather", "stray"]

#: What is thrown flies from where it was let go to where it is caught, whoever goes on meanwhile.
THROWN: Final = frozenset(("pass", "shot", "loose"))

#: A path that begins where its runner stands is not bent.
STRAIGHT: Final = Point(0.0, 0.0)


class Leg(NamedTuple):
    """Somebody's run on the clock of a film; seconds and metres.

    ``bend``: from the path's first point to where he really starts: the path is bent to begin there.
    ``cue``: the number of the step it belongs to. ``aside``: from the path's last point to where he ends, of
    a defender who goes along with his man.
    """

    start: float
    duration: float
    path: Path
    style: str
    bend: Point
    cue: int
    aside: Point = STRAIGHT

    @property
    def end(self) -> float:
        """When he arrives."""
        return self.start + self.duration

    def at(self, t: float) -> Point:
        """Return where he is at ``t``; before the run at its beginning, after it at its end."""
        way = travelled((t - self.start) / self.duration) if self.duration > 0.0 else 1.0
        x, y = self.path.point(self.path.length * way)
        left, aside = 1.0 - way, self.aside
        return Point(x + self.bend.x * left + aside.x * way, y + self.bend.y * left + aside.y * way)

    def time_left_with(self, metres: float) -> float:
        """Return when he has only ``metres`` left to run; the start if the run is no longer than that."""
        if self.path.length <= metres:
            return self.start
        return self.start + self.duration * elapsed(1.0 - metres / self.path.length)


class Toss(NamedTuple):
    """The ball changes hands, or leaves them, or is picked up. ``giver``, ``taker``: players, 0 for nobody.

    ``out``: where it lay on the floor before; ``place``: where it comes to lie. A ``stray`` is brought to
    where a step begins.
    """

    kind: Kind
    start: float
    end: float
    giver: int
    taker: int
    cue: int
    out: Point | None = None
    place: Point | None = None


class Cue(NamedTuple):
    """One step on the clock: when it starts, when its handler is ready, when all of it is over. Seconds."""

    start: float
    ready: float
    end: float


_Timed = TypeVar("_Timed", Leg, Toss)


@dataclass(slots=True)
class Film:
    """``standing``: where each of the five stands at the beginning, and where extras come in.

    ``holder``: who has the ball at the beginning, 0 if it lies where ``lies`` says. ``shown``: when each
    extra comes in and leaves, in order. ``men``: whom each defender keeps to. ``legs``: by player or extra,
    in order; ``tosses`` in order. ``breath``: at taught pace, how long all stand on their spots before the
    next action, in seconds; None at game pace, where it begins when the handler is ready.
    """

    standing: dict[Who, Point]
    holder: int
    lies: Point | None = None
    breath: float | None = None
    shown: dict[str, list[tuple[float, float]]] = field(default_factory=dict)
    men: dict[str, int] = field(default_factory=dict)
    cues: list[Cue] = field(default_factory=list)
    legs: dict[Who, list[Leg]] = field(default_factory=dict)
    tosses: list[Toss] = field(default_factory=list)

    @property
    def end(self) -> float:
        """When everybody has arrived; 0 if nothing happens."""
        return max((cue.end for cue in self.cues), default=0.0)

    @property
    def settled(self) -> float:
        """When all have arrived and stood for a breath: there a step begins that waits for everybody."""
        return self.end + (self.breath or 0.0) if self.cues else 0.0

    @property
    def players(self) -> list[int]:
        """The numbers of the five."""
        return sorted(who for who in self.standing if isinstance(who, int))

    def position(self, who: Who, t: float) -> Point:
        """Return where somebody is at ``t`` seconds; raise ``KeyError`` for nobody who is in it."""
        leg = _begun(self.legs.get(who, ()), t)
        return self.standing[who] if leg is None else leg.at(t)

    def holder_at(self, t: float) -> int:
        """Return who holds the ball at ``t``; 0 while it is in the air or on the floor, and after a shot.

        From hand to hand it counts as with who takes it.
        """
        toss = _begun(self.tosses, t)
        if toss is None:
            return self.holder
        return toss.taker if t >= toss.end or toss.kind == "hand" else 0

    def ball_position(self, t: float) -> Point:
        """Return where the ball is at ``t``: with its holder, on its way, on the floor or in the basket."""
        toss = _begun(self.tosses, t)
        if toss is None:
            return self.position(self.holder, t) if self.holder else self.lies or BASKET
        if t >= toss.end:
            return self.position(toss.taker, t) if toss.taker else toss.place or BASKET
        thrown = toss.kind in THROWN
        begin, end = (toss.start, toss.end) if thrown else (t, t)
        x0, y0 = self.position(toss.giver, begin) if toss.giver else toss.out or BASKET
        x1, y1 = self.position(toss.taker, end) if toss.taker else toss.place or BASKET
        part = (t - toss.start) / (toss.end - toss.start)
        return Point(x0 + part * (x1 - x0), y0 + part * (y1 - y0))

    def lying(self, t: float) -> Point | None:
        """Return where the ball lies on the floor at ``t``; None while it does not."""
        toss = _begun(self.tosses, t)
        if toss is None:
            return self.lies
        return toss.place if t >= toss.end else None

    def ball_after(self) -> tuple[int, Point | None]:
        """Return who has the ball once all is done, 0 for nobody, and where it then lies."""
        return (self.tosses[-1].taker, self.tosses[-1].place) if self.tosses else (self.holder, self.lies)


def _begun(items: Sequence[_Timed], t: float) -> _Timed | None:
    """Return the last of ``items`` that has begun at ``t``."""
    found = None
    for item in items:
        if item.start > t:
            break
        found = item
    return found


def standing(places: Mapping[int, Point], holder: int, breath: float | None = None) -> Film:
    """Return a film in which nothing has happened yet; ``breath`` as in ``Film``."""
    film = Film({}, holder, breath=breath)
    film.standing.update(places.items())
    film.legs.update((who, []) for who in places)
    return film
