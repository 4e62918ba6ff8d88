"""Scripted steps to test with: random ones that are all valid, each made by its dice alone."""

from __future__ import annotations

import random
from typing import Final, Literal

from engine.errors import IllegalAction
from engine.floor.formations import POSTS, Formation
from engine.rules.rule_sets import DEFAULT, RuleSet
from engine.script import ACTORS, KINDS, PLAYERS, DrawnRun, Event, Script, check
from engine.script.values import Doing, Place, Style

#: How a scripted step can end: play by rule goes on, somebody or the ball is not where he has to be, a shot.
Ending = Literal["on spots", "off spots", "shot"]
ENDINGS: Final[tuple[Ending, ...]] = ("on spots", "off spots", "shot")

#: A half court and the room around it, whole centimetres: passers stand out of bounds.
_BOX: Final = (-850, -200, 850, 1350)
_RUNS_EACH: Final = 3
_POINTS_EACH: Final = 5
_EVENTS: Final = 6


def some_script(
    dice: random.Random,
    formation: Formation,
    rules: RuleSet = DEFAULT,
    ending: Ending | None = None,
    *,
    least: int = 1,
) -> Script:
    """Return a valid scripted step. ``ending``: how it ends, left out: any way.

    ``least``: what a run takes at the least, hundredths of a second.
    """
    ending = ending or dice.choice(ENDINGS)
    extras = [who for who in ACTORS if who not in PLAYERS and dice.random() < 0.4]
    present = [*PLAYERS, *extras]
    places = tuple((who, *_place(dice)) for who in present)
    runs = [run for who in present if not who.startswith("k") for run in _runs(dice, who, least)]
    runs.sort(key=lambda run: (run.start, ACTORS.index(run.who)))
    ball: int | Place = _place(dice) if dice.random() < 0.2 else dice.randint(1, 5)
    events, holder = _events(dice, ball, ending)
    five = ending == "on spots" or (not holder and dice.random() < 0.3)
    spots = _spots(dice, formation, rules)
    numbers = [1, 2, 3, 4, 5] if five else sorted(dice.sample(range(1, 6), dice.randint(0, 4)))
    on = tuple((number, spot) for number, spot in zip(numbers, spots, strict=False))
    return Script(dice.choice(KINDS), places, ball, tuple(runs), tuple(events), on)


def _place(dice: random.Random) -> Place:
    x0, y0, x1, y1 = _BOX
    return dice.randint(x0, x1), dice.randint(y0, y1)


def _runs(dice: random.Random, who: str, least: int) -> list[DrawnRun]:
    made, now = [], 0
    for _ in range(dice.randint(0, _RUNS_EACH)):
        start, lasts = now + dice.choice((0, dice.randint(1, 150))), dice.randint(least, 300)
        style: Style = dice.choice(("cut", "dribble", "screen")) if who in PLAYERS else "cut"
        points = tuple(_place(dice) for _ in range(dice.randint(1, _POINTS_EACH)))
        made.append(DrawnRun(who, style, start, lasts, points))
        now = start + lasts
    return made


def _events(dice: random.Random, ball: int | Place, ending: Ending) -> tuple[list[Event], int]:
    """Return what the ball does, and who has it at the end (0 for nobody)."""
    holder, now = ball if isinstance(ball, int) else 0, 0
    made: list[Event] = []

    def add(kind: Doing, taker: int, place: Place | None = None) -> None:
        nonlocal holder, now
        start = now + dice.choice((0, dice.randint(1, 120)))
        now = start + dice.choice((0, dice.randint(1, 120)))
        made.append(Event(kind, start, now, holder, taker, place))
        holder = taker

    def mate() -> int:
        return dice.choice([number for number in range(1, 6) if number != holder])

    for _ in range(dice.randint(0, _EVENTS)):
        kinds: tuple[Doing, ...] = ("pass", "pass", "hand", "loose") if holder else ("gather",)
        kind = dice.choice(kinds)
        add(kind, 0 if kind == "loose" else mate(), _place(dice) if kind == "loose" else None)
    if not holder and (ending != "off spots" or dice.random() < 0.5):
        add("gather", mate())
    if ending == "shot":
        add("shot", 0)
    return made, holder


def _spots(dice: random.Random, formation: Formation, rules: RuleSet) -> list[str]:
    """Return five spots that five players may stand on together."""
    while True:
        spots = dice.sample([*formation.ring, *POSTS], 5)
        script = Script("free", (), 1, (), (), tuple(enumerate(spots, start=1)))
        try:
            check(script, formation, rules)
        except IllegalAction:
            continue
        return spots
