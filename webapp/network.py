"""Addresses: which one a phone can use, and whether a request comes from our own pages."""

from __future__ import annotations

import re
import socket
from ipaddress import ip_address
from typing import Final
from urllib.parse import urlsplit

_HOST: Final = re.compile(r"\A(\[[0-9a-fA-F:.]+\]|[A-Za-z0-9._-]+)(:[0-9]{1,5})?\Z")


def is_host(text: str) -> bool:
    """Whether ``text`` is a plain host, with or without a port, fit to stand in an address or a header."""
    return _HOST.match(text) is not None


def split_host(host: str) -> tuple[str, str]:
    """Return the name and the port (with its colon, or empty) of a host."""
    match = _HOST.match(host)
    return (match[1], match[2] or "") if match else (host, "")


def is_loopback(host: str) -> bool:
    """Whether a host (without its port) is this machine as only itself can call it."""
    name = host.strip("[]")
    try:
        return ip_address(name).is_loopback
    except ValueError:
        return name == "localhost" or name.endswith(".localhost")


def local_address() -> str | None:
    """Return this machine's address on the local network, or ``None`` if it is on none.

    Nothing is sent: a datagram socket is only asked which address it would send from. 192.0.2.1 is an
    address kept for documents (RFC 5737), so it stands for "anywhere".
    """
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(("192.0.2.1", 9))
        except OSError:
            return None
        address = str(probe.getsockname()[0])
    return None if is_loopback(address) or address == "0.0.0.0" else address


def share_base(host: str, scheme: str, public_url: str, local_network: bool) -> tuple[str, bool]:
    """Return the address that shared links begin with, and whether other devices can open it.

    ``host`` and ``scheme`` are those of the asking page; a coach at the machine itself calls it by an
    address that means nothing to a phone, which is then exchanged for the one on the local network.
    """
    if public_url:
        return public_url.rstrip("/"), True
    name, port = split_host(host)
    if not is_loopback(name):
        return f"{scheme}://{host}", True
    found = local_address() if local_network else None
    if found is None:
        return f"{scheme}://{host}", False
    return f"{scheme}://{found}{port}", True


def same_site(origin: str, host: str) -> bool:
    """Whether an ``Origin`` header names the host that was asked. The scheme may differ behind a proxy."""
    try:
        return urlsplit(origin).netloc.lower() == host.lower() != ""
    except ValueError:
        return False
