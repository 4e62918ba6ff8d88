"""Seeded screens that act at once, repeat themselves, drop and come back: in the end all show the same."""

from __future__ import annotations

import random
from contextlib import AbstractContextManager, ExitStack
from pathlib import Path
from typing import Any

import pytest

from tests.engine.script.scripts import WORKED
from tests.server import LiveServer, Servers
from tests.webapp.screens import Device, Screen, screen, viewing_path

ROUNDS = 60


@pytest.fixture(scope="module")
def server(module_servers: Servers, tmp_path_factory: pytest.TempPathFactory) -> LiveServer:
    directory: Path = tmp_path_factory.mktemp("peers")
    return module_servers(directory / "data", viewer_steps_max_count=5)


class Peers:
    """Two coaches and two phones on one board, some of them away at times."""

    def __init__(self, server: LiveServer, seed: int) -> None:
        self.chance = random.Random(seed)
        self.server, self.device = server, Device(server)
        self.device.make_team()
        self.squad = [self.player(number) for number in ("4", "11")]
        self.path = viewing_path(self.device.share())
        self.seats: list[tuple[ExitStack, Screen]] = [self.sit(n) for n in range(4)]
        self.said: list[dict[str, Any]] = []

    def sit(self, seat: int) -> tuple[ExitStack, Screen]:
        """Open the screen of a seat: 0 and 1 are coaches, 2 and 3 phones."""
        stack = ExitStack()
        opened: AbstractContextManager[Screen]
        opened = self.device.coach() if seat < 2 else screen(self.server, self.path)
        return stack, stack.enter_context(opened)

    def player(self, number: str) -> str:
        """Take a player into the squad who may not drive."""
        given = {"number": number, "may": ["pass", "skip", "dribble_at", "post_up"]}
        return str(self.device.ask("POST", "/api/team/players", given).json["id"])

    def drop(self, seat: int) -> None:
        """Let the line of a seat break, and come back."""
        self.seats[seat][0].close()
        self.seats[seat] = self.sit(seat)

    def turn(self) -> None:
        """Let somebody do something."""
        what = self.chance.random()
        if what < 0.15:
            self.drop(self.chance.randrange(4))
            return
        coach = self.seats[self.chance.randrange(2)][1]
        if what < 0.25 and self.said:
            coach.send(self.chance.choice(self.said))  # once more, whoever said it first
            return
        message = {"id": f"{len(self.said)}", "base": coach.seq, **self.wish(coach)}
        self.said.append(message)
        coach.send(message)
        if what < 0.9:  # else it goes on without having heard the answer
            while (answer := coach.wait("step", "back", "state", "refused")).get("id") != message["id"]:
                pass
            assert answer["t"] != "refused" or answer["code"] in EXPECTED, answer

    def wish(self, coach: Screen) -> dict[str, Any]:
        """Return some change."""
        kinds = ("act", "act", "act", "act", "drawn", "undo", "redo", "fresh", "setup", "recover")
        kind = self.chance.choice(kinds)
        if kind == "setup":
            return {"t": kind, **self.chance.choice(self.settings())}
        at = self.chance.choice((len(coach.steps), self.chance.randint(0, len(coach.steps))))
        if kind == "drawn":
            return {"t": "act", "at": at, "a": [self.chance.choice(WORKED)]}
        if kind == "recover":
            where = {n: [self.chance.randint(-700, 700), self.chance.randint(-100, 1200)] for n in "12345"}
            return {"t": kind, "at": at, "where": where}
        if kind != "act":
            return {"t": kind}
        offers = [offer["a"] for offer in coach.offered.get("offers", [])] or [["shot"]]
        return {"t": kind, "at": at, "a": self.chance.choice(offers)}

    def settings(self) -> list[dict[str, Any]]:
        """Return what a board may be set to."""
        return [
            {"court": self.chance.choice(("fiba", "nba"))},
            {"rules": self.chance.choice(("pass_and_cut", "first_steps"))},
            {"stage": self.chance.choice((None, 0, 1))},
            {"places": {self.chance.choice("12345"): self.chance.choice((None, *self.squad))}},
        ]

    def settle(self) -> None:
        """Wait until everything said has been dealt with: each screen's messages are, in their order."""
        for _, seat in self.seats:
            seat.send({"t": "ping"})
            seat.wait("pong")

    def close(self) -> None:
        """Close all screens."""
        for stack, _ in self.seats:
            stack.close()


EXPECTED = {"stale", "illegal", "nothing_to_undo", "nothing_to_redo"}


@pytest.mark.parametrize("seed", range(4))
def test_all_screens_end_with_the_same_board(server: LiveServer, seed: int) -> None:
    peers = Peers(server, seed)
    try:
        for _ in range(ROUNDS):
            peers.turn()
        peers.settle()
        with peers.device.coach() as last:
            last.change("setup", level=0.8)  # so that everybody has something to wait for
            whole = last.chain()
            assert last.state["board"]["level"] == 0.8
            for _, seat in peers.seats:
                while seat.seq < last.seq:
                    seat.hear()
                assert seat.seq == last.seq
                assert seat.chain() == whole[seat.state["first"] :]
                assert seat.ahead == last.ahead
                assert seat.steps == last.steps[seat.state["first"] :]
    finally:
        peers.close()
