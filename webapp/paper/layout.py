"""A chain laid out on pages: title, diagrams with the sentences under them, a key of the lines."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from engine.words.spoken import listed, say
from webapp.paper.blocks import fitted
from webapp.paper.diagram import diagram
from webapp.paper.fonts import CAPITAL, shortened, width, wrapped, written
from webapp.paper.key import KEY_HEIGHT, key
from webapp.paper.look import LARGE, Look
from webapp.paper.marks import Drawing, Mark, Text, placed
from webapp.paper.options import Options
from webapp.paper.paper import LEADING, MARGIN, PAPERS, POINT
from webapp.paper.sheet import Act, Sheet
from webapp.paper.speech import Speech, speech

_TITLE: Final = 16 * POINT
_SMALL: Final = 9 * POINT
_GREY: Final = 0.27

#: Space between cells, and between a diagram and its words.
_GUTTER: Final = 7.0
_UNDER: Final = 3.0

#: The least of a cell that the diagram keeps; rather than less, sentences are left out or set smaller.
_SHARE: Final = 0.46

#: So much of a note stands on the first page; the rest goes on pages of its own.
_NOTE_LINES: Final = 4


@dataclass(frozen=True, slots=True)
class _Paper:
    width: float
    height: float
    scale: float
    foot: float

    @property
    def room(self) -> float:
        return self.width - 2 * MARGIN


def pages(sheet: Sheet, options: Options) -> list[Drawing]:
    """Return the pages of a printed sheet, in millimetres; one at least."""
    wide, high = PAPERS[options.paper]
    scale = LARGE if options.large else 1.0
    size = 7 * POINT * scale
    care = len(wrapped(say("paper.pages.care"), size, wide - 2 * MARGIN)) * size * LEADING
    paper = _Paper(wide, high, scale, MARGIN + KEY_HEIGHT * scale + care)
    said = speech(sheet, named=options.names, mirrored=options.mirror)
    grid = options.grid
    acts: Sequence[Act | None] = sheet.acts or (None,)
    fit = grid.columns * grid.rows
    made: list[list[Mark]] = []
    for at in range(0, len(acts), fit):
        head, top = _head(sheet, said, paper, first=at == 0)
        made.append(head + _cells(sheet, acts[at : at + fit], options, said, paper, top))
    made += _notes(sheet, paper)
    return [
        Drawing(wide, high, (*marks, *_foot(sheet, paper, number, len(made))))
        for number, marks in enumerate(made, start=1)
    ]


def _head(sheet: Sheet, said: Speech, paper: _Paper, first: bool) -> tuple[list[Mark], float]:
    """Return the marks at the top of a page, and where the rest begins."""
    size, small, room = _TITLE * paper.scale, _SMALL * paper.scale, paper.room
    y = MARGIN
    marks: list[Mark] = []
    lines = wrapped(written(sheet.title), size, room, bold=True)[:2] if first else []
    if not first:
        lines, size = [shortened(written(sheet.title), small, room, bold=True)], small
    for line in lines:
        y += size * (CAPITAL if y == MARGIN else LEADING)
        marks.append(Text(MARGIN, y, size, line, "title", bold=True))
    if not first:
        return marks, y + 4
    about = listed((written(text) for text in (sheet.team, *sheet.about)), "facts")
    for line in wrapped(about, small, room)[:2]:
        y += small * LEADING * 1.15
        marks.append(Text(MARGIN, y, small, line, "about", shade=_GREY))
    for line in wrapped(said.roster(), small, room)[:3]:
        y += small * LEADING * 1.15
        marks.append(Text(MARGIN, y, small, line, "roster"))
    for line in _first_of_note(sheet, small, room):
        y += small * LEADING * 1.15
        marks.append(Text(MARGIN, y, small, line, "note"))
    return marks, y + 6


def _first_of_note(sheet: Sheet, size: float, room: float) -> list[str]:
    lines = _note_lines(sheet, size, room)
    if len(lines) <= _NOTE_LINES:
        return lines
    return [*lines[: _NOTE_LINES - 1], say("paper.pages.whole_note_stands_on")]


def _note_lines(sheet: Sheet, size: float, room: float) -> list[str]:
    return [line for part in sheet.note.splitlines() for line in wrapped(written(part), size, room)]


def _notes(sheet: Sheet, paper: _Paper) -> list[list[Mark]]:
    """Return the pages for a note that is too long for the first one."""
    small, size = _SMALL * paper.scale, 11 * POINT * paper.scale
    if len(_note_lines(sheet, small, paper.room)) <= _NOTE_LINES:
        return []
    lines = _note_lines(sheet, size, paper.room)
    top = MARGIN + _TITLE * paper.scale * 1.6
    fit = int((paper.height - top - paper.foot) / (size * LEADING))
    made: list[list[Mark]] = []
    for at in range(0, len(lines), fit):
        y = MARGIN + _TITLE * paper.scale * CAPITAL
        marks: list[Mark] = [
            Text(MARGIN, y, _TITLE * paper.scale, say("paper.pages.note"), "title", bold=True)
        ]
        for i, line in enumerate(lines[at : at + fit]):
            marks.append(Text(MARGIN, top + size * LEADING * (i + 1), size, line, "note"))
        made.append(marks)
    return made


def _cells(
    sheet: Sheet, acts: Sequence[Act | None], options: Options, said: Speech, paper: _Paper, top: float
) -> list[Mark]:
    grid = options.grid
    wide = (paper.room - (grid.columns - 1) * _GUTTER) / grid.columns
    high = (paper.height - paper.foot - top - (grid.rows - 1) * _GUTTER) / grid.rows
    room = high * (1 - _SHARE) - _UNDER
    columns = 2 if grid.columns == 1 else 1
    blocks = [fitted(act, said, columns, grid.words, wide, room) for act in acts]
    drawings = [diagram(sheet, act, looking(options, said)) for act in acts]
    # All diagrams of a page are of one size.
    least = high - max(block.height for block in blocks) - _UNDER
    scale = min(wide / drawings[0].width, least / drawings[0].height)
    marks: list[Mark] = []
    for i, (block, drawing) in enumerate(zip(blocks, drawings, strict=True)):
        x = MARGIN + (i % grid.columns) * (wide + _GUTTER)
        y = top + (i // grid.columns) * (high + _GUTTER)
        marks += placed(drawing.marks, x, y, scale)
        marks += block.at(x, y + scale * drawing.height + _UNDER)
    return marks


def looking(options: Options, said: Speech) -> Look:
    """Return how the diagrams are drawn."""
    return Look(options.view, {n: said.face(n) for n in range(1, 6)}, LARGE if options.large else 1.0)


def _foot(sheet: Sheet, paper: _Paper, number: int, count: int) -> list[Mark]:
    size = 7 * POINT * paper.scale
    y = paper.height - MARGIN
    text = f"{number} / {count}"
    room = paper.room - width(text, size) - 2 * size
    marks = key(MARGIN, y - size * 0.35, size, room, defenders=sheet.defended)
    marks.append(Text(paper.width - MARGIN, y, size, text, "page", anchor="end", shade=_GREY))
    lines = wrapped(say("paper.pages.care"), size, paper.room)
    for at, line in enumerate(lines, start=1 - len(lines)):
        above = y - KEY_HEIGHT * paper.scale + at * size * LEADING
        marks.append(Text(MARGIN, above, size, line, "care", shade=_GREY))
    return marks
