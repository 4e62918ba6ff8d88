"""Everybody's ways and the ball's, drawn round the discs of where everybody starts."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from math import cos, hypot, pi, sin
from typing import Final

from engine.motion.profile import travelled
from engine.motion.values import BASKET, BallEvent, Run, Timeline
from webapp.paper import notation
from webapp.paper.floor import Plan
from webapp.paper.look import Look
from webapp.paper.marks import XY, Mark, Stroke, Who
from webapp.paper.people import ball, figure, room

#: What is shorter than this is drawn as standing still, centimetres.
STILL: Final = 15.0

#: The shortest arrow, centimetres: a shorter way is drawn so long, so that it is seen.
SHORTEST: Final = 52.0

#: What the end of a way needs beside and beyond it: a head, or a screen's bar.
_POINT: Final = 22.0
_BAR: Final = 44.0

#: The ways of who is not one of the five: thinner and grey, so that the offence stands out in black.
_FAINT: Final = 0.42
_THIN: Final = 0.7

#: Edges of a disc: of who has the ball, and of everybody else.
_HOLDING: Final = 11.0
_OTHER: Final = 6.0


class Drawer:
    """A diagram being drawn: what has been drawn so far, round the discs of where everybody starts."""

    def __init__(self, seen: Plan, look: Look, stand: Mapping[Who, XY]) -> None:
        self.seen, self.look, self.stand = seen, look, stand
        self.ways: list[Mark] = []
        self.throws: list[Mark] = []
        self._lines: list[Sequence[XY]] = []
        self._ways_of: list[tuple[Who, Sequence[XY]]] = []
        self._off = {who: room(who, look) for who in stand}

    def play(self, line: Timeline, player: Mapping[str, Who]) -> None:
        """Draw a step's runs and where the ball goes; ``player``: numbers by spot before it."""
        exchange = next((event for event in line.ball if event.kind == "hand"), None)
        for origin, runs in line.runs_of.items():
            ways: list[tuple[str, Sequence[XY]]] = []
            for run in runs:
                ways += self._ways(run, exchange)
            self.move(player[origin], ways)
        for event in line.ball:
            if event.kind == "hand":
                self._hand(line, event, player)
            else:
                self._pass(line, event, player)

    def move(self, number: Who, ways: Sequence[tuple[str, Sequence[XY]]]) -> None:
        """Draw a player's way in its pieces, each in its style; only the last one ends in a head or a bar."""
        ways = _joined(ways)
        if sum(notation.length(points) for _, points in ways) < STILL:
            return
        gone, size = False, self.look.size
        for i, (style, given) in enumerate(ways):
            last = i == len(ways) - 1
            points = notation.even(given)
            if not gone:
                points = self._leaving(points, number)
                gone = len(points) > 1
            if last:
                points = self._arriving(points)
                far = notation.length(points)
                if far < 0.9 * notation.HEAD * size and len(ways) == 1:
                    points = self._shortest(number, given)
                elif far < notation.HEAD * size:
                    size *= max(0.5, far / (notation.HEAD * size))
            if len(points) < 2:
                continue
            self._lines.append(points)
            self._ways_of.append((number, points))
            marks = self._styled(style, points, number, last or style == "screen", size)
            self.ways += marks if isinstance(number, int) else map(_faint, marks)

    def _styled(self, style: str, points: Sequence[XY], number: Who, ends: bool, size: float) -> list[Mark]:
        if style == "screen":
            return notation.screen(points, size, number)
        if style == "dribble":
            return notation.wavy(points, size, number, pointed=ends)
        return notation.arrow(points, size, number) if ends else notation.plain(points, size, number)

    def _ways(self, run: Run, exchange: BallEvent | None) -> list[tuple[str, Sequence[XY]]]:
        edge = _BAR if run.style == "screen" else _POINT
        points = self._within([self.seen.at(point) for point in run.path.samples], edge * self.look.size)
        match run.style:
            case "hand":
                return [("dribble", points)]
            case "carry" if exchange is not None:
                # Without the ball until he takes it, with it from there.
                share = travelled((exchange.start - run.start) / (run.duration or 1.0))
                near = [run.path.point(run.path.length * share * i / 24) for i in range(25)]
                rest = 1.0 - share
                far = [run.path.point(run.path.length * (share + rest * i / 24)) for i in range(25)]
                return [("cut", [self.px(p) for p in near]), ("dribble", [self.px(p) for p in far])]
            case "carry":
                return [("cut", points)]
        return [(run.style, points)]

    def _pass(self, line: Timeline, event: BallEvent, player: Mapping[str, Who]) -> None:
        giver = player[event.giver]
        begin = self.px(line.position(event.giver, event.start))
        end = self.px(BASKET if event.receiver is None else line.position(event.receiver, event.end))
        self.throw(begin, end, giver, "pass" if event.receiver else "shot")

    def throw(self, begin: XY, end: XY, giver: Who, kind: str) -> None:
        """Draw the ball's way through the air between two places of the diagram."""
        size = self.look.size
        points = notation.even([self._met(begin), self._met(end)])
        if self._is_under(points, giver):
            bowed = _bowed(points[0], points[-1], 42 * size)
            points = notation.even([self.seen.inside(point, 20 * size) for point in bowed])
        clear = [p for p in points if not self._on_disc(p)] if self._is_clear(points) else points
        points = clear or points
        if not self._on_disc(begin):
            points = _cut_head(points, 18 * size)
        if not self._on_disc(end):
            # He runs to meet it: the head of his own arrow stands there.
            points = _cut_head(points[::-1], (34 if kind == "shot" else 40) * size)[::-1]
        if len(points) < 2 or notation.length(points) < 12:
            points = notation.even([begin, end])
        self._lines.append(points)
        self.throws += notation.arrow(points, size, giver, kind)

    def _is_under(self, points: Sequence[XY], giver: Who) -> bool:
        """Whether a throw would lie along its giver's own way."""
        dx, dy = notation.heading([points[0], points[-1]])
        for of, line in self._ways_of:
            if of != giver:
                continue
            ahead = [(x - points[0][0], y - points[0][1]) for x, y in line]
            near = [dx * x + dy * y > 0 and abs(dx * y - dy * x) < 30 for x, y in ahead]
            if sum(near) > 12:
                return True
        return False

    def _is_clear(self, points: Sequence[XY]) -> bool:
        return any(not self._on_disc(point) for point in points)

    def _hand(self, line: Timeline, event: BallEvent, player: Mapping[str, Who]) -> None:
        """Draw two bars across the short line from the giver's hands to the taker's."""
        assert event.receiver is not None
        a, b = (self.px(line.position(who, event.start)) for who in (event.giver, event.receiver))
        middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
        along = notation.heading([a, b]) if a != b else (1.0, 0.0)
        found = [disc for disc in (self._met(a), self._met(b)) if disc in self.stand.values()]
        if found and hypot(middle[0] - found[0][0], middle[1] - found[0][1]) < self.look.room + 20:
            # Handed over where somebody stands: just outside his disc.
            off = self.look.room + 24 * self.look.size
            way = along if found[0] == self._met(a) else (-along[0], -along[1])
            middle = (found[0][0] + way[0] * off, found[0][1] + way[1] * off)
        middle = self.seen.inside(middle, 45 * self.look.size)
        self._lines.append([middle])
        self.throws += notation.hand_off(middle, along, self.look.size, player[event.receiver])

    def others(self) -> list[Mark]:
        """Return who and what is on the floor beside the five players."""
        stand = [(who, place) for who, place in self.stand.items() if not isinstance(who, int)]
        return [mark for who, (x, y) in stand for mark in figure(who, x, y, self.look)]

    def players(self, holder: int) -> list[Mark]:
        """Return the players where they start, and the ball beside ``holder``, if one is given."""
        marks: list[Mark] = []
        for who, (x, y) in self.stand.items():
            if isinstance(who, int):
                marks += figure(who, x, y, self.look, edge=_HOLDING if who == holder else _OTHER)
        if holder:
            marks.append(ball(*self._beside(holder), self.look, holder))
        return marks

    def _beside(self, number: Who) -> XY:
        """Return where the ball is drawn: beside its holder, where there is most room."""
        radius = self.look.radius
        x, y = self.stand[number]
        others = [place for other, place in self.stand.items() if other != number]
        # No place beside him is further off than 1.4 of his radius, and no room more than 0.8 of it counts.
        reach = 2.3 * radius
        ways = [
            (a, b)
            for line in self._lines
            for a, b in line
            if x - reach < a < x + reach and y - reach < b < y + reach
        ]

        def room(place: XY) -> tuple[float, float]:
            if self.seen.inside(place, 0.45 * radius) != place:
                return -2 * radius, 0.0
            crowd = min((hypot(place[0] - a, place[1] - b) for a, b in others), default=2 * radius)
            lines = min((hypot(place[0] - a, place[1] - b) for a, b in ways), default=radius)
            return min(crowd, 1.5 * radius), min(lines, 0.8 * radius)

        turns = [pi * k / 8 for k in range(2, 18)]
        return max(((x + 1.4 * radius * cos(turn), y + 1.4 * radius * sin(turn)) for turn in turns), key=room)

    def px(self, point: XY) -> XY:
        """Return where a place on the floor (metres) is drawn, within the picture."""
        return self.seen.inside(self.seen.at(point), 20 * self.look.size)

    def _within(self, points: Sequence[XY], edge: float) -> list[XY]:
        """Return a way as far as the picture goes, ``edge`` left out, if it ends outside."""
        inside = [self.seen.inside(point, edge) for point in points]
        if inside[-1] == points[-1]:
            return inside
        line = notation.even(points)
        return [point for point in line if self.seen.inside(point, edge) == point] or inside[:1]

    def _met(self, place: XY) -> XY:
        """Return the centre of the disc a place lies on, else the place."""
        found = [disc for disc in self.stand.values() if hypot(place[0] - disc[0], place[1] - disc[1]) < 1]
        return found[0] if found else place

    def _on_disc(self, place: XY) -> bool:
        """Whether a player's disc would lie over a place."""
        stand = [(self._off[who], x, y) for who, (x, y) in self.stand.items() if isinstance(who, int)]
        return any(hypot(place[0] - x, place[1] - y) < off for off, x, y in stand)

    def _leaving(self, points: list[XY], who: Who) -> list[XY]:
        """Return the way from the edge of the runner's own disc on."""
        (cx, cy), off = self.stand[who], self._off[who]
        for i, (x, y) in enumerate(points):
            if hypot(x - cx, y - cy) >= off:
                return points[i:]
        return []

    def _arriving(self, points: list[XY]) -> list[XY]:
        """Return the way as far as the edge of the disc that stands where it ends, if one does."""
        if not points:
            return points
        (x, y) = points[-1]
        for who, (cx, cy) in self.stand.items():
            off = self._off[who]
            if hypot(x - cx, y - cy) < off:
                for i in range(len(points) - 1, -1, -1):
                    if hypot(points[i][0] - cx, points[i][1] - cy) >= off:
                        return points[: i + 1]
                return []
        return points

    def _shortest(self, number: Who, given: Sequence[XY]) -> list[XY]:
        """Return an arrow just long enough to be seen, from the edge of his disc the way he goes."""
        x, y = self.stand[number]
        dx, dy = notation.heading([(x, y), given[-1]])
        off = self._off[number]
        least, most = off, off + SHORTEST * self.look.size
        ends = ((x + dx * least, y + dy * least), (x + dx * most, y + dy * most))
        return notation.even([self.seen.inside(end, 22 * self.look.size) for end in ends])


