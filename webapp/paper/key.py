"""The key of the lines at a page's foot: what each style of line means."""

from __future__ import annotations

from typing import Final

from engine.words.spoken import say
from webapp.paper import notation
from webapp.paper.fonts import CAPITAL, width
from webapp.paper.look import RADIUS
from webapp.paper.marks import XY, Disc, Mark, Text, placed

#: How much of a page the key takes, millimetres.
KEY_HEIGHT: Final = 7.0

_LONG: Final = 190.0

_DEFENDER: Final[list[Mark]] = [
    Text(_LONG, 0.5 * CAPITAL * 1.5 * RADIUS, 1.5 * RADIUS, "X1", "key", anchor="end", bold=True)
]


def key(x: float, y: float, size: float, room: float, *, defenders: bool = False) -> list[Mark]:
    """Return the key, its lines at height ``y`` and its words set in ``size`` (both millimetres).

    ``defenders``: whether the letters that stand for them are explained as well, where ``room`` is enough.
    """
    scale, end = size / 58.0, x + room
    marks: list[Mark] = []
    for word, sample in [*_samples(), *([(say("paper.key.defender"), _DEFENDER)] if defenders else [])]:
        if x + _LONG * scale + 0.6 * size + width(word, size) > end:
            break
        marks += placed(sample, x, y, scale)
        x += _LONG * scale + 0.6 * size
        marks.append(Text(x, y + 0.35 * size, size, word, "key", shade=0.27))
        x += width(word, size) + 1.6 * size
    return marks


def _samples() -> list[tuple[str, list[Mark]]]:
    line: list[XY] = notation.even([(0.0, 0.0), (_LONG, 0.0)])
    middle: XY = (_LONG / 2, 0.0)
    holder: list[Mark] = [
        Disc(_LONG / 2 - 20, 0.0, RADIUS, 11.0, "key"),
        Disc(_LONG / 2 + RADIUS, 0.5 * RADIUS, 0.36 * RADIUS, 5.0, "key", shade=1.0, fill=0.0),
    ]
    handed = [*notation.plain(line, 1.0, 0), *notation.hand_off(middle, (1.0, 0.0), 0.8, 0)]
    return [
        (say("paper.key.has_ball"), holder),
        (say("paper.key.cut"), notation.arrow(line, 1.0, 0)),
        (say("paper.key.pass"), notation.arrow(line, 1.0, 0, "pass")),
        (say("paper.key.dribble"), notation.wavy(line, 1.0, 0)),
        (say("paper.key.screen"), notation.screen(line, 0.8, 0)),
        (say("paper.key.hand_off"), handed),
    ]
