"""Ink on a live board: drawn, told on as it grows, stored apart from play, rubbed out, brought back."""

from __future__ import annotations

import itertools
import json
from collections.abc import Iterator
from typing import Any

import pytest

from tests.plugin import PATIENT
from tests.server import LiveServer, SharedServers, no_errors
from tests.webapp.screens import Device, Screen, screen, viewing_path
from webapp.boards.ink import CHAIN_MAX, STEP_MAX, points_of

_IDS = itertools.count(1)
FIRST = ["pass:right_wing"]
THEN = ["fill:left_corner", "pass:top"]
POINTS = [0, 300, 50, 120, 40, 0, -10, 5, 10]


@pytest.fixture
def server(shared_server: SharedServers) -> Iterator[LiveServer]:
    """A server that bears with much."""
    with no_errors(shared_server(**PATIENT)) as server:
        yield server


@pytest.fixture
def coach(device: Device) -> Iterator[Screen]:
    """That device's screen, one step into a chain."""
    with device.coach() as found:
        found.act(*FIRST)
        yield found


@pytest.fixture
def phone(device: Device, coach: Screen) -> Iterator[Screen]:
    """A phone that follows."""
    with screen(device.server, viewing_path(device.share())) as found:
        found.hello()
        yield found


def at(coach: Screen, *line: list[str]) -> dict[str, Any]:
    return {"chain": coach.state["chain"]["id"], "line": list(line)}


def refs(**given: Any) -> dict[str, Any]:
    return {"formation": "five_out", "rules": "pass_and_cut", **given}


def put(coach: Screen, stroke: str, place: dict[str, Any], **given: Any) -> Any:
    """Store a stroke and return the answer."""
    whole = {"s": stroke, "tool": 2, "colour": 1, "p": POINTS, **given}
    return ask(coach, "put", **refs(**place), **whole)


def ask(coach: Screen, do: str, **given: Any) -> Any:
    key = f"k{next(_IDS)}"
    coach.send({"t": "ink", "do": do, "k": key, **given})
    answer = coach.wait("inked", "refused")
    assert answer.get("k", key) == key
    return answer


def shown(of: Screen) -> dict[str, list[str]]:
    """Ask for the ink of what is shown; return the strokes' ids by their line."""
    of.send({"t": "ink", "do": "show"})
    pages = of.wait("inks")["pages"]
    return {
        " ".join("+".join(step) for step in page["line"]): [stroke[0] for stroke in page["strokes"]]
        for page in pages
    }


def test_a_stroke_is_seen_by_viewers_while_it_is_drawn(coach: Screen, phone: Screen) -> None:
    place = at(coach, FIRST)
    coach.send({"t": "ink", "do": "begin", "s": "s1", "tool": 0, "colour": 2, "p": [10, 20, 50], **place})
    coach.send({"t": "ink", "do": "more", "s": "s1", "p": [5, 5, 0]})
    assert phone.wait("ink") == {
        "t": "ink", "do": "begin", "s": "s1", "tool": 0, "colour": 2, "p": [10, 20, 50], **place
    }  # fmt: skip
    assert phone.wait("ink") == {"t": "ink", "do": "more", "s": "s1", "p": [5, 5, 0]}
    assert "message" not in put(coach, "s1", place)
    done = phone.wait("ink")
    assert (done["do"], done["s"], done["p"], done["line"]) == ("put", "s1", POINTS, [FIRST])


def test_ink_stays_with_its_step_and_changes_nothing_that_is_played(coach: Screen, phone: Screen) -> None:
    before = coach.seq
    put(coach, "early", at(coach))
    put(coach, "late", at(coach, FIRST))
    assert coach.seq == before
    coach.act(*THEN)
    put(coach, "last", at(coach, FIRST, THEN))
    names = {
        "": ["early"],
        "pass:right_wing": ["late"],
        "pass:right_wing fill:left_corner+pass:top": ["last"],
    }
    assert shown(coach) == shown(phone) == names
    coach.change("fresh")
    assert shown(coach) == shown(phone) == {}


def test_a_stroke_sent_twice_is_there_once(coach: Screen) -> None:
    for _ in range(2):
        assert "message" not in put(coach, "s1", at(coach, FIRST))
    assert shown(coach) == {"pass:right_wing": ["s1"]}


def test_what_is_rubbed_out_can_be_brought_back_and_viewers_hear_of_both(
    coach: Screen, phone: Screen
) -> None:
    place = at(coach, FIRST)
    for stroke in ("s1", "s2"):
        put(coach, stroke, place)
        phone.wait("ink")
    ask(coach, "rub", ss=["s1", "s2"], **place)
    assert phone.wait("ink") == {"t": "ink", "do": "rub", "ss": ["s1", "s2"], **place}
    assert shown(phone) == {}
    ask(coach, "back", ss=["s2"], **place)
    assert phone.wait("ink")["do"] == "back"
    assert shown(phone) == {"pass:right_wing": ["s2"]}
    # The stroke that is sent again because its answer was lost stays rubbed out.
    put(coach, "s1", place)
    assert shown(phone) == {"pass:right_wing": ["s2"]}


def test_what_was_drawn_on_a_play_made_without_a_server_is_kept(coach: Screen) -> None:
    answer = put(coach, "s1", {"chain": "made-offline", "line": [FIRST, THEN]})
    assert "message" not in answer
    assert shown(coach) == {}  # another chain is on the board
    coach.change("open", depth=2, **refs(chain="made-offline", line=[FIRST, THEN]))
    assert shown(coach) == {"pass:right_wing fill:left_corner+pass:top": ["s1"]}