def _faint(mark: Mark) -> Mark:
    if isinstance(mark, Stroke):
        fill = None if mark.fill is None else _FAINT
        return replace(mark, width=_THIN * mark.width, shade=_FAINT, fill=fill)
    return mark


def _joined(ways: Sequence[tuple[str, Sequence[XY]]]) -> list[tuple[str, Sequence[XY]]]:
    """Return a player's way with pieces of one style made one, and those left out where he only stands."""
    made: list[tuple[str, Sequence[XY]]] = []
    for style, points in ways:
        if len(points) < 2 or notation.length(points) <= 1:
            continue
        if made and made[-1][0] == style != "screen":
            made[-1] = (style, [*made[-1][1], *points[1:]])
        else:
            made.append((style, points))
    return made


def _bowed(a: XY, b: XY, aside: float) -> list[XY]:
    """Return a line from ``a`` to ``b`` whose middle lies ``aside`` to the right of the straight one."""
    (dx, dy), pieces = notation.heading([a, b]), 24
    made = []
    for i in range(pieces + 1):
        part = i / pieces
        off = aside * 4 * part * (1 - part)
        made.append((a[0] + part * (b[0] - a[0]) - dy * off, a[1] + part * (b[1] - a[1]) + dx * off))
    return made


def _cut_head(points: list[XY], far: float) -> list[XY]:
    """Return the line without its first ``far`` centimetres."""
    return points[min(len(points), round(far / notation.STEP)) :]
