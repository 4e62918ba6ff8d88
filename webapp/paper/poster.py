"""Pictures for a message: one step with its sentences, or the whole chain side by side."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, sqrt
from typing import Final

from webapp.paper.blocks import Block, fitted, headed
from webapp.paper.diagram import diagram
from webapp.paper.fonts import CAPITAL, shortened, written
from webapp.paper.layout import looking
from webapp.paper.marks import Drawing, Mark, Text, placed
from webapp.paper.options import Options
from webapp.paper.paper import LEADING
from webapp.paper.sheet import Act, Sheet
from webapp.paper.speech import Speech, speech

#: A cell's width, the margin and the print of a picture, in its own unit.
_CELL: Final = 100.0
_MARGIN: Final = 5.0
_GAP: Final = 6.0
_WORDS: Final = 4.2
_UNDER: Final = 2.5

#: Pixels of one unit where there is room, and the most of a picture's width.
_SHARP: Final = 10.0
_WIDEST: Final = 2400


def still(sheet: Sheet, act: Act | None, options: Options) -> Drawing:
    """Return the picture of one step; of the start if there is none."""
    said = speech(sheet, named=options.names, mirrored=options.mirror)
    block = fitted(act, said, 1, _WORDS, _CELL, 1000.0)
    return _picture(sheet, [act], [block], options, said, 1)


def strip(sheet: Sheet, options: Options) -> Drawing:
    """Return the picture of all steps side by side, with their headings."""
    said = speech(sheet, named=options.names, mirrored=options.mirror)
    acts: Sequence[Act | None] = sheet.acts or (None,)
    blocks = [headed(act, said, _WORDS, _CELL) for act in acts]
    # A little higher than wide, as phones are.
    return _picture(sheet, acts, blocks, options, said, max(1, min(6, ceil(sqrt(len(acts) * 0.8)))))


def pixels(drawing: Drawing) -> int:
    """Return how wide a picture is to be, in pixels."""
    return min(_WIDEST, round(_SHARP * drawing.width))


def _picture(
    sheet: Sheet,
    acts: Sequence[Act | None],
    blocks: Sequence[Block],
    options: Options,
    said: Speech,
    columns: int,
) -> Drawing:
    drawings = [diagram(sheet, act, looking(options, said)) for act in acts]
    scale = _CELL / drawings[0].width
    tall = scale * drawings[0].height + _UNDER + max(block.height for block in blocks)
    rows = ceil(len(acts) / columns)
    wide = 2 * _MARGIN + columns * _CELL + (columns - 1) * _GAP
    size = _WORDS * (1.25 if columns == 1 else 1.5)
    title = shortened(written(sheet.title), size, wide - 2 * _MARGIN, bold=True)
    top = _MARGIN + (size * LEADING + 2 if title else 0.0)
    marks: list[Mark] = []
    if title:
        marks.append(Text(_MARGIN, _MARGIN + CAPITAL * size, size, title, "title", bold=True))
    for i, (drawing, block) in enumerate(zip(drawings, blocks, strict=True)):
        x = _MARGIN + (i % columns) * (_CELL + _GAP)
        y = top + (i // columns) * (tall + _GAP)
        marks += placed(drawing.marks, x, y, scale)
        marks += block.at(x, y + scale * drawing.height + _UNDER)
    return Drawing(wide, top + rows * tall + (rows - 1) * _GAP + _MARGIN, tuple(marks))
