"""Pages: what they show, what they refuse and how, and what every answer carries."""

from __future__ import annotations

import gzip
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient

from tests.webapp.conftest import make_team
from webapp.wire.refusals import REFUSALS, Refused, answered

pytestmark = pytest.mark.common_app


def test_a_team_is_made_without_an_account(client: FlaskClient) -> None:
    board = make_team(client)
    page = client.get(f"/board/{board}")
    assert page.status_code == 200
    assert f'data-socket="/live/board/{board}"' in page.text
    home = client.get("/").text
    assert "First" in home
    assert "Quay Otters" in home


@pytest.mark.parametrize("known", [False, True])
def test_the_front_page_begins_with_a_new_board_and_codes_stand_below(
    client: FlaskClient, known: bool
) -> None:
    """Whoever has boards already finds those first of all."""
    if known:
        make_team(client)
    page = client.get("/").text
    own = page.find('class="boards"')
    new, follow, coach = (
        page.index(f'{where}"') for where in ('action="/teams', 'href="/join', 'href="/add')
    )
    assert own < new < follow < coach
    assert (own > 0) is known
    assert ('action="/add"' in page) is not known


def test_the_key_is_out_of_reach_of_scripts_and_of_other_sites(client: FlaskClient) -> None:
    answer = client.post("/teams", data={"team": "Otters", "board": "First"})
    cookie = answer.headers["Set-Cookie"]
    assert "HttpOnly" in cookie
    assert "SameSite=Lax" in cookie


def test_names_are_shown_as_text(client: FlaskClient) -> None:
    make_team(client, team="<b>Otters", board='"><script>x()</script>')
    home = client.get("/").text
    assert "&lt;b&gt;Otters" in home
    assert "<script>x()" not in home


@pytest.mark.parametrize(
    ("form", "sentence"),
    [
        ({}, "Team: This is missing."),
        ({"team": "", "board": "First"}, "Team: This must have 1 to 40 characters."),
        ({"team": "   ", "board": "First"}, "Team: This must have 1 to 40 characters."),
        ({"team": "x" * 41, "board": "First"}, "Team: This must have 1 to 40 characters."),
        ({"team": "Otters", "board": "a\u202eb"}, "Board: This must be plain text on one line."),
        ({"team": "Otters", "board": "a\x00b"}, "Board: This must be plain text on one line."),
        ({"team": "Otters", "board": "First", "admin": "1"}, "Admin: This is not known here: leave it out."),
    ],
)
def test_a_bad_name_is_refused_with_the_reason(
    client: FlaskClient, form: dict[str, str], sentence: str
) -> None:
    answer = client.post("/teams", data=form)
    assert answer.status_code == 400
    assert f'role="alert">{sentence} Nothing was changed.' in answer.text
    assert "Your boards" not in client.get("/").text


def test_a_board_is_closed_to_a_stranger(app: Flask, client: FlaskClient) -> None:
    board = make_team(client)
    answer = app.test_client().get(f"/board/{board}")
    assert answer.status_code == 403
    assert answered("no_key")[1] in answer.text


def test_a_key_must_match_to_the_last_letter(client: FlaskClient, app: Flask) -> None:
    board = make_team(client)
    cookie = client.get("/").request.headers["Cookie"]
    name, _, value = cookie.partition("=")
    forger = app.test_client()
    forger.set_cookie(name, value[:-1] + ("A" if value[-1] != "A" else "B"))
    assert forger.get(f"/board/{board}").status_code == 403


@pytest.mark.parametrize("path", ["/c/none", "/v/none", "/v/" + "x" * 500, "/c/%00"])
def test_a_dead_link_says_what_to_do(client: FlaskClient, path: str) -> None:
    answer = client.get(path)
    assert answer.status_code == 410
    assert "This link does not work: it was mistyped, or has been turned off." in answer.text
    assert 'href="/join"' in answer.text


@pytest.mark.parametrize(
    ("method", "path", "status", "code"),
    [
        ("GET", "/nothing", 404, "not_found"),
        ("GET", "/static/../webapp/app.py", 404, "not_found"),
        ("PUT", "/", 405, "not_allowed"),
        ("GET", "/teams", 405, "not_allowed"),
        ("GET", "/board/none", 404, "no_board"),
        ("GET", "/live/view/x", 400, "bad_request"),
    ],
)
def test_an_error_page_is_plain(client: FlaskClient, method: str, path: str, status: int, code: str) -> None:
    answer = client.open(path, method=method)
    assert answer.status_code == status
    assert answered(code)[1] in answer.text
    assert "<h1>Page not found</h1>" in answer.text


def test_405_says_what_is_allowed(client: FlaskClient) -> None:
    assert "GET" in client.put("/").headers["Allow"]


def test_too_large_a_form_is_refused(client: FlaskClient) -> None:
    answer = client.post("/teams", data={"team": "x" * 70000, "board": "First"})
    assert answer.status_code == 413
    assert answered("too_large")[1] in answer.text


