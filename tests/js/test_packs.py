"""What a device reads out of a pack is what the server would have sent it, in every position."""

from __future__ import annotations

import json
import random
import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from math import dist
from typing import Any

import pytest

from engine.floor.alignment import Alignment, Position, start
from engine.floor.court import spots
from engine.floor.paths import Path
from engine.game.lane import default_choice
from engine.game.moves import legal
from engine.game.play import advance, menu
from engine.game.recover import is_as_good, recovery
from engine.game.recover import read as read_recovery
from engine.game.steps import Step
from engine.motion.clearance import CLEAR_M, clashes, exempt
from engine.motion.table import changes_for, standing
from engine.motion.timeline import LOOK_S
from engine.motion.values import Run, Timeline
from engine.rules.actions import Action
from tests.depth import deep
from tests.engine.pack.worlds import WORLDS, World, closed, packed, seated, some_terms
from tests.node import run_node
from webapp.wire.engine_values import floor_wire, offers_wire, position_wire, recovery_wire, step_wire

#: So many positions of a formation that ships; a fifth of it of others, whose runs the server has to clear.
POSITIONS = deep(20, 210)
LINES = deep(6, 25)
LINE_STEPS = 7
PLACES = deep(12, 60)
#: Times on the wire are hundredths of a second, so this far off; a pack divides by the level what is rounded
#: already, and adds up two such times for the end.
ROUNDED_S = 0.0051

NAMES = [world.name for world in WORLDS]


@pytest.mark.parametrize("world", WORLDS, ids=NAMES)
def test_a_menu_out_of_a_pack_is_the_servers(world: World) -> None:
    dice = random.Random(world.name)
    count = POSITIONS if world.ships else POSITIONS // 5
    cases = [
        (seated(dice, alignment), some_terms(dice, world.rules, world.formation.ring))
        for alignment in dice.sample(list(closed(world)), count)
    ]
    wires = [{"standing": position_wire(position), "terms": terms.wire} for position, terms in cases]
    found = run_node("menus", {"text": packed(world), "cases": wires})

    assert any(each["turned"] for each in found) == json.loads(packed(world))["mirror"]
    for (position, terms), got in zip(cases, found, strict=True):
        mine = got["menu"]
        there = offers_wire(
            position, world.formation, world.court_name, terms.level, terms.rules, terms.licences
        )
        assert mine["withheld"] == there["withheld"], (position, terms)
        assert list(map(without_times, mine["offers"])) == list(map(without_times, there["offers"])), position
        offers = menu(position, world.formation, terms.rules, terms.licences).offers
        for offer, one, other in zip(offers, mine["offers"], there["offers"], strict=True):
            for run in other["tl"]["runs"]:
                run[3] = there["routes"][run[3]]
            compare(one["tl"], other["tl"], position, offer.steps, world, terms.level, got["turned"])


@pytest.mark.parametrize("world", WORLDS, ids=NAMES)
def test_a_line_walked_in_a_pack_is_what_the_engine_replays(world: World) -> None:
    dice = random.Random(f"{world.name}, lines")
    lines = [a_line(dice, world, dice.choice((1.0, 0.85))) for _ in range(LINES)]
    head = {
        "start": position_wire(start(world.formation)),
        "floor": floor_wire(world.court_name, world.formation),
    }
    cases = [{"line": [step["a"] for step in line.wires], "level": line.level} for line in lines]
    found = run_node("walks", {"text": packed(world), "head": head, "cases": cases})

    for line, walked in zip(lines, found, strict=True):
        assert list(map(without_times, walked)) == list(map(without_times, line.wires))
        for one, other, position, steps in zip(walked, line.wires, line.positions, line.steps, strict=True):
            if steps:
                compare(one["tl"], other["tl"], position, steps, world, line.level, True)
            else:
                same_ways(one["tl"], other["tl"])
                assert abs(one["tl"]["end"] - other["tl"]["end"]) <= 2 * ROUNDED_S


