"""What the application is told of the way a request came: over which scheme, and from whom."""

from __future__ import annotations

import ssl
from collections.abc import Callable, Iterable
from ipaddress import IPv4Network, IPv6Network, ip_address
from typing import Any, Final

from flask import Flask, redirect, request
from flask.typing import ResponseReturnValue

from webapp.base.network import networks, split_host
from webapp.secure.line import SharedLine
from webapp.services import services
from webapp.wire.refusals import Refused

Wsgi = Callable[[dict[str, Any], Any], Iterable[bytes]]
Networks = tuple[IPv4Network | IPv6Network, ...]

#: Where the servers put the socket of a request.
_SOCKETS: Final = ("gunicorn.socket", "werkzeug.socket")


def register(app: Flask) -> None:
    """Let ``app`` know its secure requests, and send those to the right address that miss it."""

    @app.before_request
    def by_the_right_door() -> ResponseReturnValue | None:
        """Lead to HTTPS whoever came to its port without; refuse an insecure page to change a secure one."""
        settings = services().settings
        port = request.environ.get("SERVER_PORT")
        if settings.has_https and not request.is_secure and port == str(settings.https_port_number):
            if "websocket" in request.headers.get("Upgrade", "").lower():
                raise Refused("bad_request")
            return redirect(f"https://{request.host}{request.full_path.rstrip('?')}", 307)
        if request.is_secure and request.headers.get("Origin", "").startswith("http://"):
            raise Refused("other_site")
        return None

    trusted = networks(app.extensions["quintet"].settings.proxy_network)
    app.wsgi_app = over_tls(behind_proxies(app.wsgi_app, trusted))  # type: ignore[method-assign, assignment]


def over_tls(wsgi: Wsgi) -> Wsgi:
    """Return ``wsgi`` told the scheme of an encrypted line, and with one that two threads may use.

    Both before anybody has touched it: the thread that reads a live screen starts at once.
    """

    def wrapped(environ: dict[str, Any], start_response: Any) -> Iterable[bytes]:
        for name in _SOCKETS:
            sock = environ.get(name)
            if isinstance(sock, ssl.SSLSocket):
                environ["wsgi.url_scheme"] = "https"
                if "HTTP_UPGRADE" in environ:
                    environ[name] = SharedLine(sock)
        return wsgi(environ, start_response)

    return wrapped


def behind_proxies(wsgi: Wsgi, trusted: Networks) -> Wsgi:
    """Return ``wsgi`` told by ``trusted`` proxies who asked and over which scheme; by nobody else.

    Of the addresses in X-Forwarded-For, the last that is no trusted proxy's is believed: whatever stands
    before it, anybody may have written.
    """
    if not trusted:
        return wsgi

    def wrapped(environ: dict[str, Any], start_response: Any) -> Iterable[bytes]:
        if _within(environ.get("REMOTE_ADDR", ""), trusted):
            hops = _parts(environ.get("HTTP_X_FORWARDED_FOR", ""))
            while hops and _within(hops[-1], trusted):
                environ["REMOTE_ADDR"] = hops.pop()
            if hops and _is_number(hops[-1]):
                environ["REMOTE_ADDR"] = hops[-1]
            schemes = _parts(environ.get("HTTP_X_FORWARDED_PROTO", ""))
            if schemes and schemes[-1] in ("http", "https"):
                environ["wsgi.url_scheme"] = schemes[-1]
        return wsgi(environ, start_response)

    return wrapped


def _parts(header: str) -> list[str]:
    return [part.strip() for part in header.split(",") if part.strip()]


def _is_number(host: str) -> bool:
    return _address(host) is not None


def _within(host: str, trusted: Networks) -> bool:
    address = _address(host)
    return address is not None and any(address in network for network in trusted)


def _address(host: str) -> Any:
    try:
        return ip_address(host)
    except ValueError:
        pass
    try:
        return ip_address(split_host(host)[0].strip("[]"))  # some proxies add the port
    except ValueError:
        return None
