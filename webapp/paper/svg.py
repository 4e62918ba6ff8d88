"""Drawings as SVG: one file, nothing fetched, no script, no style sheet."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any, Final

import svgwrite
from svgwrite.base import BaseElement

from webapp.paper.fonts import FAMILY, written
from webapp.paper.marks import Disc, Drawing, Mark, Stroke, Text

#: The font, and what browsers without it take.
FONTS: Final = f"'{FAMILY}', Verdana, Arial, sans-serif"


def document(width: float, height: float, title: str, unit: str = "") -> Any:
    """Return an empty SVG of a box from (0, 0) to (width, height), on white paper."""
    made = svgwrite.Drawing(size=(f"{width:g}{unit}", f"{height:g}{unit}"), debug=False)
    made.viewbox(0, 0, number(width), number(height))
    made["role"] = "img"
    made["font-family"] = FONTS
    made.set_desc(title=written(title))
    made.add(made.rect((0, 0), (number(width), number(height)), fill="#fff"))
    return made


def svg(drawing: Drawing, title: str, unit: str = "") -> str:
    """Return a drawing as the text of an SVG file. ``unit``: of its lengths, such as "mm"; else pixels."""
    made = document(drawing.width, drawing.height, title, unit)
    for element in elements(made, drawing.marks):
        made.add(element)
    text: str = made.tostring()
    return text


def elements(made: Any, marks: Iterable[Mark]) -> Iterable[BaseElement]:
    """Yield each mark as an element; ``class`` says what it stands for, ``data-of`` for whom."""
    for mark in marks:
        match mark:
            case Stroke():
                element = made.path(d=_data(mark), fill="none" if mark.fill is None else grey(mark.fill))
                _edge(element, mark.width, mark.shade)
                if mark.dash:
                    element["stroke-dasharray"] = " ".join(str(number(length)) for length in mark.dash)
                if mark.width and mark.round:
                    element["stroke-linecap"] = element["stroke-linejoin"] = "round"
            case Disc():
                fill = "none" if mark.fill is None else grey(mark.fill)
                element = made.circle((number(mark.x), number(mark.y)), number(mark.radius), fill=fill)
                _edge(element, mark.width, mark.shade)
            case Text():
                element = made.text(mark.words, (number(mark.x), number(mark.y)), fill=grey(mark.shade))
                element["font-size"] = number(mark.size)
                if mark.anchor != "start":
                    element["text-anchor"] = mark.anchor
                if mark.bold:
                    element["font-weight"] = "bold"
        element["class"] = mark.kind
        if mark.of:
            element["data-of"] = mark.of
        yield element


def _edge(element: Any, width: float, shade: float) -> None:
    if width:
        element["stroke"] = grey(shade)
        element["stroke-width"] = number(width)


def _data(mark: Stroke) -> str:
    return "".join(letter + " ".join(str(number(value)) for value in given) for letter, given in mark.pieces)


def number(value: float) -> float:
    """Return a length as it is written: two decimals are a hundredth of what a printer can show."""
    return round(value, 2)


def grey(shade: float) -> str:
    """Return a shade as a colour."""
    part = round(255 * min(1.0, max(0.0, shade)))
    return f"#{part:02x}{part:02x}{part:02x}"
