"""One step of a chain as a diagram: where everybody starts, where he goes, and the ball's way."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations
from math import cos, hypot, pi, sin
from typing import Final

from engine.motion.profile import travelled
from engine.motion.values import BASKET, BallEvent, Run, Timeline
from webapp.paper import notation
from webapp.paper.floor import Plan, View, floor, plan
from webapp.paper.fonts import CAPITAL, width
from webapp.paper.marks import XY, Disc, Drawing, Mark, Text
from webapp.paper.sheet import Act, Sheet

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
    return Drawing(made.seen.width, made.seen.height, (*made.floor, *made.trails, *made.players))


def parts(sheet: Sheet, act: Act | None, look: Look) -> Parts:
    """Return the layers of a step's diagram."""
    seen = plan(sheet.court, sheet.formation, look.view)
    position = sheet.start if act is None else act.before
    stand = {n: seen.at(sheet.spots[spot]) for n, spot in position.where().items()}
    if act is not None and act.back is not None:
        stand = {n: seen.at((x / 100, y / 100)) for n, x, y in act.back.where}
    edge = look.radius + 6 * look.size
    stand = spread({n: seen.inside(place, edge) for n, place in stand.items()}, seen, look)
    drawer = _Drawer(seen, look, stand)
    if act is not None and act.back is not None:
        for number, spot in act.after.where().items():
            drawer.move(number, [("cut", [stand[number], seen.at(sheet.spots[spot])])])
    elif act is not None:
        drawer.play(sheet.timeline(act), dict(act.before.lineup))
    ball = None if position.alignment.over else position.player(position.alignment.ball)
    return Parts(seen, floor(seen), drawer.trails, drawer.discs(ball))


def spread(stand: Mapping[int, XY], seen: Plan, look: Look) -> dict[int, XY]:
    """Return the places moved apart, no more than needed, so that no two discs overlap."""
    apart = 2 * look.radius + 2 * GAP * look.size
    edge = look.radius + 6 * look.size
    places = dict(stand)
    for _ in range(200):
        close = [
            (a, b)
            for a, b in combinations(sorted(places), 2)
            if hypot(places[a][0] - places[b][0], places[a][1] - places[b][1]) < apart - 0.01
        ]
        if not close:
            break
        for a, b in close:
            (x0, y0), (x1, y1) = places[a], places[b]
            far = hypot(x1 - x0, y1 - y0)
            # On one spot, there is no direction to move them in: each pair takes one of its own.
            turn = 0.7 * a + 1.9 * b
            dx, dy = ((x1 - x0) / far, (y1 - y0) / far) if far > 0.01 else (cos(turn), sin(turn))
            push = (apart - far) / 2 + 0.05
            places[a] = seen.inside((x0 - dx * push, y0 - dy * push), edge)
            places[b] = seen.inside((x1 + dx * push, y1 + dy * push), edge)
    return places


class _Drawer:
    """A diagram being drawn: the trails so far, round the discs of where everybody starts."""

    def __init__(self, seen: Plan, look: Look, stand: Mapping[int, XY]) -> None:
        self.seen, self.look, self.stand = seen, look, stand
        self.trails: list[Mark] = []
        self._lines: list[Sequence[XY]] = []
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
        ways = [(style, points) for style, points in ways if len(points) > 1 and notation.length(points) > 1]
        if sum(notation.length(points) for _, points in ways) < STILL:
            return
        for i, (style, given) in enumerate(ways):
            first, last = i == 0, i == len(ways) - 1
            points = notation.even(given)
            if first:
                points = self._leaving(points, self.stand[number])
            ends = last or style == "screen"
            if last:
                points = self._arriving(points)
            if last and notation.length(points) < 0.9 * notation.HEAD * self.look.size:
                points = self._shortest(number, given)
            if len(points) < 2:
                continue
            self._lines.append(points)
            self.trails += self._styled(style, points, number, ends)

    def _styled(self, style: str, points: Sequence[XY], number: int, ends: bool) -> list[Mark]:
        size = self.look.size
        if style == "screen":
            return notation.screen(points, size, number)
        if style == "dribble":
            return notation.wavy(points, size, number, pointed=ends)
        return notation.arrow(points, size, number) if ends else notation.plain(points, size, number)

    def _ways(self, run: Run, exchange: BallEvent | None) -> list[tuple[str, Sequence[XY]]]:
        points = [self._px(point) for point in run.path.samples]
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

    def _is_clear(self, points: Sequence[XY]) -> bool:
        return any(not self._on_disc(point) for point in points)

    def _hand(self, line: Timeline, event: BallEvent, player: Mapping[str, int]) -> None:
        assert event.receiver is not None
        at = self._px(line.position(event.giver, event.start))
        runs = [r for who in (event.giver, event.receiver) for r in line.runs_of.get(who, ())]
        run = next((r for r in runs if r.style in ("hand", "carry")), None)
        taker = self._px(line.position(event.receiver, event.start))
        if run is not None and run.origin == event.giver:
            along = notation.heading([self._px(point) for point in run.path.samples], 6)
        else:
            along = notation.heading([taker, at]) if taker != at else (1.0, 0.0)
        if self._on_disc(at):
            # He hands it over where he stands: the bars go to the edge of his disc, toward the taker.
            own = self._met(at)
            dx, dy = notation.heading([own, taker])
            off = self._off + 16 * self.look.size
            at, along = (own[0] + dx * off, own[1] + dy * off), (dx, dy)
        at = self.seen.inside(at, 45 * self.look.size)
        self._lines.append([at])
        self.trails += notation.hand_off(at, along, self.look.size, player[event.receiver])

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
        taken = [point for line in self._lines for point in line]
        taken += [place for other, place in self.stand.items() if other != number]

        def room(place: XY) -> float:
            inside = self.seen.inside(place, 0.45 * radius)
            if inside != place:
                return -1.0
            return min((hypot(place[0] - a, place[1] - b) for a, b in taken), default=radius)

        around = [
            (x + 1.4 * radius * cos(pi * k / 8), y + 1.4 * radius * sin(pi * k / 8)) for k in range(2, 18)
        ]
        return max(around, key=lambda place: min(room(place), 0.8 * radius))

    def _px(self, point: XY) -> XY:
        return self.seen.inside(self.seen.at(point), 20 * self.look.size)

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
        dx, dy = notation.heading([given[0], given[-1]])
        least, most = self._off, self._off + SHORTEST * self.look.size
        return notation.even([(x + dx * least, y + dy * least), (x + dx * most, y + dy * most)])


def _cut_head(points: list[XY], far: float) -> list[XY]:
    """Return the line without its first ``far`` centimetres."""
    return points[min(len(points), round(far / notation.STEP)) :]
