"""Scripted steps on a live board: played, followed, taken back; and what is refused."""

from __future__ import annotations

import itertools
from typing import Any

import pytest

from tests.engine.script.scripts import INBOUND, LAST, LOOSE, OFF
from tests.server import LiveServer, Servers
from tests.webapp.screens import Device, Screen, screen, viewing_path

#: As many posts as there are players, and two that are too close to each other.
FULL = "script:as=free;at=1,0,0,2,0,0,3,0,0,4,0,0,5,0,0;ball=1;on="
POSTS = f"{FULL}1,left_block,2,right_block,3,left_elbow,4,right_elbow,5,top"
CROWDED = f"{FULL}1,left_elbow,2,high_post,3,left_wing,4,right_wing,5,top"
_NUMBERS = itertools.count(1)
LOST = {"1": [10, 640], "2": [500, 400], "3": [-480, 510], "4": [640, 90], "5": [-420, 60]}
NOT_YET = "Everybody has to get back on spots first. Nothing was changed."


@pytest.fixture(scope="module")
def server(module_servers: Servers, tmp_path_factory: pytest.TempPathFactory) -> LiveServer:
    """A server whose phones are told only the last step of a chain."""
    directory = tmp_path_factory.mktemp("script") / "data"
    return module_servers(
        directory,
        teams_address_count=1000,
        viewers_interval_s=0,
        viewer_steps_max_count=1,
    )


def offers(coach: Screen) -> Any:
    """What is on offer on the board as it is."""
    while coach.offered["seq"] != coach.seq:
        coach.hear()
    return coach.offered["offers"]


def asked(coach: Screen, *actions: str) -> Any:
    """Ask for something at the start of the chain; what cannot be understood is answered as nobody's."""
    coach.send({"t": "act", "id": f"a{next(_NUMBERS)}", "base": coach.seq, "at": 0, "a": list(actions)})
    return coach.wait("step", "state", "refused")


def test_an_inbound_is_played_and_everybody_is_told(coach: Screen, viewer: Screen) -> None:
    answer = coach.act(INBOUND)
    step = answer["step"]
    assert (answer["t"], answer["depth"], step["a"]) == ("step", 1, [INBOUND])
    assert viewer.wait("step") == answer
    assert step["from"] == {
        "1": [-790, 420], "2": [-300, 300], "3": [0, 500], "4": [300, 300], "5": [250, 0],
        "x2": [-250, 330], "k1": [0, 900],
    }  # fmt: skip
    assert (step["has"], "lies" in step) == (1, False)
    spots = coach.state["floor"]["spots"]
    (wing_x, wing_y), (slot_x, slot_y) = spots["left_wing"], spots["right_wing"]
    runs = {(run[0], run[1]): run[2:] for run in step["tl"]["runs"]}
    assert runs[(2, 0.2)] == [0.6, "M-300 300L-300 420", "screen"]
    assert runs[(2, 0.9)] == [0.7, f"M-300 420L{wing_x} {wing_y}", "cut"]
    assert runs[(4, 0)] == [1.4, f"M300 300L400 420L{slot_x} {slot_y}", "cut"]
    assert runs[("x2", 1.0)] == [0.7, "M-250 330L-440 470", "cut"]
    assert step["tl"]["ball"] == [["pass", 1.2, 1.6, 1, 2]]
    assert (step["tl"]["ready"], step["tl"]["end"]) == (3.3, 3.3)
    assert step["say"] == [["script_side", {}]]
    assert step["who"][0] == [1, "script_passes_goes", {"p": 1, "m": 2, "s": "left_corner"}]
    assert step["ball"] == ["hold", {"p": 2}]
    assert step["after"] == {
        "at": {"1": "left_corner", "2": "left_wing", "3": "top", "4": "right_wing", "5": "right_corner"},
        "ball": 2, "cutter": None, "over": False,
    }  # fmt: skip
    assert ["pass:top"] in [offer["a"] for offer in offers(coach)]
    assert coach.act("pass:top")["step"]["after"]["ball"] == 3


def test_it_is_taken_back_brought_back_and_the_same_on_another_court(device: Device, coach: Screen) -> None:
    step = coach.act(INBOUND)["step"]
    coach.act_on()
    assert [coach.change("undo")["depth"] for _ in range(2)] == [1, 0]
    assert coach.change("redo")["step"] == step
    with device.coach() as other:
        assert (other.steps, other.ahead) == ([step], 1)
    moved = coach.change("setup", court="nba")["steps"][0]
    assert (moved["after"], moved["from"]) == (step["after"], step["from"])
    corner = coach.state["floor"]["spots"]["left_corner"]
    path = next(run[3] for run in moved["tl"]["runs"] if run[0] == 1)
    assert path == f"M-790 420L{corner[0]} {corner[1]}"


def test_it_may_stand_anywhere_in_a_chain(coach: Screen) -> None:
    coach.act("pass:right_wing")
    assert coach.act(INBOUND)["depth"] == 2
    assert coach.act_on()["depth"] == 3
    assert coach.act(INBOUND)["depth"] == 4


