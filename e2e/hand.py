"""A hand over the court, with a pencil and with fingers, as the browser hears of them.

Chromium's own input events, so that what reaches the page is what a screen would send: the Chrome DevTools
Protocol's Input.dispatchTouchEvent, and Input.dispatchMouseEvent with the pointer type "pen".
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

from playwright.sync_api import CDPSession, Locator, expect

from e2e.people import Coach, Person

Spots = Sequence[tuple[float, float]]
#: Strokes on the empty floor, in shares of the court's space.
ACROSS: Spots = [(0.3 + 0.02 * i, 0.86 + 0.004 * i) for i in range(12)]
BELOW: Spots = [(0.3 + 0.02 * i, 0.95) for i in range(12)]


@dataclass
class Hand:
    """A hand over the court: a pencil, and fingers by number."""

    person: Person
    session: CDPSession = field(init=False)
    down: dict[int, dict[str, float]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.session = self.person.context.new_cdp_session(self.person.page)

    def at(self, spot: tuple[float, float]) -> dict[str, float]:
        box = self.person.page.locator("#court").bounding_box()
        assert box
        return {"x": box["x"] + spot[0] * box["width"], "y": box["y"] + spot[1] * box["height"]}

    def pencil(self, kind: str, spot: tuple[float, float], **more: Any) -> None:
        """Send one event of a pencil: mousePressed, mouseMoved or mouseReleased."""
        given = {"button": "left", "buttons": 1, "pointerType": "pen", "force": 0.6, "clickCount": 1}
        self.session.send("Input.dispatchMouseEvent", {"type": kind, **given, **self.at(spot), **more})

    def begin(self, spots: Spots) -> None:
        """Put the pencil down and move it."""
        self.pencil("mousePressed", spots[0])
        for spot in spots[1:]:
            self.pencil("mouseMoved", spot)

    def draw(self, spots: Spots = ACROSS) -> None:
        """Draw a stroke with the pencil."""
        self.begin(spots)
        self.pencil("mouseReleased", spots[-1], buttons=0, force=0)

    def away(self) -> None:
        """Take the pencil away for as long as it takes that a touch is a finger again."""
        page = self.person.page
        since = page.evaluate("() => performance.now()")
        page.wait_for_function("since => performance.now() - since > 600", arg=since)

    def touch(self, kind: str, finger: int, spot: tuple[float, float] | None = None, size: float = 8) -> None:
        """Send one event of a finger: touchStart, touchMove, touchEnd or touchCancel."""
        if spot is not None:
            self.down[finger] = {**self.at(spot), "id": finger, "radiusX": size, "radiusY": size}
        if kind in ("touchEnd", "touchCancel"):
            self.down.pop(finger)
            # The protocol's touchEnd lifts all fingers; one that is missing from a move is lifted alone.
            kind = "touchMove" if self.down else kind
        points = list(self.down.values())
        self.session.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})

    def finger(self, spots: Spots, finger: int = 1) -> None:
        """Draw with a finger."""
        self.touch("touchStart", finger, spots[0])
        for spot in spots[1:]:
            self.touch("touchMove", finger, spot)
        self.touch("touchEnd", finger)


def open_tools(coach: Coach) -> None:
    coach.page.locator(".ink-open").tap()
    expect(coach.page.get_by_role("toolbar", name="Draw over the court")).to_be_visible()


def tool(coach: Coach, name: str, pressed: str = "true") -> None:
    """Take a tool, or put it back, unless it is so already."""
    button = coach.page.locator(".ink-tools").get_by_role("button", name=name)
    if button.get_attribute("aria-pressed") != pressed:
        act(coach, name)
    expect(button).to_have_attribute("aria-pressed", pressed)


def act(coach: Coach, name: str) -> None:
    coach.page.locator(".ink-tools").get_by_role("button", name=name).tap()


def ink(person: Person) -> Locator:
    return person.page.locator("svg.ink")


def strokes(person: Person, count: int) -> None:
    expect(ink(person)).to_have_attribute("data-strokes", str(count))
