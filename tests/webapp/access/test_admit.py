"""Adding a device by a code, the recovery sheet, and what a device that is turned off has to forget."""

from __future__ import annotations

import html
import re
import threading
from concurrent.futures import ThreadPoolExecutor
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient

from tests.server import LiveServer
from tests.webapp.access.test_access import access, assistant, path_of, share
from tests.webapp.conftest import make_team, shared_of
from tests.webapp.screens import Device
from webapp.base.tokens import CODE_LETTERS
from webapp.wire.refusals import answered

pytestmark = pytest.mark.common_app

IPAD = {"User-Agent": "Mozilla/5.0 (iPad; CPU OS 17_0)"}


def code_of(client: FlaskClient, board: str, role: str = "head_coach") -> str:
    answer = client.post(f"/api/board/{board}/device-code", json={"role": role})
    assert answer.status_code == 201, answer.text
    return str(answer.get_json()["code"])


def sheet_of(client: FlaskClient, board: str) -> str:
    """Make a recovery sheet and return the code on it."""
    page = client.post(f"/sheet/{board}")
    assert page.status_code == 200, page.text
    found = re.search(r'class="code"[^>]*>(.*?)</p>', page.text, re.DOTALL)
    assert found
    return " ".join(re.findall(r"<span>(\w+)</span>", found[1]))


def add(device: FlaskClient, code: str, **given: Any) -> Any:
    return device.post("/add", data={"code": code, **given}, headers=IPAD)


def refusal(answer: Any) -> tuple[int, str]:
    """The status of a page and the sentence of its complaint."""
    found = re.search(r'class="complaint"[^>]*>(.*?)</p>', answer.text, re.DOTALL)
    assert found, answer.text
    return answer.status_code, html.unescape(found[1])


# A code from another device


def test_a_code_gives_one_device_a_key_of_its_own(app: Flask, client: FlaskClient, board: str) -> None:
    code = code_of(client, board)
    assert re.fullmatch(f"[{CODE_LETTERS}]{{4}} [{CODE_LETTERS}]{{4}}", code)
    tablet = app.test_client()
    answer = add(tablet, code)
    assert (answer.status_code, answer.headers["Location"]) == (303, f"/board/{board}")
    assert tablet.get(f"/board/{board}").status_code == 200
    rows = {key["name"]: key for key in access(client, board)["keys"]}
    assert rows["iPad"]["role"] == "head_coach"
    assert rows["iPad"]["came"]["by"] == "a device"
    assert rows["iPad"]["this"] is False
    assert refusal(add(app.test_client(), code)) == answered("bad_device_code")


@pytest.mark.parametrize("typed", ["{0}", "{0} ", "{0}-{1}", "{0}.{1}", "{0}{1}"])
def test_a_code_is_taken_however_it_is_typed(app: Flask, client: FlaskClient, board: str, typed: str) -> None:
    first, second = code_of(client, board).lower().split()
    whole = typed.format(first, second) if "{1}" in typed else typed.format(f"{first} {second}")
    assert add(app.test_client(), whole).status_code == 303


def test_only_the_giver_and_the_new_device_know_a_code(app: Flask, client: FlaskClient, board: str) -> None:
    code = code_of(client, board).replace(" ", "")
    sheet = sheet_of(client, board).replace(" ", "")
    store = shared_of(app).store
    store.close()
    kept = b"".join(file.read_bytes() for file in store.path.parent.iterdir())
    assert code.encode() not in kept
    assert sheet.encode() not in kept


def test_looking_at_the_page_of_a_code_uses_nothing_up(app: Flask, client: FlaskClient, board: str) -> None:
    code = code_of(client, board).replace(" ", "")
    looker = app.test_client()
    assert f'value="{code}"' in looker.get(f"/add?code={code}").text
    assert looker.head(f"/add?code={code}").status_code == 200
    assert add(app.test_client(), code).status_code == 303


