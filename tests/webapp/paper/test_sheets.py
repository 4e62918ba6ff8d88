"""Printed sheets and call sheets: their words, their pages, and what is long, missing or odd."""

from __future__ import annotations

from dataclasses import replace

import pypdfium2
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.depth import deep
from tests.webapp.paper.chains import FIVE_STEPS, back, card, five_steps, played, sheets
from tests.webapp.paper.test_diagrams import MANY
from webapp.paper.callsheet import MOST, call_sheet
from webapp.paper.fonts import width
from webapp.paper.layout import pages
from webapp.paper.marks import Drawing, Text
from webapp.paper.options import Options
from webapp.paper.pdf import pdf
from webapp.paper.poster import strip
from webapp.paper.sheet import Sheet, sheet
from webapp.team.squad import Member

CALLS = {"drive": {"call": "Go", "signal": "fist up"}, "back_cut": {"signal": "hand on the head"}}


def squad(*names: str) -> tuple[Member, ...]:
    return tuple(
        Member(f"p{n}", str(n + 10), name, (), "", None, ()) for n, name in enumerate(names, start=1)
    )


def text_of(drawn: list[Drawing]) -> str:
    with pypdfium2.PdfDocument(pdf(drawn, "Sheet")) as document:
        return "\n".join(page.get_textpage().get_text_bounded() for page in document)


def words_fit(drawing: Drawing) -> None:
    for mark in drawing.marks:
        if isinstance(mark, Text):
            wide = width(mark.words, mark.size, mark.bold)
            left = mark.x - {"start": 0, "middle": wide / 2, "end": wide}[mark.anchor]
            assert left >= -0.01, mark
            assert left + wide <= drawing.width + 0.01, mark
            assert mark.size <= mark.y <= drawing.height, mark


def test_the_sheet_reads_as_the_board_says_it() -> None:
    made = five_steps(calls=CALLS)
    text = text_of(pages(made, Options(per=6)))
    for sentence in (
        "Swing and drive",
        "Quay Otters",
        "1 passes to 2 and cuts to the rim.",
        "1 fills the left corner, then 2 passes to 3",
        "Call “Go”, fist up.",
        "3 drives left, to the rim.",
        "3 kicks out to 5",
        "5 shoots from the left corner.",
        "hand-off",
    ):
        assert sentence in text, sentence


def test_in_the_mirror_left_and_right_change_over_in_words_too() -> None:
    text = text_of(pages(five_steps(), Options(per=6, mirror=True)))
    assert "1 fills the right corner, then 2 passes to 3" in text
    assert "3 drives right, to the rim." in text
    assert "drives left" not in text


def test_players_go_by_their_numbers_and_by_their_names_if_asked() -> None:
    roster = squad("Mira", "Lou", "Ана", "Σοφία", "דנה")
    made = five_steps(roster=roster)
    plain = text_of(pages(made, Options(per=6)))
    assert "11 passes to 12 and cuts to the rim." in plain
    assert "Mira" not in plain
    named = text_of(pages(made, Options(per=6, names=True)))
    assert "Mira passes to Lou and cuts to the rim." in named
    assert "11 Mira" in named
    assert "Ана fills the top." in named
    assert "Σοφία" in named


def test_a_name_the_font_has_no_letters_for_gives_way_to_the_number() -> None:
    made = five_steps(roster=squad("美咲", "Lou", "Kit", "Ida", "Bo"))
    assert "11 passes to Lou and cuts to the rim." in text_of(pages(made, Options(per=6, names=True)))


def test_nothing_played_prints_the_start() -> None:
    board = card()
    made = sheet(board, [], "Nothing yet")
    (page,) = pages(made, Options())
    assert "The start" in text_of([page])
    assert len([m for m in page.marks if m.kind == "disc"]) == 5


def test_a_long_chain_goes_on_over_pages_with_its_steps_numbered() -> None:
    board = card()
    chain: list[tuple[str, ...]] = []
    for _ in range(15):
        chain += [("pass:right_wing",), ("fill:left_corner", "pass:top"), ("fill:right_corner",)]
        position = played(board, chain)[-1].after
        ball = position.player(position.alignment.ball)
        spots = [(5.0, 5.0), (-5.0, 5.0), (7.0, 0.0), (-7.0, 0.0)]
        others = [number for number in range(1, 6) if number != ball]
        chain.append(back(board, position, {ball: (0.0, 7.0), **dict(zip(others, spots, strict=True))}))
    made = sheet(board, played(board, chain), "Sixty")
    drawn = pages(made, Options(per=6))
    assert len(drawn) == 10
    text = text_of(drawn)
    assert "60" in text
    assert "10 / 10" in text
    assert "Everybody back on spots" in text
    assert "goes to the top." in text


@settings(parent=MANY, max_examples=deep(9, 25))
@given(
    sheets(),
    st.sampled_from([1, 2, 4, 6]),
    st.booleans(),
    st.sampled_from(["a4", "letter"]),
    st.text(st.characters(exclude_categories=["C"]), max_size=40),
    st.text(st.characters(exclude_categories=["Cs"]), max_size=2000),
)
def test_words_stay_on_the_paper_whatever_they_are(
    made: Sheet, per: int, large: bool, paper: str, title: str, note: str
) -> None:
    roster = squad("W" * 40, "m" * 40, "Bartholomew the Younger of the Harbour", "x", "ÄÖÜ" * 13)
    made = replace(made, title=title, note=note, squad=roster)
    drawn = pages(made, Options(per=per, large=large, paper=paper, names=True))
    for drawing in drawn:
        words_fit(drawing)
        sentences = [m for m in drawing.marks if isinstance(m, Text) and m.kind in ("sentence", "heading")]
        foot = min(m.y - m.size for m in drawing.marks if isinstance(m, Text) and m.kind == "key")
        assert all(m.y < foot for m in sentences)
    words_fit(strip(made, Options()))


def test_a_long_note_has_a_page_of_its_own() -> None:
    note = "Set the screen before you go. " * 60
    drawn = pages(replace(five_steps(), note=note), Options(per=6))
    assert len(drawn) == 2
    text = text_of(drawn)
    assert "The whole note stands on the last page." in text
    assert text.count("Set the screen before you go.") >= 50


@pytest.mark.parametrize("count", [0, 1, 2, 3, 8, MOST])
@pytest.mark.parametrize("large", [False, True])
def test_the_call_sheet_is_one_page_with_every_chain_and_the_teams_words(count: int, large: bool) -> None:
    one = five_steps(calls=CALLS)
    chains = [replace(one, title=f"Chain {n}") for n in range(1, count + 1)]
    drawing = call_sheet("Quay Otters", chains, 3, CALLS, Options(large=large))
    words_fit(drawing)
    text = text_of([drawing])
    for chain in chains:
        assert chain.title in text
    assert "“Go” fist up" in text.replace("\n", " ").replace("\r", "").replace("  ", " ")
    assert "hand on the head" in text
    assert "3 more" in text
    assert len([m for m in drawing.marks if m.kind == "disc"]) == 5 * count


def test_the_call_sheet_tells_the_steps_in_the_teams_words() -> None:
    board = card(calls=CALLS)
    made = sheet(board, played(board, FIVE_STEPS[:3]), "Swing")
    text = text_of([call_sheet("Quay Otters", [made], 0, CALLS, Options())])
    assert "1 passes to 2" in text
    assert "“Go”" in text
