"""Drawn steps on pages, in pictures and on the call sheet: their words, and what stands on each page."""

from __future__ import annotations

import pypdfium2
import pytest
from flask import Flask
from flask.testing import FlaskClient

from tests.engine.script.scripts import INBOUND, LAST
from tests.webapp.conftest import make_team
from tests.webapp.paper.chains import CROWDED, goes_on, look, off_spots
from tests.webapp.paper.test_ink import seen
from tests.webapp.paper.test_scripted import figures
from tests.webapp.paper.test_sheets import text_of, words_fit
from tests.webapp.transfer.teams import play_on
from webapp.paper.callsheet import call_sheet
from webapp.paper.diagram import diagram
from webapp.paper.fonts import width
from webapp.paper.layout import pages
from webapp.paper.marks import Drawing, Text
from webapp.paper.options import Options
from webapp.paper.pdf import pdf
from webapp.paper.poster import still, strip


def test_a_drawing_and_three_steps_by_rule_print_page_by_page() -> None:
    made = goes_on(INBOUND, 3)
    for per in (1, 4):
        drawings = pages(made, Options(per=per))
        for drawing in drawings:
            words_fit(drawing)
        assert len(drawings) == 4 // per
        with pypdfium2.PdfDocument(pdf(drawings, "Side out")) as document:
            told = [page.get_textpage().get_text_bounded() for page in document]
            shown = [page.render(scale=1).to_numpy() for page in document]
        assert "Sideline inbound" in told[0]
        assert "1 passes to 2 and goes to the left corner." in " ".join(told[0].split())
        assert "X2" in told[0]
        assert "defender" in told[0]
        for page in shown:
            assert 0.005 < (page < 128).mean() < 0.25
    # By rule it goes on with everybody who was in the drawing.
    first, later = (figures(diagram(made, act, look())) for act in made.acts[:2])
    assert set(later) == set(first) > {1, 2, 3, 4, 5}


@pytest.mark.parametrize("large", [False, True])
@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_the_key_tells_of_defenders_and_keeps_clear_of_the_page_number(large: bool, paper: str) -> None:
    for made, defended in ((off_spots(), True), (goes_on(LAST, 0), False)):
        (page, *_) = pages(made, Options(large=large, paper=paper))
        key = [m for m in page.marks if isinstance(m, Text) and m.kind == "key"]
        (number,) = [m for m in page.marks if isinstance(m, Text) and m.kind == "page"]
        end = max(m.x + width(m.words, m.size) for m in key if m.anchor == "start")
        assert end < number.x - width(number.words, number.size) - 1
        if not large:
            assert ("defender" in [m.words for m in key]) == defended


def test_pictures_and_call_sheets_say_what_the_drawing_is_for() -> None:
    made = off_spots()
    for drawing in (strip(made, Options()), still(made, made.acts[0], Options(mirror=True))):
        words_fit(drawing)
        assert dots_are_there(drawing)
    text = text_of([call_sheet("Quay Otters", [made, goes_on(INBOUND, 3)], 0, {}, Options())])
    assert "Baseline inbound" in text
    assert "Everybody back on" in text
    assert "Sideline inbound" in text
    assert "X4" in text


def test_every_paper_of_a_board_is_made_of_a_drawn_step(app: Flask, client: FlaskClient) -> None:
    board = make_team(client, "Quay Otters", "First")
    play_on(app, board, [CROWDED])
    kinds = {
        "sheet.pdf": "application/pdf",
        "calls.pdf": "application/pdf",
        "picture.png": "image/png",
        "picture.png?step=1": "image/png",
        "moving.svg": "image/svg+xml",
        "page.svg": "image/svg+xml",
        "": "text/html",
    }
    for path, kind in kinds.items():
        answer = client.get(f"/board/{board}/print/{path}".rstrip("/"))
        assert (answer.status_code, answer.mimetype) == (200, kind), path
        if kind == "image/svg+xml":
            assert ">X3<" in answer.text
            assert "Baseline inbound" in answer.text


def dots_are_there(drawing: Drawing) -> bool:
    return bool((seen(drawing, 600) < 128).any())