def test_a_stored_screen_of_before_walks_as_the_engine_replays_it() -> None:
    """Every drive once ended in the paint, so that is where stored texts have the cutter who screens."""
    world = WORLDS[0]
    line = [
        ["pass:right_wing"],
        ["fill:left_corner", "drive:right"],
        ["kick_out:right_wing"],
        ["ball_screen:paint:left"],
    ]
    position, wires = start(world.formation), []
    for actions in line:
        wires.append(step_wire(position, actions, world.formation, world.court_name, 1.0))
        position, _ = advance(position, actions, world.formation)
    head = {
        "start": position_wire(start(world.formation)),
        "floor": floor_wire(world.court_name, world.formation),
    }
    (walked,) = run_node(
        "walks", {"text": packed(world), "head": head, "cases": [{"line": line, "level": 1.0}]}
    )
    assert list(map(without_times, walked)) == list(map(without_times, wires))
    assert walked[-1]["a"] == line[-1]


@pytest.mark.parametrize("world", WORLDS, ids=NAMES)
def test_a_recovery_out_of_a_pack_is_as_good_as_the_engines(world: World) -> None:
    dice = random.Random(f"{world.name}, recoveries")
    court, floor = world.court, floor_wire(world.court_name, world.formation)
    position = start(world.formation)
    ball = position.player(position.alignment.ball)
    cases = [{"where": places(dice, floor["box"]), "ball": ball} for _ in range(PLACES)]
    found = run_node("recoveries", {"text": packed(world), "places": floor["spots"], "cases": cases})

    exact = spots(court, world.formation)
    for case, got in zip(cases, found, strict=True):
        where = {int(n): (x / 100, y / 100) for n, (x, y) in case["where"].items()}
        best = recovery(where, ball, court, world.formation, world.rules)
        mine = read_recovery(got["text"], world.formation)
        # A screen knows the spots to the centimetre: five players, each off by half of one across and along.
        assert is_as_good(mine, best, court, world.formation, world.rules, 2 * 5 * 0.0071), (mine, best)
        running = sum(dist(where[n], tuple(c / 100 for c in floor["spots"][s])) for s, n in mine.lineup)
        assert abs(got["total"] / 100 - running) < 0.001
        assert running <= sum(dist(where[n], exact[s]) for s, n in best.lineup) + 5 * 0.0071
        there = recovery_wire(position, mine, world.court_name, world.formation)
        assert without_times(got["step"]) == without_times(there)
        same_ways(got["step"]["tl"], there["tl"])
        for one, other in zip(in_order(got["step"]["tl"]), in_order(there["tl"]), strict=True):
            assert abs(one[1] - other[1]) <= 2 * ROUNDED_S
            assert abs(one[2] - other[2]) <= 2 * ROUNDED_S


@dataclass
class Line:
    """A line of play as the engine has it; ``steps`` is empty for a recovery."""

    level: float
    positions: list[Position] = field(default_factory=list)
    steps: list[tuple[Step, ...]] = field(default_factory=list)
    wires: list[Any] = field(default_factory=list)


def a_line(dice: random.Random, world: World, level: float) -> Line:
    """Play at random: single actions, a lane choice of any kind with any ball action over it, recoveries."""
    line, position = Line(level), start(world.formation)
    court = world.court_name
    for _ in range(LINE_STEPS):
        line.positions.append(position)
        if dice.random() < 0.15:
            box = floor_wire(court, world.formation)["box"]
            where = {int(n): (x / 100, y / 100) for n, (x, y) in places(dice, box).items()}
            ball = position.player(position.alignment.ball)
            back = recovery(where, ball, world.court, world.formation, world.rules)
            line.steps.append(())
            line.wires.append(recovery_wire(position, back, court, world.formation))
            position = back.position(ball)
            continue
        actions = [some_action(dice, world, position.alignment)]
        if actions[0].is_lane_choice and dice.random() < 0.6:
            after, _ = advance(position, actions, world.formation, world.rules)
            then = some_action(dice, world, after.alignment)
            actions += [] if then.is_lane_choice else [then]
        line.wires.append(step_wire(position, actions, world.formation, court, level, world.rules))
        position, steps = advance(position, actions, world.formation, world.rules)
        line.steps.append(steps)
    return line


def some_action(dice: random.Random, world: World, alignment: Alignment) -> Action:
    found = legal(alignment, world.formation, world.rules)
    return dice.choice([action for action in found if action.kind != "shot"])


def places(dice: random.Random, box: Sequence[int]) -> dict[str, list[int]]:
    """Return five places on the court at random, whole centimetres, by player."""
    x0, y0, x1, y1 = box
    return {str(number): [dice.randint(x0, x1), dice.randint(y0, y1)] for number in range(1, 6)}


