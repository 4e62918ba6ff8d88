"""A seed played: real screens on bad lines to a real server, held to the model after every step."""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, BrowserContext, Page

from e2e.conftest import LINE_DOWN, Troubles
from e2e.fuzz.model import Known, Model, Report, line_of
from e2e.fuzz.script import COACHES, DEVICES, VIEWERS, Step
from e2e.fuzz.store import DATABASE, follow, holds
from e2e.fuzz.wire import Wire
from tests.server import LiveServer
from tests.webapp.screens import Device, viewing_path

_HERE = Path(__file__).parent
_EARLY, _SCREEN = ((_HERE / name).read_text() for name in ("early.js", "screen.js"))
#: What a browser writes of a line that ends in the middle of something.
CUT_SHORT = re.compile(
    r"net::ERR_(EMPTY_RESPONSE|INVALID_HTTP_RESPONSE|CONTENT_LENGTH_MISMATCH|INCOMPLETE_CHUNKED_ENCODING|ABORTED)"
)
#: Longer than a page waits for anything on a line, milliseconds.
_LONG, _LONGER = 5000, 10_000
#: How often everybody is asked whether all know the same.
_ROUNDS = 6


@dataclass
class Hand:
    """A device in somebody's hand: its line and its page."""

    name: str
    wire: Wire
    context: BrowserContext
    page: Page
    socket: str = ""
    board: str = ""
    muted: bool = False

    @property
    def coaches(self) -> bool:
        """Whether its owner moves the board."""
        return self.name in COACHES

    def open(self) -> Report:
        """Open the app; a coach's waits until the board is there to play on."""
        self.page.goto(f"{self.wire.url}/join")
        given = {"role": "coach" if self.coaches else "viewer", "socket": self.socket, "board": self.board}
        return self.page.evaluate(_SCREEN, given)  # type: ignore[no-any-return]

    def ask(self, call: str, *given: Any) -> Any:
        """Ask the page."""
        return self.page.evaluate(f"given => fuzz.{call}(...given)", list(given))

    def report(self) -> Report:
        """Return what it shows, and what it has shown since it was last asked."""
        return self.ask("report")  # type: ignore[no-any-return]

    def look(self) -> None:
        """Be told of a network, as a device tells its pages."""
        self.page.evaluate("() => window.dispatchEvent(new Event('online'))")

    def wait_long(self) -> None:
        """Let so much time pass that the page finds out about a line that has died without a word."""
        self.page.evaluate(
            "([long, longer]) => { pass(longer); pass(long); }",
            [_LONG, _LONGER],
        )


@dataclass
class Crew:
    """Everybody, with the same devices from one seed to the next, and the server they come to."""

    server: LiveServer
    hands: dict[str, Hand]
    troubles: Troubles

    def sit_down(self) -> None:
        """Begin anew: a new team with a new board, two coaches with a key each and three players."""
        self.troubles.seen.clear()
        if self.server.process.poll() is not None:  # left so by a seed that failed
            self.server.restart()
        first, second = Device(self.server), Device(self.server)
        board = first.make_team()
        second.open_coaching_link(first.share("coach")["url"])
        for hand in self.hands.values():
            hand.wire.restore()
            hand.muted, hand.board = False, board
            hand.context.clear_cookies()
            hand.socket = viewing_path(first.share()) if hand.name in VIEWERS else f"/live/board/{board}"
        for name, device in zip(COACHES, (first, second), strict=True):
            for key, text in device.cookies.items():
                cookie = {"name": key, "value": text, "url": self.server.url}
                self.hands[name].context.add_cookies([cookie])  # type: ignore[list-item]


@contextmanager
def crew(browser: Browser, server: LiveServer) -> Iterator[Crew]:
    """Give everybody a device with a line of its own."""
    name, _, port = server.host.partition(":")
    troubles, hands = Troubles(), {}
    troubles.expect(LINE_DOWN)
    troubles.expect(CUT_SHORT)
    with ExitStack() as stack:
        for device in DEVICES:
            wire = stack.enter_context(Wire(name, int(port)))
            context = browser.new_context(service_workers="block", viewport={"width": 400, "height": 400})
            stack.callback(context.close)
            context.add_init_script(_EARLY)
            troubles.watch(context)
            hands[device] = Hand(device, wire, context, context.new_page())
        yield Crew(server, hands, troubles)


