"""The command line, run as a person runs it."""

from __future__ import annotations

import json
import subprocess
import sys
from typing import Any

import pytest


def run(*words: str, given: bytes = b"") -> subprocess.CompletedProcess[bytes]:
    return subprocess.run(
        [sys.executable, "-m", "engine", *words], input=given, capture_output=True, check=False, timeout=60
    )


def replay(formation: str, text: bytes) -> list[dict[str, Any]]:
    done = run("replay", formation, given=text)
    assert done.returncode == 0, done.stderr
    return [json.loads(line) for line in done.stdout.splitlines()]


def test_an_empty_line_is_the_start() -> None:
    (answer,) = replay("four_out_one_in", b"\n")
    assert answer["occupied"] == {
        "right_slot": 1, "right_wing": 2, "left_wing": 3, "left_slot": 4, "right_block": 5
    }  # fmt: skip
    assert (answer["ball"], answer["cutter"], answer["over"], answer["default"]) == (
        "right_slot", None, False, None
    )  # fmt: skip
    assert len(answer["legal"]) == 15


def test_one_answer_a_line_and_errors_do_not_stop_it() -> None:
    lines = [
        b"pass:right_wing",
        b"pass:right_wing fill:left_corner moon drive",
        b"shot pass:top",
        b"pass:right_wing  drive:left",
        b"\xff\xfe",
        b"pass:right_wing shot",
        b"pass",
    ]
    answers = replay("five_out", b"\n".join(lines))
    assert len(answers) == len(lines)
    assert answers[0]["cutter"] == "rim"
    assert answers[0]["default"] == "fill:left_corner"
    assert [answer.get("at") for answer in answers] == [None, 2, 1, 1, 0, None, 0]
    assert "possession ended" in answers[2]["error"]
    assert "pass:SPOT" in answers[6]["error"]
    assert answers[5] == {
        "occupied": {"left_wing": 5, "right_corner": 4, "right_wing": 2, "rim": 1, "top": 3},
        "ball": "right_wing", "cutter": "rim", "over": True, "legal": [], "default": None,
    }  # fmt: skip


def test_windows_line_ends_are_line_ends() -> None:
    assert [a.get("error") for a in replay("five_out", b"pass:right_wing\r\n\r\n")] == [None, None]


def test_perft_prints_the_count_alone() -> None:
    done = run("perft", "three_out_two_in", "3")
    assert (done.returncode, done.stdout) == (0, b"908\n")
    assert run("perft", "five_out", "0").stdout == b"1\n"


@pytest.mark.parametrize(
    "words", [("replay", "six_out"), ("perft", "five_out", "-1"), ("perft", "five_out"), ()]
)
def test_a_bad_call_says_how_and_exits_2(words: tuple[str, ...]) -> None:
    done = run(*words)
    assert done.returncode == 2
    assert b"usage:" in done.stderr
    assert b"Traceback" not in done.stderr


def test_standard_input_that_cannot_be_read_is_an_error() -> None:
    done = subprocess.run(
        f"exec {sys.executable} -m engine replay five_out <&-", shell=True, capture_output=True, check=False
    )
    assert done.returncode == 1
    assert b"cannot be read" in done.stderr


def test_help_explains_both_with_an_example() -> None:
    text = run("--help").stdout.decode()
    assert "pass:right_wing fill:left_corner drive:right" in text
    assert "perft five_out 3" in text
