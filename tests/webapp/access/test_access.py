"""Sharing: links, keys and codes, made, opened, named, turned off."""

from __future__ import annotations

import re
from contextlib import suppress
from typing import Any
from urllib.parse import urlsplit

import pytest
from flask import Flask
from flask.testing import FlaskClient
from websockets.exceptions import ConnectionClosed

from tests.server import LiveServer
from tests.webapp.conftest import make_team, shared_of
from tests.webapp.screens import Device, screen, viewing_path
from webapp.base.limits import TryLimit
from webapp.base.network import share_base
from webapp.base.tokens import CODE_LETTERS
from webapp.wire.refusals import answered

pytestmark = pytest.mark.common_app


def share(client: FlaskClient, board: str, kind: str = "view", name: str = "players") -> Any:
    answer = client.post(f"/api/board/{board}/links", json={"kind": kind, "name": name})
    assert answer.status_code == 201, answer.text
    return answer.get_json()


def path_of(link: Any) -> str:
    return urlsplit(str(link["url"])).path


def access(client: FlaskClient, board: str) -> Any:
    return client.get(f"/api/board/{board}/access").get_json()


def assistant(app: Flask, client: FlaskClient, board: str) -> FlaskClient:
    """A device that opened a coaching link."""
    device = app.test_client()
    assert device.get(path_of(share(client, board, "coach", "for Robin"))).status_code == 303
    return device


def test_a_viewing_link_opens_the_view_and_no_more(app: Flask, client: FlaskClient, board: str) -> None:
    link = share(client, board)
    phone = app.test_client()
    page = phone.get(path_of(link))
    assert page.status_code == 200
    assert f'data-socket="/live/view/{path_of(link).removeprefix("/v/")}"' in page.text
    assert phone.get(f"/board/{board}").status_code == 403
    assert phone.get(path_of(link).replace("/v/", "/c/")).status_code == 410
    assert [(item["kind"], item["name"], item["uses"]) for item in access(client, board)["links"]] == [
        ("view", "players", 1)
    ]


def test_a_link_holds_at_least_128_random_bits_and_is_kept_only_as_a_hash(
    app: Flask, client: FlaskClient, board: str
) -> None:
    tokens = {path_of(share(client, board)).removeprefix("/v/") for _ in range(20)}
    assert len(tokens) == 20
    assert all(re.fullmatch(r"[A-Za-z0-9_-]{22,}", token) for token in tokens)  # 6 bits a letter
    store = shared_of(app).store
    store.close()
    kept = b"".join(file.read_bytes() for file in store.path.parent.iterdir())
    assert not any(token.encode() in kept for token in tokens)
    assert all(item["url"] is None for item in access(client, board)["links"])


def test_a_qr_code_is_a_drawing_with_nothing_inline(client: FlaskClient, board: str) -> None:
    drawing = share(client, board)["qr"]
    assert drawing.startswith("<svg")
    assert "style=" not in drawing
    assert "script" not in drawing


def test_a_coaching_link_gives_each_device_its_own_key(app: Flask, client: FlaskClient, board: str) -> None:
    link = share(client, board, "coach", "for Robin")
    first, second = app.test_client(), app.test_client()
    first.get(path_of(link), headers={"User-Agent": "Mozilla/5.0 (iPad; CPU OS 17_0)"})
    second.get(path_of(link))
    second.get(path_of(link))  # the same device again: no second key
    keys = access(client, board)["keys"]
    assert [key["role"] for key in keys].count("assistant") == 2
    assert "iPad" in [key["name"] for key in keys]
    assert [key["this"] for key in keys].count(True) == 1
    assert first.get(f"/board/{board}").status_code == 200


def test_a_preview_of_a_coaching_link_makes_no_key(app: Flask, client: FlaskClient, board: str) -> None:
    link = share(client, board, "coach")
    assert app.test_client().head(path_of(link)).status_code == 200
    assert len(access(client, board)["keys"]) == 1


