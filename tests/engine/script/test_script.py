"""Scripted steps: their text form, and where play stands after one."""

from __future__ import annotations

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from engine.errors import IllegalAction, UnreadableAction
from engine.floor.alignment import problems, start
from engine.floor.court import half_court, spots
from engine.floor.formations import CROWDS, FORMATIONS, POSTS, Formation
from engine.floor.standards import STANDARDS
from engine.game.play import OFF_SPOTS, BadSequence, advance, menu, offers
from engine.game.recover import recovery
from engine.game.sentences import sentence
from engine.rules.rule_sets import DEFAULT
from engine.script import Script, check, read
from engine.script.telling import words
from tests.depth import deep
from tests.engine.script.scripts import FIVE, INBOUND, LAST, LOOSE, OFF, WORKED, scripts

START = start(FIVE)
SIGNS = "abcdeghiknoprstux_=,;:-0123456789"


def heard(text: str) -> Script | str:
    """Return the step that a text means, or the sentence that refuses it."""
    try:
        return read(text, FIVE)
    except UnreadableAction as error:
        return str(error)


def test_the_worked_example_says_what_is_written_in_it() -> None:
    script = read(INBOUND, FIVE)
    assert (script.kind, script.ball, script.holder, script.lies, script.over) == ("side", 1, 2, None, False)
    assert [run.who for run in script.runs] == ["3", "4", "2", "2", "5", "x2", "1"]
    assert script.runs[1].points == ((400, 420), (500, 500))
    assert script.lasts == 330
    assert script.ends() == {
        "1": (-660, 0), "2": (-480, 500), "3": (0, 700), "4": (500, 500), "5": (640, 10),
        "x2": (-440, 470), "k1": (0, 900),
    }  # fmt: skip


@pytest.mark.parametrize("text", WORKED)
def test_a_worked_one_is_read_as_it_was_written(text: str) -> None:
    assert read(text, FIVE).text == text


@settings(max_examples=deep(34, 100))
@given(scripts())
def test_any_is_read_as_it_was_written(script: Script) -> None:
    assert read(script.text, FIVE) == script


@settings(max_examples=deep(100, 300))
@given(st.one_of(st.sampled_from(WORKED), scripts().map(lambda script: script.text)), st.data())
def test_a_mutilated_text_is_refused_or_means_what_it_says(text: str, data: st.DataObject) -> None:
    for _ in range(data.draw(st.integers(1, 3))):
        at = data.draw(st.integers(0, len(text)))
        cut = data.draw(st.integers(0, 3))
        text = text[:at] + data.draw(st.text(SIGNS, max_size=3)) + text[at + cut :]
    found = heard(text)
    if isinstance(found, str):
        assert found.startswith("This drawn step cannot be read: ")
        assert found.endswith(".")
    else:
        assert found.text == text
        found.position(START)


@given(st.text(max_size=60))
def test_any_other_text_is_refused(text: str) -> None:
    with pytest.raises(UnreadableAction):
        read("script:" + text, FIVE)


