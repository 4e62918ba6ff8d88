"""Scripted steps to test with: a few worked ones, and any there can be."""

from __future__ import annotations

from typing import Final

from hypothesis import strategies as st

from engine.floor.formations import FORMATIONS, POSTS, Formation
from engine.script import ACTORS, KINDS, PLAYERS, DrawnRun, Event, Script

FIVE: Final = FORMATIONS["five_out"]

#: 1 stands out of bounds on the left sideline, passes in to 2 and comes in himself; all end on spots. A FIBA
#: court is 15 m wide, and whoever throws in stands outside it (FIBA Official Basketball Rules, art. 2 and 17,
#: from memory).
INBOUND: Final = (
    "script:as=side;at=1,-790,420,2,-300,300,3,0,500,4,300,300,5,250,0,x2,-250,330,k1,0,900;ball=1;"
    "go=3,c,0,150,0,700;go=4,c,0,140,400,420,500,500;go=2,s,20,60,-300,420;go=2,c,90,70,-480,500;"
    "go=5,c,100,160,640,10;go=x2,c,100,70,-440,470;go=1,c,180,150,-660,0;do=p,120,160,1,2;"
    "on=1,left_corner,2,left_wing,3,top,4,right_wing,5,right_corner"
)
#: The same throw-in, that leaves 4 and 5 where they were drawn.
OFF: Final = (
    "script:as=base;at=1,0,-190,2,-300,300,3,0,500,4,300,300,5,250,0;ball=1;"
    "go=2,c,0,100,-120,90;do=p,60,100,1,2;on=2,left_block,3,top"
)
#: The last seconds: 2 gets the ball from 1 and shoots.
LAST: Final = (
    "script:as=last;at=1,0,700,2,500,500,3,-500,500,4,660,0,5,-660,0;ball=1;"
    "go=2,c,0,150,300,600;do=p,120,150,1,2;do=s,200,280,2"
)
#: The ball lies on the floor, 3 picks it up and leaves it nearer to 5.
LOOSE: Final = (
    "script:as=free;at=1,0,700,2,500,500,3,-500,500,4,660,0,5,-660,0,c,0,1000;ball=-480,480;"
    "do=g,0,30,3;do=l,200,200,3,-600,100"
)
WORKED: Final = (INBOUND, OFF, LAST, LOOSE)

_axis = st.integers(-2000, 2000)
_places = st.tuples(_axis, _axis)


@st.composite
def _runs(draw: st.DrawFn, present: list[str]) -> tuple[DrawnRun, ...]:
    found = []
    for who in present:
        now = 0
        if who.startswith("k"):
            continue
        for _ in range(draw(st.integers(0, 2))):
            start, lasts = now + draw(st.integers(0, 400)), draw(st.integers(1, 600))
            points = draw(st.lists(_places, min_size=1, max_size=4))
            style = draw(st.sampled_from(("cut", "dribble", "screen"))) if who in PLAYERS else "cut"
            found.append(DrawnRun(who, style, start, lasts, tuple(points)))
            now = start + lasts
    return tuple(sorted(found, key=lambda run: (run.start, present.index(run.who))))


@st.composite
def _events(draw: st.DrawFn, ball: int | tuple[int, int]) -> tuple[Event, ...]:
    has, now, found = ball if isinstance(ball, int) else 0, 0, []
    for _ in range(draw(st.integers(0, 5))):
        start = now + draw(st.integers(0, 200))
        now = start + draw(st.integers(0, 200))
        if not has:
            has = draw(st.integers(1, 5))
            found.append(Event("gather", start, now, 0, has, None))
            continue
        kind = draw(st.sampled_from(("pass", "pass", "hand", "loose", "shot")))
        if kind == "shot":
            return (*found, Event(kind, start, now, has, 0, None))
        if kind == "loose":
            found.append(Event(kind, start, now, has, 0, draw(_places)))
            has = 0
        else:
            taker = draw(st.sampled_from([n for n in range(1, 6) if n != has]))
            found.append(Event(kind, start, now, has, taker, None))
            has = taker
    return tuple(found)


@st.composite
def scripts(draw: st.DrawFn, formation: Formation = FIVE, *, on_spots: bool | None = None) -> Script:
    """Return any scripted step. ``on_spots``: whether it says of all five on which spot they end."""
    more = draw(st.sets(st.sampled_from(ACTORS[5:]), max_size=6))
    present = [who for who in ACTORS if who in PLAYERS or who in more]
    places = tuple((who, *draw(_places)) for who in present)
    ball = draw(st.one_of(st.integers(1, 5), _places))
    spots = draw(st.permutations((*formation.ring, *POSTS)))
    least, most = {True: (5, 5), False: (0, 4), None: (0, 5)}[on_spots]
    enders = sorted(draw(st.sets(st.integers(1, 5), min_size=least, max_size=most)))
    return Script(
        draw(st.sampled_from(KINDS)),
        places,
        ball,
        draw(_runs(present)),
        draw(_events(ball)),
        tuple(zip(enders, spots, strict=False)),
    )