def test_a_key_is_named_by_its_own_device(app: Flask, client: FlaskClient, board: str) -> None:
    other = assistant(app, client, board)
    mine = next(key["id"] for key in access(other, board)["keys"] if key["this"])
    assert other.patch(f"/api/keys/{mine}", json={"name": "Robin's tablet"}).status_code == 200
    assert "Robin's tablet" in [key["name"] for key in access(client, board)["keys"]]
    head = next(key["id"] for key in access(other, board)["keys"] if not key["this"])
    answer = other.patch(f"/api/keys/{head}", json={"name": "mine now"})
    assert (answer.status_code, answer.get_json()["error"]["code"]) == (403, "head_coach_only")


def test_an_assistant_shares_views_but_not_coaching(app: Flask, client: FlaskClient, board: str) -> None:
    other = assistant(app, client, board)
    share(other, board)
    assert other.post(f"/api/board/{board}/code").status_code == 201
    answer = other.post(f"/api/board/{board}/links", json={"kind": "coach", "name": "x"})
    assert (answer.status_code, answer.get_json()["error"]["message"]) == answered("head_coach_only")
    for link in access(other, board)["links"]:
        status = other.delete(f"/api/links/{link['id']}").status_code
        assert status == (200 if link["kind"] == "view" else 403)


def test_a_key_turned_off_opens_nothing(app: Flask, client: FlaskClient, board: str) -> None:
    other = assistant(app, client, board)
    key = next(key["id"] for key in access(client, board)["keys"] if not key["this"])
    assert client.delete(f"/api/keys/{key}").status_code == 200
    page = other.get(f"/board/{board}")
    assert page.status_code == 410
    assert answered("gone_key")[1].replace("'", "&#39;") in page.text
    assert other.get(f"/api/board/{board}/access").get_json()["error"]["code"] == "gone_key"
    assert client.delete(f"/api/keys/{key}").get_json()["error"]["code"] == "no_such_key"


def test_a_coaching_link_turned_off_takes_its_devices_along(
    app: Flask, client: FlaskClient, board: str
) -> None:
    other = assistant(app, client, board)
    link = access(client, board)["links"][0]["id"]
    assert client.delete(f"/api/links/{link}").get_json()["keys"] == 1
    assert other.get(f"/board/{board}").status_code == 410
    assert access(client, board)["links"] == []


def test_the_last_head_coach_cannot_lock_everybody_out(client: FlaskClient, board: str) -> None:
    mine = access(client, board)["keys"][0]["id"]
    answer = client.delete(f"/api/keys/{mine}")
    assert (answer.status_code, answer.get_json()["error"]["message"]) == answered("last_key")
    assert client.get(f"/board/{board}").status_code == 200


def test_another_team_can_do_nothing(app: Flask, client: FlaskClient, board: str) -> None:
    link = share(client, board)
    key = access(client, board)["keys"][0]["id"]
    other = app.test_client()
    make_team(other, "Pier Foxes")
    assert other.get(f"/api/board/{board}/access").status_code == 403
    assert other.post(f"/api/board/{board}/links", json={"kind": "view", "name": "x"}).status_code == 403
    assert other.post(f"/api/board/{board}/code").status_code == 403
    assert other.delete(f"/api/links/{link['id']}").status_code == 403
    assert other.delete(f"/api/keys/{key}").status_code == 404
    assert other.patch(f"/api/keys/{key}", json={"name": "x"}).status_code == 404


