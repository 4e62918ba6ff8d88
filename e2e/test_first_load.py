"""What a first load costs, counted on the wire; nothing is fetched twice, and a reload is next to nothing."""

from __future__ import annotations

import urllib.request
from collections import Counter
from collections.abc import Iterator
from urllib.parse import urljoin, urlsplit

import pytest
from playwright.sync_api import Page, expect

from e2e.conftest import PHONE, TABLET, NewContext, Troubles
from e2e.people import Coach, Player
from tests.server import LiveServer
from tests.tap import Exchange, Tap, tapped
from tests.webapp.screens import Device

COACH_REQUESTS, COACH_BYTES = 25, 250_000
PHONE_REQUESTS, PHONE_BYTES = 12, 60_000

#: Comes to an end once the worker has kept what it keeps, and the packs are here.
KEPT = """async () => {
  const { openKept } = await import('/static/js/device/storage.js');
  const pages = await caches.open('quintet-pages');
  const paths = [location.pathname, '/', '/check'];
  for (;;) {
    const kept = await Promise.all(paths.map((path) => pages.match(path, { ignoreVary: true })));
    const held = (await (await openKept()).get('meta', 'packs'))?.[document.body.dataset.board] ?? [];
    if (kept.every(Boolean) && held.length >= 3 && navigator.serviceWorker.controller) return;
    await new Promise((done) => requestAnimationFrame(done));
  }
}"""


@pytest.fixture
def tap(server: LiveServer) -> Iterator[Tap]:
    with tapped(server.port) as found:
        yield found


@pytest.fixture
def new_context(tap: Tap, new_context: NewContext) -> NewContext:
    """Browsers that are closed before what they ask through: a loaded page goes on asking."""
    return new_context


@pytest.fixture
def device(server: LiveServer) -> Device:
    made = Device(server)
    made.make_team()
    return made


def open_board(new_context: NewContext, tap: Tap, device: Device) -> Page:
    """Open the board in a new browser that has been given the team's key."""
    context = new_context(viewport=TABLET, service_workers="allow", sources=False)
    url = f"http://{tap.host}"
    context.add_cookies(
        [{"name": name, "value": value, "url": url} for name, value in device.cookies.items()]
    )
    page = context.new_page()
    page.goto(f"{url}/board/{device.board_id}")
    expect(page.locator("#status")).to_have_attribute("data-link", "live")
    return page


def fetch_like_a_window(page: Page, tap: Tap) -> None:
    """Fetch what a browser with a window does as well, and one without may not."""
    for link in ("manifest", "icon"):
        href = page.locator(f'link[rel="{link}"]').first.get_attribute("href")
        if href not in [each.path for each in tap.exchanges]:
            asked = urllib.request.Request(urljoin(page.url, href), headers={"Accept-Encoding": "gzip"})
            urllib.request.urlopen(asked).read()


def repeated(exchanges: list[Exchange]) -> list[str]:
    counts = Counter(each.path for each in exchanges if each.method == "GET" and each.status == 200)
    return [path for path, count in counts.items() if count > 1]


def sizes(exchanges: list[Exchange]) -> dict[str, int]:
    return {each.path: each.gzipped_bytes for each in exchanges}


def test_a_coachs_first_load_is_small_and_nothing_comes_twice(
    new_context: NewContext, tap: Tap, device: Device
) -> None:
    page = open_board(new_context, tap, device)
    page.evaluate(KEPT)
    everything = [each for each in tap.exchanges if not each.path.startswith("/static/js/")]  # the look's own
    assert repeated(everything) == []
    # The worker found at once what the page had fetched.
    assert any(each.by_worker and each.path == "/static/dist/manifest.json" for each in everything)
    tap.exchanges[:] = [each for each in everything if not each.by_worker and "/api/pack" not in each.path]
    fetch_like_a_window(page, tap)
    assert len(tap.exchanges) <= COACH_REQUESTS, sizes(tap.exchanges)
    assert sum(sizes(tap.exchanges).values()) <= COACH_BYTES, sizes(tap.exchanges)


def test_a_coachs_reload_asks_for_the_page_and_whether_it_is_new(
    new_context: NewContext, tap: Tap, device: Device
) -> None:
    page = open_board(new_context, tap, device)
    page.evaluate(KEPT)
    tap.exchanges.clear()
    page.reload()
    expect(page.locator("#status")).to_have_attribute("data-link", "live")
    asked = [each.path for each in tap.exchanges if not each.path.startswith(("/api/", "/live/"))]
    assert set(asked) <= {urlsplit(page.url).path, "/static/dist/manifest.json", "/sw.js"}
    assert len(asked) == len(set(asked))


def test_a_phones_first_load_is_small_and_its_reload_is_the_page(
    new_context: NewContext, tap: Tap, device: Device
) -> None:
    link = urlsplit(device.share()["url"]).path
    page = new_context(viewport=PHONE, is_mobile=True).new_page()
    page.goto(f"http://{tap.host}{link}")
    expect(page.locator("#status")).to_have_attribute("data-state", "live")
    fetch_like_a_window(page, tap)
    assert repeated(tap.exchanges) == []
    assert len(tap.exchanges) <= PHONE_REQUESTS, sizes(tap.exchanges)
    assert sum(sizes(tap.exchanges).values()) <= PHONE_BYTES, sizes(tap.exchanges)
    tap.exchanges.clear()
    page.reload()
    expect(page.locator("#status")).to_have_attribute("data-state", "live")
    assert [each.path for each in tap.exchanges if not each.path.startswith("/live/")] == [link]


@pytest.mark.parametrize("role", ["coach", "player"])
def test_a_page_whose_program_does_not_come_says_so(
    coach: Coach, player: Player, troubles: Troubles, role: str
) -> None:
    """It said "One moment…" for ever."""
    troubles.expect(r"net::ERR_FAILED")
    page = coach.page if role == "coach" else player.page
    page.route("**/static/dist/*.js", lambda route: route.abort())
    page.reload()
    late = page.locator(".late")
    expect(late).to_be_visible()
    expect(late).to_contain_text("A part of the page may not have come.")
    page.unroute_all()
    late.get_by_role("link", name="Load the page again").tap()
    expect(late).to_have_count(0)
