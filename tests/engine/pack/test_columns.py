"""Columns of a pack: one character a value, as many as there are characters that need no escape."""

from __future__ import annotations

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.pack.columns import MOST, ZERO, hundredths, text


@given(st.lists(st.integers(0, MOST)))
def test_a_column_is_read_back_from_json_as_it_was(values: list[int]) -> None:
    column = text(values)
    assert [ord(character) - ZERO for character in json.loads(json.dumps(column))] == values
    assert column.encode("utf-8").decode("utf-8") == column


def test_the_greatest_value_is_a_character_and_the_next_is_refused() -> None:
    assert len(text([0, MOST]).encode("utf-8")) == 4
    for value in (-1, MOST + 1):
        with pytest.raises(ValueError, match="does not fit"):
            text([0, value])


def test_times_are_whole_hundredths() -> None:
    assert [hundredths(seconds) for seconds in (0.0, 0.25, 1.0, 2.344, 2.346)] == [0, 25, 100, 234, 235]
