"""What every request must pass, and what every answer carries."""

from __future__ import annotations

from typing import Final

from flask import Flask, Response, request

from webapp.base.network import is_host, same_site
from webapp.web.assets import OURS
from webapp.wire.refusals import Refused

_SAFE: Final = frozenset(("GET", "HEAD", "OPTIONS"))

_DRAWING: Final = "default-src 'none'; sandbox; frame-ancestors 'none'"


def register(app: Flask) -> None:
    """Check and mark the requests and answers of ``app``."""

    @app.before_request
    def from_our_pages() -> None:
        """Refuse a change asked for by another site's page."""
        if not is_host(request.host):
            raise Refused("bad_request")
        if request.method in _SAFE:
            return
        origin = request.headers.get("Origin")
        # With "no-referrer", browsers write "null" for our own forms; those need no key, and the key is not
        # sent along with another site's forms (SameSite).
        if origin == "null" and not request.path.startswith("/api/"):
            return
        if origin is not None and not same_site(origin, request.host):
            raise Refused("other_site")
        if request.headers.get("Sec-Fetch-Site", "same-origin") not in ("same-origin", "none"):
            raise Refused("other_site")

    @app.after_request
    def mark(response: Response) -> Response:
        host = request.host if is_host(request.host) else ""
        # Some phones do not count a socket to the same host as 'self', so it is named.
        live = f" ws://{host} wss://{host}" if host else ""
        policy = (
            "default-src 'self'; img-src 'self' data:; "
            f"connect-src 'self'{live}; object-src 'none'; base-uri 'none'; form-action 'self'; "
            "frame-ancestors 'none'"
        )
        # A drawing that somebody takes along may do nothing at all.
        drawn = response.mimetype == "image/svg+xml" and request.endpoint not in OURS
        response.headers["Content-Security-Policy"] = _DRAWING if drawn else policy
        response.headers["Referrer-Policy"] = "no-referrer"
        response.headers["X-Content-Type-Options"] = "nosniff"
        response.headers["X-Frame-Options"] = "DENY"
        response.headers["Permissions-Policy"] = "camera=(), microphone=(), geolocation=()"
        if request.endpoint not in OURS:
            response.headers["Cache-Control"] = "no-store"
        return response
