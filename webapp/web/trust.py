"""The page that says how a coach's own device is told to trust this computer, and the certificate for it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from flask import Blueprint, Response, render_template, request
from flask.typing import ResponseReturnValue

from webapp.base.network import is_loopback, local_address, split_host
from webapp.services import services
from webapp.wire.refusals import Refused

if TYPE_CHECKING:
    from cryptography.x509 import Certificate

trust: Final = Blueprint("trust", __name__)

#: Part of a browser's name for itself -> sections to open. Safari on an iPad says it is on a Macintosh.
_OPEN: Final = (
    ("iPhone", ("apple",)),
    ("iPad", ("apple",)),
    ("Android", ("android",)),
    ("Windows", ("windows",)),
    ("Macintosh", ("apple", "mac")),
)


@trust.get("/trust")
def page() -> ResponseReturnValue:
    """Say step by step how a device is told to trust this computer, and how that is taken back."""
    from webapp.secure.certificates import fingerprint, title_of

    root = _root()
    agent = request.user_agent.string
    return render_template(
        "trust.html",
        title=title_of(root),
        rows=fingerprint(root),
        secure=f"https://{_host()}:{services().settings.https_port_number}/",
        open=next((names for mark, names in _OPEN if mark in agent), ()),
        done=request.is_secure,
    )


@trust.get("/trust/quintet.crt")
def certificate() -> Response:
    """Return the root's certificate, in the form that every system can take in."""
    from cryptography.hazmat.primitives.serialization import Encoding

    return Response(_root().public_bytes(Encoding.DER), content_type="application/x-x509-ca-cert")


def _host() -> str:
    name, settings = split_host(request.host)[0], services().settings
    found = local_address() if is_loopback(name) and settings.local_network else None
    return found or name


def _root() -> Certificate:
    from webapp.secure.authority import public_root

    settings = services().settings
    root = public_root(settings.data_dir) if settings.local_authority else None
    if root is None:
        raise Refused("nothing_to_trust")
    return root
