"""One step of a chain as a diagram: where everybody starts, where he goes, and the ball's way."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import cos, hypot, pi, sin
from typing import Final

from engine.motion.profile import travelled
from engine.motion.values import BASKET, BallEvent, Run, Timeline
from webapp.paper import drawn, notation
from webapp.paper.floor import Plan, View, floor, plan
from webapp.paper.fonts import CAPITAL, width
from webapp.paper.marks import XY, Disc, Drawing, Mark, Text
from webapp.paper.sheet import Act, Sheet
from webapp.paper.spread import spread

#: A player's disc and the space round it, centimetres of the floor; larger in large print.
RADIUS: Final = 52.0
LARGE: Final = 1.25
GAP: Final = 7.0

#: What is shorter than this is drawn as standing still, centimetres.
STILL: Final = 15.0

#: The shortest arrow, centimetres: a shorter way is drawn so long, so that it is seen.
SHORTEST: Final = 52.0


@dataclass(frozen=True, slots=True)
class Look:
    """How a diagram is drawn. ``faces``: the number on each disc, by place. ``size``: more in large print."""

    view: View
    faces: Mapping[int, str]
    size: float = 1.0

    @property
    def radius(self) -> float:
        """Radius of a disc, centimetres of the floor."""
        return RADIUS * self.size


@dataclass(frozen=True, slots=True)
class Parts:
    """A diagram in its layers, drawn one over the other."""

    seen: Plan
    floor: list[Mark]
    trails: list[Mark]
    players: list[Mark]


def diagram(sheet: Sheet, act: Act | None, look: Look) -> Drawing:
    """Return the diagram of a step; of the start, where nobody moves, if there is none."""
    made = parts(sheet, act, look)
    ink = sheet.drawn(act)
    marks = (*made.floor, *drawn.under(ink, made.seen, look.size), *made.trails, *made.players)
    return Drawing(made.seen.width, made.seen.height, (*marks, *drawn.over(ink, made.seen, look.size)))


def parts(sheet: Sheet, act: Act | None, look: Look) -> Parts:
    """Return the layers of a step's diagram."""
    seen = plan(sheet.court, sheet.formation, look.view)
    position = sheet.start if act is None else act.before
    stand = {n: seen.at(sheet.spots[spot]) for n, spot in position.where().items()}
    if act is not None and act.back is not None:
        stand = {n: seen.at((x / 100, y / 100)) for n, x, y in act.back.where}
    stand = spread(stand, seen, look.radius + GAP * look.size)
    drawer = _Drawer(seen, look, stand)
    if act is not None and act.back is not None:
        for number, spot in act.after.where().items():
            drawer.move(number, [("cut", [stand[number], seen.at(sheet.spots[spot])])])
    elif act is not None:
        drawer.play(sheet.timeline(act), dict(act.before.lineup))
    ball = None if position.alignment.over else position.player(position.alignment.ball)
    return Parts(seen, floor(seen), drawer.trails, drawer.discs(ball))


