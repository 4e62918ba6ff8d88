"""The playbook on the coach's board: saving, finding and opening plays, with and without a network."""

from __future__ import annotations

import itertools
import re
from collections.abc import Callable
from typing import Any

import pytest
from playwright.sync_api import Locator, Page, expect

from e2e.axe import check
from e2e.conftest import PHONE, TABLET, NewContext, Troubles
from e2e.expected import Play
from e2e.people import Coach

_OPS = itertools.count(1)

QUICK = Play("five_out", ["pass:right_wing", "fill:left_corner pass:top", "fill:right_corner drive:left"])
LATE = Play("five_out", ["pass:right_wing", "fill:left_corner pass:right_corner"])
HELD = Play("five_out", ["hand_off:right_wing"])
#: What a browser itself writes when it has no network.
NO_NETWORK = r"net::ERR_INTERNET_DISCONNECTED"


def sync(coach: Coach, *ops: dict[str, Any]) -> None:
    """Change the playbook as another device of the team would."""
    body = {"ops": [{"id": f"o{next(_OPS)}", **op} for op in ops]}
    answer = coach.device.ask("POST", f"/api/sync?board={coach.board_id}", body)
    assert [item["ok"] for item in answer.json["done"]] == [True] * len(ops), answer.text


def saving(coach: Coach, play: Play, name: str, **given: Any) -> dict[str, Any]:
    """Return the change that saves ``play``; its chain is called after the board and the name."""
    return {
        "op": "save",
        "chain": chain_of(coach, name),
        "board": coach.board_id,
        "formation": play.formation_name,
        "rules": "pass_and_cut",
        "line": play.actions,
        "name": name,
        "note": "",
        "tags": [],
        **given,
    }


def chain_of(coach: Coach, name: str) -> str:
    return re.sub(r"[^\w-]", "-", f"{coach.board_id}-{name}", flags=re.ASCII)


def listed(coach: Coach) -> dict[str, Any]:
    """Return the team's plays as the server has them, by name."""
    answer = coach.device.ask("GET", f"/api/chains?board={coach.board_id}")
    return {item["name"]: item for item in answer.json["chains"]}


def main_line(item: Any) -> list[list[str]]:
    return [item["tree"][index][1].split() for index in item["line"]]


def play(coach: Coach, chain: Play) -> None:
    """Play a chain on the board."""
    for sentence in chain.sentences:
        coach.tap(sentence)
    coach.reads(chain.sentences)
    coach.saved()


def save(coach: Coach, name: str) -> None:
    """Save what is on the board under a name."""
    coach.do("save")
    coach.page.get_by_label("Name", exact=True).fill(name)
    coach.page.keyboard.press("Enter")
    expect(coach.page.locator("#toast")).to_have_text(f"“{name}” is in your plays.")
    expect(coach.status).not_to_have_text("saving…")


def sheet(coach: Coach) -> Locator:
    """Open the plays."""
    coach.do("plays")
    return coach.page.get_by_role("dialog", name="Plays")


def sent(plays: Locator) -> None:
    """Wait until the server has all that was changed."""
    expect(plays.locator("header small")).to_have_text("saved")


def names(plays: Locator) -> Locator:
    return plays.locator(".play strong")


def more(plays: Locator, name: str, way: str) -> None:
    """Do with a play what its further ways have."""
    plays.get_by_role("button", name=f"More for {name}", exact=True).tap()
    plays.get_by_role("button", name=way, exact=True).tap()


@pytest.fixture
def with_plays(new_coach: Callable[..., Coach]) -> Coach:
    """A coach whose team has three plays."""

    def prepare(coach: Coach) -> None:
        sync(
            coach,
            saving(coach, QUICK, "Otter", tags=["late clock"]),
            saving(coach, LATE, "Fist down", note="When they switch.", tags=["baseline", "late clock"]),
            saving(coach, HELD, "Élan"),
        )

    return new_coach(prepare)


def test_a_chain_is_saved_by_a_name_and_is_there_after_loading_again(coach: Coach) -> None:
    play(coach, QUICK)
    coach.do("save")
    # A name is offered, so that nothing has to be typed.
    expect(coach.page.get_by_label("Name", exact=True)).to_have_value("Pass, pass, drive")
    coach.page.get_by_role("button", name="Not now").tap()
    save(coach, "Otter")
    coach.page.reload()
    coach.saved()
    plays = sheet(coach)
    sent(plays)
    expect(names(plays)).to_have_text(["Otter"])
    expect(plays.locator(".play .facts")).to_have_text("five out · 3 steps")
    assert main_line(listed(coach)["Otter"]) == QUICK.actions


