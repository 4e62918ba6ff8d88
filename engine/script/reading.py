"""Reading the text form of a scripted step: one way to write each, and one sentence for all that is none."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import Final

from engine.errors import UnreadableAction
from engine.floor.formations import POSTS, Formation
from engine.script.values import (
    ACTORS,
    DOINGS,
    KINDS,
    PLAYERS,
    PREFIX,
    STYLES,
    TEXT_MAX_CHARS,
    DrawnRun,
    Event,
    Place,
    Script,
)
from engine.words.spoken import say

RUNS_MAX: Final = 40
POINTS_MAX: Final = 40
EVENTS_MAX: Final = 20
#: Half a minute, in hundredths of a second.
LASTS_MAX: Final = 3000
#: Nothing on or beside a half court is further than this from the basket, in centimetres.
FAR_CM: Final = 2000

# The values of a part hold no semicolon, so there is one way at most to take a text apart.
_FORM: Final = re.compile(
    rf"{PREFIX}as=({'|'.join(KINDS)});at=([a-z0-9,-]+);ball=([0-9,-]+)"
    r"((?:;go=[a-z0-9,-]+)*)((?:;do=[a-z0-9,-]+)*)(?:;on=([a-z0-9_,]+))?"
)
_WHOLE: Final = re.compile(r"0|-?[1-9][0-9]{0,3}")
#: How many values follow the two times of what the ball does.
_VALUES: Final = {"pass": 2, "hand": 2, "shot": 1, "loose": 3, "gather": 1}


class _Wrong(Exception):
    """Why a text is none, as the end of a sentence."""


def read(text: str, formation: Formation) -> Script:
    """Read a scripted step's text form; raise ``UnreadableAction`` if it is none of this formation."""
    try:
        return _read(text, formation)
    except _Wrong as wrong:
        raise UnreadableAction(say("refusals.drawn_step.drawn_step_cannot_read", wrong=wrong)) from None


def _read(text: str, formation: Formation) -> Script:
    if len(text) > TEXT_MAX_CHARS:
        raise _Wrong(say("refusals.drawn_step.drawn_step_has_at", text_max_chars=TEXT_MAX_CHARS))
    form = _FORM.fullmatch(text)
    if form is None:
        raise _Wrong(say("refusals.drawn_step.not_drawn_step"))
    kind, at, ball, go, do, on = form.groups()
    places = tuple(_places(at.split(",")))
    starts = _ball(ball.split(","))
    runs = tuple(_run(part.split(",")) for part in go.split(";go=")[1:])
    events = tuple(_event(part.split(",")) for part in do.split(";do=")[1:])
    _check_runs(runs, [who for who, _, _ in places])
    _check_events(events, starts)
    known = next(one for one in KINDS if one == kind)
    ends_on = () if on is None else tuple(_on(on.split(","), formation))
    return Script(known, places, starts, runs, events, ends_on)


def _places(words: Sequence[str]) -> Iterator[tuple[str, int, int]]:
    if len(words) % 3:
        raise _Wrong(say("refusals.drawn_step.does_not_say_where_everybody"))
    who = words[::3]
    if who[:5] != [*PLAYERS]:
        raise _Wrong(say("refusals.drawn_step.does_not_say_where_all"))
    if not set(who) <= set(ACTORS):
        raise _Wrong(say("refusals.drawn_step.names_somebody_who_cannot"))
    if sorted(set(who), key=ACTORS.index) != who:
        raise _Wrong(say("refusals.drawn_step.names_those_on_floor"))
    for one, x, y in zip(who, words[1::3], words[2::3], strict=True):
        yield one, *_place(x, y)


def _ball(words: Sequence[str]) -> int | Place:
    if len(words) == 1:
        return _player(words[0])
    if len(words) == 2:
        return _place(*words)
    raise _Wrong(say("refusals.drawn_step.does_not_say_where"))


def _run(words: Sequence[str]) -> DrawnRun:
    if len(words) < 6 or len(words) % 2 or words[1] not in STYLES:
        raise _Wrong(say("refusals.drawn_step.run_not_whole"))
    who, code, start, lasts, *numbers = words
    if len(numbers) > 2 * POINTS_MAX:
        raise _Wrong(say("refusals.drawn_step.run_has_more_than", points_max=POINTS_MAX))
    points = tuple(_place(x, y) for x, y in zip(numbers[::2], numbers[1::2], strict=True))
    return DrawnRun(who, STYLES[code], _time(start), _time(lasts), points)


