"""Certificates for phones, judged by OpenSSL through Python's ssl: another reader than the writer."""

from __future__ import annotations

import datetime as dt
import socket
import ssl
import stat
import threading
from pathlib import Path

import pytest
from cryptography import x509
from cryptography.hazmat.primitives.asymmetric import ec

from homestead.jobs import certificates
from homestead.jobs.addresses import Addresses
from homestead.jobs.certificates import Folder

HERE = Addresses("cellar.local", ("192.0.2.7",))
NOW = dt.datetime.now(dt.UTC)


@pytest.fixture
def folder(tmp_path: Path) -> Folder:
    made = Folder(tmp_path / "certificates")
    assert certificates.ensure(made, HERE, NOW)
    return made


def shake_hands(folder: Folder, name: str, authority: Path | None = None) -> str:
    """A phone that trusts the authority opens the door as `name`; the protocol they agree on."""
    inside = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    inside.load_cert_chain(folder.leaf, folder.leaf_key)
    phone = ssl.create_default_context(cafile=str(authority or folder.authority))
    ours, theirs = socket.socketpair()
    with ours, theirs:
        server = threading.Thread(target=_serve, args=(inside, ours))
        server.start()
        try:
            with phone.wrap_socket(theirs, server_hostname=name) as opened:
                return opened.version() or ""
        finally:
            theirs.close()
            server.join(timeout=10)


def _serve(inside: ssl.SSLContext, ours: socket.socket) -> None:
    try:
        inside.wrap_socket(ours, server_side=True).close()
    except (ssl.SSLError, OSError):
        ours.close()


@pytest.mark.parametrize("name", ["cellar.local", "192.0.2.7"])
def test_a_phone_that_trusts_the_authority_opens_the_door(folder: Folder, name: str) -> None:
    assert shake_hands(folder, name) == "TLSv1.3"


def test_a_phone_that_does_not_trust_it_stays_out(folder: Folder, tmp_path: Path) -> None:
    stranger = Folder(tmp_path / "stranger")
    certificates.ensure(stranger, HERE, NOW)
    with pytest.raises(ssl.SSLCertVerificationError):
        shake_hands(folder, "cellar.local", authority=stranger.authority)


@pytest.mark.parametrize("name", ["bank.example", "other.local", "192.0.2.8"])
def test_the_authority_cannot_vouch_for_anything_else(folder: Folder, name: str) -> None:
    """Even one who stole its key gains nothing: OpenSSL holds the name constraints of RFC 5280 4.2.1.10."""
    certificates._make_leaf(folder, [name], NOW)
    with pytest.raises(ssl.SSLCertVerificationError, match="permitted subtree violation"):
        shake_hands(folder, name)


def test_an_authority_made_without_a_network_vouches_for_no_number(tmp_path: Path) -> None:
    folder = Folder(tmp_path)
    certificates.ensure(folder, Addresses("cellar.local", ()), NOW)
    assert shake_hands(folder, "cellar.local")
    certificates._make_leaf(folder, ["192.0.2.7"], NOW)
    with pytest.raises(ssl.SSLCertVerificationError, match="permitted subtree violation"):
        shake_hands(folder, "192.0.2.7")


def test_the_leaf_is_as_phones_ask(folder: Folder) -> None:
    """At most 825 days, serverAuth, names in SAN: Apple's page HT210176, from memory. P-256 is ours."""
    leaf = x509.load_pem_x509_certificate(folder.leaf.read_bytes())
    assert leaf.not_valid_after_utc - leaf.not_valid_before_utc <= dt.timedelta(days=825)
    usage = leaf.extensions.get_extension_for_class(x509.ExtendedKeyUsage).value
    assert x509.oid.ExtendedKeyUsageOID.SERVER_AUTH in usage
    assert certificates.names_of(folder.leaf) == ["cellar.local", "192.0.2.7"]
    key = leaf.public_key()
    assert isinstance(key, ec.EllipticCurvePublicKey)
    assert key.curve.name == "secp256r1"


def test_a_second_start_makes_nothing_anew(folder: Folder) -> None:
    before = folder.leaf.read_bytes()
    assert not certificates.ensure(folder, HERE, NOW + dt.timedelta(days=300))
    assert folder.leaf.read_bytes() == before


def test_an_old_leaf_is_made_anew_and_phones_need_not_trust_again(folder: Folder) -> None:
    before = folder.authority.read_bytes(), folder.leaf.read_bytes()
    assert not certificates.ensure(folder, HERE, NOW + dt.timedelta(days=770))
    assert folder.authority.read_bytes() == before[0]
    assert folder.leaf.read_bytes() != before[1]


def test_another_number_leaves_the_authority_and_the_name(folder: Folder) -> None:
    moved = Addresses("cellar.local", ("192.0.2.99",))
    assert not certificates.ensure(folder, moved, NOW)
    assert certificates.names_of(folder.leaf) == ["cellar.local"]
    assert shake_hands(folder, "cellar.local")


def test_another_name_needs_another_authority(folder: Folder) -> None:
    assert certificates.ensure(folder, Addresses("loft.local", ("192.0.2.7",)), NOW)


def test_keys_are_for_their_owner_alone(folder: Folder) -> None:
    for key in (folder.authority_key, folder.leaf_key):
        assert stat.S_IMODE(key.stat().st_mode) == 0o600
