"""Actions and lane choices that can be installed, by example from their written rules, and their counts."""

from __future__ import annotations

import re

import pytest

from engine.floor.formations import FORMATIONS, Formation
from engine.game.graph import perft
from engine.game.moves import legal, resolve
from engine.rules.actions import parse
from engine.rules.rule_sets import RuleSet, read
from tests.depth import deep
from tests.engine.boards import FIVE, FOUR, SHORT, THREE, board, long, travel
from tests.engine.checker.broken import data
from tests.graphs import reach
from tests.server import ROOT

HUB = ("hub_hand_off", "hub_back_cut", "face_up")
CUTTER = ("flash", "post_screen", "help_screen", "follow")


def with_installed(which: str) -> RuleSet:
    base = data()
    actions = [*base["actions"], *(kind for kind in HUB if which in (kind, "all"))]
    lane = [*base["lane"], *(kind for kind in CUTTER if which in (kind, "all"))]
    return read({**base, "actions": actions, "lane": lane, "stages": []})


ALL = with_installed("all")

EXAMPLES: list[tuple[Formation, str, str, dict[str, str], str, str | None]] = [
    # the hand-off at the hub: the mate comes off it into the lane, his spot is refilled
    (FIVE, "LC LW RW RC HP*", "hub_hand_off:RW", {"RW": "paint", "LW": "RW", "LC": "T"}, "paint", None),
    (FOUR, "LS RS RW LW RE*", "hub_hand_off:RS", {"RS": "paint", "LS": "RS", "LW": "LS"}, "paint", None),
    (THREE, "T LW RW LE* RB", "hub_hand_off:LW", {"LW": "paint", "T": "LW", "RW": "T"}, "paint", None),
    # a denied mate cuts behind, the hub keeps the ball
    (FIVE, "LC LW RW RC HP*", "hub_back_cut:LW", {"LW": "rim", "RW": "LW", "RC": "T"}, "HP", "rim"),
    # facing up: a drive from the hub, the ball-side post makes room
    (FOUR, "LS RS LW RB LE*", "face_up:right", {"LE": "paint", "RB": "RSC"}, "paint", None),
    (FIVE, "LC LW RW RC HP*", "face_up:left", {"HP": "paint"}, "paint", None),
    # the cutter flashes, follows, screens for a post or for the far side
    (FIVE, "LW T RW* RC rim^", "flash:RE", {"rim": "RE"}, "RW", None),
    (FIVE, "LW T RW* RC rim^", "flash:HP", {"rim": "HP"}, "RW", None),
    (FIVE, "LW T RW* RC rim^", "follow", {"rim": "RW", "RW": "rim"}, "RW", "rim"),
    (FOUR, "LW LS RW* RB rim^", "post_screen:RB", {"rim": "RB", "RB": "rim"}, "RW", "rim"),
    (FIVE, "LW T RW* RC rim^", "help_screen:LW", {"rim": "LB"}, "RW", None),
]  # fmt: skip


@pytest.mark.parametrize(("formation", "before", "action", "moves", "ball", "cutter"), EXAMPLES)
def test_an_installed_action_does_what_its_rule_says(
    formation: Formation, before: str, action: str, moves: dict[str, str], ball: str, cutter: str | None
) -> None:
    made = resolve(board(before), parse(long(action)), formation, ALL)
    assert travel(made) == moves
    assert made.after.ball == SHORT[ball]
    assert made.after.cutter == (None if cutter is None else SHORT[cutter])


@pytest.mark.parametrize(
    ("formation", "before", "must", "must_not"),
    [
        (FIVE, "LC LW RW RC HP*", "hub_hand_off:LC face_up:left face_up:right", "flash:LE follow"),
        (THREE, "T LW RW LE* RB", "hub_hand_off:T hub_back_cut:LW", "hub_hand_off:RW hub_back_cut:RW"),
        (THREE, "T LW RW LB* RB", "kick_out:T", "hub_hand_off:LW face_up:left"),
        # two or more passes away, and a post open on that side (a corner's short corner is crowded)
        (
            FIVE,
            "LW T RW* RC rim^",
            "help_screen:LW flash:RE",
            "help_screen:T help_screen:RC flash:LE flash:RB",
        ),
        (FIVE, "LW T* RC LB rim^", "", "help_screen:RC"),
        (FOUR, "LS RS RW RB* rim^", "post_up:LB", "follow flash:RE help_screen:LS post_screen:RB"),
    ],
)
def test_when_an_installed_action_is_legal(
    formation: Formation, before: str, must: str, must_not: str
) -> None:
    offered = legal(board(before), formation, ALL)
    assert [text for text in must.split() if parse(long(text)) not in offered] == []
    assert [text for text in must_not.split() if parse(long(text)) in offered] == []


def test_none_of_them_is_in_the_default_set() -> None:
    offered = {action.kind for action in legal(board("LC LW RW RC HP*"), FIVE)}
    assert offered == {"kick_out", "shot"}


def test_a_mate_freed_by_a_help_screen_is_marked_in_the_very_next_action_only() -> None:
    freed = resolve(board("LW T RW* RC rim^"), parse(long("help_screen:LW")), FIVE, ALL).after
    assert freed.freed == "left_wing"
    caught = resolve(freed, parse(long("skip:LW")), FIVE, ALL)
    assert caught.is_freed
    assert caught.after.freed is None
    other = resolve(freed, parse(long("pass:T")), FIVE, ALL)
    assert not other.is_freed
    assert other.after.freed is None


def rows() -> list[tuple[str, str, tuple[int, ...]]]:
    """The table of counts of the written rules."""
    text = ROOT.joinpath("engine", "rules", "rulesets", "RULES.md").read_text("utf-8")
    found = re.findall(r"^\| (`\w+`|all of them) \| `(\w+)` \|((?: \d+ \|){5})$", text, re.MULTILINE)
    return [
        (which.strip("`").split()[0], name, tuple(int(number) for number in re.findall(r"\d+", numbers)))
        for which, name, numbers in found
    ]


def looked_at() -> list[tuple[str, str, tuple[int, ...]]]:
    """In the formation with most positions all actions together; in a deep run each alone too."""
    return [row for row in rows() if deep(row[1] != "four_out_one_in" or row[0] == "all", True)]


@pytest.mark.parametrize(("which", "name", "counts"), looked_at())
def test_the_counts_of_the_written_rules(which: str, name: str, counts: tuple[int, ...]) -> None:
    rules, formation = with_installed(which), FORMATIONS[name]
    graph = reach(formation, rules=rules)
    sequences = tuple(perft(formation, length, rules) for length in (2, 3, 4))
    assert (*sequences, len(graph.alignments), len(graph.steps)) == counts


def test_the_table_of_counts_is_complete() -> None:
    assert len(rows()) == (len(HUB) + len(CUTTER) + 1) * len(FORMATIONS)