@pytest.mark.parametrize(
    ("body", "message"),
    [
        (b"", "Kind: This is missing. Nothing was changed."),
        (b"{", "The request is not JSON. Nothing was changed."),
        (b"\xff", "The request is not text. Nothing was changed."),
        (b"[]", "It must be an object. Nothing was changed."),
        (b'{"kind": "own", "name": "x"}', "Kind: This must be one of: view, coach. Nothing was changed."),
        (b'{"kind": "view", "name": 1}', "Name: This must be text. Nothing was changed."),
        (
            b'{"kind": "view", "name": "\\ud800"}',
            "Name: This must be plain text on one line. Nothing was changed.",
        ),
        (
            b'{"kind": "view", "name": "x", "role": "head_coach"}',
            "Role: This is not known here: leave it out. Nothing was changed.",
        ),
    ],
)
def test_a_bad_request_is_refused_in_one_shape(
    client: FlaskClient, board: str, body: bytes, message: str
) -> None:
    answer = client.post(f"/api/board/{board}/links", data=body)
    assert (answer.status_code, answer.get_json()) == (
        400,
        {"error": {"code": "bad_form", "message": message}},
    )


# Join codes


def code_for(client: FlaskClient, board: str) -> str:
    answer = client.post(f"/api/board/{board}/code")
    assert answer.status_code == 201
    code = answer.get_json()["code"]
    assert isinstance(code, str)
    return code


def test_a_code_gives_each_player_a_viewing_link_of_his_own(
    app: Flask, client: FlaskClient, board: str
) -> None:
    code = code_for(client, board)
    places = []
    for typed in (code, code.lower(), f" {code[:3]}-{code[3:]} "):
        answer = app.test_client().post("/join", data={"code": typed})
        assert answer.status_code == 303
        places.append(answer.headers["Location"])
    assert len(set(places)) == 3
    links = access(client, board)["links"]
    assert [link["kind"] for link in links] == ["view"] * 3
    client.delete(f"/api/links/{links[0]['id']}")
    assert sorted(app.test_client().get(place).status_code for place in places) == [200, 200, 410]


def in_by(app: Flask, code: str) -> int:
    """The status a phone gets that types the code: 303 leads on."""
    return app.test_client().post("/join", data={"code": code}).status_code


def test_turning_a_viewing_link_off_ends_its_codes_and_all_who_came_by_them(
    app: Flask, client: FlaskClient, board: str
) -> None:
    link, other = share(client, board), share(client, board, name="parents")
    code = client.post(f"/api/board/{board}/code", json={"link": link["id"]}).get_json()
    others = client.post(f"/api/board/{board}/code", json={"link": other["id"]}).get_json()
    came = app.test_client().post("/join", data={"code": code["code"]}).headers["Location"]
    stays = app.test_client().post("/join", data={"code": others["code"]}).headers["Location"]
    assert access(client, board)["codes"] == [code["id"], others["id"]]
    assert client.delete(f"/api/links/{link['id']}").status_code == 200
    phone = app.test_client()
    assert [phone.get(place).status_code for place in (path_of(link), came)] == [410, 410]
    assert [phone.get(place).status_code for place in (path_of(other), stays)] == [200, 200]
    assert (in_by(app, code["code"]), in_by(app, others["code"])) == (404, 303)
    found = access(client, board)
    assert (found["codes"], {item["by_code"] for item in found["links"]}) == ([others["id"]], {True, False})


def test_a_code_that_names_no_link_ends_with_any_of_the_boards(
    app: Flask, client: FlaskClient, board: str
) -> None:
    link, code = share(client, board), code_for(client, board)
    came = app.test_client().post("/join", data={"code": code}).headers["Location"]
    client.delete(f"/api/links/{link['id']}")
    assert app.test_client().get(came).status_code == 410
    assert in_by(app, code) == 404


def test_turning_one_phone_off_ends_the_code_it_came_by_and_leaves_the_others(
    app: Flask, client: FlaskClient, board: str
) -> None:
    link = share(client, board)
    code = client.post(f"/api/board/{board}/code", json={"link": link["id"]}).get_json()["code"]
    one, two = (app.test_client().post("/join", data={"code": code}).headers["Location"] for _ in range(2))
    row = next(item for item in access(client, board)["links"] if item["by_code"])
    client.delete(f"/api/links/{row['id']}")
    assert sorted(app.test_client().get(place).status_code for place in (one, two)) == [200, 410]
    assert app.test_client().get(path_of(link)).status_code == 200
    assert in_by(app, code) == 404