def test_a_team_without_plays_is_told_how_one_is_made(coach: Coach) -> None:
    plays = sheet(coach)
    expect(plays).to_contain_text("No plays yet.")
    plays.get_by_role("button", name="Close").tap()
    play(coach, HELD)
    # Where the board's own button has no room, the sheet has it.
    sheet(coach).get_by_role("button", name="Save play").first.tap()
    expect(coach.page.get_by_role("dialog", name="Save play")).to_be_visible()


def test_a_name_is_needed(coach: Coach) -> None:
    play(coach, HELD)
    coach.do("save")
    coach.page.get_by_label("Name", exact=True).fill("  ")
    coach.page.keyboard.press("Enter")
    expect(coach.page.get_by_role("dialog", name="Save play")).to_contain_text("Give it a name first.")
    assert listed(coach) == {}


#: What is typed, and what it finds.
SEARCHES = [
    ("otter", ["Otter"]),
    ("elan", ["Élan"]),  # accents need not be typed
    ("switch", ["Fist down"]),  # the note
    ("drive", ["Otter"]),  # an action
    ("hand off", ["Élan"]),  # also written hand-off
    ("late pass", ["Fist down", "Otter"]),  # all of the words, in any order
    ("zone", []),
]


def test_plays_are_found_by_what_is_in_them(with_plays: Coach) -> None:
    for text, found in SEARCHES:
        plays = sheet(with_plays)
        plays.get_by_role("searchbox").fill("")
        plays.get_by_role("group", name="Order").get_by_role("button", name="Name").tap()
        expect(names(plays)).to_have_count(3)
        # Typing anywhere in the sheet goes to the search.
        with_plays.page.keyboard.type(text)
        expect(plays.get_by_role("searchbox")).to_have_value(text)
        expect(names(plays)).to_have_text(found)
        if not found:
            plays.get_by_role("button", name="Show all plays").tap()
            expect(names(plays)).to_have_count(3)
        plays.get_by_role("button", name="Close", exact=True).tap()
        expect(plays).to_be_hidden()


def test_tags_leave_the_plays_that_have_all_of_them(with_plays: Coach) -> None:
    plays = sheet(with_plays)
    plays.get_by_role("button", name="Only plays tagged late clock").tap()
    plays.get_by_role("group", name="Order").get_by_role("button", name="Name").tap()
    expect(names(plays)).to_have_text(["Fist down", "Otter"])
    plays.get_by_role("button", name="Only plays tagged baseline").tap()
    expect(names(plays)).to_have_text(["Fist down"])
    plays.get_by_role("button", name="Only plays tagged late clock").tap()
    plays.get_by_role("button", name="Only plays tagged baseline").tap()
    expect(names(plays)).to_have_text(["Élan", "Fist down", "Otter"])


def test_name_note_and_tags_are_changed(with_plays: Coach) -> None:
    coach = with_plays
    plays = sheet(coach)
    more(plays, "Otter", "Name, note, tags, when")
    plays.get_by_label("Name", exact=True).fill("Otter fast")
    plays.get_by_label("Note", exact=True).fill("Early.\nLook inside.")
    plays.get_by_role("button", name="baseline", exact=True).tap()  # a tag that is there needs no typing
    plays.get_by_role("button", name="Save", exact=True).tap()
    expect(plays.get_by_role("button", name="More for Otter fast")).to_be_visible()
    sent(plays)
    found = listed(coach)["Otter fast"]
    assert (found["note"], found["tags"]) == ("Early.\nLook inside.", ["late clock", "baseline"])


def test_leaving_the_form_changes_nothing_and_stays_among_the_plays(with_plays: Coach) -> None:
    plays = sheet(with_plays)
    more(plays, "Otter", "Name, note, tags, when")
    plays.get_by_label("Name", exact=True).fill("Otter fast")
    with_plays.page.keyboard.press("Escape")
    expect(plays.get_by_role("button", name="More for Otter", exact=True)).to_be_focused()
    with_plays.page.keyboard.press("Escape")
    expect(plays).to_be_hidden()


