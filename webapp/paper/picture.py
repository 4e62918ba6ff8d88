"""SVG as a picture of dots (PNG), with our own font so that it looks the same everywhere."""

from __future__ import annotations

import resvg_py

from webapp.paper.fonts import BOLD, FAMILY, REGULAR


def png(svg: str, width: int) -> bytes:
    """Return an SVG as a PNG, ``width`` pixels wide, on white."""
    return resvg_py.svg_to_bytes(
        svg_string=svg,
        width=width,
        background="#ffffff",
        skip_system_fonts=True,
        font_files=[REGULAR, BOLD],
        font_family=FAMILY,
        sans_serif_family=FAMILY,
    )
