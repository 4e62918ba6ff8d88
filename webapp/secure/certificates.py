"""Certificates as values: a root that may vouch for one machine only, and what it vouches for.

What browsers ask of a certificate, all from memory: a root needs a common name, or iPadOS does not list it
among those that can be trusted; a server's certificate must name its addresses in the subject alternative
name, say that it is for servers, and live 398 days at most (Apple, HT211025; 825 for roots that somebody
added himself, HT210176). Name constraints of a root are kept by Chrome since version 112, by Apple's systems
since 2018, by Windows and by OpenSSL; RFC 5280, section 4.2.1.10, says they must be critical.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta
from ipaddress import IPv4Network, IPv6Network, ip_address, ip_network
from typing import Final

from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

#: Ten years: trusting a new one is a chore on every tablet.
ROOT_LIFE: Final = timedelta(days=3650)
LEAF_LIFE: Final = timedelta(days=90)
#: A tablet's clock may be behind.
_EARLIER: Final = timedelta(days=1)

#: Addresses that mean something only in one network or on one machine (RFC 1918, 3927, 6598, 4193, 4291).
_NETWORKS: Final = tuple(
    map(
        ip_network,
        (
            "10.0.0.0/8",
            "172.16.0.0/12",
            "192.168.0.0/16",
            "169.254.0.0/16",
            "100.64.0.0/10",
            "127.0.0.0/8",
            "fc00::/7",
            "fe80::/10",
            "::1/128",
        ),
    )
)
#: Endings of names that no public authority vouches for (RFC 6761, 6762, 8375; "lan" is common practice).
_ENDINGS: Final = ("localhost", "local", "lan", "home.arpa", "internal")


@dataclass(frozen=True, slots=True)
class Identity:
    """A certificate and its private key."""

    certificate: x509.Certificate
    key: ec.EllipticCurvePrivateKey

    def certificate_pem(self) -> bytes:
        """Return the certificate as text."""
        return self.certificate.public_bytes(serialization.Encoding.PEM)

    def key_pem(self) -> bytes:
        """Return the private key as text, not encrypted."""
        return self.key.private_bytes(
            serialization.Encoding.PEM,
            serialization.PrivateFormat.PKCS8,
            serialization.NoEncryption(),
        )


def make_root(title: str, names: Iterable[str], addresses: Iterable[str], now: datetime) -> Identity:
    """Return a new root called ``title``.

    It can vouch only for local names and addresses and for those given, and only for servers: whoever steals
    its key can pretend to be no bank.
    """
    key = ec.generate_private_key(ec.SECP256R1())
    own = [ip_network(address) for address in addresses if not _local(address)]
    permitted: list[x509.GeneralName] = [x509.DNSName(name) for name in dict.fromkeys((*_ENDINGS, *names))]
    permitted += [x509.IPAddress(network) for network in (*_NETWORKS, *own)]
    builder = (
        _builder(title, title, key, now, now + ROOT_LIFE)
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .add_extension(_usage(signs_certificates=True), critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .add_extension(x509.NameConstraints(permitted, None), critical=True)
    )
    return Identity(builder.sign(key, hashes.SHA256()), key)


def make_leaf(root: Identity, names: Iterable[str], addresses: Iterable[str], now: datetime) -> Identity:
    """Return a new certificate by ``root`` for those of ``names`` and ``addresses`` it may vouch for."""
    key = ec.generate_private_key(ec.SECP256R1())
    title = title_of(root.certificate)
    known: list[x509.GeneralName] = [x509.DNSName(name) for name in names if permits(root.certificate, name)]
    known += [x509.IPAddress(ip_address(each)) for each in addresses if permits(root.certificate, each)]
    until = min(now + LEAF_LIFE, root.certificate.not_valid_after_utc)
    builder = (
        _builder("Quintet server", title, key, now, until)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(_usage(signs_certificates=False), critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .add_extension(x509.SubjectAlternativeName(known), critical=False)
        .add_extension(
            x509.AuthorityKeyIdentifier.from_issuer_public_key(root.key.public_key()), critical=False
        )
    )
    return Identity(builder.sign(root.key, hashes.SHA256()), key)


def permits(root: x509.Certificate, host: str) -> bool:
    """Whether ``root`` may vouch for a name or an address."""
    constraints = root.extensions.get_extension_for_class(x509.NameConstraints).value
    permitted = constraints.permitted_subtrees or ()
    try:
        address = ip_address(host)
    except ValueError:
        endings = [each.value for each in permitted if isinstance(each, x509.DNSName)]
        return any(host == ending or host.endswith("." + ending) for ending in endings)
    ranges = [each.value for each in permitted if isinstance(each, x509.IPAddress)]
    return any(address in each for each in ranges if isinstance(each, IPv4Network | IPv6Network))


def hosts_of(certificate: x509.Certificate) -> tuple[list[str], list[str]]:
    """Return the names and the addresses that a certificate is for."""
    try:
        found = certificate.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    except x509.ExtensionNotFound:
        return [], []
    addresses = [str(address) for address in found.get_values_for_type(x509.IPAddress)]
    return found.get_values_for_type(x509.DNSName), addresses


def title_of(certificate: x509.Certificate) -> str:
    """Return what a device calls a certificate in its lists."""
    return str(certificate.subject.get_attributes_for_oid(NameOID.COMMON_NAME)[0].value)


def fingerprint(certificate: x509.Certificate) -> list[str]:
    """Return the SHA-256 of a certificate as devices show it, pairs of hexadecimal digits, in four lines."""
    found = certificate.fingerprint(hashes.SHA256())
    return [found[start : start + 8].hex(" ").upper() for start in range(0, len(found), 8)]


def _local(address: str) -> bool:
    found = ip_address(address)
    return any(found in network for network in _NETWORKS)


def _builder(
    subject: str, issuer: str, key: ec.EllipticCurvePrivateKey, since: datetime, until: datetime
) -> x509.CertificateBuilder:
    return (
        x509.CertificateBuilder()
        .subject_name(x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, subject)]))
        .issuer_name(x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, issuer)]))
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(since - _EARLIER)
        .not_valid_after(until)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
    )


def _usage(*, signs_certificates: bool) -> x509.KeyUsage:
    return x509.KeyUsage(
        digital_signature=not signs_certificates,
        key_cert_sign=signs_certificates,
        crl_sign=signs_certificates,
        content_commitment=False,
        key_encipherment=False,
        data_encipherment=False,
        key_agreement=False,
        encipher_only=False,
        decipher_only=False,
    )