def test_a_play_is_duplicated(with_plays: Coach) -> None:
    plays = sheet(with_plays)
    more(plays, "Otter", "Duplicate")
    expect(names(plays)).to_have_count(4)
    expect(plays.get_by_role("alert")).to_contain_text("“Otter – copy” is in your plays.")
    sent(plays)
    found = listed(with_plays)
    assert main_line(found["Otter – copy"]) == main_line(found["Otter"]) == QUICK.actions


def test_a_deleted_play_comes_back_by_undo(with_plays: Coach) -> None:
    coach = with_plays
    plays = sheet(coach)
    for back in (True, False):
        more(plays, "Otter", "Delete")
        expect(names(plays)).to_have_count(2)
        if back:
            plays.get_by_role("button", name="Undo").tap()
            expect(names(plays)).to_have_count(3)
    sent(plays)
    coach.page.reload()
    coach.saved()
    plays = sheet(coach)
    expect(names(plays)).to_have_count(2)
    assert sorted(listed(coach)) == ["Fist down", "Élan"]


def test_pinned_plays_stand_first_and_on_the_board_at_all_times(with_plays: Coach) -> None:
    coach = with_plays
    pinned = coach.page.get_by_role("list", name="Pinned plays")
    expect(pinned).to_contain_text("Pin a play in Plays")
    plays = sheet(coach)
    more(plays, "Otter", "Pin")
    expect(names(plays).first).to_have_text("pinned: Otter")
    plays.get_by_role("button", name="Close").tap()
    expect(pinned.get_by_role("button")).to_have_text(["Otter"])
    coach.tap(HELD.sentences[0])
    coach.reads(HELD.sentences[:1])
    expect(pinned.get_by_role("button")).to_be_visible()


def test_a_second_device_of_the_team_sees_the_plays(with_plays: Coach, new_context: NewContext) -> None:
    link = with_plays.device.share("coach")["url"]
    page = new_context(viewport=PHONE, is_mobile=True).new_page()
    page.goto(link)
    page.get_by_role("button", name="Plays").tap()
    plays = page.get_by_role("dialog", name="Plays")
    expect(names(plays)).to_have_count(3)
    # What is changed there is here the next time somebody looks.
    more(plays, "Otter", "Delete")
    expect(names(plays)).to_have_count(2)
    sent(plays)
    expect(names(sheet(with_plays))).to_have_count(2)


def test_what_was_done_without_a_network_survives_closing_and_arrives(
    with_plays: Coach, troubles: Troubles
) -> None:
    troubles.expect(NO_NETWORK)
    coach = with_plays
    play(coach, LATE)
    expect(names(sheet(coach))).to_have_count(3)
    coach.page.keyboard.press("Escape")
    coach.context.set_offline(True)
    save(coach, "Ferry")
    plays = sheet(coach)
    expect(names(plays)).to_have_count(4)
    more(plays, "Otter", "Delete")
    expect(plays.get_by_role("status")).to_contain_text("2 changes are saved on this device")
    assert sorted(listed(coach)) == ["Fist down", "Otter", "Élan"]

    coach.page.close()
    coach.context.set_offline(False)
    coach.page = coach.context.new_page()
    coach.page.goto(f"{coach.server.url}/board/{coach.board_id}")
    coach.saved()
    plays = sheet(coach)
    sent(plays)
    expect(names(plays)).to_have_count(3)
    assert sorted(listed(coach)) == ["Ferry", "Fist down", "Élan"]
    assert main_line(listed(coach)["Ferry"]) == LATE.actions


#: Nothing can be written down until ``written`` is called: somebody else is at work on what waits.
HELD_UP = """() => new Promise((ready) => {
  const opening = indexedDB.open('quintet');
  opening.onsuccess = () => {
    const work = opening.result.transaction('ops', 'readwrite').objectStore('ops');
    let on = true;
    window.written = () => { on = false; };
    const again = () => { if (on) work.count().onsuccess = again; else opening.result.close(); };
    again();
    ready();
  };
})"""


def test_nothing_is_said_to_be_kept_before_it_is(with_plays: Coach, troubles: Troubles) -> None:
    """Closed at that word, a page lost a deletion: it had been counted, and not yet been written down."""
    troubles.expect(NO_NETWORK)
    coach = with_plays
    plays = sheet(coach)
    expect(names(plays)).to_have_count(3)
    coach.context.set_offline(True)
    kept = plays.get_by_role("status")
    more(plays, "Otter", "Delete")
    expect(kept).to_contain_text("1 change is saved on this device")
    coach.page.evaluate(HELD_UP)
    more(plays, "Élan", "Delete")
    expect(names(plays)).to_have_count(1)
    expect(kept).to_contain_text("1 change is saved on this device")
    coach.page.evaluate("() => window.written()")
    expect(kept).to_contain_text("2 changes are saved on this device")
    coach.context.set_offline(False)
    sent(plays)


