"""The local authority: a root kept in the data folder, and a certificate made with it at every start."""

from __future__ import annotations

import os
import shutil
import ssl
import threading
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Final

from cryptography import x509
from cryptography.hazmat.primitives import serialization
from cryptography.hazmat.primitives.asymmetric import ec

from engine.words.spoken import say
from webapp.base.network import is_address, machine_name, own_addresses, own_names
from webapp.secure.certificates import LEAF_LIFE, Identity, fingerprint, hosts_of, make_leaf, make_root
from webapp.secure.errors import NotSecure

_RENEW_AFTER: Final = LEAF_LIFE / 2
#: With less than this left, a root is not worth trusting on one more tablet.
_ROOT_LEFT: Final = timedelta(days=30)


def folder_of(data_dir: Path) -> Path:
    """Return the folder of the authority that belongs to a data folder."""
    return data_dir / "authority"


def public_root(data_dir: Path) -> x509.Certificate | None:
    """Return the root's certificate, without its key, or ``None`` if there is none."""
    try:
        return x509.load_pem_x509_certificate((folder_of(data_dir) / "root.crt").read_bytes())
    except (OSError, ValueError):
        return None


class LocalAuthority:
    """Vouches for this machine: its names, and every address that it is called by.

    The root is made once and kept. Its private key is in a file only the owner may read, and goes nowhere.
    ``called``: one more name or address that devices may use. Raises ``NotSecure`` if what is kept cannot be
    used.
    """

    def __init__(self, data_dir: Path, called: str = "") -> None:
        self._folder = folder_of(data_dir)
        names, addresses = own_names(), own_addresses()
        if called:
            (addresses if is_address(called) else names).append(called)
        self._names = tuple(dict.fromkeys(names))
        self._addresses = dict.fromkeys(addresses)
        self._root = _load(self._folder) or _make(self._folder, self._names, tuple(self._addresses))
        self._lock = threading.Lock()
        self._renew()

    @property
    def fingerprint(self) -> list[str]:
        """The root's fingerprint, in lines to be compared by eye."""
        return fingerprint(self._root.certificate)

    @property
    def hosts(self) -> tuple[list[str], list[str]]:
        """The names and the addresses that the present certificate is for."""
        return hosts_of(self._leaf)

    def context(self, address: str) -> ssl.SSLContext:
        """Return what to greet a device with that called this machine by ``address``.

        A machine that has moved to another network since the start is vouched for there as well.
        """
        with self._lock:
            if address not in self._addresses:
                self._addresses[address] = None
                self._renew()
            elif datetime.now(UTC) > self._made + _RENEW_AFTER:
                self._renew()
            return self._context

    def _renew(self) -> None:
        self._made = datetime.now(UTC)
        leaf = make_leaf(self._root, self._names, self._addresses, self._made)
        context = ssl.create_default_context(ssl.Purpose.CLIENT_AUTH)
        file = self._folder / "server.pem"
        try:
            _write(file, leaf.key_pem() + leaf.certificate_pem())
            context.load_cert_chain(file)
        except OSError as error:
            raise NotSecure(
                say("server.authority.file_cannot_written", file=file, strerror=error.strerror)
            ) from None
        self._leaf, self._context = leaf.certificate, context


def _load(folder: Path) -> Identity | None:
    """Return the root that is kept; ``None`` if there is none, or it has run out."""
    if not folder.exists():
        return None
    try:
        certificate = x509.load_pem_x509_certificate((folder / "root.crt").read_bytes())
        key = serialization.load_pem_private_key((folder / "root.key").read_bytes(), None)
        if not isinstance(key, ec.EllipticCurvePrivateKey) or key.public_key() != certificate.public_key():
            raise ValueError(say("server.authority.key_belongs_another_certificate"))
        certificate.extensions.get_extension_for_class(x509.NameConstraints)
    except (OSError, ValueError, TypeError, x509.ExtensionNotFound) as error:
        raise NotSecure(
            say("server.authority.certificate_your_tablets_trust", folder=folder, error=error)
        ) from None
    left = certificate.not_valid_after_utc - datetime.now(UTC)
    return Identity(certificate, key) if left > _ROOT_LEFT else None


def _make(folder: Path, names: tuple[str, ...], addresses: tuple[str, ...]) -> Identity:
    root = make_root(f"Quintet on {machine_name()[:40]}", names, addresses, datetime.now(UTC))
    fresh = folder.with_name(folder.name + ".new")
    try:
        shutil.rmtree(fresh, ignore_errors=True)
        fresh.mkdir(mode=0o700, parents=True)
        _write(fresh / "root.key", root.key_pem())
        _write(fresh / "root.crt", root.certificate_pem())
        if folder.exists():
            shutil.rmtree(folder)
        fresh.rename(folder)  # both files or neither
    except OSError as error:
        raise NotSecure(
            say("server.authority.folder_cannot_written", folder=folder, strerror=error.strerror)
        ) from None
    return root


def _write(file: Path, content: bytes) -> None:
    """Write a file that only its owner may read; it is there whole or not at all."""
    part = file.with_name(file.name + ".part")
    part.unlink(missing_ok=True)
    handle = os.open(part, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    with os.fdopen(handle, "wb") as out:
        out.write(content)
        out.flush()
        os.fsync(out.fileno())
    part.replace(file)
