"""A certificate authority of the household's own: phones that trust it can use the app with no signal.

It can vouch for this computer's one name and number and for nothing else (RFC 5280 section 4.2.1.10), so a
phone that trusts it gives nothing else away. A leaf is good for 820 days, under the 825 that phones accept.
"""

from __future__ import annotations

import datetime as dt
import ipaddress
import os
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

from homestead.jobs.addresses import Addresses

LEAF_DAYS = 820
AUTHORITY_DAYS = 3650
#: a leaf is made anew when less is left
RENEW_DAYS = 60


@dataclass(frozen=True)
class Folder:
    """Where the four files lie. Keys are readable by their owner alone."""

    path: Path

    @property
    def authority(self) -> Path:
        return self.path / "authority.crt"

    @property
    def authority_key(self) -> Path:
        return self.path / "authority.key"

    @property
    def leaf(self) -> Path:
        return self.path / "this-computer.crt"

    @property
    def leaf_key(self) -> Path:
        return self.path / "this-computer.key"


def ensure(folder: Folder, addresses: Addresses, now: dt.datetime) -> bool:
    """Make what is missing, too old or for another number. True when phones must trust a new authority.

    The authority is kept as long as it may vouch for the name. A number it may not vouch for is left out of
    the leaf: phones that use the name go on as before.
    """
    made = not _authority_serves(folder, addresses.name, now)
    if made:
        _make_authority(folder, addresses, now)
    names = _vouched(folder, addresses)
    if made or not _leaf_serves(folder, names, now):
        _make_leaf(folder, names, now)
    return made


def names_of(certificate: Path) -> list[str]:
    """The names and numbers a leaf is for."""
    names = _read(certificate).extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    return [str(name.value) for name in names]


def _authority_serves(folder: Folder, name: str, now: dt.datetime) -> bool:
    if not (folder.authority.exists() and folder.authority_key.exists()):
        return False
    authority = _read(folder.authority)
    lasts = authority.not_valid_after_utc - now > dt.timedelta(days=LEAF_DAYS)
    return lasts and name in _allowed(authority)


def _allowed(authority: x509.Certificate) -> list[str]:
    constraints = authority.extensions.get_extension_for_class(x509.NameConstraints).value
    return [str(name.value).removesuffix("/32") for name in constraints.permitted_subtrees or []]


def _vouched(folder: Folder, addresses: Addresses) -> list[str]:
    allowed = _allowed(_read(folder.authority))
    return [name for name in (addresses.name, *addresses.numbers) if name in allowed]


def _leaf_serves(folder: Folder, names: Sequence[str], now: dt.datetime) -> bool:
    if not (folder.leaf.exists() and folder.leaf_key.exists()) or names_of(folder.leaf) != list(names):
        return False
    return _read(folder.leaf).not_valid_after_utc - now > dt.timedelta(days=RENEW_DAYS)


def _make_authority(folder: Folder, addresses: Addresses, now: dt.datetime) -> None:
    key = ec.generate_private_key(ec.SECP256R1())
    subject = _called(f"Winter Rounds at {addresses.name}")
    # With no number named at all, every number would be allowed: so its own, which no phone can reach.
    numbers = addresses.numbers or ("127.0.0.1",)
    permitted: list[x509.GeneralName] = [x509.DNSName(addresses.name)]
    permitted += [x509.IPAddress(ipaddress.ip_network(number)) for number in numbers]
    built = (
        _begun(subject, subject, key.public_key(), now, AUTHORITY_DAYS)
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .add_extension(x509.NameConstraints(permitted, None), critical=True)
        .add_extension(_usage(signs_certificates=True), critical=True)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
    )
    _keep(folder.authority_key, _key_text(key), 0o600)
    _keep(folder.authority, built.sign(key, hashes.SHA256()).public_bytes(serialization.Encoding.PEM), 0o644)


def _make_leaf(folder: Folder, names: Sequence[str], now: dt.datetime) -> None:
    authority = _read(folder.authority)
    signing = serialization.load_pem_private_key(folder.authority_key.read_bytes(), None)
    assert isinstance(signing, ec.EllipticCurvePrivateKey)
    key = ec.generate_private_key(ec.SECP256R1())
    built = (
        _begun(_called(names[0]), authority.subject, key.public_key(), now, LEAF_DAYS)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(x509.SubjectAlternativeName([_general(name) for name in names]), critical=False)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .add_extension(_usage(signs_certificates=False), critical=True)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
        .add_extension(
            x509.AuthorityKeyIdentifier.from_issuer_public_key(signing.public_key()), critical=False
        )
    )
    _keep(folder.leaf_key, _key_text(key), 0o600)
    _keep(folder.leaf, built.sign(signing, hashes.SHA256()).public_bytes(serialization.Encoding.PEM), 0o644)


def _begun(
    subject: x509.Name, issuer: x509.Name, key: ec.EllipticCurvePublicKey, now: dt.datetime, days: int
) -> x509.CertificateBuilder:
    """Valid from a day ago, for phones whose clock is behind."""
    return (
        x509.CertificateBuilder()
        .subject_name(subject)
        .issuer_name(issuer)
        .public_key(key)
        .serial_number(x509.random_serial_number())
        .not_valid_before(now - dt.timedelta(days=1))
        .not_valid_after(now + dt.timedelta(days=days - 1))
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


def _called(name: str) -> x509.Name:
    return x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, name[:64])])


def _general(name: str) -> x509.GeneralName:
    try:
        return x509.IPAddress(ipaddress.ip_address(name))
    except ValueError:
        return x509.DNSName(name)


def _read(certificate: Path) -> x509.Certificate:
    return x509.load_pem_x509_certificate(certificate.read_bytes())


def _key_text(key: ec.EllipticCurvePrivateKey) -> bytes:
    return key.private_bytes(
        serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption()
    )


def _keep(path: Path, content: bytes, mode: int) -> None:
    """Whole or not at all, and never readable by others for a moment."""
    path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
    fresh = path.with_suffix(path.suffix + ".new")
    fresh.unlink(missing_ok=True)
    with open(os.open(fresh, os.O_WRONLY | os.O_CREAT | os.O_EXCL, mode), "wb") as out:
        out.write(content)
    fresh.replace(path)