def without_times(step: dict[str, Any]) -> dict[str, Any]:
    return {key: value for key, value in step.items() if key != "tl"}


def in_order(tl: dict[str, Any]) -> list[list[Any]]:
    return sorted(tl["runs"], key=lambda run: (run[0], run[1]))


def compare(
    mine: dict[str, Any],
    theirs: dict[str, Any],
    position: Position,
    steps: Sequence[Step],
    world: World,
    level: float,
    turned: bool,
) -> None:
    """Hold a timeline out of a pack to being the server's, or where it need not be, to being as good.

    It may be another where the pack has it the other way round (what keeps team-mates apart is found for
    either side), where neither has been worked out beforehand, and for a cutter's choice of his own.
    """
    words = [step.action.text for step in steps]
    if near(mine, theirs, level):
        return
    own = len(steps) == 2 and not is_usual(position, steps, world)
    known = changes_for(steps, world.formation.name, world.court_name) is not None
    assert turned or own or not world.ships or not known, f"{words}\n{mine}\n{theirs}"
    same_ways(mine, theirs)
    if not own:
        crowded = in_the_way(mine, position, steps, world, level)
        assert not crowded or in_the_way(theirs, position, steps, world, level), (words, crowded)


def is_usual(position: Position, steps: Sequence[Step], world: World) -> bool:
    """Whether the pack has worked out the two together: the rules' own choice, and what it makes legal."""
    first, second = (step.action for step in steps)
    now = legal(position.alignment, world.formation, world.rules)
    return second not in now and first == default_choice(position.alignment, world.formation, world.rules)


def near(mine: dict[str, Any], theirs: dict[str, Any], level: float) -> bool:
    """Whether two timelines are the same but for what rounding takes."""
    slack = ROUNDED_S + ROUNDED_S / level
    if abs(mine["ready"] - theirs["ready"]) > slack or abs(mine["end"] - theirs["end"]) > 2 * slack:
        return False
    runs = zip(in_order(mine), in_order(theirs), strict=True)
    events = zip(mine["ball"], theirs["ball"], strict=True)
    for (who, begin, lasts, *rest), (other, starts, length, *more) in runs:
        if [who, *rest] != [other, *more] or abs(begin - starts) > slack or abs(lasts - length) > slack:
            return False
    for (kind, begin, end, *rest), (other, starts, stops, *more) in events:
        if [kind, *rest] != [other, *more] or abs(begin - starts) > slack or abs(end - stops) > 2 * slack:
            return False
    return True


def same_ways(mine: dict[str, Any], theirs: dict[str, Any]) -> None:
    """Assert that the same players run from and to the same places, and the ball goes the same way."""
    assert ends(mine) == ends(theirs)
    assert [(kind, *who) for kind, _, _, *who in mine["ball"]] == [
        (kind, *who) for kind, _, _, *who in theirs["ball"]
    ]


def ends(tl: dict[str, Any]) -> dict[int, tuple[list[int], list[int]]]:
    """Return where each player who runs begins and ends."""
    found: dict[int, tuple[list[int], list[int]]] = {}
    for player, _, _, path, _ in in_order(tl):
        numbers = [int(text) for text in re.findall(r"-?\d+", path)]
        begin, _ = found.get(player, (numbers[:2], []))
        found[player] = begin, numbers[-2:]
    return found


def in_the_way(
    tl: dict[str, Any], position: Position, steps: Sequence[Step], world: World, level: float
) -> list[Any]:
    """Return who comes too near to whom on a timeline as it is sent."""
    spot = {number: name for name, number in position.lineup}
    runs = []
    for player, begin, lasts, path, style in tl["runs"]:
        numbers = [int(text) for text in re.findall(r"-?\d+", path)]
        runs.append(Run(spot[player], begin, lasts, Path(tuple(pairs(numbers))), style))
    line = Timeline(
        tl["ready"], tl["end"], tuple(runs), (), position.alignment.ball, spots(world.court, world.formation)
    )
    # Looked at as often as where it was made; a hundredth of a second is lost on the way.
    return clashes(line, standing(steps), exempt(steps), CLEAR_M - 0.02, LOOK_S / level)


def pairs(numbers: Sequence[int]) -> list[tuple[int, int]]:
    return list(zip(numbers[::2], numbers[1::2], strict=True))