def test_a_code_lives_ten_minutes(app: Flask, client: FlaskClient, board: str) -> None:
    made = client.post(f"/api/board/{board}/device-code", json={"role": "assistant"}).get_json()
    assert made["expires_s"] == 600
    with shared_of(app).store.write() as session:
        session.connection().exec_driver_sql("UPDATE admission SET expires = expires - 601")
    answer = add(app.test_client(), made["code"])
    assert refusal(answer) == answered("bad_device_code")
    assert f'value="{made["code"]}"' in answer.text  # what was typed is kept


def test_a_new_code_ends_the_one_before(app: Flask, client: FlaskClient, board: str) -> None:
    old, new = code_of(client, board), code_of(client, board)
    assert add(app.test_client(), old).status_code == 404
    assert add(app.test_client(), new).status_code == 303


def test_a_device_gets_the_role_the_giver_chose(app: Flask, client: FlaskClient, board: str) -> None:
    device = app.test_client()
    add(device, code_of(client, board, "assistant"))
    assert access(device, board)["role"] == "assistant"
    assert access(device, board)["sheet"] is None
    link = {"kind": "coach", "name": "x"}
    assert device.post(f"/api/board/{board}/links", json=link).status_code == 403
    assert device.post(f"/sheet/{board}").status_code == 403


def test_nobody_gives_more_than_he_has(app: Flask, client: FlaskClient, board: str) -> None:
    other = assistant(app, client, board)
    answer = other.post(f"/api/board/{board}/device-code", json={"role": "head_coach"})
    assert (answer.status_code, answer.get_json()["error"]["code"]) == (403, "head_coach_only")
    third = app.test_client()
    add(third, code_of(other, board, "assistant"))
    assert access(third, board)["role"] == "assistant"


@pytest.mark.parametrize("body", [{}, {"role": "viewer"}, {"role": "head_coach", "x": 1}, {"role": 1}])
def test_a_code_for_anything_else_is_refused(client: FlaskClient, board: str, body: object) -> None:
    answer = client.post(f"/api/board/{board}/device-code", json=body)
    assert (answer.status_code, answer.get_json()["error"]["code"]) == (400, "bad_form")


def test_the_code_of_a_device_that_was_turned_off_is_dead(
    app: Flask, client: FlaskClient, board: str
) -> None:
    other = assistant(app, client, board)
    code = code_of(other, board, "assistant")
    theirs = next(key["id"] for key in access(client, board)["keys"] if not key["this"])
    client.delete(f"/api/keys/{theirs}")
    assert refusal(add(app.test_client(), code)) == answered("bad_device_code")


def test_a_device_that_coaches_already_uses_nothing_up(app: Flask, client: FlaskClient, board: str) -> None:
    code = code_of(client, board)
    assert add(client, code).status_code == 303
    assert len(access(client, board)["keys"]) == 1
    assert add(app.test_client(), code).status_code == 303


def test_an_assistants_device_can_be_made_a_head_coachs(app: Flask, client: FlaskClient, board: str) -> None:
    other = assistant(app, client, board)
    add(other, code_of(client, board))
    found = access(other, board)
    assert (found["role"], len(found["keys"])) == ("head_coach", 2)


def test_devices_are_told_apart_by_their_names(app: Flask, client: FlaskClient, board: str) -> None:
    for given in ({}, {"app": "yes"}, {}):
        add(app.test_client(), code_of(client, board), **given)
    names = {key["name"] for key in access(client, board)["keys"]}
    assert names == {"a device", "iPad", "iPad, app", "iPad 2"}


def test_a_players_code_is_told_from_a_coachs(app: Flask, client: FlaskClient, board: str) -> None:
    code = client.post(f"/api/board/{board}/code").get_json()["code"]
    assert refusal(add(app.test_client(), code)) == answered("players_code")