def test_a_play_is_said_to_be_saved_once_it_is_written_down(coach: Coach) -> None:
    """Loaded again at that word, a page had lost the play: it was not in the device's own store yet."""
    play(coach, QUICK)
    coach.page.evaluate(HELD_UP)
    coach.do("save")
    coach.page.get_by_label("Name", exact=True).fill("Otter")
    coach.page.keyboard.press("Enter")
    expect(names(sheet(coach))).to_have_text(["Otter"])
    coach.page.keyboard.press("Escape")
    expect(coach.page.locator("#toast")).not_to_contain_text("is in your plays")
    coach.page.evaluate("() => window.written()")
    expect(coach.page.locator("#toast")).to_have_text("“Otter” is in your plays.")


def test_plays_are_there_at_once_without_a_network_and_arrive_when_it_is_back(
    with_plays: Coach, troubles: Troubles
) -> None:
    troubles.expect(NO_NETWORK)
    coach = with_plays
    sent(sheet(coach))
    coach.page.keyboard.press("Escape")
    coach.context.set_offline(True)
    plays = sheet(coach)
    expect(plays.get_by_role("status")).to_have_text("No network. These are the plays saved on this device.")
    expect(names(plays)).to_have_count(3)
    more(plays, "Otter", "Pin")
    expect(plays.get_by_role("status")).to_contain_text("1 change is saved on this device")
    coach.context.set_offline(False)
    sent(plays)
    expect(plays.get_by_role("status")).to_be_hidden()
    assert listed(coach)["Otter"]["pinned"] is True


#: A window whose browser keeps nothing, as private ones may.
KEEPS_NOTHING = """Object.defineProperty(window, 'indexedDB', {
  get() { throw new DOMException('Nothing is kept here.', 'SecurityError'); },
});"""


def test_where_nothing_can_be_kept_plays_work_and_it_is_said(
    new_coach: Callable[..., Coach], troubles: Troubles
) -> None:
    troubles.expect(NO_NETWORK)
    coach = new_coach()
    sync(coach, saving(coach, QUICK, "Otter"))
    coach.page.add_init_script(KEEPS_NOTHING)
    coach.page.reload()
    coach.saved()
    plays = sheet(coach)
    expect(names(plays)).to_have_text(["Otter"])
    coach.context.set_offline(True)
    more(plays, "Otter", "Pin")
    expect(plays.get_by_role("status")).to_contain_text("This window forgets when it is closed")
    coach.context.set_offline(False)
    sent(plays)
    assert listed(coach)["Otter"]["pinned"] is True


# ---- on the board


def opened(coach: Coach, name: str, chain: Play) -> None:
    """Wait until a play is on the board, at its start with everything ahead, and run it."""
    coach.reads(chain.sentences)
    expect(coach.page.locator("#chain .begin")).to_contain_text(name)
    coach.stands(Play(chain.formation_name).standing)
    coach.do("play")
    coach.stands(chain.standing)


def ran(coach: Coach, name: str, chain: Play) -> None:
    """Wait until a play is on the board and has been run."""
    coach.reads(chain.sentences)
    expect(coach.page.locator("#chain .begin")).to_contain_text(name)
    coach.stands(chain.standing)


def test_a_play_is_opened_by_one_tap(with_plays: Coach) -> None:
    # Use is told to the second, and plays used in the same one are in the order of their names.
    newest = max(item["used"] for item in listed(with_plays).values())
    with_plays.page.wait_for_function("newest => Date.now() >= (newest + 1) * 1000", arg=newest)
    plays = sheet(with_plays)
    plays.get_by_role("button", name="Otter", exact=False).first.tap()
    expect(plays).to_be_hidden()
    opened(with_plays, "Otter", QUICK)
    # The one used last stands first.
    expect(names(sheet(with_plays)).first).to_have_text("Otter")


def test_a_play_in_another_formation_is_opened(with_plays: Coach) -> None:
    coach = with_plays
    post = Play("four_out_one_in", ["pass:right_wing"])
    sync(coach, saving(coach, post, "Ferry"))
    plays = sheet(coach)
    plays.locator(".open", has_text="Ferry").tap()
    coach.formation_name = "four_out_one_in"
    opened(coach, "Ferry", post)