AT = "at=1,0,0,2,0,0,3,0,0,4,0,0,5,0,0"
MANY_RUNS = "".join(f";go=1,c,{n},1,0,0" for n in range(41))
MANY_POINTS = ";go=1,c,0,9" + ",0,0" * 41
MANY_PASSES = "".join(f";do=p,0,0,{1 + n % 2},{2 - n % 2}" for n in range(21))
WRONG = [
    ("script:", "not a drawn step"),
    (f"script:as=moon;{AT};ball=1", "not a drawn step"),
    (f"script:{AT};as=free;ball=1", "not a drawn step"),
    (f"script:as=free;{AT};ball=1;do=s,0,0,1;go=1,c,0,9,0,0", "not a drawn step"),
    (f"script:as=free;{AT};ball=1;", "not a drawn step"),
    (f"script:as=free;{AT};ball=1;on=", "not a drawn step"),
    (f"script:as=free;{AT}٣;ball=1", "not a drawn step"),
    ("script:as=free;at=1,0,0,2,0,0,3,0,0,4,0,0;ball=1", "where all five players stand"),
    ("script:as=free;at=2,0,0,1,0,0,3,0,0,4,0,0,5,0,0;ball=1", "where all five players stand"),
    (f"script:as=free;{AT},x1,0;ball=1", "where everybody stands"),
    (f"script:as=free;{AT},x6,0,0;ball=1", "cannot be on the floor"),
    (f"script:as=free;{AT},k1,0,0,x1,0,0;ball=1", "out of order"),
    (f"script:as=free;{AT},x1,0,0,x1,0,0;ball=1", "out of order"),
    (f"script:as=free;{AT},x1,2001,0;ball=1", "number"),
    (f"script:as=free;{AT},x1,-0,0;ball=1", "number"),
    (f"script:as=free;{AT},x1,07,0;ball=1", "number"),
    (f"script:as=free;{AT},x1,,0;ball=1", "number"),
    (f"script:as=free;{AT};ball=6", "none of the five"),
    (f"script:as=free;{AT};ball=1,2,3", "where the ball is"),
    (f"script:as=free;{AT};ball=1;go=1,c,0,9", "not whole"),
    (f"script:as=free;{AT};ball=1;go=1,z,0,9,0,0", "not whole"),
    (f"script:as=free;{AT};ball=1;go=1,c,0,9,0", "not whole"),
    (f"script:as=free;{AT};ball=1;go=1,c,0,0,0,0", "must take some time"),
    (f"script:as=free;{AT};ball=1;go=1,c,2999,2,0,0", "must take some time"),
    (f"script:as=free;{AT};ball=1;go=1,c,-1,2,0,0", "number"),
    (f"script:as=free;{AT};ball=1;go=x1,c,0,9,0,0", "runs who cannot"),
    (f"script:as=free;{AT},k1,0,0;ball=1;go=k1,c,0,9,0,0", "runs who cannot"),
    (f"script:as=free;{AT},x1,0,0;ball=1;go=x1,d,0,9,0,0", "only the five players"),
    (f"script:as=free;{AT},c,0,0;ball=1;go=c,s,0,9,0,0", "only the five players"),
    (f"script:as=free;{AT};ball=1;go=2,c,0,9,0,0;go=1,c,0,9,0,0", "out of order"),
    (f"script:as=free;{AT};ball=1;go=1,c,5,9,0,0;go=2,c,0,9,0,0", "out of order"),
    (f"script:as=free;{AT};ball=1;go=1,c,0,9,0,0;go=1,c,8,9,0,0", "before their last one is over"),
    (f"script:as=free;{AT};ball=1{MANY_RUNS}", "more than 40 runs"),
    (f"script:as=free;{AT};ball=1{MANY_POINTS}", "more than 40 points"),
    (f"script:as=free;{AT};ball=1{MANY_PASSES}", "more than 20"),
    (f"script:as=free;{AT};ball=1;do=q,0,0,1,2", "not whole"),
    (f"script:as=free;{AT};ball=1;do=p,0,0,1", "not whole"),
    (f"script:as=free;{AT};ball=1;do=p,0,0,1,1", "to themselves"),
    (f"script:as=free;{AT};ball=1;do=p,0,0,2,1", "does not have it"),
    (f"script:as=free;{AT};ball=1;do=g,0,0,2", "does not have it"),
    (f"script:as=free;{AT};ball=0,0;do=p,0,0,1,2", "does not have it"),
    (f"script:as=free;{AT};ball=0,0;do=l,0,0,1,5,5", "does not have it"),
    (f"script:as=free;{AT};ball=1;do=p,9,8,1,2", "out of order"),
    (f"script:as=free;{AT};ball=1;do=p,0,9,1,2;do=p,8,9,2,1", "out of order"),
    (f"script:as=free;{AT};ball=1;do=s,0,9,1;do=g,9,9,1", "follows the shot"),
    (f"script:as=free;{AT};ball=1;on=1", "which spot"),
    (f"script:as=free;{AT};ball=1;on=2,top,1,left_wing", "spot of their own"),
    (f"script:as=free;{AT};ball=1;on=1,top,1,left_wing", "spot of their own"),
    (f"script:as=free;{AT};ball=1;on=1,top,2,top", "spot of their own"),
    (f"script:as=free;{AT};ball=1;on=1,rim", "does not have"),
    (f"script:as=free;{AT};ball=1;on=1,left_slot", "does not have"),
    (f"script:as=free;{AT};ball=1" + ";go=1,c,0,9" + ",0,0" * 1100, "at most 4096"),
]