@pytest.mark.parametrize(
    ("form", "sentence"),
    [
        ({}, "Code: This is missing. Nothing was changed."),
        ({"code": ""}, "Code: This must have 1 to 64 letters and digits. Nothing was changed."),
        ({"code": "A" * 65}, "Code: This must have 1 to 64 letters and digits. Nothing was changed."),
        ({"code": "AAAA", "app": "1"}, "App: This must be one of: yes. Nothing was changed."),
        (
            {"code": "AAAA", "role": "head_coach"},
            "Role: This is not known here: leave it out. Nothing was changed.",
        ),
        ({"code": "\x00\u202e\U0001f3c0"}, answered("bad_device_code")[1]),
        ({"code": "<b>4</b>"}, answered("bad_device_code")[1]),
    ],
)
def test_a_bad_code_is_refused_in_one_sentence(
    client: FlaskClient, form: dict[str, str], sentence: str
) -> None:
    answer = client.post("/add", data=form)
    assert answer.status_code in (400, 404)
    assert refusal(answer)[1] == sentence
    assert "<b>4" not in answer.text


def test_codes_cannot_be_tried_out(own_app: Flask) -> None:
    client, stranger = own_app.test_client(), own_app.test_client()
    code = code_of(client, make_team(client))
    most = shared_of(own_app).settings.device_tries_address_count
    assert [add(stranger, "AAAAAAAA").status_code for _ in range(most)] == [404] * most
    assert refusal(add(stranger, code)) == answered("too_many_tries")


def test_codes_cannot_be_tried_out_from_many_addresses(own_app: Flask) -> None:
    client = own_app.test_client()
    most = shared_of(own_app).settings.device_tries_all_count
    statuses = [
        client.post(
            "/add", data={"code": "AAAAAAAA"}, environ_base={"REMOTE_ADDR": f"10.0.0.{n}"}
        ).status_code
        for n in range(most + 1)
    ]
    assert statuses == [404] * most + [429]


# The recovery sheet


def test_a_sheet_lets_one_device_in_as_the_head_coachs(app: Flask, client: FlaskClient, board: str) -> None:
    code = sheet_of(client, board)
    lost = app.test_client()
    answer = add(lost, code)
    assert (answer.status_code, answer.headers["Location"]) == (303, f"/sheet/{board}")
    page = lost.get(f"/sheet/{board}").text
    assert "You are back in" in page
    assert "Print a new sheet" in page
    rows = {key["name"]: key for key in access(lost, board)["keys"]}
    assert (rows["iPad"]["role"], rows["iPad"]["came"]["kind"]) == ("head_coach", "sheet")
    assert refusal(add(app.test_client(), code)) == answered("used_sheet")
    old = next(key["id"] for key in rows.values() if not key["this"])
    assert lost.delete(f"/api/keys/{old}").status_code == 200
    assert client.get(f"/board/{board}").status_code == 410


def test_a_sheet_holds_at_least_128_random_bits(client: FlaskClient, board: str) -> None:
    codes = {sheet_of(client, board) for _ in range(10)}
    assert len(codes) == 10
    # 23 letters carry 4.52 bits each: 30 of them 135.
    assert all(re.fullmatch(rf"([{CODE_LETTERS}]{{5}} ?){{6}}", code) for code in codes)


def test_a_sheet_outlives_the_device_that_printed_it(app: Flask, client: FlaskClient, board: str) -> None:
    code = sheet_of(client, board)
    second = app.test_client()
    add(second, code_of(client, board))
    first = next(key["id"] for key in access(second, board)["keys"] if not key["this"])
    second.delete(f"/api/keys/{first}")
    assert add(app.test_client(), code).status_code == 303


def test_a_new_sheet_ends_the_one_before(app: Flask, client: FlaskClient, board: str) -> None:
    old, new = sheet_of(client, board), sheet_of(client, board)
    assert refusal(add(app.test_client(), old)) == answered("old_sheet")
    assert add(app.test_client(), new).status_code == 303


def test_a_sheet_can_be_turned_off(app: Flask, client: FlaskClient, board: str) -> None:
    code = sheet_of(client, board)
    sheet = access(client, board)["sheet"]
    assert sheet["used"] is None
    other = assistant(app, client, board)
    assert other.delete(f"/api/sheets/{sheet['id']}").status_code == 403
    assert app.test_client().delete(f"/api/sheets/{sheet['id']}").status_code == 404
    assert client.delete(f"/api/sheets/{sheet['id']}").status_code == 200
    assert access(client, board)["sheet"] is None
    assert refusal(add(app.test_client(), code)) == answered("old_sheet")
    assert client.delete(f"/api/sheets/{sheet['id']}").status_code == 404