def test_off_spots_there_is_nothing_to_tap_until_everybody_is_back(coach: Screen) -> None:
    after = coach.act(OFF)["step"]["after"]
    spots = coach.state["floor"]["spots"]
    # Who ends on a spot is there, on this court; the others are where they were drawn.
    assert after == {
        "at": coach.state["start"]["at"], "ball": 2, "cutter": None, "over": False,
        "off": {"1": [0, -190], "2": spots["left_block"], "3": spots["top"], "4": [300, 300], "5": [250, 0]},
    }  # fmt: skip
    assert offers(coach) == []
    for action in ("pass:left_wing", "shot", "fill:left_corner"):
        assert coach.act(action)["message"] == NOT_YET
    step = coach.change("recover", at=1, where=after["off"])["step"]
    assert (step["after"]["ball"], "off" in step["after"]) == (2, False)
    assert coach.act_on()["depth"] == 3


def test_another_one_may_follow_off_spots(coach: Screen) -> None:
    coach.act(OFF)
    assert coach.act(INBOUND)["step"]["after"]["ball"] == 2
    assert offers(coach)


def test_a_ball_on_the_floor_is_taken_up_by_whoever_is_nearest(coach: Screen) -> None:
    step = coach.act(LOOSE)["step"]
    assert (step["lies"], "has" in step, step["ball"]) == ([-480, 480], False, ["lies", {}])
    assert step["tl"]["ball"] == [["gather", 0, 0.3, 0, 3], ["loose", 2, 2, 3, 0, [-600, 100]]]
    assert step["after"]["ball"] == 5
    assert step["after"]["lies"] == [-600, 100], "whoever joins after it sees where"
    assert coach.change("recover", at=1, where=LOST)["step"]["after"]["ball"] == 5


def test_after_its_shot_nothing_follows(coach: Screen) -> None:
    step = coach.act(LAST)["step"]
    assert (step["after"]["over"], step["ball"]) == (True, ["shot", {"p": 2}])
    assert step["tl"]["ball"][-1] == ["shot", 2, 2.8, 2, 0]
    assert offers(coach) == []
    over = "The possession ended with a shot. Nothing was changed."
    assert coach.act(INBOUND)["message"] == over
    assert coach.change("recover", at=1, where=LOST)["message"] == over
    assert coach.change("undo")["depth"] == 0


def test_after_a_shot_by_rule_it_is_refused(coach: Screen) -> None:
    coach.act("shot")
    answer = coach.act(INBOUND)
    assert (answer["code"], answer["message"].split(".")[0]) == (
        "illegal",
        "The possession ended with a shot",
    )


def test_a_phone_that_comes_late_begins_where_the_step_before_ended(
    coach: Screen, device: Device, server: LiveServer
) -> None:
    after = coach.act(OFF)["step"]["after"]
    coach.act(INBOUND)
    with screen(server, viewing_path(device.share())) as late:
        assert (late.state["first"], late.chain()) == (1, [[INBOUND]])
        assert late.state["start"] == after


def test_it_goes_by_no_rule_so_it_is_never_too_early_for_one(coach: Screen) -> None:
    coach.change("setup", stage=0)
    assert coach.act(INBOUND)["t"] == "step"


@pytest.mark.parametrize(
    ("actions", "code", "words"),
    [
        ([POSTS], "illegal", "More posts would be taken than the rules allow."),
        ([CROWDED], "illegal", "Two players would stand on posts that are too close to each other."),
        ([f"{FULL}1,rim"], "illegal", "This drawn step cannot be read: it names a spot"),
        (["script:as=side"], "illegal", "This drawn step cannot be read: it is not a drawn step."),
        ([INBOUND, INBOUND], "pair", "Two actions go together only"),
        ([INBOUND, "pass:top"], "pair", "Two actions go together only"),
        (["fill:left_corner", INBOUND], "pair", "Two actions go together only"),
        (["script:"], "illegal", "cannot be read"),
        (["script:" + "1" * 4090], "unreadable", "a drawn step of at most 4096 signs"),
        ([INBOUND + " "], "unreadable", "must be the name of an action"),
        ([INBOUND + "\n"], "unreadable", "must be the name of an action"),
        ([INBOUND.upper()], "unreadable", "must be the name of an action"),
        (["recover:1=top@0,0"], "unreadable", "must be the name of an action"),
    ],
)
def test_a_bad_one_is_refused_in_a_sentence_and_nothing_is_stored(
    coach: Screen, device: Device, actions: list[str], code: str, words: str
) -> None:
    answer = asked(coach, *actions)
    assert (answer["t"], answer["code"]) == ("refused", code)
    assert words in answer["message"]
    assert answer["message"].endswith("Nothing was changed.")
    assert "\n" not in answer["message"]
    with device.coach() as other:
        assert (other.seq, other.steps) == (0, [])
    assert coach.act("pass:right_wing")["seq"] == 1


def test_a_phone_plays_none(viewer: Screen) -> None:
    viewer.send({"t": "act", "id": "x", "base": 0, "at": 0, "a": [INBOUND]})
    assert viewer.wait("refused")["code"] == "viewer"
