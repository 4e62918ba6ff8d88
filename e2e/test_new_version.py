"""A new version while pages are open: what is open goes on with the old one, the next load is all new."""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import expect

from e2e.conftest import LINE_DOWN, Troubles
from e2e.people import Coach
from tests.plugin import ROOMY
from tests.server import ROOT, LiveServer, Servers

DIST = ROOT / "static/dist"
#: Marks every module and sheet, and tells which of them a page has run.
MARK = {".js": '\n(globalThis.ran??=new Set).add("{mark}");', ".css": "\n:root{{--ran:{mark}}}"}
RAN = "() => [...globalThis.ran ?? []]"
WORN = "() => getComputedStyle(document.documentElement).getPropertyValue('--ran')"

#: Comes to an end once what is kept is of this version: the shell, the board's page and the two beside it.
KEPT = """async (version) => {
  for (;;) {
    const pages = await caches.open('quintet-pages');
    const paths = [location.pathname, '/', '/check'];
    const kept = await Promise.all(paths.map((path) => pages.match(path, { ignoreVary: true })));
    const shell = await (await caches.match('/current-shell', { cacheName: 'quintet-index' }))?.text();
    const whole = shell === 'quintet-shell-' + version && navigator.serviceWorker.controller;
    if (whole && kept.every((page) => page?.headers.get('Quintet-Version') === version)) return;
    await new Promise((done) => setTimeout(done, 20));
  }
}"""


def version(folder: Path, mark: str) -> str:
    """Write the bundle as another version of the app would have it; return its name."""
    shutil.copytree(DIST, folder)
    names = [each.name for each in folder.iterdir() if "-" in each.name]
    renamed = {name: f"{Path(name).stem}{mark}{Path(name).suffix}" for name in names}
    for path in folder.iterdir():
        if path.suffix in (".js", ".css", ".json"):
            text = path.read_text()
            for name, new in renamed.items():
                text = text.replace(name, new)
            path.write_text(text + MARK.get(path.suffix, "").format(mark=mark))
        path.rename(folder / renamed.get(path.name, path.name))
    manifest = json.loads((folder / "manifest.json").read_text())
    manifest["version"] = mark.lower() * 4
    (folder / "manifest.json").write_text(json.dumps(manifest))
    return str(manifest["version"])


@pytest.fixture
def versions(tmp_path: Path) -> tuple[str, str]:
    return version(tmp_path / "one", "AAAA"), version(tmp_path / "two", "BBBB")


@pytest.fixture
def server(live_server: Servers, tmp_path: Path, versions: tuple[str, str]) -> LiveServer:
    return live_server(tmp_path / "data", **ROOMY, bundle_dir=tmp_path / "one")


def upgrade(server: LiveServer, folder: Path) -> None:
    """Stop the server and start the next version in its place."""
    server.stop()
    server.settings = {**server.settings, "bundle_dir": folder}
    server.restart()


def all_of(coach: Coach, mark: str) -> None:
    assert coach.page.evaluate(RAN) == [mark]
    assert coach.page.evaluate(WORN) == mark


def everything_opens(coach: Coach) -> None:
    """Open what is not needed at first: by hand, the sharing panel, the clock."""
    page = coach.page
    coach.do("byHand")
    expect(page.get_by_role("button", name="Close", exact=True)).to_be_visible()
    page.keyboard.press("Escape")
    coach.do("share")
    expect(page.locator("dialog.sharing")).to_be_visible()
    assert (
        page.locator("dialog.sharing").evaluate("(panel) => getComputedStyle(panel).borderRadius") == "18px"
    )
    page.keyboard.press("Escape")
    coach.do("clock")
    expect(page.get_by_role("button", name="60")).to_be_visible()


def test_an_open_page_goes_on_and_the_next_load_is_all_new(
    new_coach: Callable[..., Coach],
    server: LiveServer,
    versions: tuple[str, str],
    troubles: Troubles,
    tmp_path: Path,
) -> None:
    troubles.expect(LINE_DOWN)
    troubles.expect(r"net::ERR_INTERNET_DISCONNECTED")
    old, new = versions
    coach = new_coach(service_workers="allow")
    page = coach.page
    page.evaluate(KEPT, old)
    all_of(coach, "AAAA")

    upgrade(server, tmp_path / "two")
    coach.saved()  # the page that is open has the line again
    everything_opens(coach)
    all_of(coach, "AAAA")

    # Without a network in between, all that is kept is still the old version.
    coach.context.set_offline(True)
    page.reload()
    expect(coach.status).to_have_attribute("data-link", "offline")
    all_of(coach, "AAAA")
    page.goto(f"{server.url}/check")
    expect(page.get_by_role("heading", name="Check this device")).to_be_visible()
    all_of(coach, "AAAA")
    page.goto(f"{server.url}/board/{coach.board_id}")

    coach.context.set_offline(False)
    page.reload()
    coach.saved()
    # A server that is slow to answer does not hold the page up: then it is once more the one that is kept.
    assert page.evaluate(RAN) in (["AAAA"], ["BBBB"])
    assert [page.evaluate(WORN)] == page.evaluate(RAN)
    page.evaluate(KEPT, new)
    page.reload()
    coach.saved()
    all_of(coach, "BBBB")
    # Now all that is kept is new, pages that were not loaded again among them.
    coach.context.set_offline(True)
    page.reload()
    expect(coach.status).to_have_attribute("data-link", "offline")
    all_of(coach, "BBBB")
    page.goto(f"{server.url}/check")
    expect(page.get_by_role("heading", name="Check this device")).to_be_visible()
    all_of(coach, "BBBB")


def test_a_version_that_comes_half_is_not_kept(
    new_coach: Callable[..., Coach],
    server: LiveServer,
    versions: tuple[str, str],
    troubles: Troubles,
    tmp_path: Path,
) -> None:
    troubles.expect(LINE_DOWN)
    troubles.expect(r"net::ERR_INTERNET_DISCONNECTED")
    coach = new_coach(service_workers="allow")
    page = coach.page
    page.evaluate(KEPT, versions[0])
    # One file that only a page beside the board needs cannot be had.
    manifest = json.loads((tmp_path / "two/manifest.json").read_text())
    lost = tmp_path / "two" / Path(manifest["pages"]["check"]["js"]).name
    text = lost.read_text()
    lost.unlink()
    upgrade(server, tmp_path / "two")
    page.reload()
    coach.saved()
    assert page.evaluate(REFRESH) == "failed"
    coach.context.set_offline(True)
    page.reload()
    expect(coach.status).to_have_attribute("data-link", "offline")
    all_of(coach, "AAAA")
    coach.context.set_offline(False)
    lost.write_text(text)
    page.reload()
    coach.saved()
    assert page.evaluate(REFRESH) == "refreshed"
    page.evaluate(KEPT, versions[1])


#: Has the worker compare what is kept with the server's, as the page that checks a device does.
REFRESH = """() => new Promise((resolve) => {
  const { port1, port2 } = new MessageChannel();
  port1.onmessage = ({ data }) => resolve(data);
  navigator.serviceWorker.controller.postMessage('refresh', [port2]);
})"""
