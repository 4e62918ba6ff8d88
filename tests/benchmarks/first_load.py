"""What a first load costs: requests and bytes until a coach can play and a phone is live, what comes after,
what is fetched twice; one action's message; and how long a phone waits for the court on a slow line.

Bytes are read off the wire and counted under gzip: as sent, where they are sent so; pages that carry a secret
and the live socket are sent unpacked. The slow line has 1.44 Mbit/s and a way of 300 ms there and back, the
phone a processor four times slower, both as the browser emulates them.
"""

from __future__ import annotations

import json
import random
import statistics
from collections import Counter
from collections.abc import Callable
from urllib.parse import urlsplit

from playwright.sync_api import Browser, Page

from tests.benchmarks.parts import running_browser, running_server, told
from tests.tap import Exchange, Tap, tapped
from tests.webapp.screens import Device

AIM_COACH = (25, 250_000)
AIM_PHONE = (12, 60_000)
AIM_COURT_S = 2.0
ACTIONS = 60
LOADS = 7
SLOWER = 4
LINE = {"offline": False, "latency": 300, "downloadThroughput": 180_000, "uploadThroughput": 180_000}
#: The worker and the packs take their time; then nothing has been asked for so long.
QUIET_MS = 3000

#: Tells when the court was there with all its players, milliseconds after the page was asked for.
DRAWN = """(() => {
  const look = () => {
    const discs = [...document.querySelectorAll('#court .disc')].filter((each) => each.checkVisibility());
    if (discs.length >= 5) requestAnimationFrame((now) => (window.drawn = now));
    else requestAnimationFrame(look);
  };
  requestAnimationFrame(look);
})();"""


def settled(page: Page, tap: Tap) -> None:
    """Wait until nothing more is asked for."""
    seen = -1
    while seen != len(tap.exchanges):
        seen = len(tap.exchanges)
        page.wait_for_timeout(QUIET_MS)


def name(each: Exchange) -> str:
    """Return what was asked for, without anybody's secret."""
    path = urlsplit(each.path).path
    for begin, told_as in (("/v/", "the page"), ("/board/", "the page"), ("/live/", "the live socket")):
        if path.startswith(begin):
            return told_as
    return path + (" (the worker)" if each.by_worker else "")


def row(each: Exchange) -> str:
    return f"    {each.gzipped_bytes:7,}  {name(each)}"


def tell(what: str, tap: Tap, until: int, aim: tuple[int, int], apart: Callable[[Exchange], bool]) -> None:
    """Print what was asked up to ``until``, without what is ``apart``, against ``aim``; then the rest."""
    first = [each for each in tap.exchanges[:until] if not apart(each)]
    after = [each for each in tap.exchanges if each not in first]
    small = sum(each.gzipped_bytes for each in first)
    print(f"{what}: {len(first)} requests = {len(first) / aim[0]:.2f} of the aim of {aim[0]}")
    print(f"  {small:,} bytes gzipped = {small / aim[1]:.2f} of the aim of {aim[1]:,}")
    print(*(row(each) for each in first), sep="\n")
    print(f"  after that {len(after)} requests, {sum(each.gzipped_bytes for each in after):,} bytes")
    print(*(row(each) for each in after), sep="\n")
    counts = Counter(each.path for each in tap.exchanges if each.method == "GET" and each.status == 200)
    twice = [urlsplit(path).path for path, count in counts.items() if count > 1]
    print(f"  fetched more than once: {', '.join(twice) or 'nothing'}")


def coach_load(browser: Browser, port: int, device: Device) -> None:
    """Open a board as a new browser that has been given a key."""
    with tapped(port) as tap:
        context = browser.new_context(viewport={"width": 1180, "height": 820}, has_touch=True)
        url = f"http://{tap.host}"
        context.add_cookies(
            [{"name": key, "value": kept, "url": url} for key, kept in device.cookies.items()]
        )
        page = context.new_page()
        page.goto(f"{url}/board/{device.board_id}")
        page.locator("#list button").first.wait_for()
        until = len(tap.exchanges)
        settled(page, tap)
        tell(
            "a coach's first load, until the court can be played",
            tap,
            until,
            AIM_COACH,
            lambda each: each.by_worker or "/api/pack" in each.path,
        )
        context.close()


def phone_load(browser: Browser, port: int, link: str) -> None:
    """Open the viewing page as a new phone."""
    with tapped(port) as tap:
        context = browser.new_context(viewport={"width": 390, "height": 844}, is_mobile=True, has_touch=True)
        page = context.new_page()
        page.goto(f"http://{tap.host}{link}")
        page.locator("#status[data-state=live]").wait_for()
        until = len(tap.exchanges)
        settled(page, tap)
        tell("a phone's first load, until it is live", tap, until, AIM_PHONE, lambda each: False)
        context.close()


def court_drawn(browser: Browser, url: str) -> float:
    """Return the seconds until a new phone on the slow line has the court with its players."""
    context = browser.new_context(viewport={"width": 390, "height": 844}, is_mobile=True, has_touch=True)
    page = context.new_page()
    page.add_init_script(DRAWN)
    line = context.new_cdp_session(page)
    line.send("Network.enable")
    line.send("Network.emulateNetworkConditions", LINE)
    line.send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
    page.goto(url, wait_until="commit")
    drawn = page.wait_for_function("() => window.drawn", timeout=60_000).json_value()
    context.close()
    return float(drawn) / 1000


def action_messages(device: Device) -> list[bytes]:
    """Play actions at random and return the message a phone gets for each."""
    dice = random.Random(1)
    found = []
    with device.coach() as coach:
        while len(found) < ACTIONS:
            while coach.offered["seq"] != coach.seq:
                coach.hear()
            taps = [offer["a"] for offer in coach.offered["offers"] if offer["a"][-1] != "shot"]
            answer = coach.act(*dice.choice(taps))
            found.append(json.dumps(answer, separators=(",", ":"), ensure_ascii=False).encode())
    return found


def main() -> None:
    """Print requests, sizes and times, and how they stand to the aims."""
    with running_server() as server, running_server("--sources") as sources, running_browser() as browser:
        device, written = Device(server), Device(sources)
        device.make_team()
        written.make_team()
        url = device.share()["url"]
        coach_load(browser, server.port, device)
        phone_load(browser, server.port, urlsplit(url).path)
        # Side by side with the same page from the sources, as whatever else this machine does slows both.
        times: dict[str, list[float]] = {url: [], written.share()["url"]: []}
        for _ in range(LOADS):
            for each, found in times.items():
                found.append(court_drawn(browser, each))
        packed, unpacked = times.values()
        actions = [len(each) for each in action_messages(device)]
    print(f"court and players on a phone, slow line and processor: {told(packed)}")
    print(
        f"  median {statistics.median(packed) / AIM_COURT_S:.2f} of the aim of {AIM_COURT_S:g} s, "
        f"{statistics.median(packed) / statistics.median(unpacked):.2f} of what the sources take"
    )
    print(f"one action: median {statistics.median(actions):,.0f} bytes as sent, largest {max(actions):,}")


if __name__ == "__main__":
    main()
