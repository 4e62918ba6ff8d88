"""Each movement of the vocabulary, in a rule set that uses it, worked out by hand from the written rules."""

from __future__ import annotations

from typing import Any

import pytest

from engine.floor.formations import Formation
from engine.game.moves import resolve
from engine.rules.actions import parse
from engine.rules.vocabulary import MOVEMENTS, OPTIONAL, TRIGGERS
from tests.engine.boards import FIVE, FOUR, SHORT, THREE, board, long, travel
from tests.engine.checker.broken import changed, data

# movement, what is changed in the default set, formation, before, action, who goes where
EXAMPLES: list[tuple[str, dict[str, Any], Formation, str, str, dict[str, str]]] = [
    ("stay", {"pass": {"perimeter": "stay"}}, FIVE, "LC LW T* RW RC", "pass:RW", {"T": "rim"}),
    ("hold", {"middle_drive": {"drive_corner": "hold", "perimeter": "stay"}}, FIVE, "LC LW T* RW RC",
     "drive:right", {"T": "paint"}),
    ("cut", {"pass": {"passer": "stay", "next_player": "cut", "perimeter": "stay"}}, FIVE, "LC LW T* RW RC",
     "pass:RW", {"LW": "rim"}),
    ("back_cut", {"denied": {"perimeter": "stay"}}, FIVE, "LC LW T* RW RC", "back_cut:LW", {"LW": "rim"}),
    ("fill", {}, FIVE, "LC LW T* RW RC", "skip:RC", {"T": "rim", "LW": "T", "LC": "LW"}),
    # filling one spot only: 3 takes the top, 5 the wing he leaves, nobody runs two spots
    ("fill_one", {"pass": {"perimeter": "fill_one"}}, FIVE, "LC LW T* RW RC", "pass:RW",
     {"T": "rim", "LW": "T", "LC": "LW"}),
    ("fill_one", {"skip": {"perimeter": "fill_one"}}, FIVE, "LC* RW RC LB RB", "skip:RC", {"LC": "rim"}),
    ("fill_one", {"pass": {"perimeter": "fill_one"}}, FOUR, "LC LS* RW RB HP", "pass:RW",
     {"LS": "rim", "LC": "LW"}),
    # a screen away: passer and next player change places
    ("exchange", {"pass": {"passer": "exchange", "next_player": "exchange", "perimeter": "stay"}}, FIVE,
     "LC LW T* RW RC", "pass:RW", {"T": "LW", "LW": "T"}),
    # nobody to screen for: the second choice counts
    ("exchange", {"pass": {"passer": ["exchange", "cut"], "next_player": "exchange", "perimeter": "stay"}},
     FIVE, "LC* LW T RW RC", "pass:LW", {"LC": "rim"}),
    ("replace", {"dribble_at": {"dribbled_at": "replace", "perimeter": "stay"}}, FIVE, "LC LW T* RW RC",
     "dribble_at:RW", {"T": "RW", "RW": "T"}),
    ("replace", {"hand_off": {"passer": "replace", "perimeter": "stay"}}, FIVE, "LC LW T* RW RC",
     "hand_off:RW", {"T": "RW", "RW": "T"}),
    ("rotate", {}, FIVE, "LC LW T* RW RC", "drive:left",
     {"T": "paint", "RC": "RW", "RW": "T", "LW": "LC", "LC": "RC"}),
    ("cover", {"middle_drive": {"behind": "cover", "ahead": "stay"}}, FIVE, "LC LW T* RW RC", "drive:right",
     {"T": "paint", "LW": "T"}),
    ("cover", {"middle_drive": {"behind": "cover", "ahead": "stay"}}, FIVE, "LW T RW* RC HP", "drive:right",
     {"RW": "rim_right", "T": "RW", "LW": "LC"}),
    ("slide", {"middle_drive": {"drive_corner": "slide", "far_corner": "lift", "perimeter": "stay"}}, FIVE,
     "LW T* RW RC HP", "drive:right", {"T": "paint", "RC": "LC", "HP": "LE"}),
    ("lift", {"baseline_drive": {"drive_corner": "lift", "behind": "stay", "perimeter": "stay"}}, FIVE,
     "LC LW T RW* RC", "drive:right", {"RW": "rim_right", "RC": "RW"}),
    # the corner is free: the wing drifts into it; taken, it is no room
    ("drift", {"middle_drive": {"ahead": ["drift", "stay"], "perimeter": "stay"}}, FIVE, "LC LW T* RW HP",
     "drive:right", {"T": "paint", "RW": "RC", "HP": "LE"}),
    ("drift", {"middle_drive": {"ahead": ["drift", "stay"], "perimeter": "stay"}}, FIVE, "LC LW T* RW RC",
     "drive:right", {"T": "paint"}),
    ("to_elbow", {}, THREE, "LW T RW* LB RB", "drive:right",
     {"RW": "rim_right", "T": "RW", "LW": "LC", "RB": "RE"}),
    ("to_short_corner", {"middle_drive": {"perimeter": "stay"}}, THREE, "LW T* RW LB RB", "drive:right",
     {"T": "paint", "RB": "RSC"}),
    ("to_far_elbow", {"middle_drive": {"perimeter": "stay"}}, THREE, "LW T* RW LB HP", "drive:right",
     {"T": "paint", "HP": "LE"}),
    ("to_opposite_block", {"baseline_drive": {"ball_side_posts": "to_opposite_block", "behind": "stay"}},
     FOUR, "LW LS RS RW* RB", "drive:right", {"RW": "rim_right", "RB": "LB"}),
    # fed on one block, the post on the other flashes to the high post
    ("to_high_post", {"post_entry": {"weak_side_posts": "to_high_post"}}, THREE, "LW T RW* LB RB",
     "post_entry:RB", {"RW": "rim", "T": "RW", "LW": "T", "LB": "HP"}),
    ("dive", {"pass": {"weak_side_posts": "dive"}}, THREE, "LW T* RW LB RE", "pass:RW",
     {"T": "rim", "LW": "T", "LB": "RB"}),
    # taken, it is no room
    ("dive", {"pass": {"weak_side_posts": ["dive", "stay"]}}, THREE, "LW T* RW LB RB", "pass:RW",
     {"T": "rim", "LW": "T"}),
    ("re_post", {"kick_out": {"passer": "re_post"}}, FOUR, "LS RS RW LW RB*", "kick_out:RW", {}),
    ("re_post", {"ball_screen": {"screener": "re_post"}, "middle_drive": {"perimeter": "stay"}}, FOUR,
     "LW LS RS RW* RB", "ball_screen:RB:left", {"RW": "paint", "RB": "RB"}),
    ("roll", {"middle_drive": {"perimeter": "stay"}}, FOUR, "LW LS RS* RW HP", "ball_screen:HP:left",
     {"RS": "paint", "HP": "LB"}),
    ("pop", {"ball_screen": {"screener": "pop"}, "middle_drive": {"perimeter": "stay"}}, FOUR,
     "LW LS RS* RW HP", "ball_screen:HP:left", {"RS": "paint", "HP": "RS"}),
    ("rebound", {"shot": {"deepest_two": "rebound"}}, FIVE, "LC LW T* RW RC", "shot", {}),
    ("get_back", {}, FIVE, "LC LW T* RW RC", "shot", {}),
]  # fmt: skip


@pytest.mark.parametrize(("movement", "changes", "formation", "before", "action", "moves"), EXAMPLES)
def test_a_movement_takes_its_players_where_the_rules_say(
    movement: str,
    changes: dict[str, Any],
    formation: Formation,
    before: str,
    action: str,
    moves: dict[str, str],
) -> None:
    rules = changed(**changes)
    used = {m for roles in rules.responses.values() for do in roles.values() for m in do}
    assert movement in used
    made = resolve(board(before), parse(long(action)), formation, rules)
    assert travel(made) == moves
    assert made.before.occupied == {SHORT[word.rstrip("*")] for word in before.split()}


def test_every_movement_has_an_example() -> None:
    assert {example[0] for example in EXAMPLES} == set(MOVEMENTS)


def test_the_default_set_answers_every_trigger() -> None:
    assert data()["responses"].keys() == TRIGGERS.keys() - OPTIONAL