def _check_runs(runs: Sequence[DrawnRun], present: Sequence[str]) -> None:
    if len(runs) > RUNS_MAX:
        raise _Wrong(say("refusals.drawn_step.has_more_than_runs", runs_max=RUNS_MAX))
    free: dict[str, int] = {}
    order = []
    for run in runs:
        if run.who not in present or run.who.startswith("k"):
            raise _Wrong(say("refusals.drawn_step.somebody_runs_who_cannot"))
        if run.style != "cut" and run.who not in PLAYERS:
            raise _Wrong(say("refusals.drawn_step.only_five_players_dribble"))
        if run.lasts < 1 or run.end > LASTS_MAX:
            raise _Wrong(say("refusals.drawn_step.run_must_take_some", lasts_max=LASTS_MAX // 100))
        if run.start < free.get(run.who, 0):
            raise _Wrong(say("refusals.drawn_step.somebody_begins_run_before"))
        free[run.who] = run.end
        order.append((run.start, present.index(run.who)))
    if order != sorted(order):
        raise _Wrong(say("refusals.drawn_step.its_runs_out_order"))


def _event(words: Sequence[str]) -> Event:
    code, *values = words
    kind = DOINGS.get(code)
    if kind is None or len(values) != 2 + _VALUES[kind]:
        raise _Wrong(say("refusals.drawn_step.what_ball_does_not"))
    start, end = _time(values[0]), _time(values[1])
    first, *more = values[2:]
    if kind == "gather":
        return Event(kind, start, end, 0, _player(first), None)
    taker = _player(more[0]) if kind in ("pass", "hand") else 0
    place = _place(*more) if kind == "loose" else None
    return Event(kind, start, end, _player(first), taker, place)


def _check_events(events: Sequence[Event], ball: int | Place) -> None:
    if len(events) > EVENTS_MAX:
        raise _Wrong(say("refusals.drawn_step.ball_does_more_than", events_max=EVENTS_MAX))
    holder, now = ball if isinstance(ball, int) else 0, 0
    for index, event in enumerate(events):
        if not now <= event.start <= event.end <= LASTS_MAX:
            raise _Wrong(say("refusals.drawn_step.what_ball_does_out"))
        if event.giver != holder:
            raise _Wrong(say("refusals.drawn_step.somebody_gives_ball_who"))
        if event.taker and event.taker == event.giver:
            raise _Wrong(say("refusals.drawn_step.somebody_gives_ball_themselves"))
        if event.kind == "shot" and index < len(events) - 1:
            raise _Wrong(say("refusals.drawn_step.something_follows_shot"))
        holder, now = event.taker, event.end


def _on(words: Sequence[str], formation: Formation) -> Iterator[tuple[int, str]]:
    if len(words) % 2:
        raise _Wrong(say("refusals.drawn_step.does_not_say_who"))
    numbers, spots = [_player(word) for word in words[::2]], words[1::2]
    if numbers != sorted(set(numbers)) or len(set(spots)) != len(spots):
        raise _Wrong(say("refusals.drawn_step.does_not_put_each"))
    if not {*spots} <= {*formation.ring, *POSTS}:
        raise _Wrong(say("refusals.drawn_step.names_spot_formation_does"))
    yield from zip(numbers, spots, strict=True)


def _player(word: str) -> int:
    if word not in PLAYERS:
        raise _Wrong(say("refusals.drawn_step.names_player_who_none"))
    return int(word)


def _place(x: str, y: str) -> Place:
    return _whole(x, -FAR_CM, FAR_CM), _whole(y, -FAR_CM, FAR_CM)


def _time(word: str) -> int:
    return _whole(word, 0, LASTS_MAX)


def _whole(word: str, least: int, most: int) -> int:
    if _WHOLE.fullmatch(word) is None or not least <= int(word) <= most:
        raise _Wrong(say("refusals.drawn_step.number_not_one_can"))
    return int(word)