@pytest.mark.parametrize(("text", "why"), WRONG)
def test_what_cannot_happen_is_refused_with_the_reason(text: str, why: str) -> None:
    with pytest.raises(UnreadableAction, match=why):
        read(text, FIVE)


@settings(max_examples=deep(34, 100))
@given(scripts())
def test_whoever_has_the_ball_at_the_end_was_given_it(script: Script) -> None:
    has, lies = (script.ball, None) if isinstance(script.ball, int) else (0, script.ball)
    for event in script.events:
        assert event.giver == has
        has, lies = event.taker, event.place
    assert (script.holder, script.lies) == (has, lies)
    assert script.over == any(event.kind == "shot" for event in script.events)


@settings(max_examples=deep(34, 100))
@given(st.sampled_from(list(FORMATIONS.values())), st.data())
def test_play_by_rule_goes_on_from_spots(formation: Formation, data: st.DataObject) -> None:
    script = data.draw(scripts(formation, on_spots=True))
    assume(script.holder)
    try:
        check(script, formation)
    except IllegalAction:
        return
    position = script.position(start(formation))
    assert position.off == ()
    assert problems(position.alignment, formation) == ()
    assert position.where() == dict(script.on)
    assert position.player(position.alignment.ball) == script.holder
    found = offers(position, formation)
    assert found
    for offer in found:
        advance(position, offer.actions, formation)


@settings(max_examples=deep(34, 100))
@given(scripts(on_spots=True))
def test_spots_that_nobody_may_stand_on_together_are_refused(script: Script) -> None:
    taken = [spot for _, spot in script.on if spot in POSTS]
    wrong = len(taken) > DEFAULT.posts_in(FIVE) or any(not CROWDS[spot].isdisjoint(taken) for spot in taken)
    if wrong and script.holder:
        with pytest.raises(IllegalAction, match="posts"):
            check(script, FIVE)
    else:
        check(script, FIVE)


@settings(max_examples=deep(34, 100))
@given(scripts())
def test_off_spots_nothing_is_on_offer_until_everybody_is_back(script: Script) -> None:
    before, _ = advance(START, ["pass:right_wing"], FIVE)
    position = script.position(before)
    if not position.off:
        return
    assert (menu(position, FIVE).offers, menu(position, FIVE).withheld, menu(position, FIVE).default) == (
        (), (), None,
    )  # fmt: skip
    for action in ("shot", "fill:left_corner", "drive:left"):
        with pytest.raises(BadSequence, match=str(OFF_SPOTS)):
            advance(position, [action], FIVE)
    ends = script.ends()
    assert position.off == tuple((n, *ends[str(n)]) for n in range(1, 6))
    assert position.lineup == before.lineup
    assert (position.alignment.cutter, position.alignment.freed) == (None, None)
    assert position.alignment.over == script.over
    ball = position.player(position.alignment.ball)
    metres = {n: (x / 100, y / 100) for n, x, y in position.off}
    back = recovery(metres, ball, half_court("fiba"), FIVE).position(ball)
    assert offers(back, FIVE)
    if script.holder:
        assert ball == script.holder


def test_the_ball_on_the_floor_is_for_whoever_is_nearest() -> None:
    position = read(LOOSE, FIVE).position(START)
    assert position.player(position.alignment.ball) == 5  # about 1 m off; 3 is over 4 m away
    # 80 cm and 250 cm from 3 as from 5: of two who are as near, the lower number.
    position = read(LOOSE.replace("3,-600,100", "3,-580,250"), FIVE).position(START)
    assert position.player(position.alignment.ball) == 3


