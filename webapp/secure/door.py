"""The second door: the port that devices come in by over HTTPS, whichever server stands behind it."""

from __future__ import annotations

import contextlib
import errno
import socket
import ssl
from dataclasses import dataclass
from typing import Final, Protocol
from urllib.parse import urlsplit

from engine.words.spoken import say
from webapp.base.network import split_host
from webapp.base.settings import Settings
from webapp.secure.authority import LocalAuthority
from webapp.secure.given import GivenCertificate

#: A device on a slow network needs a second or two to agree on a key; one that says nothing is let go.
_GREETING_S: Final = 10.0
#: The first byte of everything that TLS sends first (a handshake record: RFC 8446, section 5.1).
_TLS: Final = b"\x16"


class Certificates(Protocol):
    """Where the door's certificates come from."""

    def context(self, address: str) -> ssl.SSLContext:
        """Return what to greet a device with that called this machine by ``address``."""

    @property
    def hosts(self) -> tuple[list[str], list[str]]:
        """The names and the addresses that can be vouched for."""


@dataclass(frozen=True, slots=True)
class Door:
    """The listening socket, and who vouches for it."""

    listener: socket.socket
    port: int
    certificates: Certificates

    def admit(self, sock: socket.socket) -> socket.socket:
        """Greet a device and return its encrypted line, or ``sock`` itself if it does not speak TLS at all.

        Raises ``OSError``, with ``sock`` closed, if it does not trust us or goes away.
        """
        try:
            sock.settimeout(_GREETING_S)
            if sock.recv(1, socket.MSG_PEEK) != _TLS:
                return sock  # somebody left out the "https": the application sends him to the right address
            context = self.certificates.context(str(sock.getsockname()[0]))
            return context.wrap_socket(sock, server_side=True)
        except OSError as error:
            with contextlib.suppress(OSError):
                sock.close()
            # Not the first error: a server would take its number for one of its own.
            raise ConnectionResetError(errno.ECONNRESET, f"no secure line: {error}") from None


def certificates_for(settings: Settings) -> Certificates:
    """Return where the certificates come from. Raises ``NotSecure``."""
    if settings.certificate_file:
        return GivenCertificate(settings.certificate_file, settings.key_file)
    return LocalAuthority(settings.data_dir, urlsplit(settings.public_url).hostname or "")


def about(door: Door, settings: Settings, here: str, path: str) -> list[str]:
    """Return the lines that say where the door is.

    ``here``: host and port of plain HTTP; ``path``: a coaching link's, from the first slash on.
    """
    names, addresses = door.certificates.hosts
    lines = []
    if settings.public_url.startswith("https:"):
        lines.append(
            say("server.door.on_coachs_own_tablet", public_url=settings.public_url.rstrip("/"), path=path)
        )
    else:
        own = split_host(here)[0]
        named = next((name for name in names if "*" not in name), own)
        host = own if settings.local_authority else named
        lines.append(say("server.door.on_coachs_own_tablet_https", host=host, port=door.port, path=path))
        if host not in (*names, *addresses):
            lines.append(say("server.door.certificate_not_for_browsers", host=host))
    if isinstance(door.certificates, LocalAuthority):
        lines.append(say("server.door.let_tablet_trust_computer", here=here))
        lines.append(say("server.door.compare"))
        lines += [f"    {line}" for line in door.certificates.fingerprint]
    return lines
