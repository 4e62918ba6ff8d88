"""The call sheet for the bench: one page with the pinned chains and the team's own words and signals."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import ceil
from typing import Final

from engine.words.spoken import say, table
from webapp.chains.state import Calls
from webapp.paper.blocks import plate
from webapp.paper.diagram import diagram
from webapp.paper.fonts import CAPITAL, shortened, width, wrapped, written
from webapp.paper.layout import looking
from webapp.paper.look import LARGE
from webapp.paper.marks import Drawing, Mark, Stroke, Text, placed, through
from webapp.paper.options import Options
from webapp.paper.paper import LEADING, MARGIN, PAPERS, POINT
from webapp.paper.sheet import Sheet
from webapp.paper.speech import Speech, speech

#: As many chains as one page holds legibly; in large print half as many.
MOST: Final = 12
LARGE_MOST: Final = 6

_TITLE: Final = 18 * POINT
_GUTTER: Final = 6.0
_GREY: Final = 0.27

#: The most of the page that the words and signals take.
_WORDS_SHARE: Final = 0.3


def call_sheet(team: str, sheets: Sequence[Sheet], more: int, calls: Calls, options: Options) -> Drawing:
    """Return the page. ``more``: how many pinned chains there are beyond ``sheets``. Millimetres."""
    wide, high = PAPERS[options.paper]
    scale = LARGE if options.large else 1.0
    room = wide - 2 * MARGIN
    size = _TITLE * scale
    y = MARGIN + CAPITAL * size
    title = shortened(written(say("paper.callsheet.title", team=team)), size, room, bold=True)
    marks: list[Mark] = [Text(MARGIN, y, size, title, "title", bold=True)]
    small = 9 * POINT * scale
    if more > 0:
        y += small * LEADING * 1.2
        text = say("paper.callsheet.more_pinned_no_room", n=more)
        marks.append(Text(MARGIN, y, small, text, "more", shade=_GREY))
    top = y + 5
    words = _words(calls, room, 10 * POINT * scale, _WORDS_SHARE * high)
    bottom = high - MARGIN - words.height - (5 if words.marks else 0)
    if sheets:
        marks += _cells(sheets, options, (MARGIN, top, room, bottom - top))
    marks += placed(words.marks, MARGIN, high - MARGIN - words.height, 1.0)
    return Drawing(wide, high, tuple(marks))


def _cells(sheets: Sequence[Sheet], options: Options, area: tuple[float, float, float, float]) -> list[Mark]:
    x, y, wide, high = area
    count = len(sheets)
    columns = 1 if count < 3 else 2
    rows = max(2, ceil(count / columns))
    cell = (wide - (columns - 1) * _GUTTER) / columns
    tall = (high - (rows - 1) * _GUTTER) / rows
    marks: list[Mark] = []
    for i, sheet in enumerate(sheets):
        left, top = x + (i % columns) * (cell + _GUTTER), y + (i // columns) * (tall + _GUTTER)
        marks += _cell(sheet, options, (left, top, cell, tall))
    return marks


def _cell(sheet: Sheet, options: Options, cell: tuple[float, float, float, float]) -> list[Mark]:
    x, y, wide, high = cell
    said = speech(sheet, named=options.names, mirrored=options.mirror)
    scale = LARGE if options.large else 1.0
    head = min(13 * POINT * scale, 0.12 * high)
    marks: list[Mark] = [Stroke(through(((x, y), (x + wide, y))), 0.5, "rule")]
    base = y + 2.2 + CAPITAL * head
    title = written(sheet.title)
    fits = min(head, max(0.7 * head, head * wide / max(width(title, head, bold=True), 1.0)))
    marks.append(Text(x, base, fits, shortened(title, fits, wide, bold=True), "name", bold=True))
    top = base + 2.5
    # Small diagrams need large numbers.
    look = replace(looking(options, said), size=LARGE)
    drawing = diagram(sheet, sheet.acts[0] if sheet.acts else None, look)
    left = y + high - top
    share = min(0.5 * wide / drawing.width, left / drawing.height)
    marks += placed(drawing.marks, x, top, share)
    beside = x + share * drawing.width + 3
    return marks + _steps(sheet, said, 9.5 * POINT * scale, (beside, top, x + wide - beside, left))


def _steps(sheet: Sheet, said: Speech, size: float, area: tuple[float, float, float, float]) -> list[Mark]:
    """Return a chain's steps as a numbered list, set smaller where there are many, or broken off."""
    x, y, wide, high = area
    while True:
        indent = 1.7 * size + (0.5 * size if len(sheet.acts) > 9 else 0.0)
        lines = [wrapped(said.heading(act), size, wide - indent) for act in sheet.acts]
        if sum(map(len, lines)) * size * LEADING + 0.25 * size * len(lines) <= high or size <= 6 * POINT:
            break
        size = max(6 * POINT, 0.93 * size)
    marks: list[Mark] = []
    at = y
    for act, rows in zip(sheet.acts, lines, strict=True):
        last = act is sheet.acts[-1]
        if at + (len(rows) + (0 if last else 1)) * size * LEADING > y + high + 0.5 * size:
            marks.append(Text(x, at + CAPITAL * size, size, "…", "step-line"))
            break
        marks += plate(act.number, x, at, 0.8 * size)
        for row in rows:
            marks.append(Text(x + indent, at + CAPITAL * size + 0.1 * size, size, row, "step-line"))
            at += size * LEADING
        at += 0.25 * size
    return marks


def _words(calls: Calls, room: float, size: float, most: float) -> Drawing:
    """Return the team's own words and signals in columns, ``room`` wide and ``most`` high."""
    names = table("rules", "actions")
    entries = [
        (
            names.get(kind, kind.replace("_", " ")),
            written(entry.get("call", "")),
            written(entry.get("signal", "")),
        )
        for kind, entry in calls.items()
    ]
    if not entries:
        return Drawing(room, 0.0, ())
    while True:
        columns = 2 if len(entries) > 3 else 1
        rows = ceil(len(entries) / columns)
        line = size * LEADING * 1.1
        high = line * (rows + 1) + 3
        if high <= most or size <= 6 * POINT:
            break
        size *= 0.93
    marks: list[Mark] = [Stroke(through(((0.0, 0.0), (room, 0.0))), 0.5, "rule")]
    marks.append(
        Text(0.0, 2.2 + CAPITAL * size, size, say("paper.callsheet.our_words_signals"), "name", bold=True)
    )
    wide = (room - (columns - 1) * _GUTTER) / columns
    for i, (action, call, signal) in enumerate(entries):
        x, y = (i // rows) * (wide + _GUTTER), 2.2 + CAPITAL * size + line * (i % rows + 1)
        quoted = f"“{call}”" if call else ""
        third = wide * 0.42
        marks.append(Text(x, y, size, shortened(action, size, third - 2), "call"))
        bold = shortened(quoted, size, wide - third, bold=True)
        marks.append(Text(x + third, y, size, bold, "call", bold=True))
        beside = x + third + (width(bold, size, bold=True) + 1.5 if bold else 0.0)
        if signal and x + wide - beside > 3 * size:
            marks.append(Text(beside, y, size, shortened(signal, size, x + wide - beside), "call"))
    return Drawing(room, high, tuple(marks))
