"""The people of these tests: a coach at a tablet and a player with a phone, and what they can do and see."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import Any
from urllib.parse import urlsplit

from playwright.sync_api import BrowserContext, Locator, Page, TimeoutError, expect

from engine.floor.formations import FORMATIONS
from tests.server import ROOT, LiveServer
from tests.webapp.screens import Device
from webapp.wire.engine_values import floor_wire


def _written(path: str) -> str:
    """Return what a module without imports declares, for a page that may have no server just now."""
    return re.sub(r"^export ", "", (ROOT / path).read_text("utf-8"), flags=re.MULTILINE)


#: A look at where things are makes the page lay everything out: one a frame would take more than moving does.
LOOK_MS = 50
#: Where a finger lands on the middle of what the selector finds: once it stands still from one look to the
#: next, as a finger takes its time, has nowhere to go any more (who starts late stands still as well), and
#: nothing lies over it.
_POINT = """selector => {
  const found = document.querySelector(selector);
  const going = (each) => each.playState === 'running' && each.effect.getComputedTiming().endTime < Infinity;
  for (let each = found; each; each = each.parentElement) if (each.getAnimations().some(going)) return null;
  const box = found && !found.closest(':disabled') ? found.getBoundingClientRect() : {left: NaN};
  const [x, y] = [box.left + box.width / 2, box.top + box.height / 2];
  const before = window.pointBefore ?? {};
  window.pointBefore = {selector, x, y};
  if (before.selector !== selector || !(Math.hypot(before.x - x, before.y - y) < 0.5)) return null;
  const hit = document.elementFromPoint(x, y);
  return hit && found.contains(hit) ? {x, y} : null;
}"""

#: Puts a function on the page that tells the spot each disc stands on ("" for none) and who has the ball, by
#: where they are on the screen.
_LOOK = """() => {
  PROJECTION
  window.standingNow = ({box, spots, ...view}) => {
    const court = document.getElementById('court');
    const seen = project(court.clientWidth, court.clientHeight, box, view);
    const home = court.getBoundingClientRect();
    const middle = (element) => {
      const { left, top, width, height } = element.getBoundingClientRect();
      return [left + width / 2 - home.left, top + height / 2 - home.top];
    };
    const near = ([x, y], [u, v]) => Math.hypot(x - u, y - v) < 3;
    const ring = middle(court.querySelector('.ring'));
    const at = {};
    let ball = 0;
    for (const disc of court.querySelectorAll('.disc')) {
      const place = middle(disc);
      const found = Object.entries(spots).find(([, spot]) => near(place, inside(seen, seen.px(spot))));
      at[disc.dataset.player] = found ? found[0] : '';
      if (near(place, ring)) ball = Number(disc.dataset.player);
    }
    return {at, ball};
  };
}""".replace("PROJECTION", _written("static/js/court/projection.js"))
_STANDS = "({floor, want}) => JSON.stringify(window.standingNow(floor)) === JSON.stringify(want)"


@dataclass
class Person:
    """Somebody with a device and one page open on it."""

    server: LiveServer
    context: BrowserContext
    page: Page
    formation_name: str = "five_out"
    court_name: str = "fiba"
    turned: bool = False
    mirrored: bool = False
    #: Somebody stands outside the lines somewhere in the chain, so more of the floor is shown.
    wide: bool = False

    def touch(self, selector: str) -> None:
        """Tap with a finger on the middle of what ``selector`` finds, as soon as it can be hit there."""
        try:
            point = self.page.wait_for_function(_POINT, arg=selector, polling=LOOK_MS).json_value()
        except TimeoutError as error:
            there = self.page.locator("#court [aria-label]").evaluate_all(
                "all => all.map((e) => e.ariaLabel)"
            )
            raise AssertionError(f"{selector} cannot be tapped; on the court: {there}") from error
        self.page.touchscreen.tap(point["x"], point["y"])

    @property
    def floor(self) -> dict[str, Any]:
        """The floor as this person should see it."""
        wire = floor_wire(self.court_name, FORMATIONS[self.formation_name])
        return {
            "box": wire["box"],
            "spots": wire["spots"],
            "turned": self.turned,
            "mirrored": self.mirrored,
            "wide": self.wide,
        }

    def stands(self, want: dict[str, object]) -> None:
        """Wait until everybody has come to stand like this on the screen, the ball where it should be."""
        self.page.evaluate(_LOOK)
        try:
            self.page.wait_for_function(_STANDS, arg={"floor": self.floor, "want": want}, polling=LOOK_MS)
        except TimeoutError as error:
            now = self.page.evaluate("standingNow", self.floor)
            raise AssertionError(f"On the screen is {now}, not {want}.") from error


@dataclass
class Coach(Person):
    """A coach at a tablet, tapping with a finger."""

    board_id: str = ""
    device: Device = field(init=False)

    def __post_init__(self) -> None:
        cookies = {c["name"]: c["value"] for c in self.context.cookies()}
        self.device = Device(self.server, cookies, self.board_id)

    @property
    def status(self) -> Locator:
        """What the page says of its line."""
        return self.page.locator("#status")

    @property
    def chain(self) -> Locator:
        """The actions of the chain."""
        return self.page.locator("#chain li.action button")

    def tap(self, sentence: str) -> None:
        """Tap on the court what means ``sentence``: a disc, a mark, an arrow, an empty spot or the rim."""
        # While the next offers are on their way the old ones stay, faded, and mean nothing.
        self.touch(f'#court:not(.waiting) :is(.target, .disc.can)[aria-label="{sentence}"]')

    def do(self, name: str) -> None:
        """Tap a button of the page: undo, redo, play, menu, share, …"""
        self.touch(f'button[data-do="{name}"]')

    def saved(self) -> None:
        """Wait until all that was tapped is saved."""
        # What the page says of a tap it says after the frame that shows it.
        self.page.evaluate("() => new Promise((done) => requestAnimationFrame(() => setTimeout(done)))")
        expect(self.status).to_have_text("saved")

    def reads(self, sentences: list[str]) -> None:
        """Wait until the chain reads like this."""
        expect(self.chain).to_have_text(sentences)

    def choose(self, question: str, answer: str) -> None:
        """Open the menu, answer one of its questions, and close it."""
        self.do("menu")
        self.page.get_by_role("group", name=question).get_by_role("radio", name=answer, exact=True).tap()
        self.page.get_by_role("button", name="Close", exact=True).tap()
        expect(self.page.locator("#menu")).to_be_hidden()


@dataclass
class Player(Person):
    """A player with a phone that follows."""

    @property
    def status(self) -> Locator:
        """What the page says of its line."""
        return self.page.locator("#state")

    @property
    def mine(self) -> Locator:
        """The player's own sentence."""
        return self.page.locator("#mine")

    def pick(self, number: int) -> None:
        """Say which number he is."""
        self.touch(f'#numbers [data-number="{number}"]')
        expect(self.page.locator("#picker")).to_be_hidden()

    def live(self) -> None:
        """Wait until the phone says it is live."""
        expect(self.status).to_have_text("Live")

    def reads(self, sentences: list[str]) -> None:
        """Wait until the list of actions reads like this."""
        expect(self.page.locator("#chain li .chain")).to_have_text(["Start", *sentences])


def token_of(page: Page) -> str:
    """Return the secret in a viewing page's address."""
    found = re.fullmatch(r"/v/(.+)", urlsplit(page.url).path)
    assert found, page.url
    return found[1]
