"""Papers, their margins and what may stand on one page. Millimetres; sizes of print in millimetres too."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

#: One point of print (1/72 inch), in millimetres.
POINT: Final = 25.4 / 72

#: Width and height, upright: A4 by ISO 216, Letter (8.5 by 11 in) by ANSI Y14.1; both from memory.
PAPERS: Final[Mapping[str, tuple[float, float]]] = MappingProxyType(
    {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
)

#: No printer in use needs more to every side. Common practice, no source.
MARGIN: Final = 12.0

#: From one baseline to the next, of the size of print.
LEADING: Final = 1.32


@dataclass(frozen=True, slots=True)
class Grid:
    """How the diagrams of a page are laid out; ``words`` is the size of the sentences' print."""

    columns: int
    rows: int
    words: float


#: By number of diagrams a page.
GRIDS: Final[Mapping[int, Grid]] = MappingProxyType(
    {
        1: Grid(1, 1, 15 * POINT),
        2: Grid(1, 2, 11 * POINT),
        4: Grid(2, 2, 10 * POINT),
        6: Grid(2, 3, 8 * POINT),
    }
)

#: Large print is 16 points or more (from memory, guidance for readers with low vision). No more than two
#: diagrams a page have room for it.
LARGE_GRIDS: Final[Mapping[int, Grid]] = MappingProxyType(
    {1: Grid(1, 1, 20 * POINT), 2: Grid(1, 2, 16 * POINT)}
)


def grid(per: int, large: bool) -> Grid:
    """Return the layout for ``per`` diagrams a page, in large print no more than two."""
    return LARGE_GRIDS[min(per, 2)] if large else GRIDS[per]