@dataclass
class Game:
    """One script played by a crew. ``story``: what became of each step."""

    crew: Crew
    model: Model = field(default_factory=Model)
    story: list[str] = field(default_factory=list)
    killed: bool = False
    down: bool = False

    def play(self, steps: list[Step]) -> None:
        """Play it all, then hold everybody, and the store, to being the same."""
        self.crew.sit_down()
        for name, hand in self.crew.hands.items():
            self.model.devices[name] = Known()
            self.model.saw(name, hand.open())
        for step in steps:
            self._play(step)
            # What the others show is looked at when something is done with them: nothing of it is forgotten.
            for name in dict.fromkeys((*COACHES, *(word for word in step[1:2] if word in VIEWERS))):
                hand = self.crew.hands[name]
                self.model.saw(name, now := hand.report())
                # Noticed, so that nothing which came before the cut is still to be heard.
                self.model.devices[name].quiet = not hand.wire.up and now["link"] == "offline"
            troubles = self.crew.troubles.unexpected()
            assert not troubles, f"in the pages: {troubles}"
        self._end()

    def _play(self, step: Step) -> None:
        kind, *given = step
        self.story.append(f"{step!r}")
        if kind == "calm":
            self._calm()
        elif kind in ("kill", "start"):
            self._server(kind, *given)
        elif kind in ("undo", "redo", "fresh", "act", "hand", "recover", "open", "form", "pace"):
            self._do(kind, *given)
        elif kind == "close":
            self._close(*given)
        else:
            self._line(kind, *given)

    def _do(self, kind: str, who: str, *drawn: Any) -> None:
        hand = self.crew.hands[who]
        given = self._line_to_open(hand, *drawn) if kind == "open" else drawn
        if given is None:
            return
        told = hand.ask("do", kind, *given)
        self.model.saw(who, told["before"])
        if told["did"] is not None:
            # Before it is seen, as what is shown has not become so by itself.
            self.model.devices[who].quiet = False
            self.model.did(who, kind, told, given)
        self.model.saw(who, told["now"])
        shown = " ".join("+".join(actions) for actions in told["now"]["line"])
        ids = [sent["id"][:4] for sent in told["made"]]
        self.story[-1] += f" -> {ids} {told['now']['seq']} {told['now']['chain'][:4]}: {shown}"

    def _line_to_open(
        self, hand: Hand, remembered: bool, which: float, depth: float
    ) -> tuple[Any, ...] | None:
        now = hand.report()
        self.model.saw(hand.name, now)
        ways = [(now["chain"], line_of(line), now["formation"]) for line in now["forks"]]
        ways = self.model.played(hand.name) if remembered or not ways else ways
        if not ways:
            return None
        chain, line, formation = ways[int(which * len(ways))]
        return chain, line, int(depth * (len(line) + 1)), formation

    def _close(self, device: str, hasty: bool) -> None:
        hand = self.crew.hands[device]
        now = hand.report() if hasty else hand.ask("when", "kept")
        self.model.saw(device, now)
        if hasty:
            self.model.closes(device, now)
        elif hand.coaches:
            self._written(hand, now)
        hand.muted = False
        self.model.saw(device, hand.open())

    def _written(self, hand: Hand, now: Report) -> None:
        """What the device has written down is what it says that waits."""
        if not hand.wire.up:
            waiting = [sent["id"] for sent in now["pending"]]
            assert hand.ask("written") == waiting, f"{hand.name} has not written down what it says: {waiting}"

    def _line(self, kind: str, device: str, *given: Any) -> None:
        hand = self.crew.hands[device]
        if kind == "back":
            self._back(hand)
            return
        getattr(hand.wire, kind)(*given)
        hand.muted = hand.muted or kind == "mute"

    def _back(self, hand: Hand) -> None:
        self.model.devices[hand.name].quiet = False
        hand.wire.restore()
        if hand.muted:
            hand.wait_long()
        hand.muted = False
        hand.look()

    def _server(self, kind: str, how: str = "all") -> None:
        server = self.crew.server
        if kind == "start":
            server.kill_group()
            server.restart()
            self.down = False
            return
        self.killed = self.down = True
        # One that does not know of its end yet says so when it is asked for something.
        self.model.refusals_expected = how != "all"
        if how == "all":
            server.kill_group()
        elif how == "first":
            server.kill_master()
        else:
            follow(server.data_dir / DATABASE)

    def _calm(self) -> None:
        """Wait until everybody who has a line knows the same."""
        if self.down:
            return
        hands = [hand for hand in self.crew.hands.values() if not hand.muted and hand.wire.good]
        for hand in hands:
            hand.look()
        counts: dict[str, int] = {}
        # More than once: what one of them sends last is heard by the others, and what somebody sent before
        # his line was cut may arrive meanwhile.
        for _ in range(_ROUNDS):
            most = max(counts.values(), default=0)
            for hand in hands:
                self.model.saw(hand.name, report := hand.ask("when", "idle", most))
                counts[hand.name] = report["seq"]
            if most and len(set(counts.values())) == 1:
                return
        assert len(set(counts.values())) <= 1, f"not the same after {_ROUNDS} rounds: {counts}"

    def _end(self) -> None:
        """Everything is good again: all screens show the same, and so does the store, and nothing is lost."""
        hands = self.crew.hands
        for hand in hands.values():
            self._back(hand)
        self._calm()
        if self.killed:
            self.crew.server.kill_group()
            self.crew.server.restart()
            self._calm()
        shown = {}
        for name, hand in hands.items():
            self.model.saw(name, now := hand.report())
            shown[name] = (now["seq"], line_of(now["line"]), now["ahead"], now["stands"])
            if hand.coaches:
                assert hand.ask("forgotten") == [], f"{name} still keeps what has been answered"
        first = shown[COACHES[0]]
        assert all(other == first for other in shown.values()), f"not the same in the end: {shown}"
        standing = holds(self.crew.server.data_dir / DATABASE, hands[COACHES[0]].board, self.model)
        line = tuple(step.actions for step in standing.steps)
        assert (standing.seq, line, len(standing.ahead)) == first[:3]
