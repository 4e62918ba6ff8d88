"""Phones are told where in the chain the coach looks: by whom, and of which chain."""

from __future__ import annotations

from typing import Any

import pytest

from tests.server import LiveServer
from tests.webapp.screens import Device, Screen, screen, viewing_path


def shown(coach: Screen, at: int, plays: str = "rest", seq: int | None = None) -> dict[str, Any]:
    message = {"t": "show", "seq": coach.seq if seq is None else seq, "at": at, "plays": plays}
    coach.send(message)
    return message


def test_phones_are_told_and_nothing_changes(coach: Screen, device: Device, server: LiveServer) -> None:
    coach.act("pass:right_wing")
    seq = coach.seq
    with screen(server, viewing_path(device.share())) as phone:
        assert shown(coach, 0, "step") == phone.wait("show")
        assert shown(coach, 1) == phone.wait("show")
        coach.change("undo")
        assert phone.wait("back")["seq"] == seq + 1


def test_what_is_said_of_a_chain_that_has_changed_is_left_aside(
    coach: Screen, device: Device, server: LiveServer
) -> None:
    with screen(server, viewing_path(device.share())) as phone:
        coach.act("pass:right_wing")
        shown(coach, 0, seq=coach.seq - 1)
        wanted = shown(coach, 1)
        assert phone.wait("show") == wanted


def test_of_two_coaches_it_is_the_one_who_changed_the_board_last(
    coach: Screen, device: Device, server: LiveServer
) -> None:
    with device.coach() as other, screen(server, viewing_path(device.share())) as phone:
        coach.act("pass:right_wing")
        other.wait("step")
        shown(other, 0, seq=coach.seq)  # looks something up
        assert shown(coach, 1) == phone.wait("show")
        other.change("undo", base=coach.seq)
        coach.wait("back")
        shown(coach, 1)
        assert shown(other, 0) == phone.wait("show")


def test_a_phone_shows_nobody_anything(coach: Screen, device: Device, server: LiveServer) -> None:
    with screen(server, viewing_path(device.share())) as phone:
        phone.send({"t": "show", "seq": coach.seq, "at": 0, "plays": "rest"})
        assert phone.wait("refused")["code"] == "viewer"


@pytest.mark.parametrize("wrong", [{"at": -1}, {"at": "0"}, {"plays": "all"}, {"seq": None}, {"more": 1}])
def test_what_cannot_be_read_is_refused(coach: Screen, wrong: dict[str, Any]) -> None:
    coach.send({"t": "show", "seq": coach.seq, "at": 0, "plays": "rest", **wrong})
    assert coach.wait("refused")["code"] == "unreadable"
