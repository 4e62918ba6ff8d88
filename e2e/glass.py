"""What a screen tells a browser of fingers and pencils: several at once, lost, slipping, and cancelled."""

from __future__ import annotations

from typing import Any

from playwright.sync_api import Page

Place = tuple[float, float]


class Glass:
    """The glass of one device: any number of fingers on it, each with a number of its own."""

    def __init__(self, page: Page) -> None:
        self._page = page
        self._line = page.context.new_cdp_session(page)
        self._on: dict[int, Place] = {}

    def middle(self, selector: str) -> Place:
        """Return the middle of what ``selector`` finds."""
        box = self._page.locator(selector).bounding_box()
        assert box is not None, selector
        return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2

    def down(self, at: Place, finger: int = 1) -> None:
        """Put a finger on the glass."""
        self._on[finger] = at
        self._send("touchStart")

    def move(self, at: Place, finger: int = 1) -> None:
        """Slide a finger there."""
        self._on[finger] = at
        self._send("touchMove")

    def up(self, finger: int = 1) -> None:
        """Lift a finger."""
        self._tell("touchEnd", {finger: self._on.pop(finger)})

    def cancel(self) -> None:
        """Have the system take all fingers away."""
        self._on.clear()
        self._send("touchCancel")

    def tap(self, at: Place, finger: int = 1) -> None:
        """Put a finger down and lift it at once."""
        self.down(at, finger)
        self.up(finger)

    def pen(self, kind: str, at: Place, pressed: bool) -> None:
        """Tell of a pencil: ``kind`` is mousePressed, mouseMoved or mouseReleased."""
        given = {"x": at[0], "y": at[1], "pointerType": "pen", "force": 0.5 if pressed else 0}
        click = {"button": "left", "clickCount": 1} if kind != "mouseMoved" else {}
        held = {"buttons": 1 if pressed else 0}
        self._line.send("Input.dispatchMouseEvent", {"type": kind, **given, **click, **held})

    def ask(self, method: str, **given: Any) -> Any:
        """Ask the browser itself for something."""
        return self._line.send(method, given)

    def _send(self, kind: str) -> None:
        self._tell(kind, self._on)

    def _tell(self, kind: str, fingers: dict[int, Place]) -> None:
        points = [{"x": x, "y": y, "id": finger} for finger, (x, y) in fingers.items()]
        self._line.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})
