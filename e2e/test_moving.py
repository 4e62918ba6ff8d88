"""Moving house, as a coach does it: take the team along, look at what comes in, decide, and be there."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from e2e.axe import check
from e2e.conftest import PHONE, TABLET, NewContext, Troubles
from e2e.people import Coach
from tests.plugin import ROOMY
from tests.server import LiveServer, SharedServers

CHAIN = ["pass:right_wing"], ["fill:left_corner", "pass:top"]


@pytest.fixture
def elsewhere(shared_server: SharedServers) -> LiveServer:
    """Another server, to move to."""
    return shared_server(apart="elsewhere", **ROOMY)


@pytest.fixture
def settled(coach: Coach) -> Coach:
    """A coach whose team has a squad and a pinned play."""
    device, board = coach.device, coach.board_id
    for number, name in (("4", "Zoë"), ("7", "Bo")):
        device.ask("POST", f"/api/team/players?board={board}", {"number": number, "name": name})
    refs = {"board": board, "formation": "five_out", "rules": "pass_and_cut"}
    ops: list[dict[str, Any]] = [
        {"id": "o1", "op": "save", "chain": f"{board}-c", **refs, "line": CHAIN, "name": "Early <b>"},
        {"id": "o2", "op": "edit", "chain": f"{board}-c", "pinned": True},
    ]
    done = device.ask("POST", f"/api/sync?board={board}", {"ops": ops}).json["done"]
    assert [item["ok"] for item in done] == [True, True]
    return coach


def save_team(page: Page, board: str, path: Path) -> Path:
    """Go from the team's page to the one that takes it along, and save the file."""
    page.get_by_role("link", name="Export or import").tap()
    expect(page.get_by_role("radio", name="Into Quay Otters")).to_be_checked()
    with page.expect_download() as download:
        page.get_by_role("link", name="Save Quay Otters as a file").tap()
    assert download.value.suggested_filename == "quintet-quay-otters.json"
    download.value.save_as(path)
    return path


def take_along(coach: Coach, path: Path) -> Path:
    coach.page.goto(f"{coach.server.url}/team?board={coach.board_id}#squad")
    return save_team(coach.page, coach.board_id, path)


def parts(page: Page) -> list[str]:
    """Return the headings of what is asked about."""
    return page.locator("#found .part h4").all_text_contents()


def bring(page: Page) -> None:
    page.get_by_role("button", name="Import").tap()
    page.wait_for_url("**/board/*")


def test_a_team_moves_to_another_server(
    settled: Coach, elsewhere: LiveServer, new_context: NewContext, tmp_path: Path
) -> None:
    file = take_along(settled, tmp_path / "team.json")
    page = new_context(viewport=PHONE, is_mobile=True).new_page()
    page.goto(elsewhere.url)
    page.get_by_role("link", name="Import a team from another Quintet").tap()
    page.set_input_files("#file", file)
    expect(page.get_by_role("heading", name="In the file: Quay Otters")).to_be_focused()
    expect(page.locator("#found .counts li")).to_have_text(["2 players", "1 board", "1 play"])
    bring(page)
    expect(page).to_have_url(f"{elsewhere.url}/board/{settled.board_id}")
    page.goto(elsewhere.url)
    expect(page.get_by_role("link", name="Early <b>")).to_be_visible()  # pinned, and its name is only text
    page.goto(f"{elsewhere.url}/team?board={settled.board_id}#squad")
    expect(page.locator(".players strong")).to_have_text(["Zoë", "Bo"])
    assert save_team(page, settled.board_id, tmp_path / "again.json").read_bytes() == file.read_bytes()


def test_what_clashes_is_shown_and_the_coach_decides(settled: Coach, tmp_path: Path) -> None:
    file = take_along(settled, tmp_path / "team.json")
    found = json.loads(file.read_text("utf-8"))
    for player in found["players"]:
        if player["number"] == "4":
            player.update(id="another", name="Kim")
    found["team"]["calls"] = {"drive": {"call": "Go"}}
    file.write_text(json.dumps(found), "utf-8")
    page = settled.page
    page.set_input_files("#file", file)
    expect(page.get_by_role("heading", name="What comes into Quay Otters")).to_be_visible()
    assert parts(page) == ["Name and calls", "Players"]
    expect(page.locator("#found .pairs li")).to_have_text(["4 Kim in the file, 4 Zoë here"])
    expect(page.get_by_role("button", name="Import")).to_be_disabled()
    page.get_by_role("group", name="Players: Where they differ").get_by_role(
        "radio", name="Keep both"
    ).check()
    bring(page)
    page.goto(f"{settled.server.url}/team?board={settled.board_id}#squad")
    expect(page.locator(".players strong")).to_have_text(["Kim", "Zoë", "Bo"])  # at the first free number
    expect(page.locator(".players b")).to_have_text(["0", "4", "7"])