class _Drawer:
    """A diagram being drawn: the trails so far, round the discs of where everybody starts."""

    def __init__(self, seen: Plan, look: Look, stand: Mapping[int, XY]) -> None:
        self.seen, self.look, self.stand = seen, look, stand
        self.trails: list[Mark] = []
        self._lines: list[Sequence[XY]] = []
        self._ways_of: list[tuple[int, Sequence[XY]]] = []
        self._off = look.radius + GAP * look.size

    def play(self, line: Timeline, player: Mapping[str, int]) -> None:
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
                self._throw(line, event, player)

    def move(self, number: int, ways: Sequence[tuple[str, Sequence[XY]]]) -> None:
        """Draw a player's way in its pieces, each in its style; only the last one ends in a head or a bar."""
        ways = _joined(ways)
        if sum(notation.length(points) for _, points in ways) < STILL:
            return
        gone, size = False, self.look.size
        for i, (style, given) in enumerate(ways):
            last = i == len(ways) - 1
            points = notation.even(given)
            if not gone:
                points = self._leaving(points, self.stand[number])
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
            self.trails += self._styled(style, points, number, last or style == "screen", size)

    def _styled(self, style: str, points: Sequence[XY], number: int, ends: bool, size: float) -> list[Mark]:
        if style == "screen":
            return notation.screen(points, size, number)
        if style == "dribble":
            return notation.wavy(points, size, number, pointed=ends)
        return notation.arrow(points, size, number) if ends else notation.plain(points, size, number)

    def _ways(self, run: Run, exchange: BallEvent | None) -> list[tuple[str, Sequence[XY]]]:
        points = self._within([self.seen.at(point) for point in run.path.samples])
        match run.style:
            case "hand":
                return [("dribble", points)]
            case "carry" if exchange is not None:
                # Without the ball until he takes it, with it from there.
                share = travelled((exchange.start - run.start) / (run.duration or 1.0))
                near = [run.path.point(run.path.length * share * i / 24) for i in range(25)]
                rest = 1.0 - share
                far = [run.path.point(run.path.length * (share + rest * i / 24)) for i in range(25)]
                return [("cut", [self._px(p) for p in near]), ("dribble", [self._px(p) for p in far])]
            case "carry":
                return [("cut", points)]
        return [(run.style, points)]

    def _throw(self, line: Timeline, event: BallEvent, player: Mapping[str, int]) -> None:
        size, giver = self.look.size, player[event.giver]
        begin = self._px(line.position(event.giver, event.start))
        end = self._px(BASKET if event.receiver is None else line.position(event.receiver, event.end))
        points = notation.even([self._met(begin), self._met(end)])
        if self._is_under(points, giver):
            points = notation.even(_bowed(points[0], points[-1], 42 * size))
        clear = [p for p in points if not self._on_disc(p)] if self._is_clear(points) else points
        points = clear or points
        if not self._on_disc(begin):
            points = _cut_head(points, 18 * size)
        if not self._on_disc(end):
            # He runs to meet it: the head of his own arrow stands there.
            points = _cut_head(points[::-1], (34 if event.receiver is None else 40) * size)[::-1]
        if len(points) < 2 or notation.length(points) < 12:
            points = notation.even([begin, end])
        self._lines.append(points)
        self.trails += notation.arrow(points, size, giver, "pass" if event.receiver else "shot")

    def _is_under(self, points: Sequence[XY], giver: int) -> bool:
        """Whether a throw would lie along its giver's own way."""
        dx, dy = notation.heading([points[0], points[-1]])
        for of, line in self._ways_of:
            ahead = [(x - points[0][0], y - points[0][1]) for x, y in line]
            near = [dx * x + dy * y > 0 and abs(dx * y - dy * x) < 30 for x, y in ahead]
            if of == giver and sum(near) > 12:
                return True
        return False

    def _is_clear(self, points: Sequence[XY]) -> bool:
        return any(not self._on_disc(point) for point in points)

    def _hand(self, line: Timeline, event: BallEvent, player: Mapping[str, int]) -> None:
        """Draw two bars across the short line from the giver's hands to the taker's."""
        assert event.receiver is not None
        a, b = (self._px(line.position(who, event.start)) for who in (event.giver, event.receiver))
        middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
        along = notation.heading([a, b]) if a != b else (1.0, 0.0)
        found = [disc for disc in (self._met(a), self._met(b)) if disc in self.stand.values()]
        if found and hypot(middle[0] - found[0][0], middle[1] - found[0][1]) < self._off + 20:
            # Handed over where somebody stands: just outside his disc.
            off = self._off + 24 * self.look.size
            way = along if found[0] == self._met(a) else (-along[0], -along[1])
            middle = (found[0][0] + way[0] * off, found[0][1] + way[1] * off)
        middle = self.seen.inside(middle, 45 * self.look.size)
        self._lines.append([middle])
        self.trails += notation.hand_off(middle, along, self.look.size, player[event.receiver])

    def discs(self, ball: int | None) -> list[Mark]:
        """Return the players where they start, and the ball beside the one who has it."""
        radius, size = self.look.radius, self.look.size
        marks: list[Mark] = []
        for number, (x, y) in sorted(self.stand.items()):
            face = self.look.faces[number]
            marks.append(Disc(x, y, radius, (11.0 if number == ball else 6.0) * size, "disc", number))
            tall = min(1.3 * radius, 1.5 * radius / max(width(face, 1.0, bold=True), 0.01))
            marks.append(Text(x, y + CAPITAL * tall / 2, tall, face, "number", number, "middle", bold=True))
        if ball is not None:
            x, y = self._beside(ball)
            marks.append(Disc(x, y, 0.36 * radius, 5.0 * size, "ball", ball, shade=1.0, fill=0.0))
        return marks

    def _beside(self, number: int) -> XY:
        """Return where the ball is drawn: beside its holder, where there is most room."""
        radius = self.look.radius
        x, y = self.stand[number]
        others = [place for other, place in self.stand.items() if other != number]
        ways = [point for line in self._lines for point in line]

        def room(place: XY) -> tuple[float, float]:
            if self.seen.inside(place, 0.45 * radius) != place:
                return -2 * radius, 0.0
            crowd = min((hypot(place[0] - a, place[1] - b) for a, b in others), default=2 * radius)
            lines = min((hypot(place[0] - a, place[1] - b) for a, b in ways), default=radius)
            return min(crowd, 1.5 * radius), min(lines, 0.8 * radius)

        turns = [pi * k / 8 for k in range(2, 18)]
        return max(((x + 1.4 * radius * cos(turn), y + 1.4 * radius * sin(turn)) for turn in turns), key=room)

    def _px(self, point: XY) -> XY:
        return self.seen.inside(self.seen.at(point), 20 * self.look.size)

    def _within(self, points: Sequence[XY]) -> list[XY]:
        """Return a way as far as the picture goes, if it ends outside."""
        edge = 22 * self.look.size
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
        return any(hypot(place[0] - x, place[1] - y) < self._off for x, y in self.stand.values())

    def _leaving(self, points: list[XY], disc: XY) -> list[XY]:
        """Return the way from the edge of the runner's own disc on."""
        for i, (x, y) in enumerate(points):
            if hypot(x - disc[0], y - disc[1]) >= self._off:
                return points[i:]
        return []

    def _arriving(self, points: list[XY]) -> list[XY]:
        """Return the way as far as the edge of the disc that stands where it ends, if one does."""
        if not points:
            return points
        (x, y) = points[-1]
        for cx, cy in self.stand.values():
            if hypot(x - cx, y - cy) < self._off:
                for i in range(len(points) - 1, -1, -1):
                    if hypot(points[i][0] - cx, points[i][1] - cy) >= self._off:
                        return points[: i + 1]
                return []
        return points

    def _shortest(self, number: int, given: Sequence[XY]) -> list[XY]:
        """Return an arrow just long enough to be seen, from the edge of his disc the way he goes."""
        x, y = self.stand[number]
        dx, dy = notation.heading([(x, y), given[-1]])
        least, most = self._off, self._off + SHORTEST * self.look.size
        ends = ((x + dx * least, y + dy * least), (x + dx * most, y + dy * most))
        return notation.even([self.seen.inside(end, 22 * self.look.size) for end in ends])


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
