"""A coach's devices: one more is added, a lost one is turned off and wipes its copy, a sheet brings back."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from e2e.axe import check
from e2e.conftest import LINE_DOWN, PHONE, TABLET, NewContext, Troubles
from e2e.people import Coach
from tests.webapp.screens import Device

#: What the second device of a kind is called.
NEWCOMER = "Linux computer 2"

#: As a browser reports every page and answer that refuses.
REFUSED = r"status of 4\d\d"

#: Puts things of the app on the device as its parts do, some of them about the board ``mine``.
FILL = """async (mine) => {
  localStorage.setItem('quintet.view', '{"names": {"1": "Ines"}}');
  localStorage.setItem(`quintet.link.${mine}`, '{"url": "x"}');
  localStorage.setItem('else.where', 'stays');
  const pages = await caches.open('quintet-pages');
  await pages.put(`/board/${mine}/else`, new Response('five'));
  const { openKept } = await import('/static/js/device/storage.js');
  const kept = await openKept();
  if (!kept.persistent) throw new Error('nothing can be kept');
  await kept.put('chains', `record of ${mine}`, {board: mine, names: ['Ines']});
  await kept.put('chains', 'record of another', {board: 'other'});
}"""

#: What of the app is on the device: names in storage, caches, the records put by a test (null: no base).
KEPT = """async () => {
  const names = Object.keys(localStorage).filter((name) => name.startsWith('quintet.')).sort();
  const stores = (await caches.keys()).filter((name) => name.startsWith('quintet-')).sort();
  const bases = (await indexedDB.databases()).map(({name}) => name);
  let records = null;
  if (bases.includes('quintet')) {
    records = await new Promise((done) => {
      const asked = indexedDB.open('quintet');
      asked.onsuccess = () => {
        const base = asked.result;
        const all = base.transaction('chains').objectStore('chains').getAllKeys();
        all.onsuccess = () => {
          base.close();
          done(all.result.filter((key) => key.startsWith('record of')));
        };
      };
    });
  }
  const workers = (await navigator.serviceWorker.getRegistrations()).length;
  return {names, stores, records, workers, other: localStorage.getItem('else.where')};
}"""
NOTHING = {"names": [], "stores": [], "records": None, "workers": 0, "other": "stays"}


def open_devices(coach: Coach) -> Page:
    coach.do("share")
    coach.page.get_by_role("tab", name="Devices").tap()
    expect(coach.page.get_by_role("listitem").filter(has_text="this device")).to_be_visible()
    return coach.page


def add(page: Page, code: str) -> None:
    page.get_by_label("Code from another device").press_sequentially(code)
    page.get_by_role("button", name="Add this device").tap()


def admitted(coach: Coach, context: BrowserContext, role: str = "head_coach") -> Coach:
    """Another device of the team, in a browser of its own."""
    body = {"role": role}
    code = coach.device.ask("POST", f"/api/board/{coach.board_id}/device-code", body).json["code"]
    page = context.new_page()
    page.goto(coach.server.url)
    add(page, code)
    page.wait_for_url(f"**/board/{coach.board_id}")
    other = Coach(coach.server, context, page, board_id=coach.board_id)
    other.saved()
    return other


def turn_off(coach: Coach, name: str) -> None:
    page = open_devices(coach)
    page.get_by_role("button", name=f"Turn off: {name}").tap()
    expect(page.get_by_role("alert").filter(has_text="until it next reaches")).to_be_visible()
    page.get_by_role("button", name="Yes, turn it off").tap()
    expect(page.get_by_role("button", name=f"Turn off: {name}")).to_have_count(0)
    page.get_by_role("button", name="Close", exact=True).tap()


def test_a_device_is_added_by_a_code_and_gets_a_name(coach: Coach, new_context: NewContext) -> None:
    page = open_devices(coach)
    page.get_by_role("button", name="Make a code").tap()
    code = page.locator(".newcomer .code span")
    expect(code).to_have_count(2)
    expect(page.locator(".newcomer")).to_contain_text("works for 10 more minutes")

    phone = new_context(viewport=PHONE, is_mobile=True, user_agent="Mozilla/5.0 (iPhone)").new_page()
    phone.goto(coach.server.url)  # as the app on the home screen opens: at the first page, without a key
    add(phone, " ".join(code.all_text_contents()).lower())
    phone.wait_for_url(f"**/board/{coach.board_id}")

    expect(page.get_by_text("Added: iPhone.")).to_be_visible()
    expect(code).to_have_count(0)
    page.get_by_role("button", name="Rename: iPhone").tap()
    page.get_by_label("New name").fill("Ines's phone")
    page.get_by_role("button", name="Save").tap()
    row = page.get_by_role("listitem").filter(has_text="Ines's phone")
    expect(row).to_contain_text("head coach · seen just now · added by")


def test_the_field_for_a_code_says_what_is_wrong_and_keeps_what_was_typed(
    coach: Coach, new_context: NewContext, troubles: Troubles
) -> None:
    troubles.expect(REFUSED)
    page = new_context(viewport=PHONE, is_mobile=True).new_page()
    page.goto(f"{coach.server.url}/board/{coach.board_id}")
    expect(page.get_by_role("heading", name="Not this device yet")).to_be_visible()
    expect(page.get_by_role("heading", name="Ways back in")).to_be_visible()
    add(page, "4444 4444")
    expect(page.get_by_role("alert")).to_contain_text("That code does not work.")
    expect(page.get_by_label("Code from another device")).to_have_value("4444 4444")


def test_everything_about_devices_is_accessible(
    coach: Coach, new_context: NewContext, troubles: Troubles
) -> None:
    troubles.expect(REFUSED)
    other = admitted(coach, new_context(viewport=PHONE, is_mobile=True))
    page = open_devices(coach)
    page.get_by_role("button", name="Make a code").tap()
    expect(page.locator(".newcomer .code span")).to_have_count(2)
    check(page)
    page.get_by_role("button", name=f"Turn off: {NEWCOMER}").tap()
    check(page)
    page.get_by_role("button", name="Yes, turn it off").tap()
    expect(other.page.get_by_role("status")).to_contain_text("has been removed")
    check(other.page)
    other.page.goto(f"{coach.server.url}/add")
    check(other.page)
    page.get_by_role("button", name="Make a recovery sheet").tap()
    expect(page.get_by_role("heading", name="Recovery sheet", exact=True)).to_be_visible()
    check(page)
    page.goto(page.url)
    check(page)


def test_a_recovery_sheet_brings_a_coach_back(
    coach: Coach, new_context: NewContext, troubles: Troubles
) -> None:
    page = open_devices(coach)
    page.get_by_role("button", name="Make a recovery sheet").tap()
    page.wait_for_url("**/sheet/*")
    code = " ".join(page.locator(".paper .code span").all_text_contents())
    expect(page.get_by_role("img", name="QR code of this sheet")).to_be_visible()
    page.emulate_media(media="print")
    expect(page.get_by_text("Print it now.")).to_be_hidden()
    expect(page.get_by_text("It works once")).to_be_visible()

    new = new_context(viewport=TABLET).new_page()
    new.goto(coach.server.url)
    add(new, code)
    expect(new.get_by_role("heading", name="You are back in")).to_be_visible()
    new.get_by_role("link", name="To the board").tap()
    # The way to the lost device is open at once.
    sheet = new.locator(".row").filter(has_text="The last one was used on")
    expect(sheet.get_by_role("button", name="Make a new one")).to_be_visible()
    troubles.expect(REFUSED)
    late = new_context(viewport=PHONE, is_mobile=True).new_page()
    late.goto(coach.server.url)
    add(late, code)
    expect(late.get_by_role("alert")).to_contain_text("This recovery sheet has been used")


def test_a_sheet_fits_one_page_of_either_paper(coach: Coach) -> None:
    page = open_devices(coach)
    page.get_by_role("button", name="Make a recovery sheet").tap()
    page.wait_for_url("**/sheet/*")
    for paper in ("A4", "Letter"):
        drawn = page.pdf(format=paper)
        # A PDF's tree of pages says how many there are (ISO 32000-1, 7.7.3; from memory).
        assert re.findall(rb"/Count (\d+)", drawn) == [b"1"]


def test_a_device_that_is_turned_off_wipes_its_copy_at_once(
    coach: Coach, new_context: NewContext, troubles: Troubles
) -> None:
    troubles.expect(REFUSED)
    lost = admitted(coach, new_context(viewport=TABLET, service_workers="allow"))
    kept_offline(lost)
    lost.page.evaluate(FILL, coach.board_id)
    turn_off(coach, NEWCOMER)

    expect(lost.page.get_by_role("heading", name="This device is turned off")).to_be_visible()
    expect(lost.page.get_by_role("status")).to_have_text(
        "What the app had saved of the team on this device has been removed."
    )
    assert lost.page.evaluate(KEPT) == NOTHING
    assert lost.context.cookies() == []
    lost.page.goto(f"{coach.server.url}/board/{coach.board_id}")
    expect(lost.page.get_by_role("heading", name="Not this device yet")).to_be_visible()


@pytest.mark.parametrize("path", ["/", "/board/{board}"])
def test_a_device_that_was_away_wipes_its_copy_when_it_comes_back(
    coach: Coach, new_context: NewContext, troubles: Troubles, path: str
) -> None:
    troubles.expect(REFUSED)
    troubles.expect(LINE_DOWN)
    troubles.expect(r"net::ERR_INTERNET_DISCONNECTED")
    lost = admitted(coach, new_context(viewport=TABLET, service_workers="allow"))
    kept_offline(lost)
    lost.page.evaluate(FILL, coach.board_id)
    lost.context.set_offline(True)
    lost.page.reload()
    expect(lost.status).to_contain_text("offline")
    turn_off(coach, NEWCOMER)
    # A line that is down says nothing about the key: all is still here.
    assert len(lost.page.evaluate(KEPT)["records"]) == 2
    lost.page.goto("about:blank")
    lost.context.set_offline(False)
    lost.page.goto(coach.server.url + path.format(board=coach.board_id))
    expect(lost.page.get_by_text("has been removed")).to_be_visible()
    assert lost.page.evaluate(KEPT) == NOTHING


def test_another_teams_things_stay_on_a_device(
    coach: Coach, new_context: NewContext, troubles: Troubles
) -> None:
    troubles.expect(REFUSED)
    device = admitted(coach, new_context(viewport=TABLET))
    device.page.goto(coach.server.url)
    device.page.get_by_label("Team").fill("Pier Foxes")
    device.page.get_by_role("button", name="Open a new board").tap()
    device.page.wait_for_url("**/board/*")
    own = device.page.url.rsplit("/", 1)[1]
    device.page.evaluate(FILL, own)
    device.page.evaluate(FILL, coach.board_id)
    turn_off(coach, NEWCOMER)
    device.page.goto(f"{coach.server.url}/board/{coach.board_id}")
    expect(device.page.get_by_role("status")).to_contain_text("Your other team is still here.")
    kept = device.page.evaluate(KEPT)
    assert kept["records"] == sorted(["record of another", f"record of {own}"])
    assert f"quintet.link.{own}" in kept["names"]
    assert f"quintet.link.{coach.board_id}" not in kept["names"]
    device.page.goto(f"{coach.server.url}/board/{own}")
    device.saved()


def test_the_team_page_of_a_device_that_is_turned_off_wipes_too(
    coach: Coach, new_context: NewContext, troubles: Troubles
) -> None:
    troubles.expect(REFUSED)
    lost = admitted(coach, new_context(viewport=TABLET))
    lost.page.goto(f"{coach.server.url}/team?board={coach.board_id}#squad")
    number = lost.page.locator(".newplayer [data-place=number]")
    expect(number).to_be_visible()
    lost.page.evaluate(FILL, coach.board_id)
    turn_off(coach, NEWCOMER)
    number.fill("7")
    number.press("Enter")
    expect(lost.page.get_by_text("has been removed")).to_be_visible()
    assert lost.page.evaluate(KEPT) == NOTHING


def test_a_link_or_a_board_that_is_gone_wipes_nothing(
    coach: Coach, new_player: Callable[..., object], troubles: Troubles
) -> None:
    troubles.expect(REFUSED)
    coach.page.evaluate(FILL, coach.board_id)
    before = coach.page.evaluate(KEPT)
    link = coach.device.share()
    coach.device.ask("DELETE", f"/api/links/{link['id']}")
    for path in ("/board/none", link["url"].removeprefix(coach.server.url)):
        coach.page.goto(coach.server.url + path)
    other = Device(coach.server, board_id=Device(coach.server).make_team())
    coach.page.goto(f"{coach.server.url}/board/{other.board_id}")  # another team's
    coach.page.goto(f"{coach.server.url}/off")
    coach.page.wait_for_url(f"{coach.server.url}/")  # it is not
    assert coach.page.evaluate(KEPT) == before


def test_the_browser_is_asked_once_to_keep_the_copy_when_something_is_saved(coach: Coach) -> None:
    page = coach.page
    assert page.evaluate("() => localStorage.getItem('quintet.asked')") is None
    coach.tap("1 passes to 2")
    coach.saved()
    assert page.evaluate("() => localStorage.getItem('quintet.asked')") == "yes"
    open_devices(coach)
    said = page.locator("section").filter(has_text="This device’s copy")
    promised = page.evaluate("() => navigator.storage.persisted()")
    expect(said).to_contain_text(
        "The app may keep its copy" if promised else "The browser may clear the copy"
    )


def kept_offline(coach: Coach) -> None:
    """Wait until the service worker has taken the page in."""
    page = coach.page
    page.evaluate("() => navigator.serviceWorker.ready.then(() => {})")
    page.reload()
    coach.saved()
    assert page.evaluate("async () => (await caches.keys()).includes('quintet-pages')")
