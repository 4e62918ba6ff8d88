"""The font of everything printed: where it is, what it can write, and how wide words are in it."""

from __future__ import annotations

from functools import lru_cache
from typing import Final, NamedTuple

from fontTools.ttLib import TTFont

from webapp.base.settings import ROOT

_FOLDER: Final = ROOT / "static" / "vendor" / "fonts"
REGULAR: Final = str(_FOLDER / "DejaVuSans.ttf")
BOLD: Final = str(_FOLDER / "DejaVuSans-Bold.ttf")

FAMILY: Final = "DejaVu Sans"

#: Height of digits and capitals, of the font's size (read from the font's own tables: 1493 of 2048).
CAPITAL: Final = 0.729

#: What is written for a character that the font has not.
UNKNOWN: Final = "\u25a1"


class _Face(NamedTuple):
    advances: dict[int, float]
    usual: float


@lru_cache(maxsize=2)
def _face(bold: bool) -> _Face:
    with TTFont(BOLD if bold else REGULAR, lazy=True) as font:
        units, widths = font["head"].unitsPerEm, font["hmtx"].metrics
        advances = {code: widths[name][0] / units for code, name in font.getBestCmap().items()}
    return _Face(advances, advances[ord(UNKNOWN)])


def width(words: str, size: float, bold: bool = False) -> float:
    """Return how wide ``words`` are on one line, in the unit of ``size``."""
    face = _face(bold)
    return size * sum(face.advances.get(ord(c), face.usual) for c in words)


def written(words: str) -> str:
    """Return ``words`` with a box for each character that the font has not."""
    regular, bold = _face(False).advances, _face(True).advances
    return "".join(c if ord(c) in regular and ord(c) in bold else UNKNOWN for c in words)


def wrapped(words: str, size: float, room: float, bold: bool = False) -> list[str]:
    """Return ``words`` broken into lines no wider than ``room``; a word longer than a line is cut in two."""
    lines: list[str] = []
    line = ""
    for word in words.split():
        tried = f"{line} {word}" if line else word
        if width(tried, size, bold) <= room:
            line = tried
            continue
        if line:
            lines.append(line)
        while width(word, size, bold) > room and len(word) > 1:
            fits = next(
                n for n in range(len(word) - 1, 0, -1) if n == 1 or width(word[:n], size, bold) <= room
            )
            lines.append(word[:fits])
            word = word[fits:]
        line = word
    return [*lines, line] if line else lines


def shortened(words: str, size: float, room: float, bold: bool = False) -> str:
    """Return ``words``, or as many of them as fit with an ellipsis."""
    if width(words, size, bold) <= room:
        return words
    while words and width(words + "…", size, bold) > room:
        words = words[:-1]
    return words.rstrip() + "…"