def test_a_pinned_play_is_run_by_one_tap_on_the_board_and_on_the_first_page(with_plays: Coach) -> None:
    coach = with_plays
    sync(coach, {"op": "edit", "chain": chain_of(coach, "Fist down"), "pinned": True})
    coach.page.goto(coach.server.url)
    coach.page.get_by_role("link", name="Fist down").tap()
    ran(coach, "Fist down", LATE)
    assert "play=" not in coach.page.url
    coach.do("fresh")
    coach.touch("#pinned button")
    ran(coach, "Fist down", LATE)


#: What a page that is asked for a play says to the server is held back until it is let go.
HELD_BACK = """window.held = location.search.includes('play=') ? [] : null;
window.WebSocket = class extends WebSocket {
  send(said) { if (window.held) window.held.push(() => super.send(said)); else super.send(said); }
};"""


def test_a_play_asked_for_before_line_and_pack_are_there_is_run_once_one_is(
    new_coach: Callable[..., Coach], troubles: Troubles
) -> None:
    troubles.expect("net::ERR_FAILED")

    def prepare(coach: Coach) -> None:
        pinned = {"op": "edit", "chain": chain_of(coach, "Fist down"), "pinned": True}
        sync(coach, saving(coach, LATE, "Fist down"), pinned)
        coach.page.add_init_script(HELD_BACK)
        coach.page.route("**/api/packs/**", lambda route: route.abort())

    coach = new_coach(prepare)
    sent(sheet(coach))
    coach.page.goto(coach.server.url)
    coach.page.get_by_role("link", name="Fist down").tap()
    expect(coach.status).to_have_attribute("data-link", "catching up")
    expect(coach.page.locator("#pinned button")).to_be_visible()
    coach.page.evaluate("() => { const all = held; held = null; all.forEach((send) => send()); }")
    ran(coach, "Fist down", LATE)


def test_another_line_becomes_the_main_one_and_the_old_one_stays(with_plays: Coach) -> None:
    coach = with_plays
    sheet(coach).locator(".open", has_text="Otter").tap()
    opened(coach, "Otter", QUICK)
    coach.do("undo")
    other = Play("five_out", QUICK.taps[:2])
    coach.stands(other.standing)
    coach.tap(other.play("fill:right_corner drive:right"))
    coach.reads(other.sentences)
    coach.do("save")
    dialog = coach.page.get_by_role("dialog", name="Save play")
    dialog.get_by_role("button", name="Make this the main branch").tap()
    plays = sheet(coach)
    sent(plays)
    expect(plays.locator(".play.here .facts")).to_contain_text("1 other branch")
    assert main_line(listed(coach)["Otter"]) == other.actions


def test_saved_as_new_the_board_goes_on_with_the_new_play(with_plays: Coach) -> None:
    coach = with_plays
    sheet(coach).locator(".open", has_text="Otter").tap()
    opened(coach, "Otter", QUICK)
    coach.do("save")
    dialog = coach.page.get_by_role("dialog", name="Save play")
    expect(dialog).to_contain_text("“Otter” has this as its main branch.")
    dialog.get_by_label("Name", exact=True).fill("Gull")
    dialog.get_by_role("button", name="Save as new").tap()
    expect(coach.page.locator("#chain .begin")).to_contain_text("Gull")
    coach.reads(QUICK.sentences)
    sent(sheet(coach))
    found = listed(coach)
    assert main_line(found["Gull"]) == main_line(found["Otter"]) == QUICK.actions


def test_where_a_chain_branches_the_other_way_is_one_tap_away(coach: Coach) -> None:
    play(coach, LATE)
    save(coach, "Late")
    coach.do("undo")
    coach.stands(Play("five_out", LATE.taps[:1]).standing)
    other = Play("five_out", [*LATE.taps[:1], "fill:left_corner pass:top"])
    coach.tap(other.sentences[1])
    coach.reads(other.sentences)
    coach.saved()
    coach.page.get_by_role("button", name="1 other branch from here").tap()
    ways = coach.page.get_by_role("dialog", name="Another branch from here")
    expect(ways.locator(".now")).to_contain_text(other.sentences[1])
    expect(ways.locator(".way")).to_contain_text("main branch")
    ways.locator(".way").tap()
    coach.reads(LATE.sentences)
    coach.stands(LATE.standing)
    # And back: the way that was left is the other one now.
    coach.page.get_by_role("button", name="1 other branch from here").tap()
    expect(ways.locator(".way")).to_contain_text(other.sentences[1])