def test_a_device_that_coaches_already_leaves_the_sheet_good(
    app: Flask, client: FlaskClient, board: str
) -> None:
    code = sheet_of(client, board)
    assert add(client, code).status_code == 303
    assert access(client, board)["sheet"]["used"] is None
    assert add(app.test_client(), code).status_code == 303


def test_a_sheet_is_for_paper_and_shown_once(client: FlaskClient, board: str) -> None:
    answer = client.post(f"/sheet/{board}")
    assert answer.headers["Cache-Control"] == "no-store"
    assert "<svg" in answer.text
    assert " style=" not in answer.text
    assert "<script>" not in answer.text
    again = client.get(f"/sheet/{board}")
    assert "A new one ends it" in again.text
    assert 'class="code"' not in again.text


def test_a_sheet_of_another_team_cannot_be_made(app: Flask, client: FlaskClient, board: str) -> None:
    other = app.test_client()
    make_team(other, "Pier Foxes")
    assert other.post(f"/sheet/{board}").status_code == 403
    assert other.get(f"/sheet/{board}").status_code == 403
    assert other.post(f"/api/board/{board}/device-code", json={"role": "assistant"}).status_code == 403


# A device without a key, and one that is turned off


def test_a_key_in_use_does_not_run_out(client: FlaskClient, board: str) -> None:
    given = client.get(f"/board/{board}").headers["Set-Cookie"]
    assert "Max-Age=31536000" in given  # 365 days of 86,400 seconds
    assert "HttpOnly" in given
    assert client.get(f"/board/{board}").status_code == 200


def test_a_device_with_another_key_to_the_team_forgets_nothing(
    app: Flask, client: FlaskClient, board: str
) -> None:
    """One for HTTPS and one for HTTP, as a browser keeps them apart and sends both over HTTPS."""
    device = off(app, client, board)
    code = code_of(client, board, "assistant")
    device.post("/add", data={"code": code}, base_url="https://localhost")
    assert device.get("/api/device", base_url="https://localhost").get_json()["off"] == []
    device.post("/api/device/forgotten", base_url="https://localhost")
    assert device.get(f"/board/{board}", base_url="https://localhost").status_code == 200
    assert " data-off" not in device.get("/", base_url="https://localhost").text


@pytest.mark.parametrize("path", ["/", "/add", "/board/{board}"])
def test_a_device_without_a_key_is_shown_a_field_for_a_code(
    app: Flask, client: FlaskClient, board: str, path: str
) -> None:
    page = app.test_client().get(path.format(board=board))
    assert 'action="/add"' in page.text
    assert 'name="code"' in page.text


def off(app: Flask, client: FlaskClient, board: str) -> FlaskClient:
    """A device that was let in and then turned off."""
    device = assistant(app, client, board)
    key = next(key["id"] for key in access(client, board)["keys"] if not key["this"])
    assert client.delete(f"/api/keys/{key}").status_code == 200
    return device


@pytest.mark.parametrize("path", ["/", "/off", "/board/{board}", "/sheet/{board}"])
def test_a_device_that_is_turned_off_is_told_and_wipes(
    app: Flask, client: FlaskClient, board: str, path: str
) -> None:
    device = off(app, client, board)
    page = device.get(path.format(board=board)).text
    assert " data-off" in page
    assert re.search(r"/static/dist/page-\w+\.js", page)  # which wipes


def test_a_device_hears_what_to_forget_and_then_is_a_stranger(
    app: Flask, client: FlaskClient, board: str
) -> None:
    device = off(app, client, board)
    said = device.get("/api/device").get_json()
    assert board in said["off"]
    assert said["kept"] == []
    assert device.post("/api/device/forgotten").get_json() == {"forgotten": 1}
    assert device.get(f"/board/{board}").status_code == 403
    assert " data-off" not in device.get("/").text
    assert device.get("/off").status_code == 303