def test_a_code_is_made_only_for_a_working_viewing_link_of_the_board(
    app: Flask, client: FlaskClient, board: str
) -> None:
    off, coaching = share(client, board), share(client, board, "coach")
    client.delete(f"/api/links/{off['id']}")
    elsewhere = app.test_client()
    theirs = share(elsewhere, make_team(elsewhere))
    for wrong in (off["id"], coaching["id"], theirs["id"], "nothing"):
        answer = client.post(f"/api/board/{board}/code", json={"link": wrong})
        assert (answer.status_code, answer.get_json()["error"]["code"]) == (404, "no_link")
    answer = client.post(f"/api/board/{board}/code", json={"link": "?" * 65})
    assert answer.get_json()["error"]["code"] == "bad_form"
    assert access(client, board)["codes"] == []


def test_a_code_has_six_characters_that_do_not_look_alike(client: FlaskClient, board: str) -> None:
    assert re.fullmatch(f"[{CODE_LETTERS}]{{6}}", code_for(client, board))
    for alike in ("0O", "1IL", "5S", "2Z", "8B", "UV"):
        assert len(set(alike) & set(CODE_LETTERS)) == 0


def test_a_code_works_for_ten_minutes(app: Flask, client: FlaskClient, board: str) -> None:
    answer = client.post(f"/api/board/{board}/code").get_json()
    assert answer["expires_s"] == 600
    with shared_of(app).store.write() as session:
        session.connection().exec_driver_sql("UPDATE join_code SET expires = expires - 601")
    refused = app.test_client().post("/join", data={"code": answer["code"]})
    assert refused.status_code == 404
    assert answered("bad_code")[1] in refused.text
    assert f'value="{answer["code"]}"' in refused.text  # what was typed is kept


def test_only_so_many_codes_work_at_once(app: Flask, client: FlaskClient, board: str) -> None:
    codes = [code_for(client, board) for _ in range(6)]
    first = app.test_client().post("/join", data={"code": codes[0]})
    last = app.test_client().post("/join", data={"code": codes[-1]})
    assert (first.status_code, last.status_code) == (404, 303)


def test_codes_cannot_be_tried_out(own_app: Flask) -> None:
    client = own_app.test_client()
    code = code_for(client, make_team(client))
    assert [client.post("/join", data={"code": "AAAAAA"}).status_code for _ in range(5)] == [404] * 5
    answer = client.post("/join", data={"code": code})
    assert answer.status_code == 429
    assert answered("too_many_tries")[1] in answer.text


def test_codes_cannot_be_tried_out_from_many_addresses(own_app: Flask) -> None:
    client = own_app.test_client()
    statuses = [
        client.post("/join", data={"code": "AAAAAA"}, environ_base={"REMOTE_ADDR": f"10.0.0.{n}"}).status_code
        for n in range(9)
    ]
    assert statuses == [404] * 8 + [429]


def test_tries_are_allowed_again_when_the_window_has_passed() -> None:
    now = [0.0]
    limit = TryLimit(2, 3, 60, clock=lambda: now[0])
    assert [limit.allow(a) for a in ("x", "x", "x", "y", "y")] == [True, True, False, True, False]
    now[0] = 60.0
    assert [limit.allow(a) for a in ("x", "y")] == [True, True]


# Where links lead