@pytest.fixture
def ruled(coach: Coach) -> tuple[Coach, str]:
    """A coach with a play by the team's own rules, which have lost their drives since."""
    made = coach.device.ask(
        "POST", f"/api/rules?board={coach.board_id}", {"from": "pass_and_cut", "title": "Ours"}
    )
    ref = made.json["ref"]
    sync(coach, saving(coach, QUICK, "Otter", rules=ref))
    path = f"/api/rules/{ref}?board={coach.board_id}"
    data = coach.device.ask("GET", path).json["data"]
    actions = [kind for kind in data["actions"] if kind != "drive"]
    changed = {"version": 1, "data": {**data, "actions": actions, "stages": []}}
    assert coach.device.ask("PUT", path, changed).status == 200
    coach.page.reload()
    coach.saved()
    return coach, ref


def test_a_play_tells_what_todays_rules_allow_of_it(ruled: tuple[Coach, str]) -> None:
    coach, ref = ruled
    plays = sheet(coach)
    expect(plays.locator(".play .facts")).to_contain_text("rules changed")
    more(plays, "Otter", "Copy with the current rules")
    plays.get_by_role("button", name="More for Otter", exact=True).tap()
    expect(plays.locator(".law").first).to_contain_text("The current ones allow the first 2 of 3 steps.")
    plays.get_by_role("button", name="Close").tap()
    plays = sheet(coach)
    sent(plays)
    expect(names(plays)).to_have_count(2)
    found = listed(coach)
    fresh = found["Otter – current rules"]
    assert (fresh["rules"], main_line(fresh)) == (f"{ref}@2", QUICK.actions[:2])
    assert (found["Otter"]["rules"], main_line(found["Otter"])) == (f"{ref}@1", QUICK.actions)


def test_a_change_that_is_refused_is_told_and_undone(ruled: tuple[Coach, str]) -> None:
    coach, ref = ruled
    plays = sheet(coach)
    plays.get_by_role("button", name="More for Otter", exact=True).tap()
    way = plays.get_by_role("button", name="Copy with the current rules")
    expect(way).to_be_visible()
    assert coach.device.ask("DELETE", f"/api/rules/{ref}?board={coach.board_id}").status < 300
    way.tap()
    expect(plays.get_by_role("alert")).to_contain_text("rules")
    expect(names(plays)).to_have_text(["Otter"])


@pytest.mark.parametrize("size", [TABLET, PHONE], ids=["tablet", "phone"])
def test_the_sheet_is_accessible(with_plays: Coach, size: dict[str, int]) -> None:
    page: Page = with_plays.page
    page.set_viewport_size(size)
    plays = sheet(with_plays)
    more(plays, "Otter", "Pin")
    check(page)
    more(plays, "Fist down", "Name, note, tags, when")
    check(page)
    page.keyboard.press("Escape")
    plays.locator(".open", has_text="Otter").tap()
    with_plays.reads(QUICK.sentences)
    with_plays.tap("1 passes to 3")  # another way than the play's
    page.get_by_role("button", name="1 other branch from here").tap()
    check(page)
    page.keyboard.press("Escape")
    sheet(with_plays).get_by_role("button", name="Save play").tap()
    expect(page.get_by_role("button", name="Make this the main branch")).to_be_visible()
    check(page)


def test_touch_targets_are_large_enough(new_coach: Callable[..., Coach]) -> None:
    coach = new_coach(viewport=PHONE, is_mobile=True)
    sync(
        coach,
        saving(coach, QUICK, "Otter", tags=["late"]),
        {"op": "edit", "chain": chain_of(coach, "Otter"), "pinned": True},
    )
    sync(coach, saving(coach, LATE, "Fist down", tags=["late"]))
    coach.page.reload()
    coach.saved()
    expect(coach.page.get_by_role("list", name="Pinned plays")).to_be_visible()
    small = """all => all.filter((e) => e.offsetParent && Math.min(e.offsetWidth, e.offsetHeight) < 48)
      .map((e) => e.outerHTML)"""
    assert coach.page.locator("#pinned button, .shelf button").evaluate_all(small) == []
    plays = sheet(coach)
    plays.get_by_role("button", name="More for Otter").tap()
    assert plays.locator("button, input").evaluate_all(small) == []
