"""The address that what is given away begins with, and its picture."""

from __future__ import annotations

from typing import Final

import segno
from flask import request

from webapp.network import share_base
from webapp.services import services

NOT_REACHABLE: Final = (
    "Only this computer can open this link. To let phones open it, stop Quintet and start it with "
    "--local-network."
)


def share_address() -> tuple[str, str | None]:
    """Return the address, and what to know before giving it away, if anything."""
    settings = services().settings
    base, reachable = share_base(request.host, request.scheme, settings.public_url, settings.local_network)
    return base, None if reachable else NOT_REACHABLE


def qr_code(url: str) -> str:
    """Return a QR code as an SVG drawing; black on white in every theme, or cameras do not read it."""
    drawing = segno.make(url, error="m", micro=False)
    return str(drawing.svg_inline(scale=4, dark="#000", light="#fff", omitsize=True))
