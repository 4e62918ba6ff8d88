"""Ink: how soon a phone sees it, what a stroke costs on the line, and what it does to the frames of a play.

Latency is from the pencil's event on the coach's page to the first frame of the phone in which the growing
stroke is longer, both pages on one machine and one clock. Frames are those the browser draws while a scripted
step plays in which ten run, five players and five defenders, and a pencil writes over it; beside the same
without the pencil, and beside a chain with five players alone; on a processor slowed down, and without a
graphics card, so the ratios say more than the milliseconds.
"""

from __future__ import annotations

import statistics
from typing import Any

from playwright.sync_api import Browser, CDPSession, FloatRect, Page, ViewportSize

from tests.benchmarks.parts import running_browser, running_server, told
from tests.server import LiveServer
from tests.webapp.screens import Device

STROKES = 6
MOVES = 40
SLOWER = (4, 6)
FRAMES_MS = 4000
ROUNDS = 5
WINDOW: ViewportSize = {"width": 1180, "height": 820}

#: Five players and five defenders, each on one winding way for five seconds.
WHERE = {n: (-600 + 200 * n, 300 + 60 * (n % 3)) for n in range(1, 6)}
AT = [
    *((str(n), place) for n, place in WHERE.items()),
    *((f"x{n}", (x, y - 120)) for n, (x, y) in WHERE.items()),
]
WAYS = [
    f"go={who},c,0,500," + ",".join(f"{x + 60 * k},{y + 90 * (k % 2)}" for k in range(1, 6))
    for who, (x, y) in AT
]
TEN = ";".join(["script:as=free", "at=" + ",".join(f"{who},{x},{y}" for who, (x, y) in AT), "ball=1", *WAYS])

#: Each move of the pencil, by when it happened; and each longer stroke on the phone, by when it was drawn.
SENT = """() => { window.moved = []; addEventListener('pointermove', (event) => {
  const { pointerType, buttons, timeStamp } = event;
  if (pointerType === 'pen' && buttons) window.moved.push(performance.timeOrigin + timeStamp);
}, {capture: true}); }"""
SEEN = """() => { window.grown = []; window.inked = true; let before = '';
  const look = () => {
    const now = document.querySelector('svg.ink > g:last-of-type .body .fill')?.getAttribute('d') ?? '';
    if (now && now !== before) window.grown.push(performance.timeOrigin + performance.now());
    before = now;
    requestAnimationFrame(look);
  };
  requestAnimationFrame(look); }"""
FRAMES = """(ms) => new Promise((done) => {
  const gaps = []; let last = performance.now(); const end = last + ms;
  const look = () => { const now = performance.now(); gaps.push((now - last) / 1000); last = now;
    if (now < end) requestAnimationFrame(look); else done(gaps.slice(2)); };
  requestAnimationFrame(look); })"""


def pencil(session: CDPSession, kind: str, x: float, y: float, buttons: int = 1) -> None:
    """Send one event of a pencil."""
    given: dict[str, Any] = {"type": kind, "x": x, "y": y, "button": "left", "buttons": buttons}
    session.send("Input.dispatchMouseEvent", {**given, "pointerType": "pen", "force": 0.5, "clickCount": 1})


def floor(page: Page) -> FloatRect:
    """Return where the court is: asked once, as every question takes some of the page's frame."""
    found = page.locator("#court").bounding_box()
    assert found
    return found


def stroke(page: Page, session: CDPSession, box: FloatRect, row: int, pause_ms: float = 16) -> None:
    """Draw one wavy stroke of about a second on the court, which is at ``box``."""
    x, y = box["x"] + 0.15 * box["width"], box["y"] + (0.3 + 0.09 * row) * box["height"]
    pencil(session, "mousePressed", x, y)
    for i in range(MOVES):
        page.wait_for_timeout(pause_ms)
        x += 0.014 * box["width"]
        pencil(session, "mouseMoved", x, y + 14 * (i % 6 - 3))
    pencil(session, "mouseReleased", x, y, buttons=0)


def p95(seconds: list[float]) -> float:
    """Return the time that 95 of 100 stay under, in milliseconds."""
    return statistics.quantiles(seconds, n=20)[-1] * 1000


def mean(seconds: list[float]) -> float:
    """Return the mean in milliseconds."""
    return statistics.mean(seconds) * 1000


def opened(browser: Browser, server: LiveServer) -> tuple[Page, str]:
    """Open a new board in a window of its own, as a page in the background draws no frames."""
    context = browser.new_context(viewport=WINDOW, has_touch=True, service_workers="block")
    page = context.new_page()
    page.goto(server.url)
    page.get_by_label("Team").fill("Quay Otters")
    page.get_by_role("button", name="Open a new board").tap()
    page.wait_for_url("**/board/*")
    return page, page.url.rsplit("/", 1)[1]


