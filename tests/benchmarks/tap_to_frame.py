"""From the finger leaving the glass to the first frame in which something on the court has moved.

On a processor slowed down four times, with the line to the server 300 ms longer each way, beside the same
page on the same slow processor with no delay: a tap waits for no network, so the ratio should be 1. Frames
are those the browser draws, counted from the tap.
"""

from __future__ import annotations

import statistics
from typing import Any

from playwright.sync_api import Browser, Page

from tests.benchmarks.parts import running_browser, running_server, told
from tests.benchmarks.slow_line import slow_line
from tests.server import LiveServer

DELAY_S = 0.3
SLOWER = 4
TAPS = 15
PATIENCE_MS = 60_000

#: From the next finger lifted: at every frame, has anything that moves moved? The answer goes to ``tapped``.
WATCH = """() => {
  const moving = [...document.querySelectorAll('#court .disc, #court .ring, #court .ball')];
  const places = () => moving.map((each) => each.getBoundingClientRect()).map(({x, y}) => [x, y]);
  window.tapped = null;
  addEventListener('pointerup', ({timeStamp}) => {
    const before = places();
    let frames = 0;
    const look = (now) => {
      frames += 1;
      const moved = places().some(([x, y], i) => Math.hypot(x - before[i][0], y - before[i][1]) > 0.2);
      if (moved) window.tapped = {seconds: (performance.now() - timeStamp) / 1000, frames};
      else requestAnimationFrame(look);
    };
    requestAnimationFrame(look);
  }, {once: true, capture: true});
}"""
STILL = "() => !document.getAnimations().some((each) => each.playState === 'running')"
#: What is tapped in turn: passes, so that the ball leaves at once.
SENTENCES = ("1 passes to 2", "1 passes to 3")


def measure(page: Page) -> list[dict[str, Any]]:
    """Tap again and again on the open board, and return the time and the frames each tap took."""
    found = []
    for count in range(TAPS):
        sentence = SENTENCES[count % len(SENTENCES)]
        disc = page.locator(f'#court .disc.can[aria-label="{sentence}"]')
        disc.wait_for()
        page.wait_for_function(STILL)
        page.evaluate(WATCH)
        disc.tap()
        found.append(page.wait_for_function("() => window.tapped").json_value())
        page.locator('[data-do="undo"]').tap()
        page.locator("#chain li.action").wait_for(state="detached")
    return found


def board(browser: Browser, server: LiveServer, host: str, slower: float) -> list[dict[str, Any]]:
    """Open a new board at ``host`` on a device ``slower`` times slower, and measure there."""
    context = browser.new_context(
        viewport={"width": 1180, "height": 820}, has_touch=True, service_workers="block"
    )
    context.set_default_timeout(PATIENCE_MS)
    page = context.new_page()
    page.goto(f"http://{host}/")
    page.get_by_role("button", name="Open a new board").tap()
    page.wait_for_url("**/board/*")
    context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": slower})
    found = measure(page)
    context.close()
    return found


def main() -> None:
    """Print the times and their ratio."""
    with running_server() as server, running_browser() as browser, slow_line(server.port, DELAY_S) as slow:
        fast = board(browser, server, server.host, 1)
        near = board(browser, server, server.host, SLOWER)
        far = board(browser, server, slow, SLOWER)
    yardstick = statistics.median(each["seconds"] for each in near)
    print(f"tap to first moving frame, processor {SLOWER} times slower, no delay added (= 1.00)")
    for name, found in (
        ("  no delay", near),
        (f"  {DELAY_S * 1000:.0f} ms added each way", far),
        ("  no delay, processor as it is", fast),
    ):
        seconds = [each["seconds"] for each in found]
        frames = [each["frames"] for each in found]
        print(
            f"{name}: {statistics.median(seconds) / yardstick:.2f}  ({told(seconds)}; frame "
            f"{statistics.median(frames):.0f} after the tap, at worst {max(frames)})"
        )


if __name__ == "__main__":
    main()
