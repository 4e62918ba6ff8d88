"""Packs: how big they are, how long they take to make and to read, and how soon a board plays from one alone.

The yardstick for making is python-chess making every legal move to a depth of three from the initial
position, beside it in the same process; both in processor time. Reading is timed in the browser, also on a
processor slowed down four times. A cold start is a page opened anew with the server gone, from the beginning
of the navigation to the first frame with something to tap on the court.
"""

from __future__ import annotations

import gzip
import json
import random
import statistics
import time
from collections.abc import Callable, Sequence
from typing import Any

from playwright.sync_api import Browser, Page

from engine.floor.alignment import Alignment
from engine.floor.court import half_court
from engine.floor.formations import FORMATIONS, Formation
from engine.game.closure import closure
from engine.pack import pack
from engine.rules.rule_sets import DEFAULT
from tests.benchmarks.engine_rate import chess_nodes
from tests.benchmarks.parts import running_browser, running_server, told
from tests.engine.pack.worlds import seated
from tests.server import LiveServer
from webapp.wire.engine_values import position_wire

AIM_BYTES = 150_000
AIM_MAKE_S = 1.0
AIM_PARSE_S = 0.2
AIM_START_S = 1.0
SLOWER = 4
ROUNDS = 5
POSITIONS = 200
STARTS = 5
PATIENCE_MS = 300_000

READ = """async ({text, standings}) => {
  const { Pack } = await import('/static/js/pack/pack.js');
  const { menu } = await import('/static/js/pack/offers.js');
  const timed = (work) => { const begin = performance.now(); const made = work(); return [performance.now() - begin, made]; };
  const [parse, pack] = timed(() => new Pack(JSON.parse(text)));
  const terms = {level: 1, installed: null, licences: {}};
  return {parse, menus: standings.map((standing) => timed(() => menu(pack, standing, terms))[0])};
}"""  # noqa: E501
HELD = "() => caches.open('quintet-packs').then((all) => all.keys()).then((keys) => keys.length >= %d)"
#: At every frame from the first on: is there something to tap?
WATCH = """
const look = () => {
  if (document.querySelector('#court :is(.target, .disc.can)')) window.offered = performance.now();
  else requestAnimationFrame(look);
};
requestAnimationFrame(look);
"""


def seconds(work: Callable[[], object]) -> float:
    """Return how long ``work`` takes, in processor time."""
    begin = time.process_time()
    work()
    return time.process_time() - begin


def make(formation: Formation, yardstick: float) -> str:
    """Make a formation's pack some times; print its size and the time; return it as it is sent."""
    found: list[dict[str, Any]] = []
    court = half_court("fiba")
    times = [seconds(lambda: found.append(pack(formation, DEFAULT, court))) for _ in range(ROUNDS)]
    text = json.dumps(found[0], ensure_ascii=False, separators=(",", ":"))
    body = text.encode()
    small = len(gzip.compress(body, 9, mtime=0))
    best = min(times)
    print(
        f"{formation.name}: {len(body):,} bytes, gzipped {small:,} = {small / AIM_BYTES:.2f} of the aim; "
        f"made in {best / yardstick:.0f} times the yardstick, {best:.2f} s = "
        f"{best / AIM_MAKE_S:.2f} of the aim",
        flush=True,
    )
    return text


def read(page: Page, text: str, alignments: Sequence[Alignment], slower: float) -> None:
    """Read a pack in the browser some times, look menus up in it, and print the times."""
    dice = random.Random(1)
    standings = [
        position_wire(seated(dice, alignment)) for alignment in dice.sample(list(alignments), POSITIONS)
    ]
    session = page.context.new_cdp_session(page)
    session.send("Emulation.setCPUThrottlingRate", {"rate": slower})
    found = [page.evaluate(READ, {"text": text, "standings": standings}) for _ in range(ROUNDS)]
    session.send("Emulation.setCPUThrottlingRate", {"rate": 1})
    session.detach()
    parse = [each["parse"] / 1000 for each in found]
    menus = [menu / 1000 for each in found for menu in each["menus"]]
    print(
        f"  processor {slower:g} times slower: parsed {told(parse)} = "
        f"{statistics.median(parse) / AIM_PARSE_S:.2f} of the aim; one menu {told(menus)}",
        flush=True,
    )


def cold_start(browser: Browser, server: LiveServer) -> None:
    """Visit once, end the server, and print how long opening the board takes without it."""
    context = browser.new_context(viewport={"width": 1180, "height": 820}, has_touch=True)
    context.set_default_timeout(PATIENCE_MS)
    page = context.new_page()
    page.goto(server.url)
    page.get_by_role("button", name="Open a new board").tap()
    page.wait_for_url("**/board/*")
    address = page.url
    page.evaluate("() => navigator.serviceWorker.ready.then(() => true)")
    page.wait_for_function(HELD % len(FORMATIONS))
    page.reload()  # so that everything the page is made of has come by way of the worker
    page.locator("#court .disc.can").first.wait_for()
    page.close()
    server.stop()
    for slower in (1, SLOWER):
        found = []
        for _ in range(STARTS):
            page = context.new_page()
            page.add_init_script(WATCH)
            context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": slower})
            page.goto(address)
            found.append(float(page.wait_for_function("() => window.offered").json_value()) / 1000)
            page.close()
        print(
            f"cold start with no server, processor {slower} times slower: {told(found)} = "
            f"{statistics.median(found) / AIM_START_S:.2f} of the aim",
            flush=True,
        )
    context.close()


def main() -> None:
    """Print sizes, times and how they stand to the aims."""
    yardstick = min(seconds(chess_nodes) for _ in range(ROUNDS))
    with running_server() as server, running_browser() as browser:
        page = browser.new_context(service_workers="block").new_page()
        page.goto(f"{server.url}/join")
        for formation in FORMATIONS.values():
            text = make(formation, yardstick)
            alignments = list(closure(formation, DEFAULT))
            for slower in (1, SLOWER):
                read(page, text, alignments, slower)
        page.context.close()
        cold_start(browser, server)


if __name__ == "__main__":
    main()
