"""Engine values as the plain objects that cross the wire, version 1.

Lengths are whole centimetres, times seconds with two decimals, players are numbers, spots are names. Nothing
here decides anything: it writes down what the engine worked out.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import lru_cache
from math import hypot
from typing import Any

from engine.floor.alignment import Position
from engine.floor.court import Arc, Court, half_court, spots
from engine.floor.formations import FORMATIONS, LANE, POSTS, Formation
from engine.floor.paths import Path, line, marking_svg
from engine.floor.spacing import ring_distances
from engine.floor.standards import STANDARDS
from engine.game.licences import Licences
from engine.game.play import NOBODY_LIMITED, Offer, advance, follow, menu
from engine.game.rebounding import backs
from engine.game.recover import Recovery
from engine.game.sentences import Phrase, chain_phrase, words
from engine.game.steps import Step
from engine.motion import Timeline, timeline
from engine.motion.speeds import OFF_BALL, THERE_M, duration
from engine.rules.actions import Action
from engine.rules.catalogue import PLACES
from engine.rules.rule_sets import DEFAULT, RuleSet

Json = dict[str, Any]

#: The levels of play a board can be set to: the share of professional speed (common practice, no source).
LEVELS: tuple[float, ...] = (0.75, 0.8, 0.85, 0.9, 0.95, 1.0)


def choices() -> Json:
    """Return what a board can be set to: formations, courts and levels."""
    return {"formations": list(FORMATIONS), "courts": list(STANDARDS), "levels": list(LEVELS)}


@lru_cache(maxsize=64)
def floor_wire(court_name: str, formation: Formation) -> Json:
    """Return a half court's box, markings (SVG path data), and the formation's spots."""
    court = half_court(court_name)
    (x0, y0), (x1, y1) = court.box
    marks = []
    for marking in court.markings:
        mark: Json = {"kind": marking.kind, "d": marking_svg(marking)}
        if isinstance(marking, Arc) and marking.dashed:
            mark["dashed"] = True
        marks.append(mark)
    return {
        "court": court_name,
        "box": [_cm(x0), _cm(y0), _cm(x1), _cm(y1)],
        "marks": marks,
        "ring": list(formation.ring),
        "lane": list(LANE),
        "spots": spots_wire(court_name, formation),
        "basket": [0, 0],
    }


def spots_wire(court_name: str, formation: Formation) -> Json:
    """Return where a formation's spots lie on a court."""
    places = spots(half_court(court_name), formation)
    return {spot: [_cm(places[spot].x), _cm(places[spot].y)] for spot in (*formation.ring, *POSTS, *LANE)}


def distances_wire(court_name: str, formation: Formation) -> list[Json]:
    """Return how far apart neighbours on the ring stand, left corner to right corner."""
    return [
        {
            "first": pair.first,
            "second": pair.second,
            "metres": round(pair.metres, 2),
            "feet": round(pair.feet, 1),
            "mark": pair.mark,
        }
        for pair in ring_distances(half_court(court_name), formation)
    ]


def position_wire(position: Position) -> Json:
    """Return who stands where, who has the ball, and the waiting cutter's number or ``None``.

    ``freed``, where there is one: the spot of the mate whose defender has just been screened. ``off``, where
    a scripted step has left everybody off spots: where each is.
    """
    player, alignment = dict(position.lineup), position.alignment
    more: Json = {} if alignment.freed is None else {"freed": alignment.freed}
    if position.off:
        more["off"] = {str(number): [x, y] for number, x, y in position.off}
    return more | {
        "at": {str(number): spot for number, spot in position.where().items()},
        "ball": player[alignment.ball],
        "cutter": None if alignment.cutter is None else player[alignment.cutter],
        "over": alignment.over,
    }


def step_wire(
    position: Position,
    actions: Sequence[str | Action],
    formation: Formation,
    court_name: str,
    level: float,
    rules: RuleSet = DEFAULT,
) -> Json:
    """Return the step that ``actions`` (one, or a composite's two) cause from ``position``.

    Raises ``engine.game.play.BadSequence`` if one of them cannot be read or is not legal.
    """
    _, steps = advance(position, actions, formation, rules)
    made = _step(position, steps, formation, half_court(court_name), level, Path.svg)
    # As they are stored, which is how a line of play is known again; once that named another lane spot.
    return {**made, "a": [str(action) for action in actions]}


