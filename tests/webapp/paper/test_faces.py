"""Numbers on paper: one number is one person."""

from __future__ import annotations

from webapp.paper.speech import Speech
from webapp.team.squad import Member


def worn(number: str) -> Member:
    return Member(f"id-{number}", number, "", (), "", None, ())


def test_a_place_nobody_is_on_does_not_look_like_who_wears_its_number() -> None:
    speech = Speech([worn("4"), worn("17"), None, None, worn("5")], {})
    assert [speech.face(place) for place in range(1, 6)] == ["4", "17", "3", "P4", "5"]
    assert speech.label(4) == "position 4"
    assert [Speech([None] * 5, {}).face(place) for place in (1, 5)] == ["1", "5"]
