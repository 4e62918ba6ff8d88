"""The words under a diagram, fitted into the room there is: number, heading, one sentence a player."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil
from typing import Final

from engine.words.spoken import say
from webapp.paper.fonts import CAPITAL, width, wrapped
from webapp.paper.marks import Mark, Stroke, Text, box
from webapp.paper.paper import LEADING, POINT
from webapp.paper.sheet import Act
from webapp.paper.speech import Speech

#: The heading's size and its lines' distance, of the size of the sentences.
_HEAD: Final = 1.1
_APART: Final = 1.16 * LEADING

#: The smallest print used before words are cut off.
_LEAST: Final = 6 * POINT


@dataclass(frozen=True, slots=True)
class Block:
    """``number``: of the step, 0 for none. ``wide``: all columns together. Lengths in millimetres."""

    number: int
    heading: list[str]
    columns: list[list[str]]
    size: float
    wide: float

    @property
    def height(self) -> float:
        """How much of the page it takes."""
        rows = max((len(column) for column in self.columns), default=0)
        return self.size * (_APART * len(self.heading) + LEADING * rows + 0.5)

    def at(self, x: float, y: float) -> list[Mark]:
        """Return its marks, its corner at (x, y)."""
        size, head = self.size, _HEAD * self.size
        base = y + 0.65 * head + CAPITAL * head / 2
        marks = plate(self.number, x, y, head) if self.number else []
        indent = _indent(self.number, size)
        for i, line in enumerate(self.heading):
            base += _APART * size if i else 0.0
            marks.append(Text(x + indent, base, head, line, "heading", bold=True))
        wide = self.wide / max(1, len(self.columns))
        for k, column in enumerate(self.columns):
            for i, line in enumerate(column, start=1):
                at = base + 0.25 * size + LEADING * size * i
                marks.append(Text(x + k * wide, at, size, line, "sentence"))
        return marks


def plate(number: int, x: float, y: float, size: float) -> list[Mark]:
    """Return a step's number, white on a black plate, so that it is never taken for a player's."""
    words = str(number)
    wide = max(1.3 * size, width(words, size, bold=True) + 0.6 * size)
    base = y + 0.65 * size + CAPITAL * size / 2
    return [
        Stroke(box(x, y, x + wide, y + 1.3 * size), 0.0, "plate", fill=0.0, round=False),
        Text(x + wide / 2, base, size, words, "step", anchor="middle", bold=True, shade=1.0),
    ]


def _indent(number: int, size: float) -> float:
    if not number:
        return 0.0
    head = _HEAD * size
    return max(1.3 * head, width(str(number), head, bold=True) + 0.6 * head) + 0.5 * size


def fitted(act: Act | None, said: Speech, count: int, size: float, wide: float, room: float) -> Block:
    """Return the words for a step in ``count`` columns, ``room`` high at most.

    What does not fit is left out, first what those say who only stay, or set smaller, or cut off in the end.
    """
    if act is None:
        return Block(0, [say("paper.blocks.start")], [], size, wide)
    while True:
        for standing in (True, False):
            block = _set(act, said, count, wide, size, standing)
            if block.height <= room:
                return block
        if size <= _LEAST:
            return _cut(block, room)
        size = max(_LEAST, 0.93 * size)


def headed(act: Act | None, said: Speech, size: float, wide: float) -> Block:
    """Return only a step's number and heading."""
    if act is None:
        return Block(0, [say("paper.blocks.start")], [], size, wide)
    room = wide - _indent(act.number, size)
    return Block(act.number, wrapped(said.heading(act), _HEAD * size, room, bold=True)[:3], [], size, wide)


def _set(act: Act, said: Speech, count: int, wide: float, size: float, standing: bool) -> Block:
    heading = wrapped(said.heading(act), _HEAD * size, wide - _indent(act.number, size), bold=True)
    room = wide / count - (0.0 if count == 1 else 1.5 * size)
    lines = [*said.called(act), *said.sentences(act, standing=standing)]
    each = [_hung(text, size, room) for text in lines]
    total = sum(map(len, each))
    columns: list[list[str]] = [[] for _ in range(count)]
    at = 0
    for lines in each:
        if at < count - 1 and len(columns[at]) >= ceil(total / count):
            at += 1
        columns[at] += lines
    return Block(act.number, heading, columns, size, wide)


def _hung(text: str, size: float, room: float) -> list[str]:
    first, *rest = wrapped(text, size, room - size)
    return [first, *("   " + line for line in rest)]


def _cut(block: Block, room: float) -> Block:
    """Return the block cut off where the room ends, heading first."""
    heading = block.heading[:2]
    rows = max(0, int((room / block.size - 0.5 - _APART * len(heading)) / LEADING))
    return Block(block.number, heading, [column[:rows] for column in block.columns], block.size, block.wide)
