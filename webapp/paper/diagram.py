"""One step of a chain as a diagram: where everybody starts, where he goes, and the ball's way."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot
from typing import Final

from engine.motion.values import Timeline
from engine.script import Script
from engine.script.laying import known, metres, seconds
from webapp.paper import drawn
from webapp.paper.drawer import Drawer
from webapp.paper.floor import Plan, floor, plan
from webapp.paper.look import Look
from webapp.paper.marks import Drawing, Mark
from webapp.paper.people import left, room
from webapp.paper.sheet import Act, Sheet
from webapp.paper.spread import spread

#: A ball that is put down so near to where its holder then is has no way of its own, centimetres.
_PUT_DOWN: Final = 110.0


@dataclass(frozen=True, slots=True)
class Parts:
    """A diagram in its layers, drawn one over the other.

    ``ways``: of everybody. ``others``: who is there beside the five. ``throws``: the ball's ways, over all
    but the players, as nobody may miss a pass.
    """

    seen: Plan
    floor: list[Mark]
    ways: list[Mark]
    others: list[Mark]
    throws: list[Mark]
    players: list[Mark]

    @property
    def trails(self) -> list[Mark]:
        """All ways."""
        return [*self.ways, *self.throws]


def diagram(sheet: Sheet, act: Act | None, look: Look) -> Drawing:
    """Return the diagram of a step; of the start, where nobody moves, if there is none."""
    made = parts(sheet, act, look)
    ink = sheet.drawn(act)
    below, above = drawn.under(ink, made.seen, look.size), drawn.over(ink, made.seen, look.size)
    marks = (*made.floor, *below, *made.ways, *made.others, *made.throws, *made.players, *above)
    return Drawing(made.seen.width, made.seen.height, marks)


def parts(sheet: Sheet, act: Act | None, look: Look) -> Parts:
    """Return the layers of a step's diagram."""
    seen = planned(sheet, look)
    places = {who: seen.at(place) for who, place in sheet.standing(act).items()}
    drawer = Drawer(seen, look, spread(places, seen, lambda who: room(who, look)))
    if act is not None:
        _play(drawer, sheet, act)
    players = drawer.players(sheet.holder(act))
    return Parts(seen, floor(seen), drawer.ways, drawer.others(), drawer.throws, players)


def planned(sheet: Sheet, look: Look) -> Plan:
    """Return the plan of all diagrams of a sheet, which are of one size."""
    return plan(sheet.court, sheet.formation, look.view, sheet.extent, look.room)


def _play(drawer: Drawer, sheet: Sheet, act: Act) -> None:
    if act.back is not None:
        for number, spot in act.after.where().items():
            home = drawer.seen.at(sheet.spots[spot])
            drawer.move(number, [("cut", [drawer.stand[number], home])])
        return
    line = sheet.timeline(act)
    if act.script is None:
        drawer.play(line, dict(act.before.lineup))
        return
    drawer.play(line, {who: known(who) for who, _, _ in act.script.places})
    _leave(drawer, line, act.script)


def _leave(drawer: Drawer, line: Timeline, script: Script) -> None:
    """Draw where the ball is left on the floor, and its way there from whoever leaves it."""
    for event in script.events:
        if event.place is None:
            continue
        begin = drawer.px(line.position(str(event.giver), seconds(event.start)))
        end = drawer.seen.inside(drawer.seen.at(metres(*event.place)), 0.5 * drawer.look.radius)
        if hypot(begin[0] - end[0], begin[1] - end[1]) > _PUT_DOWN:
            drawer.throw(begin, end, event.giver, "pass")
        drawer.throws.append(left(*end, drawer.look, event.giver))