@pytest.mark.parametrize(
    ("host", "public", "local", "base", "reachable"),
    [
        ("192.168.1.5:8710", "", True, "http://192.168.1.5:8710", True),
        ("127.0.0.1:8710", "", False, "http://127.0.0.1:8710", False),
        ("localhost:8710", "", False, "http://localhost:8710", False),
        ("[::1]:8710", "", False, "http://[::1]:8710", False),
        ("127.0.0.1:8710", "https://team.example/", False, "https://team.example", True),
    ],
)
def test_a_link_leads_where_a_phone_can_follow(
    host: str, public: str, local: bool, base: str, reachable: bool
) -> None:
    assert share_base(host, "http", public, local) == (base, reachable)


def test_a_link_that_phones_cannot_open_says_so(client: FlaskClient, board: str) -> None:
    assert "--local-network" in share(client, board)["note"]


# Live


def test_turning_a_viewing_link_off_closes_its_screens_at_once(device: Device, server: LiveServer) -> None:
    ended, kept = device.share(), device.share()
    with (
        device.coach() as coach,
        screen(server, viewing_path(ended)) as phone,
        screen(server, viewing_path(kept)) as other,
    ):
        assert device.ask("DELETE", f"/api/links/{ended['id']}").json["closed"] == 1
        assert phone.wait("gone")["message"] == answered("gone_link")[1]
        assert phone.end().code == 1008
        answer = coach.act("pass:right_wing")
        assert other.wait("step") == answer
    with screen(server, viewing_path(ended), hello=False) as phone:
        assert phone.hear()["t"] == "gone"


def test_turning_a_viewing_link_off_closes_the_phones_that_came_by_its_codes(
    device: Device, server: LiveServer
) -> None:
    link = device.share()
    code = device.ask("POST", f"/api/board/{device.board_id}/code", {"link": link["id"]}).json["code"]
    came = [
        Device(server).ask("POST", "/join", {"code": code}, form=True).headers["Location"] for _ in range(2)
    ]
    paths = [viewing_path(link), *(f"/live/view/{place.removeprefix('/v/')}" for place in came)]
    with screen(server, paths[0]) as one, screen(server, paths[1]) as two, screen(server, paths[2]) as three:
        assert device.ask("DELETE", f"/api/links/{link['id']}").json["closed"] == 3
        for phone in (one, two, three):
            assert phone.wait("gone")["message"] == answered("gone_link")[1]
            assert phone.end().code == 1008
    for path in paths:
        with screen(server, path, hello=False) as phone:
            assert phone.hear()["t"] == "gone"


def test_turning_a_key_off_closes_its_screens_at_once(device: Device, server: LiveServer) -> None:
    robin = Device(server)
    robin.open_coaching_link(device.share("coach")["url"])
    key = next(
        k for k in device.ask("GET", f"/api/board/{device.board_id}/access").json["keys"] if not k["this"]
    )
    with robin.coach() as one, robin.coach() as two, device.coach() as coach:
        assert device.ask("DELETE", f"/api/keys/{key['id']}").json["closed"] == 2
        for its in (one, two):
            assert its.wait("gone")["message"] == answered("gone_key")[1]
            assert its.end().code == 1008
        assert coach.act("pass:right_wing")["seq"] == 1


def test_a_change_under_way_does_not_outlive_its_key(device: Device, server: LiveServer) -> None:
    robin = Device(server)
    robin.open_coaching_link(device.share("coach")["url"])
    key = next(
        k for k in device.ask("GET", f"/api/board/{device.board_id}/access").json["keys"] if not k["this"]
    )
    with robin.coach() as its, device.coach() as coach:
        device.ask("DELETE", f"/api/keys/{key['id']}")
        with suppress(ConnectionClosed):  # it may have been cut already
            its.send({"t": "fresh", "id": "late", "base": 0})
        assert its.wait("gone")["message"] == answered("gone_key")[1]
        assert coach.act("pass:right_wing")["seq"] == 1


def test_an_open_key_is_noted_as_seen(device: Device) -> None:
    with device.coach():
        keys = device.ask("GET", f"/api/board/{device.board_id}/access").json["keys"]
    assert keys[0]["seen"] >= keys[0]["made"]
