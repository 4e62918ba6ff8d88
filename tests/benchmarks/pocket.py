"""From the pocket to a moving chain: the app opened with no server and no network, and one more tap.

On a processor slowed down four times. Counted are a coach's taps, and milliseconds from when the app is
opened until what is tapped is there (a pinned play, or the play button for the chain that was left),
from the finger lifted to the first frame in which something moves, and from there to the end of the chain.
How long a coach takes to tap is no part of it.
"""

from __future__ import annotations

import statistics
import time
from typing import Any

from playwright.sync_api import Browser, BrowserContext

from tests.benchmarks.parts import running_browser, running_server
from tests.server import LiveServer
from tests.webapp.screens import Device

SLOWER = 4
TIMES = 3
PATIENCE_MS = 60_000
#: Three actions, as a coach would show them in a timeout.
LINE = [["pass:right_wing"], ["fill:left_corner", "pass:top"], ["fill:right_corner", "drive:left"]]

#: Comes to an end once nothing is missing on the device. A page that was opened before the worker had been
#: installed is not in its hands, and the next one is.
READY = """async () => {
  await navigator.serviceWorker.ready;
  const { openKept } = await import('/static/js/device/storage.js');
  const [kept, pages] = await Promise.all([openKept(), caches.open('quintet-pages')]);
  const team = document.body.dataset.team;
  for (;;) {
    const held = (await kept.get('meta', 'packs'))?.[document.body.dataset.board] ?? [];
    const plays = (await kept.get('chains', team))?.chains ?? [];
    const index = await caches.match('/last-board', { cacheName: 'quintet-index' });
    const page = await pages.match(location.pathname, { ignoreVary: true });
    if (held.length >= 3 && plays.length && index && page) return;
    await new Promise((done) => setTimeout(done, 50));
  }
}"""

#: Notes when the pinned play stands there, when the finger lifts, and the first and the last frame in which
#: something moves.
WATCH = """(() => {
  const seen = window.seen = {};
  const now = () => performance.timeOrigin + performance.now();
  const places = () => [...document.querySelectorAll('#court :is(.disc, .ball)')]
    .map((each) => each.getBoundingClientRect()).map(({x, y}) => [x, y]);
  let before = [];
  const look = () => {
    if (!seen.chip && document.querySelector(window.name)?.checkVisibility()) seen.chip = now();
    if (seen.tap) {
      const after = places();
      if (after.some(([x, y], i) => before[i] && Math.hypot(x - before[i][0], y - before[i][1]) > 0.2)) {
        seen.first ??= now();
        seen.last = now();
      }
      before = after;
      if (seen.last && now() - seen.last > 1500) return void (seen.done = true);
    }
    requestAnimationFrame(look);
  };
  requestAnimationFrame(look);
  addEventListener('pointerup', ({timeStamp}) => {
    before = places();
    seen.tap ??= performance.timeOrigin + timeStamp;
  }, {capture: true});
})();"""


def tablet(browser: Browser, server: LiveServer) -> tuple[BrowserContext, str]:
    """Return a tablet that has been on its board, with one play pinned, and the address its app starts at."""
    context = browser.new_context(viewport={"width": 1180, "height": 820}, has_touch=True)
    context.set_default_timeout(PATIENCE_MS)
    page = context.new_page()
    page.goto(server.url)
    page.get_by_role("button", name="Open a new board").tap()
    page.wait_for_url("**/board/*")
    board = page.url.rsplit("/", 1)[1]
    cookies = {each["name"]: each["value"] for each in context.cookies()}
    played = {"board": board, "formation": "five_out", "rules": "pass_and_cut", "line": LINE}
    saved = {"id": "o1", "op": "save", "chain": "pocket", **played, "name": "Otter", "note": "", "tags": []}
    pinned = {"id": "o2", "op": "edit", "chain": "pocket", "pinned": True}
    body = {"ops": [saved, pinned]}
    answer = Device(server, cookies, board).ask("POST", f"/api/sync?board={board}", body)
    assert answer.status == 200, answer.text
    page.reload()
    page.evaluate(READY)
    page.reload()  # now the kept shell is what plays
    page.locator("#pinned button").wait_for()
    start = page.request.get(f"{server.url}/manifest.webmanifest").json()["start_url"]
    page.close()
    return context, str(start)


PINNED = "#pinned button"
PLAY = '[data-do="play"]:enabled'

#: What is tapped after the app, in this order: the second finds the chain the first has left.
WAYS = {"the app, a pinned play": PINNED, "the app, play for the chain that was left": PLAY}


def opened(context: BrowserContext, url: str, tapped: str) -> dict[str, Any]:
    """Open the app, tap what is asked for, and return the moments, milliseconds after it was opened."""
    page = context.new_page()
    context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
    page.add_init_script(f"window.name = {tapped!r};{WATCH}")
    begun = time.time() * 1000
    page.goto(url, wait_until="commit")
    page.locator(tapped).tap()
    page.wait_for_function("() => window.seen.done")
    seen = page.evaluate("() => window.seen")
    if tapped == PLAY:
        page.locator('[data-do="fresh"]').tap()
        page.locator(PINNED).wait_for()
    page.close()
    return {
        "until it can be tapped": seen["chip"] - begun,
        "tap to first moving frame": seen["first"] - seen["tap"],
        "together": seen["chip"] - begun + seen["first"] - seen["tap"],
        "first moving frame to the end of the chain": seen["last"] - seen["first"],
    }


def main() -> None:
    """Print taps and milliseconds."""
    with running_server() as server, running_browser() as browser:
        context, start = tablet(browser, server)
        server.stop()
        context.set_offline(True)
        found: dict[str, list[dict[str, Any]]] = {way: [] for way in WAYS}
        for _ in range(TIMES):
            for way, tapped in WAYS.items():
                found[way].append(opened(context, server.url + start, tapped))
        context.close()
    print(f"no network, no server, processor {SLOWER} times slower")
    for way, all_of in found.items():
        print(f"2 taps: {way}")
        for name in all_of[0]:
            times = [each[name] for each in all_of]
            print(f"  {name}: median {statistics.median(times):.0f} ms, slowest {max(times):.0f} ms")


if __name__ == "__main__":
    main()
