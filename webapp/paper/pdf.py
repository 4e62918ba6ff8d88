"""Drawings as the pages of a PDF: lines stay lines, words stay words."""

from __future__ import annotations

from typing import Final

from fpdf import FPDF
from fpdf.drawing import PaintedPath
from fpdf.drawing_primitives import DeviceGray
from fpdf.enums import PathPaintRule, StrokeCapStyle, StrokeJoinStyle

from engine.words.spoken import spoken
from webapp.paper.fonts import BOLD, REGULAR, width
from webapp.paper.marks import Disc, Drawing, Stroke, Text, arc, curved
from webapp.paper.paper import POINT

_FONT: Final = "Sheet"

#: From here on, scripts may run from right to left or join their letters.
_SHAPED: Final = "\u0590"


def pdf(pages: list[Drawing], title: str) -> bytes:
    """Return a PDF of ``pages``, whose units are millimetres."""
    made = FPDF(unit="mm", format=(pages[0].width, pages[0].height))
    made.set_title(title)
    made.set_creator("Quintet")
    made.set_lang(spoken().tag)
    made.set_margin(0)
    made.c_margin = 0
    made.set_auto_page_break(False)
    made.add_font(_FONT, "", REGULAR)
    made.add_font(_FONT, "B", BOLD)
    for page in pages:
        made.add_page(format=(page.width, page.height))
        for mark in page.marks:
            match mark:
                case Stroke():
                    _stroke(made, mark)
                case Disc():
                    _disc(made, mark)
                case Text():
                    _text(made, mark)
    return bytes(made.output())


def _stroke(made: FPDF, mark: Stroke) -> None:
    path = PaintedPath()
    for letter, given in mark.pieces:
        match letter:
            case "M":
                path.move_to(given[0], given[1])
            case "L":
                path.line_to(given[0], given[1])
            case "C":
                path.curve_to(*given)
            case _:
                path.close()
    style = path.style
    style.auto_close = False
    style.fill_color = None if mark.fill is None else DeviceGray(mark.fill)
    style.stroke_color = DeviceGray(mark.shade) if mark.width else None
    style.paint_rule = _rule(mark.fill is not None, mark.width > 0)
    if mark.width:
        style.stroke_width = mark.width
        style.stroke_cap_style = StrokeCapStyle.ROUND if mark.round else StrokeCapStyle.BUTT
        style.stroke_join_style = StrokeJoinStyle.ROUND if mark.round else StrokeJoinStyle.MITER
    if mark.dash:
        style.stroke_dash_pattern = list(mark.dash)
    with made.drawing_context() as drawn:
        drawn.add_item(path, clone=False)


def _disc(made: FPDF, mark: Disc) -> None:
    ring = Stroke(
        (*curved(arc((mark.x, mark.y), mark.radius, 0.0, 6.283185307179586)), ("Z", ())),
        mark.width,
        mark.kind,
        shade=mark.shade,
        fill=mark.fill,
    )
    _stroke(made, ring)


def _text(made: FPDF, mark: Text) -> None:
    made.set_font(_FONT, "B" if mark.bold else "", mark.size / POINT)
    made.set_text_color(round(255 * mark.shade))
    aside = {"start": 0.0, "middle": 0.5, "end": 1.0}[mark.anchor]
    x = mark.x - aside * width(mark.words, mark.size, mark.bold)
    if max(mark.words, default="") < _SHAPED:
        made.text(x, mark.y, mark.words)
        return
    made.set_text_shaping(True)
    # A cell's baseline lies 0.3 of the size below its middle.
    made.set_xy(x, mark.y - 0.3 * mark.size)
    made.cell(w=0, h=0, text=mark.words)
    made.set_text_shaping(False)


def _rule(filled: bool, stroked: bool) -> PathPaintRule:
    if filled:
        return PathPaintRule.STROKE_FILL_NONZERO if stroked else PathPaintRule.FILL_NONZERO
    return PathPaintRule.STROKE