def test_a_shot_ends_it_where_everybody_is() -> None:
    position = read(LAST, FIVE).position(START)
    assert position.alignment.over
    assert position.player(position.alignment.ball) == 2
    assert position.off[1] == (2, 300, 600)
    assert menu(position, FIVE).offers == ()


@settings(max_examples=deep(34, 100))
@given(scripts(), st.sampled_from(list(STANDARDS)))
def test_on_any_court_whoever_ends_on_a_spot_ends_there(script: Script, court: str) -> None:
    floor = spots(half_court(court), FIVE)
    placed = script.placed(floor)
    on, ends, drawn = dict(script.on), placed.ends(), script.ends()
    for who, end in ends.items():
        spot = on.get(int(who)) if who.isdigit() else None
        assert end == (
            drawn[who] if spot is None else (round(floor[spot].x * 100), round(floor[spot].y * 100))
        )
    # It takes as long and is the same step: only last points, or the places of those who stay, have moved.
    assert (placed.lasts, placed.events, placed.on) == (script.lasts, script.events, script.on)
    assert [run.points[:-1] for run in placed.runs] == [run.points[:-1] for run in script.runs]
    ran = {run.who for run in script.runs}
    assert [p for p in placed.places if p[0] in ran] == [p for p in script.places if p[0] in ran]
    assert read(placed.text, FIVE) == placed


def test_a_step_is_told_player_by_player() -> None:
    told = words(read(INBOUND, FIVE))
    assert [sentence("chain", phrase) for phrase in told.chain] == ["sideline inbound"]
    assert {n: sentence("who", phrase) for n, phrase in told.who.items()} == {
        1: "1 passes to 2 and goes to the left corner.",
        2: "2 gets the ball from 1 and goes to the left wing.",
        3: "3 runs to the top.",
        4: "4 runs to the right wing.",
        5: "5 runs to the right corner.",
    }
    assert sentence("ball", told.ball) == "2 has the ball."
    last = words(read(LAST, FIVE))
    assert sentence("who", last.who[2]) == "2 shoots."
    assert sentence("who", last.who[1]) == "1 passes to 2."
    assert sentence("ball", last.ball) == "2 shoots the ball."
    assert sentence("ball", words(read(LOOSE, FIVE)).ball) == "The ball lies on the floor."
    assert sentence("who", words(read(OFF, FIVE)).who[3]) == "3 stays in place."


@settings(max_examples=deep(34, 100))
@given(scripts())
def test_everybody_is_told_something_of_any_step(script: Script) -> None:
    told = words(script)
    assert list(told.who) == [1, 2, 3, 4, 5]
    for number, phrase in told.who.items():
        assert sentence("who", phrase).startswith(f"{number} ")
        assert sentence("you", phrase).startswith("You ")
    assert sentence("ball", told.ball).endswith(".")
    assert "{" not in sentence("chain", told.chain[0])


@pytest.mark.parametrize(
    ("run", "said"),
    [
        ("go=2,c,50,100,0,300,600,300", "4 screens for 2."),  # straight past it
        ("go=2,c,50,100,0,300,600,450", "4 screens for 2."),  # 1.1 m off
        ("go=2,c,50,100,0,300,600,700", "4 sets a screen."),  # out of reach
        ("go=2,c,0,40,600,300", "4 sets a screen."),  # over before anybody screens
    ],
)
def test_a_screen_is_for_who_runs_past_it(run: str, said: str) -> None:
    places = "at=1,0,0,2,-600,300,3,-700,900,4,300,900,5,700,900"
    screens = "go=4,s,50,60,300,300"
    runs = sorted((run, screens), key=lambda each: (int(each.split(",")[2]), each))
    told = words(read(f"script:as=free;{places};ball=1;{';'.join(runs)}", FIVE))
    assert sentence("who", told.who[4]) == said
