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
        raise NotSecure(f"The certificate in {certificate_file} cannot be used ({error}).") from None
    return context, certificate


def _certificate(file: Path) -> x509.Certificate:
    try:
        return x509.load_pem_x509_certificates(_content(file, "--certificate"))[0]
    except ValueError:
        raise NotSecure(
            f"The file {file} is not a certificate in PEM form (text that begins with BEGIN CERTIFICATE); "
            "choose another with --certificate."
        ) from None


def _check_key(file: Path, certificate: x509.Certificate, certificate_file: Path) -> None:
    try:
        key = serialization.load_pem_private_key(_content(file, "--key"), None)
    except TypeError:
        raise NotSecure(
            f"The key in {file} is locked with a password; give one without, which only you can read."
        ) from None
    except ValueError:
        raise NotSecure(
            f"The file {file} has no private key in PEM form (text that begins with BEGIN PRIVATE KEY); "
            "choose another with --key."
        ) from None
    if key.public_key() != certificate.public_key():
        raise NotSecure(
            f"The key in {file} does not belong to the certificate in {certificate_file}; give the two that "
            "were made together."
        )


def _check_time(certificate: x509.Certificate, file: Path) -> None:
    now = datetime.now(UTC)
    if now > certificate.not_valid_after_utc:
        until = certificate.not_valid_after_utc.date()
        raise NotSecure(f"The certificate in {file} ran out on {until}; renew it and start again.")
    if now < certificate.not_valid_before_utc:
        since = certificate.not_valid_before_utc.date()
        raise NotSecure(f"The certificate in {file} begins only on {since}; look at this computer's clock.")


def _content(file: Path, option: str) -> bytes:
    try:
        return file.read_bytes()
    except OSError as error:
        raise NotSecure(
            f"The file {file} cannot be read ({error.strerror}); choose another with {option}."
        ) from None
