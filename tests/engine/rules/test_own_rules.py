"""Whatever a coach may write: nothing crashes, and what is looked up is what is worked out afresh."""

from __future__ import annotations

import random
from dataclasses import replace
from functools import cache
from typing import Any

import pytest

from engine.floor.alignment import Alignment
from engine.floor.formations import FORMATIONS, LANE, RING_NAMES, Formation
from engine.game.closure import valid
from engine.game.compiled import Game
from engine.game.moves import outcomes, resolve
from engine.rules.actions import BALL_ACTIONS, LANE_CHOICES, parse
from engine.rules.rule_sets import RuleSet, read
from engine.rules.vocabulary import MOVEMENTS, TRIGGERS
from tests.depth import deep
from tests.engine.boards import FIVE, board, long, travel
from tests.engine.checker.broken import changed, data

_THREE = FORMATIONS["three_out_two_in"]
_ANGLES = (180.0, 147.0, 110.0, 90.0, 70.0, 33.0, 0.0)
#: The shipped ones, the largest ring there can be, and a small one with many posts.
WORLDS = (
    *FORMATIONS.values(),
    replace(_THREE, name="seven", ring=RING_NAMES, ring_angles=_ANGLES, home=frozenset(RING_NAMES[2:5])),
    replace(_THREE, name="three", ring=RING_NAMES[1:6:2], ring_angles=_ANGLES[1:6:2], posts=3),
)
SAMPLE = 40


def random_rules(chance: random.Random) -> RuleSet:
    """Return a set with everything installed, and responses of up to three movements to most roles."""
    responses: dict[str, dict[str, list[str]]] = {}
    for trigger, roles in TRIGGERS.items():
        responses[trigger] = {}
        for role in roles:
            fitting = sorted(name for name, who in MOVEMENTS.items() if role in who)
            if chance.random() < 0.8:
                wishes = chance.sample(fitting, min(len(fitting), chance.choice((1, 1, 2, 3))))
                responses[trigger][role] = wishes
    changes: dict[str, Any] = {
        "actions": [*BALL_ACTIONS],
        "lane": [*LANE_CHOICES],
        "stages": [],
        "responses": responses,
        "posts": chance.choice((None, 0, 1, 2, 3)),
    }
    return read({**data(), **changes})


@cache
def alignments(formation: Formation) -> list[Alignment]:
    return list(valid(formation, read(data())))


@pytest.mark.parametrize("seed", range(deep(15, 400)))
def test_any_rules_give_five_players_on_five_spots_or_a_fault(seed: int) -> None:
    chance = random.Random(seed)
    rules, formation = random_rules(chance), WORLDS[seed % len(WORLDS)]
    for alignment in chance.sample(alignments(formation), SAMPLE):
        steps, faults = outcomes(alignment, formation, rules)
        failed = {action for action, _ in faults}
        assert failed.isdisjoint(step.action for step in steps)
        for step in steps:
            assert len(step.after.occupied) == 5
            assert step.after.ball in step.after.occupied
            assert step.after.cutter in {None, *(spot for spot in LANE if spot in step.after.occupied)}


@pytest.mark.parametrize("seed", range(deep(5, 100)))
def test_what_came_up_before_does_not_change_an_answer(seed: int) -> None:
    """The tables are filled as positions are met: an answer must not depend on which came first."""
    chance = random.Random(seed)
    rules, formation = random_rules(chance), WORLDS[seed % len(WORLDS)]
    for alignment in chance.sample(alignments(formation), 200):
        outcomes(alignment, formation, rules)
    for alignment in chance.sample(alignments(formation), 12):
        afresh = Game(formation, rules).outcomes(alignment)
        assert outcomes(alignment, formation, rules) == afresh


def test_a_passer_on_a_post_who_is_to_fill_has_nowhere_to_go() -> None:
    rules = changed(kick_out={"passer": ["fill", "stay"]})
    step = resolve(board("LC LW RW RC RB*"), parse(long("kick_out:RW")), FIVE, rules)
    assert "RB" not in travel(step)


def test_who_fills_because_he_cannot_do_something_else_closes_up_too() -> None:
    """A giver in the corner has nobody to screen for, and closes up on the spot he has left."""
    rules = changed(**{"pass": {"passer": ["exchange", "fill"], "perimeter": "stay"}})
    step = resolve(board("LC* T RW RC LB"), parse(long("pass:T")), FIVE, rules)
    assert travel(step) == {"LC": "LW"}


def test_who_stays_on_the_spot_others_refill_takes_nobodys_place() -> None:
    """The one beyond him was once sent a spot too far, off the end of the ring."""
    rules = changed(post_entry={"passer": "fill", "perimeter": "fill"})
    _, faults = outcomes(board("LW T RW* RC RB"), FIVE, rules)
    assert [(action.text, fault.kind) for action, fault in faults] == [(long("post_entry:RB"), "same_spot")]
