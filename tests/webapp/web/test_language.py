"""The language of an answer is the team's choice, then the browser's."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from flask.testing import FlaskClient

from engine.words.spoken import say, speaking
from tests.made_up import OPENS, TAG, write
from tests.webapp.conftest import make_team
from webapp.app import create_app
from webapp.base.languages import CannotSpeak, languages, long_date
from webapp.base.settings import Settings


@pytest.fixture(scope="module")
def more(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with the made-up language."""
    return write(tmp_path_factory.mktemp("languages"))


@pytest.fixture
def client(tmp_path: Path, more: Path) -> FlaskClient:
    """A device on a server that knows the made-up language too."""
    app = create_app(Settings(data_dir=tmp_path, languages_dir=str(more)))
    app.testing = True
    return app.test_client()


MADE_UP = {"Accept-Language": f"{TAG}, en;q=0.5"}


def language_of(page: str) -> tuple[str, str]:
    found = re.search(r'<html lang="([^"]+)" dir="([^"]+)"', page)
    assert found is not None
    return found[1], found[2]


def test_a_browser_is_answered_in_its_language(client: FlaskClient) -> None:
    for path in ("/", "/join", "/check", "/nowhere"):
        told = client.get(path, headers=MADE_UP).text
        assert language_of(told) == (TAG, "ltr")
        assert OPENS in told
        plain = client.get(path, headers={"Accept-Language": "fr, en;q=0.2"}).text
        assert language_of(plain) == ("en", "ltr")
        assert OPENS not in plain


def test_the_team_s_choice_goes_before_the_browser_s(client: FlaskClient) -> None:
    board = make_team(client)
    page = f"/board/{board}"
    assert language_of(client.get(page).text)[0] == "en"
    chosen = client.put(f"/api/team/language?board={board}", json={"language": TAG})
    assert (chosen.status_code, chosen.get_json()) == (200, {"language": TAG})
    assert language_of(client.get(page).text)[0] == TAG
    assert client.get(f"/api/team?board={board}").get_json()["language"] == TAG
    link = client.post(f"/api/board/{board}/links", json={"kind": "view", "name": "phones"}).get_json()
    phone = client.application.test_client()
    assert language_of(phone.get(link["url"].split("localhost")[-1]).text)[0] == TAG
    client.put(f"/api/team/language?board={board}", json={"language": ""})
    assert language_of(client.get(page, headers=MADE_UP).text)[0] == TAG
    assert language_of(client.get(page).text)[0] == "en"


def test_a_language_nobody_knows_is_refused(client: FlaskClient) -> None:
    board = make_team(client)
    answer = client.put(f"/api/team/language?board={board}", json={"language": "xx"})
    assert answer.status_code == 422
    assert answer.get_json()["error"]["problems"] == [["language", "This must be one of: , en, en-XA."]]
    assert client.get(f"/api/team?board={board}").get_json()["language"] == ""


def test_a_refusal_is_in_the_language_of_whoever_asked(client: FlaskClient) -> None:
    answer = client.get("/api/team", headers=MADE_UP)
    assert answer.get_json()["error"]["message"].startswith(OPENS)


def test_a_page_carries_what_its_modules_say_and_none_in_english(client: FlaskClient) -> None:
    told = client.get("/", headers=MADE_UP).text
    found = re.search(r'<script type="application/json" id="texts">(.*?)</script>', told)
    assert found is not None
    texts = json.loads(found[1])
    assert texts["board"]["undo"].startswith(OPENS)
    assert "answers" not in texts
    assert 'id="texts"' not in client.get("/").text


def test_the_app_is_described_in_the_language_asked_for(client: FlaskClient) -> None:
    described = client.get("/manifest.webmanifest", headers=MADE_UP).get_json()
    assert (described["lang"], described["dir"]) == (TAG, "ltr")
    assert described["description"].startswith(OPENS)


def test_a_folder_that_is_no_language_is_said(tmp_path: Path) -> None:
    (tmp_path / "fr").mkdir()
    (tmp_path / "fr" / "board.json").write_text("{", "utf-8")
    with pytest.raises(CannotSpeak, match=r"The language in .*fr cannot be read"):
        languages(tmp_path)


def test_dates_are_written_as_the_language_does(more: Path) -> None:
    assert re.fullmatch(r"\d{1,2} [A-Z][a-z]+ 20\d\d", long_date(1_777_777_777))
    with speaking(languages(more)[TAG]):
        assert say("board.undo").startswith(OPENS)
        assert "2026" in long_date(1_777_777_777)