def main() -> None:
    """Print all of it."""
    with running_server() as server, running_browser() as browser:
        _line(browser, server)
        _frames(browser, server)


def _line(browser: Browser, server: LiveServer) -> None:
    coach, board = opened(browser, server)
    body = {"kind": "view", "name": "phone"}
    made = coach.request.post(f"{server.url}/api/board/{board}/links", data=body)
    other = browser.new_context(viewport={"width": 390, "height": 844}, service_workers="block")
    phone = other.new_page()
    phone.goto(made.json()["url"])
    phone.locator("#state", has_text="Live").wait_for()
    sent: list[int] = []
    coach.on("websocket", lambda ws: ws.on("framesent", lambda data: sent.append(_ink_bytes(data))))
    coach.reload()
    coach.locator(".ink-open").tap()
    session = coach.context.new_cdp_session(coach)
    box = floor(coach)
    stroke(coach, session, box, 0)
    phone.locator('svg.ink[data-strokes="1"]').wait_for()
    sent.clear()
    coach.evaluate(SENT)
    phone.evaluate(SEEN)
    for row in range(STROKES):
        stroke(coach, session, box, row)
    phone.locator(f'svg.ink[data-strokes="{STROKES + 1}"]').wait_for()
    moved, grown = coach.evaluate("() => window.moved"), phone.evaluate("() => window.grown")
    late = [(at - max(m for m in moved if m <= at)) / 1000 for at in grown if at >= moved[0]]
    firsts = [next((at - m for at in grown if at >= m), None) for m in moved]
    print(f"a move of the pencil, to the phone's next longer stroke: "
          f"{told([f / 1000 for f in firsts if f is not None])}")  # fmt: skip
    print(f"the newest move there was when the phone drew: {told(late)} before")
    print(f"bytes a stroke of {MOVES} moves, live and kept: {sum(sent) / STROKES:.0f} in "
          f"{sum(map(bool, sent)) / STROKES:.0f} messages")  # fmt: skip
    coach.context.close()
    other.close()


def _ink_bytes(data: str | bytes) -> int:
    text = data if isinstance(data, str) else data.decode()
    return len(text.encode()) if '"t":"ink"' in text else 0


def _frames(browser: Browser, server: LiveServer) -> None:
    five, _ = opened(browser, server)
    for _ in range(3):
        five.wait_for_timeout(700)
        five.locator("#court .disc.can").first.tap()
    ten, board = opened(browser, server)
    cookies = {each["name"]: each["value"] for each in ten.context.cookies()}
    with Device(server, cookies, board).coach() as screen:
        screen.act(TEN)
    ten.locator("#chain li.action").filter(has_text="as drawn").wait_for()
    ten.locator(".ink-open").tap()
    five_session, ten_session = (page.context.new_cdp_session(page) for page in (five, ten))
    for slower in SLOWER:
        # In turn, as a machine is not as quick at all times; of each ratio the middle one counts.
        rounds = [
            (
                _frames_of(five, five_session, slower, drawing=False),
                _frames_of(ten, ten_session, slower, drawing=False),
                _frames_of(ten, ten_session, slower, drawing=True),
            )
            for _ in range(ROUNDS)
        ]
        for name, measure in (("p95", p95), ("mean", mean)):
            times = [[measure(frames) for frames in each] for each in rounds]
            alone, plain, inked = (statistics.median(column) for column in zip(*times, strict=True))
            plainly, inkedly = (statistics.median(each[k] / each[0] for each in times) for k in (1, 2))
            print(
                f"frames at {slower}x slower, {name}: five players {alone:.1f} ms; ten {plain:.1f} ms, ratio "
                f"{plainly:.2f}; ten and a pencil writing {inked:.1f} ms, ratio {inkedly:.2f}"
            )


def _frames_of(page: Page, session: CDPSession, slower: int, *, drawing: bool) -> list[float]:
    box = floor(page)
    session.send("Emulation.setCPUThrottlingRate", {"rate": slower})
    page.locator('button[data-do="replay"]').click()
    page.evaluate(f"(ms) => {{ window.frames = ({FRAMES})(ms); }}", FRAMES_MS)
    if drawing:
        for row in range(3):
            stroke(page, session, box, row, 8)
    found: list[float] = page.evaluate("() => window.frames")
    session.send("Emulation.setCPUThrottlingRate", {"rate": 1})
    return found


if __name__ == "__main__":
    main()
