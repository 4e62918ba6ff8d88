"""Going back in a chain: what could have been done there instead is told again whenever a coach asks."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest

from tests.server import LiveServer
from tests.webapp.screens import Device, Screen, screen, viewing_path

TAPS = (["pass:right_wing"], ["fill:left_corner"], ["drive:left"])


@pytest.fixture
def coach(device: Device) -> Iterator[Screen]:
    """That device's screen, three steps into a chain."""
    with device.coach() as screen:
        for actions in TAPS:
            screen.act(*actions)
        settled(screen)
        yield screen


def settled(coach: Screen) -> None:
    """Hear all that is still on its way."""
    coach.send({"t": "ping"})
    coach.wait("pong")


def look(coach: Screen, at: object) -> Any:
    """Ask what could be tapped after ``at`` steps, and return the answer."""
    coach.send({"t": "look", "at": at})
    return coach.wait("offers", "refused")


def offered(message: Any) -> list[list[str]]:
    return [offer["a"] for offer in message["offers"]]


def test_each_earlier_step_is_told_as_it_was_then(device: Device) -> None:
    with device.coach() as coach:
        then = [coach.wait("offers")]
        for actions in TAPS:
            coach.act(*actions)
            then.append(coach.wait("offers"))
        settled(coach)
        for at, message in enumerate(then):
            again = look(coach, at)
            assert (again["at"], again["seq"]) == (at, len(TAPS))
            told = {name: value for name, value in message.items() if name != "forks"}
            assert {**again, "seq": message["seq"]} == {**told, "at": at}


def test_looking_changes_nothing_and_what_it_tells_can_be_played(coach: Screen, device: Device) -> None:
    before = (coach.seq, coach.chain())
    answer = look(coach, 1)
    with device.coach() as other:
        assert (other.seq, other.chain()) == before
    assert ["post_up:left_block"] in offered(answer)
    coach.act("post_up:left_block", at=1)
    assert coach.chain() == [["pass:right_wing"], ["post_up:left_block"]]


def test_beyond_the_chain_there_is_nothing_to_see(coach: Screen) -> None:
    assert offered(look(coach, 3))
    answer = look(coach, 4)
    assert (answer["t"], answer["code"]) == ("refused", "at")
    assert (coach.seq, coach.chain()) == (3, [list(tap) for tap in TAPS])


@pytest.mark.parametrize("at", [-1, 1.5, "1", True, None, 2**53])
def test_a_bad_depth_is_not_understood(coach: Screen, at: object) -> None:
    assert look(coach, at)["code"] == "unreadable"


def test_a_phone_is_not_told(coach: Screen, device: Device, server: LiveServer) -> None:
    with screen(server, viewing_path(device.share())) as phone:
        phone.send({"t": "look", "at": 0})
        assert phone.wait("offers", "refused")["code"] == "viewer"


def test_a_later_stage_is_not_offered_earlier_in_the_chain(coach: Screen) -> None:
    assert ["drive:left"] in offered(look(coach, 0))
    coach.change("setup", stage=0)
    settled(coach)
    assert {actions[0].split(":")[0] for actions in offered(look(coach, 0))} == {"pass", "skip", "shot"}
