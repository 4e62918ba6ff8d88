"""Going to a line of play, keeping one beside what is played, and being told where a chain branches."""

from __future__ import annotations

from typing import Any

import pytest

from tests.server import LiveServer
from tests.webapp.screens import Device, Screen, screen, viewing_path

MAIN = [["pass:right_wing"], ["fill:left_corner", "pass:top"], ["fill:right_corner", "drive:left"]]
OTHER = [["pass:right_wing"], ["post_up:left_block"], ["pass:top"]]


def named(coach: Screen, chain: str, line: list[list[str]], **more: Any) -> dict[str, Any]:
    board = coach.state["board"]
    return {"chain": chain, "formation": board["formation"], "rules": board["rules"], "line": line, **more}


def forks(coach: Screen) -> Any:
    """What was told of other branches with the offers for the board as it is."""
    while coach.offered["seq"] != coach.seq:
        coach.hear()
    return coach.offered["forks"]


def test_opening_a_line_puts_everybody_on_it(coach: Screen, device: Device, server: LiveServer) -> None:
    with screen(server, viewing_path(device.share())) as viewer:
        answer = coach.change("open", **named(coach, "a" * 24, MAIN, depth=1))
        assert answer["t"] == "state"
        assert (answer["chain"]["id"], answer["ahead"], len(answer["steps"])) == ("a" * 24, 2, 1)
        assert [step["a"] for step in answer["undone"]] == MAIN[1:]  # a coach can go on without the server
        seen = viewer.wait("state")
        assert seen["steps"][0]["a"] == ["pass:right_wing"]
        assert "undone" not in seen
    coach.change("redo")
    assert coach.chain() == MAIN[:2]


def test_a_line_is_opened_as_far_as_its_rules_allow(coach: Screen) -> None:
    answer = coach.change("open", **named(coach, "b" * 24, [*MAIN[:1], ["drive:left"]], depth=2))
    assert [step["a"] for step in answer["steps"]] == MAIN[:1]


def test_a_line_is_kept_beside_without_moving_the_board(coach: Screen) -> None:
    for actions in MAIN:
        coach.act(*actions)
    chain, seq = coach.state["chain"]["id"], coach.seq
    for _ in range(2):  # twice is once
        coach.send({"t": "keep", "id": "k1", **named(coach, chain, OTHER)})
        assert coach.wait("kept") == {"t": "kept", "id": "k1", "legal": 3, "of": 3, "why": None}
    coach.offered = {"seq": -1}
    told = forks(coach)
    assert [(fork["depth"], [other["line"] for other in fork["others"]]) for fork in told] == [(1, [OTHER])]
    assert told[0]["others"][0]["say"] == [["post_up", {"p": 1, "s": "left_block"}]]
    assert coach.seq == seq
    assert coach.chain() == MAIN


def test_going_back_and_choosing_otherwise_is_told_as_a_branch(coach: Screen) -> None:
    for actions in MAIN:
        coach.act(*actions)
    coach.act("fill:left_corner", "skip:left_wing", at=1)
    told = forks(coach)
    assert [(fork["depth"], fork["others"][0]["line"]) for fork in told] == [(1, MAIN)]
    line = told[0]["others"][0]["line"]
    coach.change("open", **named(coach, coach.state["chain"]["id"], line, depth=len(line)))
    assert coach.chain() == MAIN


def test_what_was_made_after_something_that_was_not_done_is_stale(coach: Screen, device: Device) -> None:
    with device.coach() as other:
        other.act("pass:right_wing")
        coach.wait("step")
        # Made on this device after a change of its own that never arrived: the count happens to fit.
        answer = coach.change("act", a=["shot"], after="never-arrived")
        assert (answer["t"], answer["code"]) == ("refused", "stale")
        assert coach.act("fill:left_corner", "pass:top")["t"] == "step"


def test_all_that_is_behind_gets_one_answer_with_the_board(coach: Screen, device: Device) -> None:
    with device.coach() as other:
        other.act("pass:right_wing")
        coach.wait("step")
    for number in range(5):
        coach.send({"t": "act", "id": f"old{number}", "base": 0, "at": 0, "a": ["shot"]})
    coach.send({"t": "ping"})
    heard = []
    while not heard or heard[-1] != "pong":
        heard.append(coach.hear()["t"])
    assert heard.count("refused") == 5
    assert heard.count("state") <= 1


def test_a_new_chain_has_the_name_the_device_gave_it(coach: Screen) -> None:
    assert coach.change("fresh", chain="c" * 24)["chain"] == {"id": "c" * 24, "name": "", "kept": False}
    coach.act("shot")
    # Asked for once more by another message, as a device does that never heard the answer.
    again = coach.change("fresh", chain="c" * 24)
    assert (again["chain"]["id"], again["steps"]) == ("c" * 24, [])


@pytest.mark.parametrize("wrong", [
    {"line": [["pass:right_wing"]] * 501}, {"line": [[]]}, {"line": [["<b>"]]}, {"chain": "no space allowed"},
    {"formation": "../etc"}, {"depth": -1},
])  # fmt: skip
def test_a_line_that_cannot_be_is_refused_in_a_sentence(coach: Screen, wrong: dict[str, Any]) -> None:
    coach.send({"t": "open", "id": "o1", "base": 0, **named(coach, "d" * 24, MAIN, depth=0), **wrong})
    answer = coach.wait("refused")
    assert (answer["t"], answer["code"]) == ("refused", "unreadable")
    assert "Nothing was changed." in answer["message"]


def test_a_screen_that_worked_a_recovery_out_itself_is_taken_at_its_word(coach: Screen) -> None:
    where = {"1": [0, 700], "2": [500, 500], "3": [-500, 500], "4": [690, 0], "5": [-690, 0]}
    spots = {"1": "top", "2": "right_wing", "3": "left_wing", "4": "right_corner", "5": "left_corner"}
    answer = coach.change("recover", at=0, where=where, spots=spots)
    assert answer["step"]["after"]["at"] == spots
    # Spots that are further to run to are not: the nearest are.
    swapped = {**spots, "2": "left_wing", "3": "right_wing"}
    answer = coach.change("recover", at=1, where=where, spots=swapped)
    assert answer["step"]["after"]["at"] == spots