def test_a_step_that_cannot_be_is_refused_in_one_sentence_and_nothing_else_is_lost(coach: Screen) -> None:
    answer = put(coach, "s1", at(coach, ["pass:left_corner"]))
    assert (
        answer["message"] == "The step this was drawn on is not on the server, so the drawing was not saved."
    )
    assert ask(coach, "rub", ss=["s1"], **at(coach, ["pass:left_corner"]))["message"] == answer["message"]
    assert put(coach, "s2", at(coach, FIRST))["t"] == "inked"
    assert shown(coach) == {"pass:right_wing": ["s2"]}


def test_a_screen_that_leaves_in_the_middle_of_a_stroke_leaves_nothing(device: Device, phone: Screen) -> None:
    with device.coach() as other:
        other.hello()
        begin = {"s": "s9", "tool": 0, "colour": 0, "p": [0, 0, 50], **at(other)}
        other.send({"t": "ink", "do": "begin", **begin})
        assert phone.wait("ink")["do"] == "begin"
    assert phone.wait("ink") == {"t": "ink", "do": "drop", "s": "s9"}


def test_a_viewer_cannot_draw(coach: Screen, phone: Screen) -> None:
    place = at(coach, FIRST)
    phone.send({"t": "ink", "do": "begin", "s": "s1", "tool": 0, "colour": 0, "p": [0, 0, 5], **place})
    assert phone.wait("refused")["code"] == "viewer"
    assert ask(phone, "rub", ss=["s1"], **place)["code"] == "viewer"


@pytest.mark.parametrize(
    ("wrong", "why"),
    [
        ({"p": [0, 0]}, "p"),
        ({"p": [0, 0, 1] * 241}, "p"),
        ({"p": [0, 0, 5, 1]}, "p: This must be three numbers a point"),
        ({"p": [0.5, 0, 5]}, "p"),
        ({"p": [99_999, 0, 5]}, "p"),
        ({"tool": 7}, "tool"),
        ({"colour": True}, "colour"),
        ({"do": "scribble"}, "do"),
        ({"ss": ["s1"]}, "do: This must be given for this one, and only then: ss"),
        ({"line": [["x"] * 3]}, "line"),
    ],
)
def test_what_is_no_ink_is_refused(coach: Screen, wrong: dict[str, Any], why: str) -> None:
    whole = {"k": "k", "s": "s", "tool": 0, "colour": 0, "p": POINTS, **refs(**at(coach, FIRST))}
    coach.send({"t": "ink", "do": "put", **whole, **wrong})
    refused = coach.wait("refused", "inked")
    assert refused["code"] == "unreadable"
    assert why in refused["message"]
    assert shown(coach) == {}


def test_points_that_wander_off_the_floor_are_not_kept(coach: Screen) -> None:
    for name, points in (("s1", [1900, 0, 50, 1900, 0, 0]), ("s2", [0, 0, 90, 1, 1, 90])):
        assert "runs off the floor" in put(coach, name, at(coach, FIRST), p=points)["message"]
    assert shown(coach) == {}


def test_a_step_holds_so_much_ink_and_says_so(coach: Screen) -> None:
    place, names = at(coach, FIRST), [f"n{i}" for i in range(STEP_MAX)]
    for name in names:
        assert "message" not in put(coach, name, place, p=[0, 0, 50])
    assert put(coach, "more", place)["message"].startswith(
        "There is as much ink on this play as it can hold."
    )
    assert STEP_MAX < CHAIN_MAX
    ask(coach, "rub", ss=names[:10], **place)
    assert "message" not in put(coach, "more", place)
    assert shown(coach) == {"pass:right_wing": [*names[10:], "more"]}


def test_ink_that_comes_in_from_a_file_is_seen_at_once_and_counts(
    device: Device, coach: Screen, phone: Screen
) -> None:
    place, asked = at(coach, FIRST), f"board={device.board_id}"
    put(coach, "s1", place)
    ask(coach, "rub", ss=["s1"], **place)
    file = device.ask("GET", f"/api/team/everything?{asked}").json
    (chain,) = file["chains"]
    assert "ink" not in chain
    chain["tree"] += [[1, "fill:left_corner pass:top", 0], [2, "fill:right_corner pass:left_wing", 0]]
    per = CHAIN_MAX // 4
    chain["ink"] = [
        {"step": step, "strokes": [[f"n{i}", 0, 0, 0, POINTS] for i in range(per)]} for step in range(4)
    ]
    sent = json.dumps(file).encode()
    seen = device.ask("POST", f"/api/import/look?{asked}", sent).json["seen"]
    answer = device.ask("POST", f"/api/import?{asked}&seen={seen}&chains=theirs", sent)
    assert answer.status == 200, answer.text
    for each in (coach, phone):
        pages = each.wait("inks")["pages"]
        assert {len(page["strokes"]) for page in pages} == {per}
        assert len(pages) == 4
    # What was rubbed out has no room any more.
    said = ask(coach, "back", ss=["s1"], **place)["message"]
    assert said.startswith("There is as much ink on this play as it can hold.")
    assert "s1" not in shown(coach)["pass:right_wing"]


def test_points_are_read_as_they_were_written() -> None:
    assert points_of(POINTS) == ((0.0, 300.0, 0.5), (120.0, 340.0, 0.5), (110.0, 345.0, 0.6))
