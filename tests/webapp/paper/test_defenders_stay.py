"""Defenders put on the floor by hand stay there when play goes on by rule, and keep to their men."""

from __future__ import annotations

from math import hypot

import pytest

from engine.motion.film import Film
from engine.motion.speeds import GUARD_M
from tests.engine.script.scripts import INBOUND
from tests.webapp.paper.chains import goes_on
from webapp.paper.keyframes import film
from webapp.paper.options import PACES, Options

#: Five defenders, each a metre and a half from his man, but x1 and x2 on each other's.
FIVE_ON_FIVE = (
    "script:as=last;at=1,0,760,2,510,510,3,-510,510,4,700,0,5,-700,0,"
    "x1,400,400,x2,0,600,x3,-400,400,x4,540,0,x5,-540,0;"
    "ball=1;go=1,s,0,100,20,760;on=1,top,2,right_wing,3,left_wing,4,right_corner,5,left_corner"
)


@pytest.fixture(params=PACES)
def played(request: pytest.FixtureRequest) -> Film:
    return film(goes_on(FIVE_ON_FIVE, 4), Options(pace=request.param).breath)


def apart(made: Film, one: int | str, other: int | str, t: float) -> float:
    (x, y), (u, v) = made.position(one, t), made.position(other, t)
    return hypot(x - u, y - v)


def test_they_are_there_to_the_end(played: Film) -> None:
    assert {who: spans[-1][1] for who, spans in played.shown.items()} == {
        f"x{n}": float("inf") for n in range(1, 6)
    }


def test_each_keeps_to_the_man_he_stands_nearest_to(played: Film) -> None:
    assert played.men == {"x1": 2, "x2": 1, "x3": 3, "x4": 4, "x5": 5}


def test_each_ends_between_his_man_and_the_basket(played: Film) -> None:
    for who, man in played.men.items():
        if not any(leg.cue for leg in played.legs[man]):
            continue  # he has not moved by rule
        assert apart(played, who, man, played.end) <= GUARD_M + 0.01
        (x, y), (u, v) = played.position(who, played.end), played.position(man, played.end)
        assert hypot(x, y) < hypot(u, v)


def test_nobody_of_them_jumps(played: Film) -> None:
    for who in played.men:
        for tick in range(int(played.end * 100)):
            (x, y), (u, v) = (played.position(who, (tick + d) / 100) for d in (0, 1))
            assert hypot(x - u, y - v) < 0.12, (who, tick)


def test_another_drawing_says_itself_who_is_there() -> None:
    made = film(goes_on(INBOUND, 1))
    assert made.shown
    assert made.men.keys() == {who for who in made.shown if who[0] == "x"}
