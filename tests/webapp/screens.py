"""Screens without a browser: a device with its cookies, and what it says and hears on a live board."""

from __future__ import annotations

import http.client
import itertools
import json
import socket
import urllib.parse
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import Any

from websockets.exceptions import ConnectionClosed
from websockets.frames import Close
from websockets.sync.client import ClientConnection, connect

from tests.server import LiveServer, SecureSide
from webapp.secure.line import SharedLine

PATIENCE_S = 15.0
#: Two steps of a chain in five out, as most tests that need a chain play them.
FIRST, THEN = ["pass:right_wing"], ["fill:left_corner", "pass:top"]
_IDS = itertools.count(1)


@dataclass
class Answer:
    """An HTTP answer."""

    status: int
    headers: http.client.HTTPMessage
    text: str

    @property
    def json(self) -> Any:
        """Its body, as JSON."""
        return json.loads(self.text)

    @property
    def error(self) -> Any:
        """The error its body tells of."""
        return self.json["error"]


@dataclass
class Device:
    """A browser's worth of cookies on one server."""

    server: LiveServer | SecureSide
    cookies: dict[str, str] = field(default_factory=dict)
    board_id: str = ""

    def ask(
        self, method: str, path: str, body: object = None, *, form: bool = False, **headers: str
    ) -> Answer:
        """Send a request as our own page would, and keep the cookies of the answer."""
        wire = self.server.wire(PATIENCE_S)
        data: bytes | None = None
        sent = {"Cookie": "; ".join(f"{k}={v}" for k, v in self.cookies.items())} | {
            name.replace("_", "-"): value for name, value in headers.items()
        }
        if isinstance(body, bytes):
            data = body
        elif form and isinstance(body, dict):
            data = urllib.parse.urlencode(body).encode()
            sent["Content-Type"] = "application/x-www-form-urlencoded"
        elif body is not None:
            data = json.dumps(body).encode()
            sent["Content-Type"] = "application/json"
        if method != "GET":
            sent.setdefault("Origin", self.server.url)
        wire.request(method, path, data, sent)
        got = wire.getresponse()
        answer = Answer(got.status, got.headers, got.read().decode())
        wire.close()
        for line in got.headers.get_all("Set-Cookie", []):
            name, _, value = line.partition(";")[0].partition("=")
            self.cookies[name] = value
        return answer

    @contextmanager
    def streaming(self, method: str, path: str, body: object) -> Iterator[http.client.HTTPResponse]:
        """Send a request and give its answer to be read line by line; the line is cut at the end."""
        wire = self.server.wire(PATIENCE_S)
        cookie = "; ".join(f"{k}={v}" for k, v in self.cookies.items())
        wire.request(method, path, json.dumps(body).encode(), {"Cookie": cookie, "Origin": self.server.url})
        with wire.getresponse() as answer:
            yield answer
        wire.close()

    def open_coaching_link(self, url: str) -> str:
        """Open a coaching link and return the board it leads to."""
        answer = self.ask("GET", urllib.parse.urlsplit(url).path)
        assert answer.status == 303, answer.text
        self.board_id = answer.headers["Location"].rsplit("/", 1)[1]
        return self.board_id

    def make_team(self, team: str = "Quay Otters", board: str = "First") -> str:
        """Make a team and return its board."""
        answer = self.ask("POST", "/teams", {"team": team, "board": board}, form=True)
        assert answer.status == 303, answer.text
        self.board_id = answer.headers["Location"].rsplit("/", 1)[1]
        return self.board_id

    def share(self, kind: str = "view", name: str = "players") -> Any:
        """Make a link to this device's board."""
        answer = self.ask("POST", f"/api/board/{self.board_id}/links", {"kind": kind, "name": name})
        assert answer.status == 201, answer.text
        return answer.json

    @contextmanager
    def coach(self, **given: Any) -> Iterator[Screen]:
        """Open this device's board as its coach."""
        path = f"/live/board/{self.board_id}"
        with screen(self.server, path, cookies=self.cookies, **given) as found:
            yield found


