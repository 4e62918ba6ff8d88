"""HTTPS with certificate files that somebody else made, such as those of a public authority."""

from __future__ import annotations

import logging
import ssl
import threading
import time
from datetime import UTC, datetime
from functools import lru_cache
from pathlib import Path
from typing import Final

from cryptography import x509
from cryptography.hazmat.primitives import serialization

from engine.words.spoken import say
from webapp.secure.certificates import hosts_of
from webapp.secure.errors import NotSecure

_LOG: Final = logging.getLogger("quintet")
_LOOK_EVERY_S: Final = 60.0


class GivenCertificate:
    """Certificate files, read at the start and again whenever they have been renewed on the disk.

    ``key_file`` may be empty if the key is in the certificate's file; ``look_every_s``: how often to look.
    Raises ``NotSecure``.
    """

    def __init__(self, certificate_file: str, key_file: str, look_every_s: float = _LOOK_EVERY_S) -> None:
        self._look_every_s = look_every_s
        self._files = (Path(certificate_file), Path(key_file or certificate_file))
        self._lock = threading.Lock()
        self._stamp = self._stamped()
        self._context, self._certificate = _read(*self._files)
        self._looked = time.monotonic()

    @property
    def hosts(self) -> tuple[list[str], list[str]]:
        """The names and the addresses that the certificate is for."""
        return hosts_of(self._certificate)

    def context(self, _address: str) -> ssl.SSLContext:
        """Return what to greet a device with."""
        with self._lock:
            if time.monotonic() - self._looked > self._look_every_s:
                self._looked = time.monotonic()
                self._look_again()
            return self._context

    def _look_again(self) -> None:
        stamp = self._stamped()
        if stamp == self._stamp:
            return
        try:
            self._context, self._certificate = _read(*self._files)
            self._stamp = stamp
        except NotSecure as error:
            _LOG.warning("The certificate was not renewed, and the one before is used on: %s", error)

    def _stamped(self) -> list[int]:
        return [file.stat().st_mtime_ns if file.exists() else 0 for file in self._files]


@lru_cache(maxsize=1)
def main_name(certificate_file: str) -> str | None:
    """Return the first whole name that a certificate is for; ``None`` if it has none."""
    names, _ = hosts_of(_certificate(Path(certificate_file)))
    return next((name for name in names if "*" not in name), None)


def _read(certificate_file: Path, key_file: Path) -> tuple[ssl.SSLContext, x509.Certificate]:
    certificate = _certificate(certificate_file)
    _check_key(key_file, certificate, certificate_file)
    _check_time(certificate, certificate_file)
    context = ssl.create_default_context(ssl.Purpose.CLIENT_AUTH)
    try:
        context.load_cert_chain(certificate_file, key_file)
    except (ssl.SSLError, OSError) as error:
        raise NotSecure(
            say("server.given.certificate_cannot_used", certificate_file=certificate_file, error=error)
        ) from None
    return context, certificate


def _certificate(file: Path) -> x509.Certificate:
    try:
        return x509.load_pem_x509_certificates(_content(file, "--certificate"))[0]
    except ValueError:
        raise NotSecure(say("server.given.file_not_certificate_pem", file=file)) from None


def _check_key(file: Path, certificate: x509.Certificate, certificate_file: Path) -> None:
    try:
        key = serialization.load_pem_private_key(_content(file, "--key"), None)
    except TypeError:
        raise NotSecure(say("server.given.key_locked_with_password", file=file)) from None
    except ValueError:
        raise NotSecure(say("server.given.file_has_no_private", file=file)) from None
    if key.public_key() != certificate.public_key():
        raise NotSecure(say("server.given.key_does_not_belong", file=file, certificate_file=certificate_file))


def _check_time(certificate: x509.Certificate, file: Path) -> None:
    now = datetime.now(UTC)
    if now > certificate.not_valid_after_utc:
        until = certificate.not_valid_after_utc.date()
        raise NotSecure(say("server.given.certificate_ran_out_on", file=file, until=until))
    if now < certificate.not_valid_before_utc:
        since = certificate.not_valid_before_utc.date()
        raise NotSecure(say("server.given.certificate_begins_only_on", file=file, since=since))


def _content(file: Path, option: str) -> bytes:
    try:
        return file.read_bytes()
    except OSError as error:
        raise NotSecure(
            say("server.given.file_cannot_read_choose", file=file, strerror=error.strerror, option=option)
        ) from None
