"""Nothing answered is lost, however the server ends; and only one server runs on the same data."""

from __future__ import annotations

import http.client
import os
import signal
import socket
import sqlite3
import threading
import time
from collections.abc import Callable
from contextlib import closing, suppress
from pathlib import Path

import pytest
from websockets.exceptions import ConnectionClosed

from tests.server import DidNotStart, LiveServer, Servers
from tests.webapp.screens import Device, screen, viewing_path

SHUTDOWN_S = 3.0

#: How a server may end. "Power cut" is as near as a test can come: every process of it at once.
ENDS: dict[str, Callable[[LiveServer], object]] = {
    "kill -9 of all": LiveServer.kill_group,
    "kill -9 of the master": LiveServer.kill_master,
    "asked to stop": LiveServer.stop,
}


@pytest.mark.parametrize("end", ENDS.values(), ids=ENDS)
def test_every_answered_action_is_there_after_a_restart(
    live_server: Servers, data_dir: Path, end: Callable[[LiveServer], object]
) -> None:
    server = live_server(data_dir)
    device = Device(server)
    device.open_coaching_link(server.coach_url)
    link = device.share()
    with device.coach() as coach:
        coach.change("fresh")
        for _ in range(5):
            coach.act_on()
        coach.change("undo")
        chain, seq, ahead = coach.chain(), coach.seq, coach.ahead
        end(server)
        server.restart()
    with device.coach() as coach, screen(server, viewing_path(link)) as viewer:
        assert (coach.chain(), coach.seq, coach.ahead) == (chain, seq, ahead)
        assert viewer.steps == coach.steps
        assert coach.change("redo")["depth"] == 5


@pytest.mark.parametrize("end", [LiveServer.kill_group, LiveServer.kill_master], ids=["all", "the master"])
def test_actions_answered_while_the_server_is_killed_are_kept(
    live_server: Servers, data_dir: Path, end: Callable[[LiveServer], object]
) -> None:
    server = live_server(data_dir)
    device = Device(server)
    device.open_coaching_link(server.coach_url)
    answered: list[int] = []
    enough = threading.Event()

    def play() -> None:
        with suppress(ConnectionClosed, OSError), device.coach() as coach:
            while True:
                answered.append(coach.change("fresh")["seq"])
                if len(answered) == 5:
                    enough.set()

    player = threading.Thread(target=play)
    player.start()
    assert enough.wait(15)
    end(server)
    player.join(15)
    assert not player.is_alive()
    server.restart()
    with device.coach() as coach:
        # At most one change was stored whose answer did not get out.
        assert coach.seq - answered[-1] in (0, 1)


def test_the_worker_ends_with_its_master_and_frees_the_port(live_server: Servers, data_dir: Path) -> None:
    server = live_server(data_dir)
    device = Device(server)
    device.open_coaching_link(server.coach_url)
    with device.coach() as coach:
        began = time.monotonic()
        server.kill_master()
        coach.wait_until_cut()
        assert time.monotonic() - began < 1.0
    assert server.restart().url == server.url


def test_a_worker_that_dies_alone_is_replaced(live_server: Servers, data_dir: Path) -> None:
    server = live_server(data_dir)
    device = Device(server)
    device.open_coaching_link(server.coach_url)
    with device.coach() as coach:
        coach.change("fresh")
        seq = coach.seq
        os.kill(_worker_of(server), signal.SIGKILL)
        coach.wait_until_cut()
    with device.coach() as coach:
        assert coach.change("fresh")["seq"] == seq + 1


def _worker_of(server: LiveServer) -> int:
    found = Path(f"/proc/{server.process.pid}/task/{server.process.pid}/children")
    if not found.exists():
        pytest.skip("the system does not list the processes of a server")
    return int(found.read_text().split()[0])


def test_a_second_server_on_the_same_data_is_refused(live_server: Servers, data_dir: Path) -> None:
    server = live_server(data_dir)
    with pytest.raises(DidNotStart) as refused:
        live_server(data_dir, lock_wait_s=0.2)
    assert refused.value.status == 1
    assert refused.value.error == (
        f"Another Quintet server is already running on {data_dir}; stop it first, or start this one with "
        "another folder (--data).\n"
    )
    # The first one is none the worse for it.
    device = Device(server)
    device.open_coaching_link(server.coach_url)
    with device.coach() as coach:
        assert coach.change("fresh")["t"] == "state"


