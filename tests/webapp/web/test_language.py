"""The language of an answer is the team's choice, then the browser's."""

from __future__ import annotations

import html
import json
import re
import subprocess
import sys
from datetime import datetime
from pathlib import Path

import pytest
from flask.testing import FlaskClient
from werkzeug.datastructures import LanguageAccept
from werkzeug.http import parse_accept_header

from engine.game.moves import why_not
from engine.rules.actions import parse
from engine.rules.rule_sets import DEFAULT
from engine.words.language import Language, english, english_plural
from engine.words.spoken import say, speaking
from tests.engine.boards import FIVE, long
from tests.engine.boards import board as board_of
from tests.engine.game.test_reasons import EVERYTHING, REASONS
from tests.made_up import OPENS, TAG, bare, write
from tests.server import ROOT
from tests.webapp.conftest import make_team
from tests.webapp.paper.chains import five_steps
from tests.webapp.paper.test_sheets import CALLS
from tests.webapp.transfer.teams import bring_in, taken_along
from webapp.app import create_app
from webapp.base.languages import CannotSpeak, chosen, languages, long_date
from webapp.base.settings import Settings
from webapp.chains.lines_of_play import reach
from webapp.paper.callsheet import call_sheet
from webapp.paper.layout import pages
from webapp.paper.marks import Text
from webapp.paper.options import Options
from webapp.paper.pdf import pdf
from webapp.wire.refusals import REFUSALS, Refused


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
    for path in ("/", "/join", "/check", "/nowhere", "/offline"):
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


@pytest.mark.parametrize(
    ("asked", "spoken"),
    [
        # The ways of RFC 4647 (lookup), then another region's.
        ("en-GB, fr;q=0.5", "en"),
        ("pt-PT, en;q=0.5", "pt-BR"),
        ("FR-ca", "fr"),
        ("fr;q=0, en;q=0.3", "en"),
        ("xx", "en"),
    ],
)
def test_of_what_a_browser_asks_for_the_nearest_is_spoken(tmp_path: Path, asked: str, spoken: str) -> None:
    for tag in ("fr", "pt-BR"):
        (tmp_path / tag).mkdir()
    known = languages(tmp_path)
    assert chosen(known, "", parse_accept_header(asked, LanguageAccept)).tag == spoken


@pytest.mark.parametrize("folder", ["pt_BR", "English", "qqx"])
def test_a_folder_that_no_language_is_called_by_is_said(tmp_path: Path, folder: str) -> None:
    (tmp_path / folder).mkdir()
    with pytest.raises(CannotSpeak, match="tag"):
        languages(tmp_path)


def test_a_folder_of_languages_that_is_not_there_is_said(tmp_path: Path) -> None:
    with pytest.raises(CannotSpeak, match="cannot be read"):
        languages(tmp_path / "none")


def test_what_is_kept_of_one_language_is_not_said_in_another(more: Path) -> None:
    """Regression: how far a line is legal was kept with the sentence why not, whoever had asked."""
    line = (("fill:top",),)
    with speaking(languages(more)[TAG]):
        assert OPENS in str(reach(FIVE, DEFAULT, line).why)
    assert OPENS not in str(reach(FIVE, DEFAULT, line).why)


def test_rules_that_ship_are_called_in_the_language_and_copies_as_they_were_made(client: FlaskClient) -> None:
    board = make_team(client)
    made = client.post(
        f"/api/rules?board={board}", json={"from": "first_steps", "title": "Pass and cut"}, headers=MADE_UP
    )
    assert made.status_code == 201
    rules = {each["ref"]: each for each in client.get(f"/api/team?board={board}").get_json()["rules"]}
    own = rules[made.get_json()["ref"]]
    assert own["title"] == "Pass and cut"
    assert own["about"].startswith(OPENS)
    told = client.get(f"/api/team?board={board}", headers=MADE_UP).get_json()["rules"]
    titles = {each["ref"]: each["title"] for each in told}
    assert titles[own["ref"]] == "Pass and cut"
    assert titles["pass_and_cut"].startswith(OPENS)


def test_a_form_that_is_not_filled_in_is_refused_in_the_language(client: FlaskClient) -> None:
    answer = client.post("/join", data={"code": ""}, headers=MADE_UP).text
    found = re.search(r'role="alert"[^>]*>([^<]+)<', answer)
    assert found is not None
    assert not re.search(r"[a-z]{2}", bare(html.unescape(found[1])))


def test_every_refusal_is_in_the_language(more: Path) -> None:
    with speaking(languages(more)[TAG]):
        why = say("answers.failed")
        for code in REFUSALS:
            said = str(Refused(code, why=why, steps=3, n=1, most=3, play="“Q”"))
            assert not re.search(r"[a-z]{2}", bare(said)), code


def test_every_reason_why_something_is_not_legal_is_in_the_language(more: Path) -> None:
    with speaking(languages(more)[TAG]):
        for formation, drawn, text, _ in REASONS:
            said = why_not(board_of(drawn), parse(long(text)), formation, EVERYTHING)
            assert said is not None
            assert not re.search(r"[a-z]{2}", bare(said.replace(repr(long(text)), ""))), said


def test_nothing_is_put_into_words_while_modules_are_loaded() -> None:
    """Regression: two complaints of schemas were in English for good."""
    program = """
import importlib, pkgutil, engine, webapp
from engine.words import spoken
from engine.words.language import Language
spoken.speak(Language("xx", {}, str))
for package in (engine, webapp):
    for module in pkgutil.walk_packages(package.__path__, package.__name__ + "."):
        if not any(part in module.name for part in ("__main__", ".migrations", "gunicorn")):
            importlib.import_module(module.name)
"""
    subprocess.run([sys.executable, "-c", program], check=True, cwd=ROOT, timeout=120)


def test_a_team_takes_its_language_along(client: FlaskClient) -> None:
    board = make_team(client)
    plain = client.get(f"/api/team/everything?board={board}").get_json(force=True)
    assert "language" not in plain["team"]
    client.put(f"/api/team/language?board={board}", json={"language": TAG})
    file = taken_along(client, board)
    other = client.application.test_client()
    brought = bring_in(other, file)
    assert other.get(f"/api/team?board={brought}").get_json()["language"] == TAG


def test_paper_is_in_the_language(more: Path) -> None:
    with speaking(languages(more)[TAG]):
        made = five_steps()
        drawn = [*pages(made, Options()), call_sheet("Q", [made], 3, CALLS, Options())]
        said = " ".join(mark.words for page in drawn for mark in page.marks if isinstance(mark, Text))
        assert b"en-XA" in pdf(drawn, "Q")
    for own in (made.title, made.team, made.note, "Go", "fist up", "hand on the head"):
        said = said.replace(own, "") if own else said
    assert not re.search(r"[a-z]{3}", bare(said)), bare(said)


def test_dates_are_written_as_the_language_does() -> None:
    day = datetime(2026, 5, 3, 12).timestamp()
    assert long_date(day) == "3 May 2026"
    # As Unicode CLDR has the long date of German.
    with speaking(Language("de", english().tables, english_plural)):
        assert long_date(day) == "3. Mai 2026"