def test_what_is_here_already_needs_no_bringing(settled: Coach, tmp_path: Path) -> None:
    file = take_along(settled, tmp_path / "team.json")
    page = settled.page
    page.set_input_files("#file", file)
    expect(page.locator("#found")).to_contain_text("Everything in the file is here already.")
    expect(page.get_by_role("button", name="Import")).to_have_count(0)
    page.get_by_role("radio", name="As a new team").check()
    expect(page.locator("#found")).to_contain_text("as a new team you have it twice")
    bring(page)
    assert page.url.rsplit("/", 1)[1] != settled.board_id


def test_a_bad_file_is_told_of_and_another_can_be_chosen(
    settled: Coach, tmp_path: Path, troubles: Troubles
) -> None:
    troubles.expect(r"status of 422")  # a browser reports every question that is answered so
    file = take_along(settled, tmp_path / "team.json")
    (tmp_path / "half.json").write_bytes(file.read_bytes()[:400])
    (tmp_path / "picture.json").write_bytes(b"\x89PNG\r\n\xff")
    page, said = settled.page, settled.page.get_by_role("alert")
    page.set_input_files("#file", tmp_path / "half.json")
    expect(said).to_contain_text("This file is damaged, or is no team at all")
    page.set_input_files("#file", tmp_path / "picture.json")
    expect(said).to_have_text(
        "This is not a text file, so it is no team saved by Quintet. Nothing was imported."
    )
    page.set_input_files("#file", file)
    expect(page.get_by_role("heading", name="In the file: Quay Otters")).to_be_visible()
    expect(said).to_have_count(0)


def test_what_changed_meanwhile_is_looked_at_once_more(
    settled: Coach, tmp_path: Path, troubles: Troubles
) -> None:
    troubles.expect(r"status of 409")
    file = take_along(settled, tmp_path / "team.json")
    found = json.loads(file.read_text("utf-8"))
    found["players"][0]["name"] = "Kim"
    file.write_text(json.dumps(found), "utf-8")
    page = settled.page
    page.set_input_files("#file", file)
    page.get_by_role("radio", name="Take the file’s").check()
    settled.device.ask(
        "PUT", f"/api/team/calls?board={settled.board_id}", {"calls": {"pass": {"call": "Hey"}}}
    )
    page.get_by_role("button", name="Import").tap()
    expect(page.get_by_role("alert")).to_contain_text("Something has changed here since you looked.")
    assert parts(page) == ["Name and calls", "Players"]


def test_an_assistant_takes_along_and_cannot_bring_in(
    settled: Coach, new_context: NewContext, tmp_path: Path
) -> None:
    page = new_context(viewport=TABLET).new_page()
    page.goto(settled.device.share("coach", "assistant")["url"])
    page.goto(f"{settled.server.url}/import?board={settled.board_id}")
    expect(page.get_by_role("link", name="Save Quay Otters as a file")).to_be_visible()
    expect(page.get_by_role("radio")).to_have_count(0)
    page.set_input_files("#file", take_along(settled, tmp_path / "team.json"))
    expect(page.locator("#found")).to_contain_text("Only its head coach can import the file into it")


@pytest.mark.parametrize("viewport", [PHONE, TABLET], ids=["phone", "tablet"])
def test_the_page_is_for_everybody(
    new_coach: Callable[..., Coach], tmp_path: Path, viewport: dict[str, int]
) -> None:
    coach = new_coach(viewport=viewport)
    file = take_along(coach, tmp_path / "team.json")
    found = json.loads(file.read_text("utf-8"))
    found["boards"][0]["name"] = "W" * 40
    found["team"]["name"] = "ﷺ" * 20 + "W" * 20
    file.write_text(json.dumps(found), "utf-8")
    page = coach.page
    check(page)
    page.set_input_files("#file", file)
    expect(page.locator("#found .part")).to_have_count(2)
    check(page)
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    small = page.locator("main a, main label, main button").evaluate_all(
        "all => all.filter((e) => e.getBoundingClientRect().height < 48).map((e) => e.textContent)"
    )
    assert small == []
