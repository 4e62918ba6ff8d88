"""What is printed, by its dots: nobody and no arrow is missing."""

from __future__ import annotations

from io import BytesIO
from math import hypot

import numpy as np
import pypdfium2
import pytest
from hypothesis import given, settings
from numpy.typing import NDArray
from PIL import Image

from tests.depth import deep
from tests.webapp.paper.chains import VIEWS, five_steps, look, sheets
from tests.webapp.paper.test_diagrams import MANY
from webapp.paper.diagram import diagram, parts
from webapp.paper.floor import View
from webapp.paper.layout import pages
from webapp.paper.marks import Disc, Drawing, Mark, Stroke
from webapp.paper.options import Options
from webapp.paper.pdf import pdf
from webapp.paper.picture import png
from webapp.paper.sheet import Sheet
from webapp.paper.svg import svg

DARK = 110


def dots(content: bytes) -> NDArray[np.uint8]:
    with Image.open(BytesIO(content)) as image:
        return np.asarray(image.convert("L"))


def seen(drawing: Drawing, width: int = 800) -> NDArray[np.uint8]:
    return dots(png(svg(drawing, ""), width))


def near(ink: NDArray[np.uint8], x: float, y: float, reach: float) -> int:
    """The darkest dot within ``reach`` dots of (x, y)."""
    top, left = max(0, int(y - reach)), max(0, int(x - reach))
    return int(ink[top : int(y + reach) + 1, left : int(x + reach) + 1].min())


@settings(parent=MANY, max_examples=deep(4, 12))
@given(sheets(longest=3))
def test_without_a_player_or_an_arrow_the_picture_is_another(made: Sheet) -> None:
    for act in made.acts[-1:] or (None,):
        layers = parts(made, act, look())
        whole = diagram(made, act, look())
        ink = seen(whole, 500).astype(int)
        groups = {("player", m.of) for m in layers.players} | {("trail", m.of) for m in layers.trails}
        for kind, number in groups:
            layer = layers.players if kind == "player" else layers.trails
            gone = {id(m) for m in layer if m.of == number}
            others: tuple[Mark, ...] = tuple(
                m for m in (*layers.floor, *layers.trails, *layers.players) if id(m) not in gone
            )
            without = seen(Drawing(whole.width, whole.height, others), 500).astype(int)
            changed = int((abs(ink - without) > 60).sum())
            assert changed > (80 if kind == "player" else 25), (kind, number)


@pytest.mark.parametrize("view", VIEWS)
@pytest.mark.parametrize("size", [1.0, 1.25])
def test_there_is_ink_at_each_player_and_along_each_arrow(view: View, size: float) -> None:
    made = five_steps()
    for act in made.acts:
        drawing = diagram(made, act, look(view, size))
        ink = seen(drawing)
        scale = ink.shape[1] / drawing.width
        for mark in drawing.marks:
            if isinstance(mark, Disc) and mark.kind == "disc":
                assert near(ink, mark.x * scale, mark.y * scale, 0.6 * mark.radius * scale) < DARK
                edge = near(ink, (mark.x + mark.radius) * scale, mark.y * scale, 2)
                assert edge < DARK
            elif isinstance(mark, Stroke) and mark.kind in ("cut", "dribble", "head"):
                for x, y in mark.points[:: max(1, len(mark.points) // 12)]:
                    covered = any(
                        isinstance(d, Disc) and hypot(d.x - x, d.y - y) < d.radius + d.width
                        for d in drawing.marks
                    )
                    assert covered or near(ink, x * scale, y * scale, 2) < DARK, (act.number, mark.kind)


@pytest.mark.parametrize(("paper", "millimetres"), [("a4", (210.0, 297.0)), ("letter", (215.9, 279.4))])
@pytest.mark.parametrize("per", [1, 2, 4, 6])
@pytest.mark.parametrize("large", [False, True])
def test_a_printed_page_shows_every_player(
    paper: str, millimetres: tuple[float, float], per: int, large: bool
) -> None:
    # A4: ISO 216; Letter, 8.5 by 11 in: ANSI Y14.1; both from memory.
    made = five_steps()
    drawn = pages(made, Options(paper=paper, per=per, large=large))
    if large and per > 2:
        # No more fit on a page: it is the same print, which is looked at once.
        assert drawn == pages(made, Options(paper=paper, per=2, large=True))
        return
    assert len(drawn) == -(-len(made.acts) // per)
    with pypdfium2.PdfDocument(pdf(drawn, "Swing")) as document:
        assert len(document) == len(drawn)
        for page, drawing in zip(document, drawn, strict=True):
            size = tuple(length * 25.4 / 72 for length in page.get_size())
            assert size == pytest.approx(millimetres, abs=0.1)
            ink = np.asarray(page.render(scale=2).to_pil().convert("L"))
            scale = ink.shape[1] / drawing.width
            found = [m for m in drawing.marks if isinstance(m, Disc) and m.kind == "disc"]
            assert len(found) % 5 == 0
            for mark in found:
                assert near(ink, mark.x * scale, mark.y * scale, 0.6 * mark.radius * scale) < DARK
            for mark in drawing.marks:
                if isinstance(mark, Stroke) and mark.kind == "head":
                    x = sum(p[0] for p in mark.points) / 3
                    y = sum(p[1] for p in mark.points) / 3
                    assert near(ink, x * scale, y * scale, 2) < 150
            # Nothing is printed where printers cannot reach.
            edge = int(8 * scale)
            assert ink[:edge].min() == ink[-edge:].min() == ink[:, :edge].min() == ink[:, -edge:].min() == 255
