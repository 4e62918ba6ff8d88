"""Steps in words: one plain sentence a player, one for the ball."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from engine.checker.findings import KINDS as FINDINGS
from engine.floor.alignment import Position, start
from engine.floor.formations import FORMATIONS, LANE, POSTS, Formation
from engine.floor.spot_names import FORMS
from engine.game.moves import why_not
from engine.game.play import advance
from engine.game.sentences import Params, Phrase, sentence, words
from engine.rules.actions import KINDS, Action
from engine.rules.vocabulary import MOVEMENTS, TRIGGERS
from engine.script import KINDS as SCRIPTS
from engine.words.language import ANY_SPOT, english, english_plural, load
from engine.words.spoken import speaking
from tests.graphs import reach
from tests.words import spoken_table


def said(name: str, *taps: str) -> tuple[list[str], dict[int, str], str]:
    """Play taps (actions of one tap joined by a space) and return the words of the last one."""
    formation = FORMATIONS[name]
    position = start(formation)
    for tap in taps:
        before = position
        position, steps = advance(before, tap.split(), formation)
    found = words(before, steps)
    return (
        [sentence("chain", phrase) for phrase in found.chain],
        {number: sentence("who", phrase) for number, phrase in found.who.items()},
        sentence("ball", found.ball),
    )


def test_a_pass_is_told_player_by_player() -> None:
    chain, who, ball = said("five_out", "pass:right_wing")
    assert chain == ["1 passes to 2"]
    assert who == {
        1: "1 passes to 2 and cuts to the rim.",
        2: "2 catches on the right wing.",
        3: "3 fills the top.",
        4: "4 stays in the right corner.",
        5: "5 fills the left wing.",
    }
    assert ball == "The ball goes from 1 to 2."


def test_a_lane_choice_and_a_ball_action_in_one_tap_are_told_together() -> None:
    chain, who, ball = said("five_out", "pass:right_wing", "fill:left_corner drive:right")
    assert chain == ["1 fills the left corner", "2 drives right"]
    assert who[1] == "1 fills the left corner."
    assert who[2] == "2 drives right along the baseline, to the rim."
    assert who[3] == "3 fills in behind the driver, on the right wing."
    assert ball == "2 dribbles the ball to the right of the rim."


def test_a_cutter_who_is_moved_on_hears_of_the_one_run_he_makes() -> None:
    chain, who, _ = said("five_out", "pass:right_wing", "fill:left_corner drive:left")
    assert chain == ["1 fills the right corner", "2 drives left"]
    assert who[1] == "1 fills the right corner."


def test_a_cutter_who_is_named_plays_his_part_from_the_spot_of_his_choice() -> None:
    chain, who, _ = said("four_out_one_in", "pass:right_wing", "fill:right_corner dribble_at:right_corner")
    assert chain == ["1 fills the right corner", "2 dribbles at 1"]
    assert who[1] == "1 cuts behind the defender to the rim."


@pytest.mark.parametrize(
    ("taps", "number", "expected"),
    [
        (["dribble_at:right_wing"], 2, "2 cuts behind the defender to the rim."),
        (["hand_off:left_wing"], 3, "3 takes the hand-off and comes to the top."),
        (["hand_off:left_wing"], 1, "1 hands off to 3 and cuts to the rim."),
        (["drive:right"], 4, "4 runs along the baseline to the left corner."),
        (["back_cut:left_wing"], 3, "3 cuts behind the defender to the rim."),
        (["back_cut:left_wing"], 1, "1 has the ball at the top."),
        (["pass:right_wing", "cutter_pass"], 2, "2 passes to 1 and stays on the right wing."),
        (["pass:right_wing", "cutter_pass"], 1, "1 catches at the rim."),
        (["pass:right_wing", "post_up:left_block"], 1, "1 posts up on the left block."),
        (["pass:right_wing", "back_screen:left_wing"], 1, "1 back screens for 5 and takes the left wing."),
        (["pass:right_wing", "back_screen:left_wing"], 5, "5 cuts off the screen to the rim."),
        (["pass:right_wing", "ball_screen:rim:left"], 1, "1 screens for 2 and rolls to the right block."),
        (["pass:right_wing", "ball_screen:rim:left"], 2, "2 drives left off 1's screen."),
        (
            ["drive:right", "kick_out:top"],
            1,
            "1 kicks out to 3; from the lane 1 fills, posts up or screens next.",
        ),
    ],
)
def test_each_player_is_told_his_own_part(taps: list[str], number: int, expected: str) -> None:
    _, who, _ = said("five_out", *taps)
    assert who[number] == expected


@pytest.mark.parametrize("formation", FORMATIONS.values(), ids=list(FORMATIONS))
def test_every_step_has_one_whole_sentence_a_player_and_one_for_the_ball(formation: Formation) -> None:
    looked_at: set[object] = set()
    for step in reach(formation).steps:
        spots = sorted(step.before.occupied)
        position = Position(step.before, tuple((spot, i + 1) for i, spot in enumerate(spots)))
        found = words(position, (step,))
        assert list(found.who) == [1, 2, 3, 4, 5]
        for number, phrase in [*found.who.items(), (0, found.ball)]:
            # Most is said again and again, of other steps.
            said = number, phrase[0], tuple(phrase[1].items())
            if said not in looked_at:
                looked_at.add(said)
                whole(number, phrase)
        movers = {spots.index(move.origin) + 1 for move in step.moves}
        for number in movers:
            assert found.who[number][0] not in ("stay", "keep", "wait")


def whole(number: int, phrase: Phrase) -> None:
    """Hold what is said of a player, or of the ball (0), to being a sentence."""
    text = sentence("who" if number else "ball", phrase)
    assert re.fullmatch(r"[A-Z0-9][^{}_]*\.", text), text
    if number:
        assert text.startswith(str(number))
        assert sentence("you", phrase).startswith("You ")


def test_names_take_the_place_of_numbers() -> None:
    assert sentence("who", ("catch", {"p": 2, "s": "top"}), name=lambda n: "Ada") == "Ada catches at the top."


def test_a_spot_is_said_in_the_form_its_language_has_for_the_use(tmp_path: Path) -> None:
    court = {
        "spots": {"left_wing": "linker Flügel", "top": "Spitze"},
        "at": {"left_wing": "auf dem linken Flügel"},
        "the": {"left_wing": "der linke Flügel"},
        "to": {"left_wing": "auf den linken Flügel", "any_spot": "nach: {spot}"},
        "from": {"left_wing": "vom linken Flügel"},
    }
    steps = {"who": {"dribble": "{p} dribbelt {to}.", "shoot": "Es wirft {from} {p}.", "keep": "{at}: {p}."}}
    (tmp_path / "court.json").write_text(json.dumps(court), "utf-8")
    (tmp_path / "steps.json").write_text(json.dumps(steps), "utf-8")
    (tmp_path / "refusals.json").write_text('{"conditions": {"taken": "{the_spot} ist besetzt."}}', "utf-8")
    five = FORMATIONS["five_out"]
    with speaking(load("de", tmp_path, english_plural, english())):
        wing: Params = {"p": 4, "s": "left_wing"}
        assert sentence("who", ("dribble", wing)) == "4 dribbelt auf den linken Flügel."
        assert sentence("who", ("dribble", {"p": 4, "s": "top"})) == "4 dribbelt nach: Spitze."
        assert sentence("who", ("shoot", wing)) == "Es wirft vom linken Flügel 4."
        assert sentence("who", ("keep", wing)) == "auf dem linken Flügel: 4."
        said = why_not(start(five).alignment, Action("dribble_to", "left_wing"), five)
        assert said is not None
        assert "der linke Flügel ist besetzt." in said


@pytest.mark.parametrize("section", ["chain", "list", "who", "you", "ball", "groups"])
def test_no_sentence_puts_a_preposition_or_an_article_before_the_plain_name_of_a_spot(section: str) -> None:
    found = [
        text for text in spoken_table()[section].values() if re.search(r"\b(the|to|on|from|at) \{s\}", text)
    ]
    assert found == []


def test_the_table_names_every_spot_and_every_action() -> None:
    table = spoken_table()
    spots = {spot for f in FORMATIONS.values() for spot in f.ring} | {*POSTS, *LANE}
    assert table["spots"].keys() == table["at"].keys() == spots
    for form in FORMS:
        assert table[form].keys() == spots or table[form].keys() == {ANY_SPOT}
    assert table["list"].keys() == KINDS.keys()
    assert table["chain"].keys() == KINDS.keys() | {"recover", *(f"script_{kind}" for kind in SCRIPTS)}
    assert table["actions"].keys() == KINDS.keys()
    assert table["triggers"].keys() == TRIGGERS.keys()
    assert table["roles"].keys() == {role for roles in TRIGGERS.values() for role in roles}
    assert table["movements"].keys() == MOVEMENTS.keys()
    assert table["findings"].keys() == table["mends"].keys() == set(FINDINGS)
    assert table["who"].keys() == table["you"].keys()
    assert table["formations"].keys() == FORMATIONS.keys()
