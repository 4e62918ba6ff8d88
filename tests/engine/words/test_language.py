"""Languages: plurals and lists as Unicode CLDR has them, and a language that does not say everything."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from babel import Locale
from babel.lists import format_list
from hypothesis import given
from hypothesis import strategies as st

from engine.words.language import Language, english, english_plural, load
from engine.words.spoken import Said, say, speak, speaking, spoken
from tests.made_up import text
from webapp.base.languages import plural

NAMES = st.lists(st.sampled_from(["1", "12", "Ada", "left wing"]), min_size=1, max_size=6)
ARABIC = {
    "zero": "لا",
    "one": "واحد",
    "two": "اثنان",
    "few": "{n} قليل",
    "many": "{n} كثير",
    "other": "{n} آخر",
}


@given(st.integers(0, 10**9))
def test_english_forms_are_those_of_cldr(n: int) -> None:
    # Babel has the plural rules of Unicode CLDR.
    assert english_plural(n) == Locale("en").plural_form(n)


@given(NAMES, st.sampled_from([("and", "standard"), ("or", "or")]))
def test_lists_are_those_of_cldr(names: list[str], how: tuple[str, str]) -> None:
    # CLDR's list patterns of British English, which have no comma before the last.
    ours, theirs = how
    assert english().listed(names, ours) == format_list(names, theirs, locale="en_GB")


@given(st.integers(0, 10**12))
def test_digits_stand_in_groups_of_three(n: int) -> None:
    assert english().whole(n) == f"{n:_}".replace("_", "\u202f")


def made(folder: Path, tag: str = "ar", **files: object) -> Language:
    for name, content in files.items():
        (folder / f"{name}.json").write_text(json.dumps(content), "utf-8")
    return load(tag, folder, plural(tag), english())


@pytest.mark.parametrize(
    ("n", "said"),
    # The examples of CLDR's chart of plural rules for Arabic.
    [(0, "لا"), (1, "واحد"), (2, "اثنان"), (3, "3 قليل"), (11, "11 كثير"), (100, "100 آخر")],
)
def test_every_category_of_a_language_is_said(tmp_path: Path, n: int, said: str) -> None:
    language = made(tmp_path, answers={"problems": ARABIC})
    assert language.say("answers.problems", n=n) == said


def test_what_a_language_does_not_say_is_english(tmp_path: Path) -> None:
    language = made(tmp_path, language={"direction": "rtl"}, board={"undo": "تراجع"})
    assert language.direction == "rtl"
    assert language.say("board.undo") == "تراجع"
    assert language.say("board.menu") == english().say("board.menu")
    assert language.say("board.themes.day") == english().say("board.themes.day")
    assert language.listed(["1", "2"]) == "1 and 2"


@pytest.mark.parametrize("content", ["[]", "{", '{"undo": 3}', '{"undo": ["a"]}', '"undo"'])
def test_a_file_that_is_no_table_is_refused(tmp_path: Path, content: str) -> None:
    (tmp_path / "board.json").write_text(content, "utf-8")
    with pytest.raises(ValueError, match=r"must be texts|Expecting|property name"):
        load("ar", tmp_path, plural("ar"), english())


def test_what_is_set_up_early_speaks_the_language_it_is_shown_in(tmp_path: Path) -> None:
    language = made(tmp_path, board={"undo": "تراجع"})
    early = Said("board.undo")
    with speaking(language):
        assert (str(early), early.format(), say("board.undo")) == ("تراجع",) * 3
    assert (str(early), spoken().tag) == ("Undo", "en")


def test_one_thread_of_work_speaks_a_language_until_it_is_told_another(tmp_path: Path) -> None:
    language = made(tmp_path)
    try:
        speak(language)
        assert spoken() is language
    finally:
        speak(english())


@pytest.mark.parametrize(
    "texts",
    [
        {"undo": "{what} undone"},
        {"themes": "light"},
        {"undo": {"other": "{n} undone"}},
        {"themes": {"day": "{a}"}},
    ],
)
def test_a_text_with_a_slot_or_a_shape_of_its_own_is_refused(tmp_path: Path, texts: object) -> None:
    with pytest.raises(ValueError, match=r"a slot that nothing is given for|must be texts by key"):
        made(tmp_path, board=texts)


@pytest.mark.parametrize("said", ["Undo", "{p} passes to {m}", "**Print** it", "{n} steps", "Shh!"])
def test_a_made_up_text_is_a_third_longer_and_keeps_its_slots(said: str) -> None:
    made_up, kept = text(said), re.compile(r"\{\w+\}|\*\*")
    assert kept.findall(made_up) == kept.findall(said)
    assert len(kept.sub("", made_up)) - len("⟦⟧") >= 1.35 * len(kept.sub("", said))
