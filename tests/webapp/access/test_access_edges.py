"""Who may do what, where one way in could be taken for another or one role for the next."""

from __future__ import annotations

from itertools import combinations_with_replacement

import pytest
from flask import Flask
from flask.testing import FlaskClient

from tests.webapp.access.test_access import access, path_of, share
from tests.webapp.access.test_admit import add, code_of
from tests.webapp.conftest import make_team, shared_of
from webapp.access import devices
from webapp.access.keys import at_least, turn_off_key
from webapp.access.links import make_start_link
from webapp.store.tables import Key
from webapp.wire.refusals import Refused, answered

pytestmark = pytest.mark.common_app

ROLES = ("viewer", "assistant", "head_coach")


@pytest.mark.parametrize(("less", "more"), [*combinations_with_replacement(ROLES, 2)])
def test_a_role_may_do_what_lesser_ones_may_and_no_more(less: str, more: str) -> None:
    assert at_least(more, less)
    assert at_least(less, more) == (less == more)


def test_a_devices_code_is_no_sheet_to_be_turned_off(app: Flask, client: FlaskClient, board: str) -> None:
    made = client.post(f"/api/board/{board}/device-code", json={"role": "assistant"}).get_json()
    answer = client.delete(f"/api/sheets/{made['id']}")
    assert (answer.status_code, answer.get_json()["error"]["code"]) == (404, "no_sheet")
    assert add(app.test_client(), made["code"]).status_code == 303


def test_a_coaching_link_ends_its_devices_and_says_how_many(
    app: Flask, client: FlaskClient, board: str
) -> None:
    link = share(client, board, "coach", "for Robin")
    device = app.test_client()
    device.get(path_of(link))
    assert client.delete(f"/api/links/{link['id']}").get_json()["keys"] == 1
    assert device.get(f"/board/{board}").status_code == 410


def test_a_players_link_says_in_which_order_he_came(app: Flask, client: FlaskClient, board: str) -> None:
    code = client.post(f"/api/board/{board}/code").get_json()["code"]
    for _ in range(2):
        assert app.test_client().post("/join", data={"code": code}).status_code == 303
    found = sorted(link["name"] for link in access(client, board)["links"])
    assert found == ["joined by code, 1", "joined by code, 2"]


def test_an_assistants_device_that_opens_the_links_of_the_start_is_the_head_coachs_and_stays_it(
    own_app: Flask,
) -> None:
    head, device = own_app.test_client(), own_app.test_client()
    board = make_team(head)
    device.get(path_of(share(head, board, "coach", "for Robin")))
    with shared_of(own_app).store.write() as session:
        start = make_start_link(session, board)
    assert device.get(start.path).status_code == 303
    (mine,) = [key for key in access(device, board)["keys"] if key["this"]]
    assert (mine["role"], len(access(head, board)["keys"])) == ("head_coach", 2)
    with shared_of(own_app).store.read() as session:
        assert session.get_one(Key, mine["id"]).board_id is None  # all boards there will be
    # An assistant's link gives no less than there is.
    device.get(path_of(share(head, board, "coach", "for anybody")))
    (mine,) = [key for key in access(device, board)["keys"] if key["this"]]
    assert mine["role"] == "head_coach"


def test_an_assistant_names_his_own_device_alone_and_a_head_coach_all(
    app: Flask, client: FlaskClient, board: str
) -> None:
    device = app.test_client()
    add(device, code_of(client, board, "assistant"))
    rows = {key["id"]: key for key in access(client, board)["keys"]}
    mine = next(key["id"] for key in access(device, board)["keys"] if key["this"])
    others = next(key for key in rows if key != mine)
    named = device.patch(f"/api/keys/{others}", json={"name": "x"})
    assert (named.status_code, named.get_json()["error"]["code"]) == (403, "head_coach_only")
    assert client.patch(f"/api/keys/{mine}", json={"name": "Robin"}).status_code == 200
    assert {key["name"] for key in access(client, board)["keys"]} > {"Robin"}


def test_a_key_is_turned_off_once_and_no_other_teams_head_coach_can(
    app: Flask, client: FlaskClient, board: str
) -> None:
    device, other = app.test_client(), app.test_client()
    add(device, code_of(client, board))
    theirs = next(key["id"] for key in access(device, board)["keys"] if key["this"])
    there = make_team(other, "Pier Foxes")
    mine = access(other, there)["keys"][0]["id"]
    with shared_of(app).store.write() as session:
        with pytest.raises(Refused, match=answered("no_such_key")[1]):
            turn_off_key(session, theirs, session.get_one(Key, mine))
        assert session.get_one(Key, theirs).revoked is None
    assert client.delete(f"/api/keys/{theirs}").status_code == 200
    again = client.delete(f"/api/keys/{theirs}")
    assert (again.status_code, again.get_json()["error"]["code"]) == (404, "no_such_key")


def test_a_device_with_two_keys_to_a_team_acts_by_the_one_that_may_more(
    app: Flask, client: FlaskClient, board: str
) -> None:
    # As after it came over HTTP as an assistant's, and later, over HTTPS, as the head coach's.
    device, robin, head, other = (app.test_client() for _ in range(4))
    for each, role in ((robin, "assistant"), (head, "head_coach"), (other, "assistant")):
        add(each, code_of(client, board, role))
    for each, prefix in ((robin, devices._PREFIX), (head, devices._SECURE_PREFIX)):
        (cookie,) = each._cookies.values()  # type: ignore[attr-defined]
        device.set_cookie(prefix + cookie.key.removeprefix(devices._PREFIX), cookie.value)
    theirs = next(key["id"] for key in access(other, board)["keys"] if key["this"])
    assert device.patch(f"/api/keys/{theirs}", json={"name": "x"}).status_code == 200
    assert device.delete(f"/api/keys/{theirs}").status_code == 200


def test_a_device_with_keys_to_two_teams_acts_in_each_by_the_key_it_has_there(
    app: Flask, client: FlaskClient, board: str
) -> None:
    # Head coach of another team, assistant here: no more than an assistant here.
    other = app.test_client()
    make_team(other, "Pier Foxes")
    add(other, code_of(client, board, "assistant"))
    first = next(key["id"] for key in access(client, board)["keys"] if key["this"])
    for answer in (
        other.patch(f"/api/keys/{first}", json={"name": "x"}),
        other.delete(f"/api/keys/{first}"),
    ):
        assert (answer.status_code, answer.get_json()["error"]["code"]) == (403, "head_coach_only")