def test_a_failure_is_told_in_plain_words_only(own_app: Flask, caplog: pytest.LogCaptureFixture) -> None:
    def broken() -> str:
        raise RuntimeError("the secret reason")

    own_app.add_url_rule("/broken", view_func=broken)
    own_app.add_url_rule("/api/broken", endpoint="api_broken", view_func=broken)
    client = own_app.test_client()
    page, answer = client.get("/broken"), client.get("/api/broken")
    assert (page.status_code, answer.status_code) == (500, 500)
    assert answered("failed")[1] in page.text
    assert answer.get_json() == {"error": {"code": "failed", "message": answered("failed")[1]}}
    assert "secret reason" not in page.text + answer.text
    assert "the secret reason" in caplog.text  # the log has it


@pytest.mark.parametrize("path", ["/", "/join", "/nothing", "/c/none", "/manifest.webmanifest", "/api/x"])
def test_every_answer_keeps_to_itself(client: FlaskClient, path: str) -> None:
    headers = client.get(path).headers
    policy = headers["Content-Security-Policy"]
    assert "default-src 'self'" in policy
    assert "unsafe" not in policy
    assert headers["Referrer-Policy"] == "no-referrer"
    assert headers["X-Content-Type-Options"] == "nosniff"
    assert headers["X-Frame-Options"] == "DENY"


@pytest.mark.parametrize("path", ["/", "/join", "/nothing", "/c/none"])
def test_pages_have_nothing_inline_and_nothing_from_elsewhere(client: FlaskClient, path: str) -> None:
    text = client.get(path).text
    assert " style=" not in text
    assert "<style" not in text
    assert "<script>" not in text
    assert "http://" not in text.replace("http://www.w3.org", "")
    assert "https://" not in text


FOREIGN: list[dict[str, str]] = [
    {"Origin": "http://elsewhere.example"},
    {"Origin": "http://localhost.elsewhere.example"},
    {"Sec-Fetch-Site": "cross-site"},
]


@pytest.mark.parametrize("headers", FOREIGN)
@pytest.mark.parametrize("path", ["/teams", "/join", "/api/board/x/code"])
def test_another_sites_page_changes_nothing(client: FlaskClient, path: str, headers: dict[str, str]) -> None:
    answer = client.post(path, headers=headers)
    assert answer.status_code == 403
    assert answered("other_site")[1] in answer.get_data(as_text=True)


def test_an_unnamed_origin_is_no_use_for_the_access_list(client: FlaskClient) -> None:
    board = make_team(client)
    assert client.post(f"/api/board/{board}/code", headers={"Origin": "null"}).status_code == 403


@pytest.mark.parametrize("host", ["a b", "x;script-src *", "[", ""])
def test_a_host_that_is_none_is_refused(client: FlaskClient, host: str) -> None:
    answer = client.get("/", headers={"Host": host})
    assert answer.status_code == 400
    assert "script-src" not in answer.headers["Content-Security-Policy"]


def test_teams_cannot_be_made_without_end(own_app: Flask) -> None:
    client = own_app.test_client()
    for _ in range(20):
        make_team(client)
    answer = client.post("/teams", data={"team": "One", "board": "Too many"})
    assert answer.status_code == 429
    assert answered("too_many_teams")[1] in answer.text


def test_every_route_says_what_it_does(app: Flask) -> None:
    for rule in app.url_map.iter_rules():
        if rule.endpoint == "static":
            continue  # the web framework's own
        view: Any = app.view_functions[rule.endpoint]
        assert view.__doc__, rule


def test_every_refusal_is_one_line_that_ends(app: Flask) -> None:
    for code in REFUSALS:
        refusal = Refused(code, why="It is so.", steps=3, n=1, most=3, play="“Quick”")
        assert 400 <= refusal.status < 600
        assert str(refusal).endswith((".", ")"))
        assert "\n" not in str(refusal)


@pytest.mark.parametrize(
    "path", ["/manifest.webmanifest", "/static/js/state/wire.js", "/static/icons/quintet.svg"]
)
def test_our_own_files_are_packed_and_not_sent_twice(client: FlaskClient, path: str) -> None:
    with client.get(path) as answer:
        plain = answer.data
        assert "Content-Encoding" not in answer.headers
    with client.get(path, headers={"Accept-Encoding": "gzip"}) as packed:
        assert packed.headers["Content-Encoding"] == "gzip"
        assert gzip.decompress(packed.data) == plain
        assert "Accept-Encoding" in packed.headers["Vary"]
        known = {"Accept-Encoding": "gzip", "If-None-Match": packed.headers["ETag"]}
    with client.get(path, headers=known) as again:
        assert again.status_code == 304


def test_what_is_somebodys_is_neither_packed_nor_kept(client: FlaskClient) -> None:
    board = make_team(client)
    answer = client.get(f"/board/{board}", headers={"Accept-Encoding": "gzip"})
    assert "Content-Encoding" not in answer.headers
    assert answer.headers["Cache-Control"] == "no-store"
