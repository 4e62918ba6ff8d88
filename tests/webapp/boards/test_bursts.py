"""A tablet back from hours without a network sends all it has done at once, and loses none of it."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.server import LiveServer, Servers
from tests.webapp.screens import Device

COUNT = 120


@pytest.fixture
def server(live_server: Servers, tmp_path: Path) -> LiveServer:
    return live_server(tmp_path / "data", outbox_max_count=8)


def test_many_changes_sent_at_once_are_all_answered_on_one_line(server: LiveServer) -> None:
    device = Device(server)
    device.make_team()
    with device.coach() as screen:
        screen.act_on()
        begun = screen.seq
        names = [f"burst{count}" for count in range(COUNT)]
        for count, name in enumerate(names):
            kind = "redo" if count % 2 else "undo"
            screen.send({"t": kind, "id": name, "base": begun + count})
        answered: list[str] = []
        while len(answered) < COUNT:
            answer = screen.wait("step", "back", "state", "refused")
            assert answer["t"] != "refused", answer
            answered.append(answer["id"])
        assert answered == names
        assert screen.seq == begun + COUNT
