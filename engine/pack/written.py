"""Rows written down as one object of lists and columns, version 1; ``static/js/pack`` reads it.

``spots``: names, the first ``ring`` of them the ring's, the last ``lane`` the lane's. ``own``: what a cutter
does from the spot he has just reached, and so runs twice for (see ``runs_once``). ``mirror``: a position that
is not in ``rows`` is looked up the other way round. ``actions``: [text form, whose choice, licence, kind] in
the order they are offered; ``kinds``: [place in the list, and its mark: sign, where, which way].
``says``: the templates. ``routes``: path data (centimetres), durations and styles. ``pieces``: what one
player does in a step: spot before, spot after, template, number of runs, their routes. ``outcomes``: for
each action, how many different ones there are, then columns over all of them. ``rows``: an alignment a row;
for each action a column with 0, or the number of its outcome counted from 1. ``after``: the same for the
default choice with a ball action over it. ``recover``: the sets of spots a recovery may lead to.
Times are hundredths of a second at level 1.0.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from typing import Any, Final

from engine.floor.alignment import Alignment
from engine.floor.court import Court
from engine.floor.formations import LANE, POSTS, Formation
from engine.game.closure import recoverable
from engine.game.composites import OWN_PART
from engine.motion import Run, Timeline
from engine.pack import mirror
from engine.pack.columns import NOTHING, Arrivals, Numbers, character, hundredths, in_order, text
from engine.pack.make import Outcome, Row
from engine.pack.record import acts, needs
from engine.rules.actions import Action
from engine.rules.catalogue import CATALOGUE, PLACES
from engine.rules.rule_sets import RuleSet

VERSION: Final = 1
STYLES: Final = ("cut", "dribble", "screen", "hand", "carry")
BALLS: Final = ("pass", "hand", "shot")

#: Path data, duration and style of a run.
Route = tuple[str, int, str]
#: Spot before, spot after, template, routes.
Piece = tuple[str, str, str, tuple[Route, ...]]
#: The routes of one player's runs, and when they start.
Runs = tuple[tuple[Route, ...], tuple[int, ...]]
_NO_RUNS: Final[Runs] = ((), ())
#: A run, whoever's: its path's identity, start, duration and style.
_Key = tuple[int, float, float, str]
#: Pieces, each by its place in the order they first come along.
Pieces = tuple[int, ...]
#: When the runs of the pieces start, when the next action may begin, the ball's events.
Clock = tuple[tuple[int, ...], int, tuple[tuple[str, int, int, str, str], ...]]
#: One outcome, all of it, so that equal ones are written once.
Whole = tuple[Pieces, Clock, tuple[str, str | None, str | None, str, str]]


def written(
    rows: Sequence[Row],
    orders: Iterable[Sequence[Action]],
    formation: Formation,
    rules: RuleSet,
    court: Court,
) -> dict[str, Any]:
    """Return the pack of ``rows``, ready for JSON.

    ``orders``: the actions of every alignment, those left out of ``rows`` included, each in its order.
    """
    return _Writer(formation, rules, court).write(rows, orders)


class _Writer:
    def __init__(self, formation: Formation, rules: RuleSet, court: Court) -> None:
        self._spots = [*formation.ring, *POSTS, *LANE]
        self._spot = {name: number for number, name in enumerate(self._spots)}
        self._formation, self._rules = formation, rules
        self._symmetric = mirror.is_symmetric(court, formation)
        self._paths: dict[int, str] = {}
        self._pieces: Arrivals[Piece] = Arrivals()
        self._told: dict[_Key, Runs] = {}

    def write(self, rows: Sequence[Row], orders: Iterable[Sequence[Action]]) -> dict[str, Any]:
        actions = in_order(orders)
        kinds = sorted({action.kind for action in actions}, key=PLACES.__getitem__)
        outcomes: dict[Action, Arrivals[Whole]] = {action: Arrivals() for action in actions}
        after: dict[Action, Arrivals[Whole]] = {action: Arrivals() for action in actions}
        # Many columns as long as there are rows, mostly of nothing: they are put down in characters at once.
        chosen: dict[Action, list[str]] = {action: [NOTHING] * len(rows) for action in actions}
        numbers: dict[int, tuple[list[str], str]] = {}
        overs: dict[tuple[Action, int], int] = {}
        overlaps: list[int] = []
        for at, row in enumerate(rows):
            for outcome in row.outcomes:
                # Rows keep their outcomes and lines, so that each one's identity stays its own.
                known = numbers.get(id(outcome))
                if known is None:
                    action = outcome.record.action
                    number = 1 + outcomes[action][self._whole(outcome)]
                    known = numbers[id(outcome)] = chosen[action], character(number)
                column, mark = known
                column[at] = mark
            for action, line in row.after:
                if (action, id(line)) not in overs:
                    overs[action, id(line)] = after[action][self._overlapping(line)]
                overlaps.append(overs[action, id(line)])
        wholes = [whole for action in actions for whole in outcomes[action].things]
        overlapping = [whole for action in actions for whole in after[action].things]
        everything = [*wholes, *overlapping]
        arrived = self._pieces.things
        counted = Counter(piece for whole in everything for piece in whole[0])
        pieces = Numbers({arrived[piece]: count for piece, count in counted.items()})
        place = [pieces[piece] for piece in arrived]
        routes = Numbers(route for piece in pieces.things for route in piece[3])
        says = Numbers(
            (
                *(piece[2] for piece in pieces.things),
                *(template for whole in wholes for template in whole[2][3:]),
            )
        )
        return {
            "v": VERSION,
            "spots": self._spots,
            "ring": len(self._formation.ring),
            "lane": len(LANE),
            "own": sorted(OWN_PART),
            "mirror": self._symmetric,
            "actions": [
                [action.text, acts(action), needs(action), kinds.index(action.kind)] for action in actions
            ],
            "kinds": [[PLACES[kind], *CATALOGUE[kind].mark] for kind in kinds],
            "says": says.things,
            "routes": [
                [path for path, _, _ in routes.things],
                text(lasts for _, lasts, _ in routes.things),
                text(STYLES.index(style) for _, _, style in routes.things),
            ],
            "pieces": {
                "from": text(self._spot[origin] for origin, _, _, _ in pieces.things),
                "to": text(self._spot[target] for _, target, _, _ in pieces.things),
                "says": text(says[said] for _, _, said, _ in pieces.things),
                "runs": text(len(found) for *_, found in pieces.things),
                "route": text(routes[route] for *_, found in pieces.things for route in found),
            },
            "outcomes": self._ends(wholes, says)
            | self._clocks(wholes, place)
            | {"count": [len(outcomes[action].things) for action in actions]},
            "rows": self._alignments(rows, actions)
            | {"actions": ["".join(column) for column in chosen.values()]},
            "after": self._clocks(overlapping, place)
            | {
                "count": [len(after[action].things) for action in actions],
                "offers": text(len(row.after) for row in rows),
                "chosen": text(overlaps),
            },
            "recover": self._sets(recoverable(self._formation, self._rules)),
        }

    def _whole(self, outcome: Outcome) -> Whole:
        record = outcome.record
        end = record.ball, record.cutter, record.freed, record.say, record.ball_says
        parts = {origin: (target, said) for origin, target, said in record.parts}
        return (*self._moved(outcome.line, parts), end)

    def _overlapping(self, line: Timeline) -> Whole:
        return (*self._moved(line, {}), ("", None, None, "", ""))

    def _moved(self, line: Timeline, parts: dict[str, tuple[str, str]]) -> tuple[Pieces, Clock]:
        runs = self._runs(line)
        pieces: list[int] = []
        starts: list[int] = []
        for origin in sorted(parts.keys() | runs.keys(), key=self._spot.__getitem__):
            target, said = parts.get(origin) or (origin, "")
            routes, begin = runs.get(origin, _NO_RUNS)
            pieces.append(self._pieces[origin, target, said, routes])
            starts += begin
        events = []
        for kind, start, end, giver, receiver in line.ball:
            at = hundredths(start)
            events.append((kind, at, hundredths(end) - at, giver, receiver or ""))
        return tuple(pieces), (tuple(starts), hundredths(line.ready), tuple(events))

    def _runs(self, line: Timeline) -> dict[str, Runs]:
        found: dict[str, Runs] = {}
        for run in line.runs:
            origin, start, duration, path, style = run
            # Lines keep their paths, so that each one's identity stays its own.
            key = id(path), start, duration, style
            told = self._told.get(key) or self._tell(key, run)
            before = found.get(origin)
            found[origin] = told if before is None else (before[0] + told[0], before[1] + told[1])
        return found

    def _tell(self, key: _Key, run: Run) -> Runs:
        svg = self._paths.get(id(run.path))
        if svg is None:
            svg = self._paths[id(run.path)] = run.path.svg()
        route: Route = svg, hundredths(run.duration), run.style
        found = self._told[key] = (route,), (hundredths(run.start),)
        return found

    def _ends(self, wholes: Sequence[Whole], says: Numbers[str]) -> dict[str, Any]:
        ends = [whole[2] for whole in wholes]
        return {
            "ball": text(self._spot[ball] for ball, *_ in ends),
            "cutter": text(self._or_none(cutter) for _, cutter, *_ in ends),
            "freed": text(self._or_none(freed) for _, _, freed, *_ in ends),
            "say": text(says[say] for *_, say, _ in ends),
            "says": text(says[said] for *_, said in ends),
        }

    def _clocks(self, wholes: Sequence[Whole], place: Sequence[int]) -> dict[str, str]:
        """Return the columns of pieces and times; ``place``: the number each piece has in the pack."""
        clocks = [whole[1] for whole in wholes]
        events = [event for _, _, found in clocks for event in found]
        return {
            "pieces": text(len(whole[0]) for whole in wholes),
            "piece": text(place[piece] for whole in wholes for piece in whole[0]),
            "start": text(start for starts, _, _ in clocks for start in starts),
            "ready": text(ready for _, ready, _ in clocks),
            "events": text(len(found) for _, _, found in clocks),
            "kind": text(BALLS.index(kind) for kind, *_ in events),
            "at": text(at for _, at, *_ in events),
            "lasts": text(lasts for _, _, lasts, *_ in events),
            "giver": text(self._spot[giver] for *_, giver, _ in events),
            "taker": text(self._or_none(taker or None) for *_, taker in events),
        }

    def _alignments(self, rows: Sequence[Row], actions: Sequence[Action]) -> dict[str, Any]:
        number = {action: at for at, action in enumerate(actions, start=1)}
        found: list[Alignment] = [row.alignment for row in rows]
        return {
            "spots": self._sets(sorted(one.occupied) for one in found),
            "ball": text(self._spot[one.ball] for one in found),
            "cutter": text(self._or_none(one.cutter) for one in found),
            "freed": text(self._or_none(one.freed) for one in found),
            "default": text(0 if row.default is None else number[row.default] for row in rows),
        }

    def _sets(self, sets: Iterable[Iterable[str]]) -> list[str]:
        """Return two columns: which of the first seven spots are in each set, and which of the others."""
        masks = [sum(1 << self._spot[name] for name in names) for names in sets]
        return [text(mask & 127 for mask in masks), text(mask >> 7 for mask in masks)]

    def _or_none(self, spot: str | None) -> int:
        return 0 if spot is None else 1 + self._spot[spot]