def test_a_device_of_two_teams_forgets_only_the_one_that_is_off(
    app: Flask, client: FlaskClient, board: str
) -> None:
    device = off(app, client, board)
    own = make_team(device, "Pier Foxes")
    said = device.get("/api/device").get_json()
    assert (board in said["off"], board in said["kept"]) == (True, False)
    assert (own in said["off"], own in said["kept"]) == (False, True)
    device.post("/api/device/forgotten")
    assert device.get(f"/board/{own}").status_code == 200
    assert device.get("/api/device").get_json()["off"] == []


def test_a_device_with_a_working_key_forgets_nothing(client: FlaskClient, board: str) -> None:
    assert client.get("/api/device").get_json()["off"] == []
    assert client.post("/api/device/forgotten").get_json() == {"forgotten": 0}
    assert " data-off" not in client.get("/").text
    assert client.get(f"/board/{board}").status_code == 200


def test_a_device_that_is_turned_off_can_be_added_again(app: Flask, client: FlaskClient, board: str) -> None:
    device = off(app, client, board)
    assert add(device, code_of(client, board, "assistant")).status_code == 303
    assert device.get(f"/board/{board}").status_code == 200
    assert device.get("/api/device").get_json()["off"] == []


def test_links_that_a_device_gave_away_stay_when_it_is_turned_off(
    app: Flask, client: FlaskClient, board: str
) -> None:
    device = assistant(app, client, board)
    link = share(device, board)
    key = next(key["id"] for key in access(client, board)["keys"] if not key["this"])
    client.delete(f"/api/keys/{key}")
    assert app.test_client().get(path_of(link)).status_code == 200


# Live


@pytest.mark.parametrize("way", ["code", "sheet"])
def test_of_many_devices_at_the_same_moment_one_comes_in(server: LiveServer, way: str) -> None:
    head = Device(server)
    board = head.make_team()
    if way == "code":
        code = head.ask("POST", f"/api/board/{board}/device-code", {"role": "head_coach"}).json["code"]
    else:
        page = head.ask("POST", f"/sheet/{board}").text
        code = " ".join(re.findall(r"<span>(\w{5})</span>", page))
    devices = [Device(server) for _ in range(8)]
    together = threading.Barrier(len(devices))

    def come(device: Device) -> int:
        together.wait()
        return device.ask("POST", "/add", {"code": code}, form=True).status

    with ThreadPoolExecutor(len(devices)) as pool:
        statuses = sorted(pool.map(come, devices))
    assert statuses == [303] + [404 if way == "code" else 410] * 7
    assert len(head.ask("GET", f"/api/board/{board}/access").json["keys"]) == 2


@pytest.mark.parametrize("what", ["key", "link"])
def test_the_last_message_tells_whether_the_device_or_the_link_is_off(server: LiveServer, what: str) -> None:
    head = Device(server)
    head.make_team()
    robin = Device(server)
    link = head.share("coach")
    robin.open_coaching_link(link["url"])
    keys = head.ask("GET", f"/api/board/{head.board_id}/access").json["keys"]
    theirs = next(key["id"] for key in keys if not key["this"])
    with robin.coach() as screen:
        head.ask("DELETE", f"/api/keys/{theirs}" if what == "key" else f"/api/links/{link['id']}")
        assert screen.wait("gone")["code"] == "gone_key"
    with robin.coach(hello=False) as screen:
        assert screen.hear()["code"] == "gone_key"


def test_a_board_that_is_none_is_no_reason_to_wipe(server: LiveServer) -> None:
    head = Device(server)
    head.make_team()
    head.board_id = "none"
    with head.coach(hello=False) as screen:
        assert screen.hear()["code"] == "no_board"
    stranger = Device(server, board_id=Device(server).make_team())
    with stranger.coach(hello=False) as screen:
        assert screen.hear()["code"] == "no_key"
