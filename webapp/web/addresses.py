"""The address that what is given away begins with, and its picture."""

from __future__ import annotations

from typing import Final
from urllib.parse import urlsplit

from flask import request

from engine.words.spoken import Said
from webapp.base.network import share_base, split_host
from webapp.services import services

NOT_REACHABLE: Final = Said("server.addresses.only_computer_can_open")
#: ``address``: of the page that says how.
TRUST_FIRST: Final = Said("server.addresses.device_has_not_been")


def share_address(*, coaching: bool = False) -> tuple[str, str | None]:
    """Return the address, and what to know before giving it away, if anything.

    Where this server itself speaks HTTPS, coaches are sent there, as their boards need it to work without a
    network; players are not, as a phone that has not been told to trust the certificate would be warned.
    """
    settings = services().settings
    scheme, host = request.scheme, request.host
    if settings.has_https:
        scheme = "https" if coaching else "http"
        port = settings.https_port_number if coaching else settings.port_number
        host = f"{split_host(host)[0]}:{port}"
    base, reachable = share_base(host, scheme, settings.public_url, settings.local_network)
    if not reachable:
        return base, str(NOT_REACHABLE)
    if settings.public_url or not (coaching and settings.has_https):
        return base, None
    if settings.local_authority:
        name = split_host(urlsplit(base).netloc)[0]
        return base, TRUST_FIRST.format(address=f"http://{name}:{settings.port_number}/trust")
    from webapp.secure.given import main_name

    named = main_name(settings.certificate_file)
    return (f"https://{named}:{settings.https_port_number}" if named else base), None


def qr_code(url: str) -> str:
    """Return a QR code as an SVG drawing; black on white in every theme, or cameras do not read it."""
    import segno

    drawing = segno.make(url, error="m", micro=False)
    return str(drawing.svg_inline(scale=4, dark="#000", light="#fff", omitsize=True))