@contextmanager
def screen(
    server: LiveServer | SecureSide,
    path: str,
    *,
    cookies: dict[str, str] | None = None,
    hello: bool = True,
    origin: str | None = "",
    **given: Any,
) -> Iterator[Screen]:
    """Open a live socket, say hello, and take in the first state."""
    cookie = "; ".join(f"{k}={v}" for k, v in (cookies or {}).items())
    with connect(
        f"ws://{server.host}{path}",
        sock=_encrypted(server),
        origin=server.url if origin == "" else origin,  # type: ignore[arg-type]
        additional_headers={"Cookie": cookie},
        max_size=None,
        open_timeout=PATIENCE_S,
        close_timeout=1,
        **given,
    ) as socket:
        found = Screen(socket)
        if hello:
            found.hello()
        yield found


def _encrypted(server: LiveServer | SecureSide) -> Any:
    """Return an encrypted line to the server, where it has one.

    The client reads in one thread and writes in another, which OpenSSL does not bear on its own.
    """
    if server.tls is None:
        return None
    name, _, port = server.host.partition(":")
    line = socket.create_connection((name, int(port)), timeout=PATIENCE_S)
    return SharedLine(server.tls.wrap_socket(line, server_hostname=name))


def viewing_path(link: Any) -> str:
    """Return the live address of a viewing link."""
    return f"/live/view/{link['url'].rsplit('/', 1)[1]}"


class Screen:
    """One end of a live socket. It follows the board as a browser would."""

    def __init__(self, socket: ClientConnection) -> None:
        self.socket = socket
        self.seq = -1
        self.state: Any = None
        self.steps: list[Any] = []
        self.ahead = 0
        self.viewers: int | None = None
        self.offered: Any = {"seq": -1}
        #: Every message as it came.
        self.heard: list[str] = []

    def send(self, message: Any) -> None:
        """Send a message, or a text as it is."""
        self.socket.send(message if isinstance(message, str | bytes) else json.dumps(message))

    def hear(self, timeout: float = PATIENCE_S) -> Any:
        """Return the next message and follow it."""
        text = str(self.socket.recv(timeout))
        self.heard.append(text)
        message = json.loads(text)
        kind = message["t"]
        if kind == "state":
            self.state, self.steps = message, list(message["steps"])
        elif kind == "step":
            self.steps = [*self.steps[: message["depth"] - 1 - self.state["first"]], message["step"]]
        elif kind == "back":
            self.steps = self.steps[: message["depth"] - self.state["first"]]
        elif kind == "offers":
            self.offered = message
        elif kind == "viewers":
            self.viewers = message["n"]
        if kind in ("state", "step", "back"):
            self.seq, self.ahead = message["seq"], message["ahead"]
        return message

    def wait(self, *kinds: str) -> Any:
        """Return the next message of one of ``kinds``, following all before it."""
        while True:
            message = self.hear()
            if message["t"] in kinds:
                return message

    def hello(self) -> Any:
        """Say hello and return the state, or the refusal."""
        self.send({"t": "hello", "v": 1, "seen": None})
        return self.wait("state", "gone", "refused")

    def change(self, kind: str, **given: Any) -> Any:
        """Ask for a change and return the answer to it."""
        message = {"t": kind, "id": f"m{next(_IDS)}", "base": self.seq, **given}
        if kind == "act":
            message.setdefault("at", len(self.steps))
        self.send(message)
        while True:
            answer = self.wait("step", "back", "state", "refused")
            if answer.get("id") == message["id"]:
                return answer

    def act(self, *actions: str, **given: Any) -> Any:
        """Play an action and return the answer."""
        return self.change("act", a=list(actions), **given)

    def act_on(self) -> Any:
        """Play the first action on offer that is no shot, and return the answer."""
        while self.offered["seq"] != self.seq:
            self.hear()
        offers = [offer["a"] for offer in self.offered["offers"]]
        return self.act(*next(actions for actions in offers if actions != ["shot"]))

    def chain(self) -> list[list[str]]:
        """Return the actions of the chain."""
        return [step["a"] for step in self.steps]

    def end(self) -> Close:
        """Read until the server closes, and return the close it sent."""
        received = self.wait_until_cut()
        assert received is not None, "the line was cut without a word"
        return received

    def wait_until_cut(self) -> Close | None:
        """Read until the line ends, and return the close the server sent, if it sent one."""
        while True:
            try:
                self.hear()
            except ConnectionClosed as closed:
                return closed.rcvd