def test_a_server_that_was_passed_by_changes_nothing_and_ends(live_server: Servers, data_dir: Path) -> None:
    server = live_server(data_dir)
    device = Device(server)
    device.open_coaching_link(server.coach_url)
    with device.coach() as coach:
        # As a server would that did not see the lock, on a shared folder that has none.
        with sqlite3.connect(data_dir / "quintet.sqlite3") as database:
            database.execute("UPDATE server_lock SET generation = generation + 1")
        database.close()
        refusal = coach.change("fresh")
        assert (refusal["t"], refusal["code"]) == ("refused", "taken_over")
    server.process.wait(10)


@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGINT, signal.SIGHUP])
@pytest.mark.parametrize("options", [(), ("--plain",)], ids=["gunicorn", "plain"])
def test_it_stops_within_three_seconds_with_sockets_open(
    live_server: Servers, data_dir: Path, number: signal.Signals, options: tuple[str, ...]
) -> None:
    server = live_server(data_dir, *options)
    device = Device(server)
    device.open_coaching_link(server.coach_url)
    host, port = server.host.split(":")
    with (
        device.coach() as coach,
        screen(server, viewing_path(device.share())) as viewer,
        closing(http.client.HTTPConnection(host, int(port))) as browser,
    ):
        browser.request("GET", "/join")  # and keeps the line open, as browsers do
        browser.getresponse().read()
        began = time.monotonic()
        os.killpg(server.process.pid, number)  # as a terminal does
        assert server.process.wait(10) == 0
        assert time.monotonic() - began < SHUTDOWN_S
        assert [coach.end().code, viewer.end().code] == [1012, 1012]
    assert server.errors() == ""


def test_the_plain_server_plays_the_same_game(live_server: Servers, data_dir: Path) -> None:
    server = live_server.from_nothing(data_dir, "--plain")
    device = Device(server)
    device.open_coaching_link(server.coach_url)
    with device.coach() as coach, screen(server, viewing_path(device.share())) as viewer:
        answer = coach.act_on()
        assert viewer.wait("step") == answer
        server.kill_group()
        server.restart()
    with device.coach() as coach:
        assert coach.seq == answer["seq"]


def test_each_start_gives_a_new_coaching_link_and_keeps_the_keys(
    live_server: Servers, data_dir: Path
) -> None:
    server = live_server.from_nothing(data_dir)
    first, device = server.coach_url, Device(server)
    device.open_coaching_link(first)
    server.stop()
    server.restart()
    assert server.coach_url != first
    assert Device(server).ask("GET", "/c/" + first.rsplit("/", 1)[1]).status == 410
    assert device.ask("GET", f"/board/{device.board_id}").status == 200
    links = device.ask("GET", f"/api/board/{device.board_id}/access").json["links"]
    assert [link["name"] for link in links] == ["this machine"]


def test_a_port_in_use_is_named(live_server: Servers, data_dir: Path) -> None:
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = taken.getsockname()[1]
        with pytest.raises(DidNotStart) as refused:
            LiveServer(data_dir, port=port).start()
    assert refused.value.status == 1
    assert refused.value.error.startswith(f"Port {port} cannot be used")


def test_data_that_is_no_database_is_named_and_left_alone(live_server: Servers, data_dir: Path) -> None:
    data_dir.mkdir()
    (data_dir / "quintet.sqlite3").write_bytes(b"not a database, but somebody's file" * 100)
    with pytest.raises(DidNotStart) as refused:
        live_server(data_dir)
    assert refused.value.status == 1
    assert "cannot be used" in refused.value.error
    assert "Traceback" not in refused.value.error
    assert (data_dir / "quintet.sqlite3").read_bytes().startswith(b"not a database")


def test_a_setting_that_cannot_be_is_named(live_server: Servers, data_dir: Path) -> None:
    with pytest.raises(DidNotStart) as refused:
        live_server(data_dir, viewers_max_count="many")
    assert refused.value.error == "QUINTET_VIEWERS_MAX_COUNT must be a whole number, not 'many'.\n"


def test_it_listens_on_this_machine_only_unless_asked(live_server: Servers, data_dir: Path) -> None:
    address = _other_address()
    server = live_server(data_dir)
    with pytest.raises(ConnectionRefusedError):
        socket.create_connection((address, server.port), 5)
    server.stop()
    opened = live_server(data_dir, "--local-network")
    socket.create_connection((address, opened.port), 5).close()


def _other_address() -> str:
    """An address of this machine that is not the one it listens on by itself."""
    return "127.0.0.2"
