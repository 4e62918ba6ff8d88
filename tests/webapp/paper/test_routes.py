"""The page for printing and its files: for the coaches of a board alone, with good names, never running."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from pathlib import Path
from urllib.parse import quote

import pypdfium2
import pytest
from flask import Flask
from flask.testing import FlaskClient
from PIL import Image

from tests.webapp.conftest import make_team, shared_of
from tests.webapp.plays.test_playbook import BACK, branching, did, one, saving
from webapp.paper.options import PICTURE_STEPS_MAX, STEPS_MAX

FILES = {
    "sheet.pdf": "application/pdf",
    "calls.pdf": "application/pdf",
    "picture.png": "image/png",
    "moving.svg": "image/svg+xml",
    "page.svg": "image/svg+xml",
}


@pytest.fixture
def board(client: FlaskClient) -> str:
    return make_team(client, board="Tuesday: shell/drill")


def text_of(content: bytes) -> str:
    with pypdfium2.PdfDocument(content) as document:
        return "\n".join(page.get_textpage().get_text_bounded() for page in document)


@pytest.mark.parametrize("file", FILES)
def test_files_are_for_coaches_alone(app: Flask, client: FlaskClient, board: str, file: str) -> None:
    address = f"/board/{board}/print/{file}"
    assert client.get(address).status_code == 200
    assert client.get(address).mimetype == FILES[file]
    stranger = app.test_client()
    assert stranger.get(address).status_code == 403
    link = client.post(f"/api/board/{board}/links", json={"kind": "view", "name": "players"}).get_json()
    stranger.get("/v/" + link["url"].rsplit("/", 1)[1])
    assert stranger.get(address).status_code == 403
    assert stranger.get(f"/board/{board}/print").status_code == 403
    assert client.get(f"/board/nothing/print/{file}").status_code == 404


def test_files_have_names_that_say_what_they_are(client: FlaskClient, board: str) -> None:
    header = client.get(f"/board/{board}/print/sheet.pdf").headers["Content-Disposition"]
    assert header.startswith('attachment; filename="Tuesday shell drill.pdf"')
    did(client, saving(board, name='Прорыв "X"'))
    header = client.get(f"/board/{board}/print/sheet.pdf?chain=c1").headers["Content-Disposition"]
    assert f"filename*=UTF-8''{quote('Прорыв X.pdf')}" in header
    assert header.isascii()


@pytest.mark.parametrize("address", ["moving.svg", "moving.svg?show=1", "page.svg"])
def test_a_drawing_can_run_nothing_and_fetch_nothing(client: FlaskClient, board: str, address: str) -> None:
    did(client, saving(board, name="<script>alert(1)</script>"))
    mark = "&" if "?" in address else "?"
    answer = client.get(f"/board/{board}/print/{address}{mark}chain=c1")
    assert answer.status_code == 200
    policy = answer.headers["Content-Security-Policy"]
    assert "default-src 'none'" in policy
    assert "sandbox" in policy
    assert answer.headers["X-Content-Type-Options"] == "nosniff"
    root = ET.fromstring(answer.text)
    assert not [element for element in root.iter() if element.tag.endswith("script")]
    assert ("Content-Disposition" in answer.headers) == (address == "moving.svg")


@pytest.mark.parametrize(
    ("query", "sentence"),
    [
        ("per=3", "“per” in this address: this must be one of: 1, 2, 4, 6."),
        ("paper=a5", "“paper” in this address: this must be one of: a4, letter."),
        ("large=yes", "“large” in this address: this must be one of: 0, 1."),
        ("first=0", "“first” in this address: this must be a whole number from 1 on."),
        ("first=%D9%A1", "“first” in this address: this must be a whole number from 1 on."),
        ("last=99999", "“last” in this address: this must be a whole number from 1 on."),
        ("chain=../secret", "“chain” in this address: this must be 1 to 64 letters, digits, - or _."),
        ("wide=1", "“wide” in this address: this is not known here: leave it out."),
        ("chain=c1&first=3&last=2", "This chain has the steps 1 to 3; choose first and last among them."),
        ("chain=c1&last=4", "This chain has the steps 1 to 3; choose first and last among them."),
        ("chain=c1&end=77", "This chain has no such branch."),
    ],
)
def test_what_cannot_be_printed_is_said_in_one_sentence(
    client: FlaskClient,
    board: str,
    query: str,
    sentence: str,
) -> None:
    did(client, saving(board))
    answer = client.get(f"/board/{board}/print?{query}")
    assert answer.status_code == 400
    assert sentence in answer.text.replace("&#34;", '"')


@pytest.mark.parametrize(
    ("query", "sentence"),
    [
        ("picture.png?chain=c1&step=4", "This chain has only 3 steps."),
        ("page.svg?chain=c1&page=2", "There are only 1 pages."),
    ],
)
def test_a_step_or_a_page_that_is_not_there(
    client: FlaskClient,
    board: str,
    query: str,
    sentence: str,
) -> None:
    did(client, saving(board))
    answer = client.get(f"/board/{board}/print/{query}")
    assert answer.status_code == 400
    assert sentence in answer.text


def test_a_chain_of_the_playbook_and_each_of_its_branches_can_be_printed(
    client: FlaskClient,
    board: str,
) -> None:
    did(client, saving(board, note="Go slowly at first.", name="Quick"), branching(board))
    base = f"/board/{board}/print/sheet.pdf?per=6&chain=c1"
    main = text_of(client.get(base).data)
    assert "Quick" in main
    assert "Go slowly at first." in main
    assert "3 drives left" in main
    tree = one(client)["tree"]
    branch = next(at for at, (_, actions) in enumerate(tree) if "pass:right_corner" in actions)
    other = text_of(client.get(f"{base}&end={branch}").data)
    assert "2 passes to 4" in other
    assert "drives left" not in other
    part = text_of(client.get(f"{base}&first=2&last=2").data)
    assert "1 fills the left corner" in part
    assert "1 passes to 2" not in part


def test_another_teams_chain_and_a_deleted_one_are_not_printed(
    app: Flask, client: FlaskClient, board: str
) -> None:
    did(client, saving(board))
    stranger = app.test_client()
    other = make_team(stranger)
    assert stranger.get(f"/board/{other}/print/sheet.pdf?chain=c1").status_code >= 403
    did(client, {"op": "delete", "chain": "c1"})
    assert client.get(f"/board/{board}/print/sheet.pdf?chain=c1").status_code == 404


def test_the_call_sheet_has_the_pinned_chains_and_the_teams_words(client: FlaskClient, board: str) -> None:
    client.put("/api/team/calls", json={"drive": {"call": "Go", "signal": "fist up"}})
    did(client, saving(board, name="Quick"), saving(board, "c2", name="Slow"))
    did(client, {"op": "edit", "chain": "c2", "pinned": True})
    text = text_of(client.get(f"/board/{board}/print/calls.pdf").data)
    assert "Slow" in text
    assert "Quick" not in text
    assert "“Go”" in text
    assert "fist up" in text


def test_the_call_sheet_has_every_diagram_if_asked(client: FlaskClient, board: str) -> None:
    did(client, saving(board, name="Quick"), {"op": "edit", "chain": "c1", "pinned": True})
    plain = client.get(f"/board/{board}/print/calls.pdf").data
    whole = client.get(f"/board/{board}/print/calls.pdf?every=1&per=1").data
    assert plain.count(b"/Type /Page\n") + 1 < whole.count(b"/Type /Page\n") or len(whole) > len(plain)
    told = text_of(whole)
    assert told.count("Quick") > text_of(plain).count("Quick")
    page = client.get(f"/board/{board}/print").get_data(as_text=True)
    assert "calls.pdf?" in page
    assert "every=1" in page


def test_pictures_are_pictures(client: FlaskClient, board: str, tmp_path: Path) -> None:
    did(client, saving(board))
    for query in ("chain=c1", "chain=c1&step=2", "chain=c1&step=0&mirror=1"):
        file = tmp_path / "picture.png"
        file.write_bytes(client.get(f"/board/{board}/print/picture.png?{query}").data)
        with Image.open(file) as image:
            image.load()
            assert image.format == "PNG"
            assert 800 <= image.width <= 2400


def test_a_very_long_chain_is_printed_in_parts(client: FlaskClient, board: str) -> None:
    whole = [[BACK]] * (STEPS_MAX + 1)
    did(client, saving(board, line=whole))
    page = client.get(f"/board/{board}/print?chain=c1&per=6").text
    assert f"{STEPS_MAX} of {STEPS_MAX + 1} steps on {STEPS_MAX // 6} pages." in page
    assert f"A picture has room for {PICTURE_STEPS_MAX} steps" in page
    answer = client.get(f"/board/{board}/print/sheet.pdf?chain=c1&first=1&last={STEPS_MAX + 1}")
    assert answer.status_code == 400
    assert f"At most {STEPS_MAX} steps go together" in answer.text
    part = client.get(f"/board/{board}/print/sheet.pdf?chain=c1&per=6&first=2&last={STEPS_MAX + 1}")
    assert part.status_code == 200
    with pypdfium2.PdfDocument(part.data) as document:
        assert len(document) == STEPS_MAX // 6
    picture = client.get(f"/board/{board}/print/picture.png?chain=c1&first=1&last={PICTURE_STEPS_MAX + 1}")
    assert picture.status_code == 400
    assert f"At most {PICTURE_STEPS_MAX} steps go together" in picture.text


def test_the_page_leads_to_every_file_with_what_was_chosen(client: FlaskClient, board: str) -> None:
    did(client, saving(board, name="<b>Quick"))
    page = client.get(f"/board/{board}/print?chain=c1&per=2&paper=letter&large=1&mirror=1").text
    assert "&lt;b&gt;Quick" in page
    for file in ("sheet.pdf", "picture.png", "moving.svg", "calls.pdf", "page.svg"):
        assert (
            f"/board/{board}/print/{file}?chain=c1&amp;paper=letter&amp;per=2&amp;large=1&amp;mirror=1"
            in page
        )
    assert "3 steps on 2 pages." in page


def test_what_is_on_the_board_is_printed_as_it_stands(app: Flask, client: FlaskClient, board: str) -> None:
    page = client.get(f"/board/{board}/print").text
    assert "Nothing has been played yet" in page
    assert "The start" in client.get(f"/board/{board}/print/page.svg").text
    assert shared_of(app).boards.standing(board).steps == ()