def recovery_wire(position: Position, recovery: Recovery, court_name: str, formation: Formation) -> Json:
    """Return a recovery in the form of a step: everybody runs straight back to his spot."""
    places = spots(half_court(court_name), formation)
    after = recovery.position(position.player(position.alignment.ball))
    runs: list[list[Any]] = []
    for number, x, y in recovery.where:
        path = line((x / 100, y / 100), places[after.where()[number]])
        if path.length > THERE_M:
            runs.append([number, 0.0, _seconds(duration(OFF_BALL, path.length)), path.svg(), "cut"])
    end = max((run[2] for run in runs), default=0.0)
    return {
        "a": [recovery.text],
        "say": [["recover", {}]],
        "who": [[n, *phrase] for n, phrase in recovered(recovery, after, places).items()],
        "ball": ["hold", {"p": position.player(position.alignment.ball)}],
        "tl": {"ready": end, "end": end, "runs": runs, "ball": []},
        "after": position_wire(after),
    }


def recovered(
    recovery: Recovery, after: Position, places: Mapping[str, tuple[float, float]]
) -> dict[int, Phrase]:
    """Return what each player does in a recovery; who is there already stays. ``places``: spots in metres."""
    told: dict[int, Phrase] = {}
    for number, x, y in recovery.where:
        spot = after.where()[number]
        is_there = hypot(places[spot][0] - x / 100, places[spot][1] - y / 100) <= THERE_M
        told[number] = "stay" if is_there else "recover", {"p": number, "s": spot}
    return dict(sorted(told.items()))


def offers_wire(
    position: Position,
    formation: Formation,
    court_name: str,
    level: float,
    rules: RuleSet = DEFAULT,
    licences: Licences = NOBODY_LIMITED,
) -> Json:
    """Return all that may be tapped in ``position``, each already worked out, and the routes they share.

    ``withheld``: what is legal but not offered, and the player who has no green light for it.
    """
    court = half_court(court_name)
    routes: dict[str, int] = {}
    found = menu(position, formation, rules, licences)

    def index(path: Path) -> int:
        return routes.setdefault(path.svg(), len(routes))

    made = []
    for offer in found.offers:
        wire = _step(position, offer.steps, formation, court, level, index)
        made.append(wire | _tap(position, offer, found.default))
    withheld = [{"act": held.action.kind, "a": held.action.text, "p": held.number} for held in found.withheld]
    return {"routes": list(routes), "offers": made, "withheld": withheld}


def _tap(position: Position, offer: Offer, default: Action | None) -> Json:
    """Return what a screen needs to place a target: whose action it is, at whom, where, which way."""
    for step in offer.steps[:-1]:
        position = follow(position, step)
    action, player = offer.actions[-1], dict(position.lineup)
    _, phrase = chain_phrase(position, offer.steps[-1])
    wire: Json = {
        "act": action.kind,
        "by": phrase["p"],
        "to": phrase.get("m"),
        "spot": action.spot,
        "d": action.direction,
        "turn": action.about.turn,
        "place": PLACES[action.kind],
        "mark": list(action.about.mark),
    }
    if action.about.chooser == "mate" and action.spot is not None:
        wire |= {"by": player[action.spot], "to": None}
    if action == default and not offer.is_composite:
        wire["default"] = True
    return wire


def _step(
    position: Position,
    steps: Sequence[Step],
    formation: Formation,
    court: Court,
    level: float,
    route: Callable[[Path], object],
) -> Json:
    last, spots_now = steps[-1], position
    for step in steps:
        spots_now = follow(spots_now, step)
    back = backs(last.before, court, formation) if last.action.kind == "shot" else ()
    said = words(position, steps, back)
    return {
        "a": [step.action.text for step in steps],
        "say": [phrase_wire(phrase) for phrase in said.chain],
        "who": [[number, *phrase_wire(phrase)] for number, phrase in said.who.items()],
        "ball": phrase_wire(said.ball),
        "tl": _timeline(timeline(tuple(steps), court, formation, level), dict(position.lineup), route),
        "after": position_wire(spots_now),
    }


def _timeline(line: Timeline, player: Mapping[str, int], route: Callable[[Path], object]) -> Json:
    return {
        "ready": _seconds(line.ready),
        "end": _seconds(line.end),
        "runs": [
            [player[run.origin], _seconds(run.start), _seconds(run.duration), route(run.path), run.style]
            for run in line.runs
        ],
        "ball": [
            [
                event.kind,
                _seconds(event.start),
                _seconds(event.end),
                player[event.giver],
                0 if event.receiver is None else player[event.receiver],
            ]
            for event in line.ball
        ],
    }


def phrase_wire(phrase: Phrase) -> list[Any]:
    """Return a phrase as it is sent: its key, then what belongs into it."""
    return [phrase[0], dict(phrase[1])]


def _cm(metres: float) -> int:
    return round(metres * 100)


def _seconds(seconds: float) -> float:
    return round(seconds, 2)
