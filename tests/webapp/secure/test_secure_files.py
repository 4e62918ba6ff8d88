"""HTTPS with certificate files that somebody gives: used, renewed, and refused in a sentence."""

from __future__ import annotations

import ssl
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from cryptography import x509
from cryptography.hazmat.primitives.serialization import BestAvailableEncryption, Encoding, PrivateFormat

from tests.server import DidNotStart, Servers
from tests.webapp.screens import Device, screen, viewing_path
from webapp.secure.certificates import LEAF_LIFE, Identity, make_leaf, make_root
from webapp.secure.errors import NotSecure
from webapp.secure.given import GivenCertificate

NOW = datetime.now(UTC)
NAME = "board.example"


@pytest.fixture(scope="module")
def root() -> Identity:
    """Stands for a public authority."""
    return make_root("An authority", [NAME], [], NOW - timedelta(days=400))


@pytest.fixture
def files(tmp_path: Path, root: Identity) -> tuple[Path, Path]:
    """A certificate and its key, in files."""
    return written(tmp_path, make_leaf(root, [NAME], ["127.0.0.1"], NOW))


def written(folder: Path, leaf: Identity) -> tuple[Path, Path]:
    certificate, key = folder / "fullchain.pem", folder / "privkey.pem"
    certificate.write_bytes(leaf.certificate_pem())
    key.write_bytes(leaf.key_pem())
    return certificate, key


def test_a_board_is_played_over_given_files(
    live_server: Servers, tmp_path: Path, files: tuple[Path, Path], root: Identity
) -> None:
    certificate, key = files
    options = ("--local-network", "--certificate", str(certificate), "--key", str(key))
    server = live_server(tmp_path / "data", *options)
    assert server.secure_name == NAME
    context = ssl.create_default_context(cadata=root.certificate_pem().decode())
    device = Device(server.over_tls(context))
    device.open_coaching_link(server.coach_url)
    # Coaches are sent to the name in the certificate, players to where no certificate is needed.
    assert device.share("coach")["url"].startswith(f"https://{NAME}:{server.secure_port}/c/")
    link = device.share()
    assert link["url"].startswith(f"{server.url}/v/")
    with device.coach() as coach, screen(server, viewing_path(link)) as phone:
        coach.change("fresh")
        coach.act("pass:right_wing")
        assert phone.wait("step")["step"]["a"] == ["pass:right_wing"]
    assert not (tmp_path / "data" / "authority").exists()


def test_the_key_may_be_in_the_same_file(files: tuple[Path, Path]) -> None:
    certificate, key = files
    certificate.write_bytes(certificate.read_bytes() + key.read_bytes())
    assert GivenCertificate(str(certificate), "").hosts == ([NAME], ["127.0.0.1"])


def test_files_renewed_on_the_disk_are_used_from_then_on(
    tmp_path: Path, files: tuple[Path, Path], root: Identity, caplog: pytest.LogCaptureFixture
) -> None:
    certificate, key = files
    given = GivenCertificate(str(certificate), str(key), look_every_s=0)
    first = given.context("127.0.0.1")
    assert given.context("127.0.0.1") is first
    written(tmp_path, make_leaf(root, [f"new.{NAME}"], [], NOW))
    assert given.context("127.0.0.1") is not first
    assert given.hosts == ([f"new.{NAME}"], [])
    # In the middle of being written they do not fit together; what is there already serves on.
    second = given.context("127.0.0.1")
    key.write_text("-----BEGIN")
    assert given.context("127.0.0.1") is second
    assert "was not renewed" in caplog.text


def _lock_key(certificate: Path, key: Path, root: Identity) -> None:
    locked = make_leaf(root, [NAME], [], NOW)
    form = (Encoding.PEM, PrivateFormat.PKCS8, BestAvailableEncryption(b"secret"))
    key.write_bytes(locked.key.private_bytes(*form))


def _old(certificate: Path, key: Path, root: Identity) -> None:
    written(certificate.parent, make_leaf(root, [NAME], [], NOW - LEAF_LIFE - timedelta(days=1)))


def _early(certificate: Path, key: Path, root: Identity) -> None:
    written(certificate.parent, make_leaf(root, [NAME], [], NOW + timedelta(days=9)))


def _der(certificate: Path, key: Path, root: Identity) -> None:
    found = x509.load_pem_x509_certificate(certificate.read_bytes())
    certificate.write_bytes(found.public_bytes(Encoding.DER))


def _exchange(certificate: Path, key: Path, root: Identity) -> None:
    key.write_bytes(make_leaf(root, [NAME], [], NOW).key_pem())


Spoil = Callable[[Path, Path, Identity], object]
NO_GOOD: dict[str, tuple[Spoil, str]] = {
    "no certificate": (
        lambda certificate, _key, _root: certificate.unlink(),
        "The file {certificate} cannot be read (No such file or directory); choose another with --cert",
    ),
    "no key": (
        lambda _certificate, key, _root: key.unlink(),
        "The file {key} cannot be read (No such file or directory); choose another with --key.",
    ),
    "another form": (_der, "The file {certificate} is not a certificate in PEM form"),
    "the files exchanged": (
        lambda certificate, key, _root: (certificate.rename(f"{key}.x"), key.rename(certificate)),
        "The file {certificate} is not a certificate in PEM form",
    ),
    "a key that is none": (
        lambda _certificate, key, _root: key.write_text("hello"),
        "The file {key} has no private key in PEM form",
    ),
    "a key with a password": (_lock_key, "The key in {key} is locked with a password;"),
    "another's key": (_exchange, "The key in {key} does not belong to the certificate in {certificate};"),
    "run out": (_old, "The certificate in {certificate} ran out on "),
    "not yet": (_early, "The certificate in {certificate} begins only on "),
}


@pytest.mark.parametrize(("spoil", "sentence"), NO_GOOD.values(), ids=NO_GOOD)
def test_files_that_are_no_good_are_refused_in_a_sentence(
    files: tuple[Path, Path], root: Identity, spoil: Spoil, sentence: str
) -> None:
    certificate, key = files
    spoil(certificate, key, root)
    with pytest.raises(NotSecure) as refused:
        GivenCertificate(str(certificate), str(key))
    assert str(refused.value).startswith(sentence.format(certificate=certificate, key=key))
    assert str(refused.value).endswith(".")
    assert "\n" not in str(refused.value)


def test_the_server_says_the_sentence_and_no_more(live_server: Servers, tmp_path: Path) -> None:
    with pytest.raises(DidNotStart) as refused:
        live_server(tmp_path / "data", "--certificate", "/nowhere/fullchain.pem")
    assert refused.value.status == 1
    assert refused.value.error == (
        "The file /nowhere/fullchain.pem cannot be read (No such file or directory); choose another with "
        "--certificate.\n"
    )
