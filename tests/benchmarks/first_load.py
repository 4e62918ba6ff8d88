"""What a player's phone fetches: everything of the first load of the viewing page, and one action's message.

Bytes are bodies on the wire to a browser that takes gzip. What the server sends unpacked (pages that carry a
secret, and the live socket) is also given as gzip would make it.
"""

from __future__ import annotations

import gzip
import http.client
import json
import random
import statistics
from urllib.parse import urlsplit

from playwright.sync_api import Browser, Page, Request, WebSocket

from tests.benchmarks.parts import running_browser, running_server
from tests.webapp.screens import Device

AIM_BYTES = 80_000
ACTIONS = 60


def packed(body: bytes) -> int:
    """Return the size of ``body`` under gzip."""
    return len(gzip.compress(body, 9, mtime=0))


def first_load(browser: Browser, url: str) -> tuple[list[str], bytes]:
    """Open the viewing page as a new phone; return what it asked for, and the socket's first message."""
    context = browser.new_context(viewport={"width": 390, "height": 844}, is_mobile=True, has_touch=True)
    page: Page = context.new_page()
    asked: list[str] = []
    messages: list[bytes] = []

    def note_request(request: Request) -> None:
        if request.url.startswith("http") and request.url not in asked:
            asked.append(request.url)

    def note_socket(socket: WebSocket) -> None:
        socket.on("framereceived", lambda text: messages.append(text.encode()))

    page.on("request", note_request)
    page.on("websocket", note_socket)
    page.goto(url)
    page.locator("#status[data-state=live]").wait_for()
    # A browser with a window also fetches these two, which one without does not.
    for link in ("manifest", "icon"):
        href = page.locator(f'link[rel="{link}"]').first.evaluate("element => element.href")
        if href not in asked:
            asked.append(href)
    context.close()
    return asked, messages[0]


def fetch(url: str) -> tuple[bytes, bool]:
    """Fetch as a browser does; return the body as it was on the wire, and whether it was packed."""
    parts = urlsplit(url)
    wire = http.client.HTTPConnection(parts.netloc, timeout=30)
    wire.request("GET", parts.path, headers={"Accept-Encoding": "gzip"})
    answer = wire.getresponse()
    body = answer.read()
    wire.close()
    return body, answer.getheader("Content-Encoding") == "gzip"


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
    """Print the sizes and how they stand to the aim."""
    with running_server() as server, running_browser() as browser:
        device = Device(server)
        device.make_team()
        asked, state = first_load(browser, device.share()["url"])
        actions = action_messages(device)
        rows = []
        for url in asked:
            body, was_packed = fetch(url)
            rows.append((urlsplit(url).path, len(body), len(body) if was_packed else packed(body)))
    rows.append(("first message of the live socket", len(state), packed(state)))
    print("first load of the viewing page, bytes (as sent; in brackets: gzipped, where it is not sent so)")
    for path, sent, small in sorted(rows, key=lambda row: -row[1]):
        if path.startswith("/v/"):
            path = "the page itself"
        print(f"  {sent:7,}{'' if sent == small else f' ({small:,})'}  {path}")
    sent, small = (sum(row[at] for row in rows) for at in (1, 2))
    print(
        f"  {len(rows)} requests: {sent:,} as sent = {sent / AIM_BYTES:.2f} of the aim of {AIM_BYTES:,}; all "
        f"gzipped {small:,} = {small / AIM_BYTES:.2f}"
    )
    sizes, smalls = [len(each) for each in actions], [packed(each) for each in actions]
    print(
        f"one action: median {statistics.median(sizes):,.0f} bytes as sent, largest {max(sizes):,}; "
        f"gzipped {statistics.median(smalls):,.0f} and {max(smalls):,}"
    )


if __name__ == "__main__":
    main()
