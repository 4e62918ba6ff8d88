"""Many screens, slow screens, rude screens: one must never cost another."""

from __future__ import annotations

import socket
import time
from contextlib import ExitStack
from pathlib import Path

import pytest

from tests.server import LiveServer, Servers
from tests.webapp.screens import Device, screen, viewing_path
from webapp.base.settings import Settings

#: A server that waited for a screen which takes nothing would wait twice as long: whoever is answered sooner
#: has not been held up by it, however busy the machine is.
PROMPT_S = Settings().send_timeout_s / 2


@pytest.fixture
def server(live_server: Servers, tmp_path: Path) -> LiveServer:
    return live_server(
        tmp_path / "data",
        viewers_max_count=3,
        coaches_max_count=2,
        send_buffer_bytes=4096,
        outbox_max_count=8,
    )


@pytest.fixture
def device(server: LiveServer) -> Device:
    device = Device(server)
    device.open_coaching_link(server.coach_url)
    return device


def test_viewers_beyond_the_limit_are_told_so(device: Device, server: LiveServer) -> None:
    path = viewing_path(device.share())
    with ExitStack() as stack:
        for _ in range(3):
            stack.enter_context(screen(server, path))
        with screen(server, path, hello=False) as fourth:
            refusal = fourth.hear()
            assert (
                refusal["message"]
                == "As many phones are following as this board can take. Try again in a minute."
            )
            assert fourth.end().code == 1013
        assert device.ask("GET", "/").status == 200  # plain pages go on
        with device.coach() as coach:
            assert coach.act_on()["t"] == "step"
    with screen(server, path) as again:
        assert again.state["t"] == "state"


def test_coaches_beyond_the_limit_are_told_so(device: Device) -> None:
    with device.coach(), device.coach(), device.coach(hello=False) as third:
        assert third.hear()["code"] == "full_coaches"


def test_one_that_stops_reading_delays_nobody_and_is_dropped(device: Device, server: LiveServer) -> None:
    path = viewing_path(device.share())
    with device.coach() as coach, screen(server, path) as phone, stalled(server, path) as stuck:
        for _ in range(120):
            began = time.monotonic()
            change = coach.change("fresh")
            assert phone.wait("state")["seq"] == change["seq"]
            assert time.monotonic() - began < PROMPT_S
        # By now far more was said than may wait for one screen; the line to it has been cut.
        assert read_to_the_end(stuck)
        while coach.viewers != 1:
            coach.wait("viewers")


def test_a_stalled_screen_does_not_hold_up_its_own_dismissal(device: Device, server: LiveServer) -> None:
    link = device.share()
    with device.coach() as coach, stalled(server, viewing_path(link)) as stuck:
        for _ in range(10):
            coach.change("fresh")
        began = time.monotonic()
        assert device.ask("DELETE", f"/api/links/{link['id']}").status == 200
        assert time.monotonic() - began < PROMPT_S
        assert read_to_the_end(stuck)


def test_a_stalled_screen_does_not_hold_up_the_end(device: Device, server: LiveServer) -> None:
    with device.coach() as coach, stalled(server, viewing_path(device.share())):
        for _ in range(8):
            coach.change("fresh")
        began = time.monotonic()
        assert server.stop() == 0
        assert time.monotonic() - began < 3
    assert server.errors() == ""


def test_clients_that_do_not_say_goodbye_hold_up_no_page(device: Device, server: LiveServer) -> None:
    host, port = server.host.split(":")
    began = time.monotonic()
    with ExitStack() as stack:
        for _ in range(4):
            rude = stack.enter_context(socket.create_connection((host, int(port))))
            rude.sendall(
                b"GET /join HTTP/1.1\r\nHost: " + server.host.encode() + b"\r\nConnection: close\r\n\r\n"
            )
            assert rude.recv(64)
            # It has its answer and does not hang up, which the server bears for two seconds.
        assert device.ask("GET", "/join").status == 200
        assert time.monotonic() - began < PROMPT_S


def test_a_silent_connection_is_closed(live_server: Servers, tmp_path: Path) -> None:
    server = live_server(tmp_path / "data", hello_timeout_s=0.2)
    device = Device(server)
    device.open_coaching_link(server.coach_url)
    with device.coach(hello=False) as coach:
        assert coach.end().code == 1008


def test_a_phone_that_vanished_is_noticed(live_server: Servers, tmp_path: Path) -> None:
    server = live_server(tmp_path / "data", ping_interval_s=1, viewers_interval_s=0)
    device = Device(server)
    device.open_coaching_link(server.coach_url)
    with device.coach() as coach, stalled(server, viewing_path(device.share())):
        # It is there, but does not answer whether it is.
        while coach.viewers != 1:
            coach.wait("viewers")
        while coach.viewers != 0:
            coach.wait("viewers")


class stalled:
    """A phone that greets and then takes nothing more off the line."""

    def __init__(self, server: LiveServer, path: str) -> None:
        host, port = server.host.split(":")
        self._socket = socket.socket()
        self._socket.setsockopt(socket.SOL_SOCKET, socket.SO_RCVBUF, 4096)
        self._socket.settimeout(15)
        self._socket.connect((host, int(port)))
        self._socket.sendall(
            f"GET {path} HTTP/1.1\r\nHost: {server.host}\r\nOrigin: {server.url}\r\nUpgrade: websocket\r\n"
            "Connection: Upgrade\r\nSec-WebSocket-Key: AAAAAAAAAAAAAAAAAAAAAA==\r\n"
            "Sec-WebSocket-Version: 13\r\n\r\n".encode()
        )
        answer = self._socket.recv(12)
        assert answer == b"HTTP/1.1 101", answer
        hello = b'{"t":"hello","v":1,"seen":null}'
        # A client's frames are masked (RFC 6455, section 5.3); a mask of zeros changes nothing.
        self._socket.sendall(bytes((0x81, 0x80 | len(hello))) + bytes(4) + hello)

    def __enter__(self) -> socket.socket:
        return self._socket

    def __exit__(self, *_: object) -> None:
        self._socket.close()


def read_to_the_end(stuck: socket.socket) -> bool:
    """Read what was still on the line until it turns out to be cut."""
    try:
        while stuck.recv(65536):
            pass
    except ConnectionResetError:
        pass
    return True
