"""Addresses: which one a phone can use, and whether a request comes from our own pages."""

from __future__ import annotations

import contextlib
import re
import socket
from ipaddress import IPv4Network, IPv6Network, ip_address, ip_network
from typing import Final
from urllib.parse import urlsplit

_NAME: Final = re.compile(r"\A[a-z0-9]([a-z0-9.-]*[a-z0-9])?\Z")
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


def is_web_address(text: str) -> bool:
    """Whether ``text`` is the beginning of addresses: a scheme and a host, and nothing more than a slash."""
    match = re.fullmatch(r"https?://([^/]+)/?", text)
    return match is not None and is_host(match[1])


def networks(text: str) -> tuple[IPv4Network | IPv6Network, ...]:
    """Return the networks in a list with commas between; one address is a network of itself.

    Raises ``ValueError``, saying which part is none.
    """
    return tuple(ip_network(part.strip(), strict=False) for part in text.split(",") if part.strip())


def is_address(host: str) -> bool:
    """Whether a host (without its port) is a number rather than a name."""
    try:
        ip_address(host.strip("[]"))
    except ValueError:
        return False
    return True


def machine_name() -> str:
    """Return what this machine calls itself, without anything after a dot."""
    return socket.gethostname().split(".")[0] or "quintet"


def own_names() -> list[str]:
    """Return the names by which devices may call this machine, in small letters."""
    full = socket.gethostname().lower()
    short = full.split(".")[0]
    found = ["localhost", short, f"{short}.local", full]
    return [name for name in dict.fromkeys(found) if _NAME.match(name)]


def own_addresses() -> list[str]:
    """Return the addresses of this machine that can be found out without asking anybody.

    The system's own list may leave some out; the two that data would be sent from are added.
    """
    found = ["127.0.0.1", "::1"]
    for family, anywhere in ((socket.AF_INET, "192.0.2.1"), (socket.AF_INET6, "2001:db8::1")):
        with contextlib.suppress(OSError), socket.socket(family, socket.SOCK_DGRAM) as probe:
            probe.connect((anywhere, 9))  # nothing is sent; both are addresses kept for documents
            found.append(str(probe.getsockname()[0]))
    with contextlib.suppress(OSError):
        for *_, where in socket.getaddrinfo(socket.gethostname(), None, type=socket.SOCK_STREAM):
            found.append(str(where[0]).split("%")[0])
    return [address for address in dict.fromkeys(found) if not ip_address(address).is_unspecified]


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
