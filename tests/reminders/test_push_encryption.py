"""Notices are encrypted and signed as the RFCs say: checked against their own example values."""

from __future__ import annotations

import json

import pytest
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.asymmetric.utils import encode_dss_signature
from cryptography.hazmat.primitives.ciphers.aead import AESGCM
from cryptography.hazmat.primitives.kdf.hkdf import HKDF

from homestead.reminders.push import (
    CURVE,
    MOST_PLAIN,
    BadPushKeys,
    b64,
    check_keys,
    encrypt,
    encrypt_with,
    point_of,
    server_key,
    signed,
    unb64,
)

# RFC 8291 section 5 and appendix A (seen).
PLAIN = b"When I grow up, I want to be a watermelon"
AS_PRIVATE = "yfWPiYE-n46HLnH0KqZOF1fJJU3MYrct3AELtAQ-oRw"
AS_PUBLIC = "BP4z9KsN6nGRTbVYI_c7VJSPQTBtkgcy27mlmlMoZIIgDll6e3vCYLocInmYWAmS6TlzAC8wEqKK6PBru3jl7A8"
UA_PRIVATE = "q1dXpw3UpT5VOmu_cf_v6ih07Aems3njxI-JWgLcM94"
UA_PUBLIC = "BCVxsr7N_eNgVRqvHtD0zTZsEc6-VV-JvLexhqUzORcxaOzi6-AYWXvTBHm4bjyPjs7Vd8pZGH6SRpkNtoIAiw4"
AUTH = "BTBZMqHH6r4Tts7J_aSIgg"
SALT = "DGv6ra1nlYgDCS1FRnbzlw"
BODY = (
    "DGv6ra1nlYgDCS1FRnbzlwAAEABBBP4z9KsN6nGRTbVYI_c7VJSPQTBtkgcy27mlmlMoZIIgDll6e3vCYLocInmYWAmS6TlzAC8w"
    "EqKK6PBru3jl7A_yl95bQpu6cVPTpK4Mqgkf1CXztLVBSt2Ks3oZwbuwXPXLWyouBWLVWGNWQexSgSxsj_Qulcy4a-fN"
)


def private(text: str) -> ec.EllipticCurvePrivateKey:
    return ec.derive_private_key(int.from_bytes(unb64(text), "big"), CURVE)


def test_a_notice_is_the_rfcs_own_example_byte_for_byte() -> None:
    own = private(AS_PRIVATE)
    assert b64(point_of(own.public_key())) == AS_PUBLIC
    assert b64(encrypt_with(PLAIN, unb64(UA_PUBLIC), unb64(AUTH), own, unb64(SALT))) == BODY


def opened(body: bytes, browser: ec.EllipticCurvePrivateKey, auth: bytes) -> bytes:
    """As a browser opens it, written from RFC 8188 and 8291 apart from what is tested."""
    salt, length = body[:16], body[20]
    sender, sealed = body[21 : 21 + length], body[21 + length :]
    shared = browser.exchange(ec.ECDH(), ec.EllipticCurvePublicKey.from_encoded_point(CURVE, sender))
    info = b"WebPush: info\x00" + point_of(browser.public_key()) + sender
    ikm = HKDF(hashes.SHA256(), 32, auth, info).derive(shared)
    key = HKDF(hashes.SHA256(), 16, salt, b"Content-Encoding: aes128gcm\x00").derive(ikm)
    nonce = HKDF(hashes.SHA256(), 12, salt, b"Content-Encoding: nonce\x00").derive(ikm)
    return AESGCM(key).decrypt(nonce, sealed, None)


def test_only_the_browser_it_is_for_opens_it() -> None:
    browser = private(UA_PRIVATE)
    body = encrypt("Heute 2 Sachen für dich.".encode(), UA_PUBLIC, AUTH)
    assert opened(body, browser, unb64(AUTH)) == "Heute 2 Sachen für dich.\x02".encode()
    assert int.from_bytes(body[16:20], "big") == 4096
    another = encrypt("Heute 2 Sachen für dich.".encode(), UA_PUBLIC, AUTH)
    assert another[:86] != body[:86], "a salt and a key pair are used once"


def test_a_notice_fills_one_record_at_most() -> None:
    """RFC 8291 section 4: 4,096 octets less header, delimiter and tag."""
    assert MOST_PLAIN == 3993
    assert len(encrypt(b"x" * MOST_PLAIN, UA_PUBLIC, AUTH)) == 4096
    with pytest.raises(ValueError, match="3993"):
        encrypt(b"x" * (MOST_PLAIN + 1), UA_PUBLIC, AUTH)


@pytest.mark.parametrize(
    ("p256dh", "auth"),
    [("", AUTH), ("not base64!", AUTH), (AS_PRIVATE, AUTH), (UA_PUBLIC, ""), (UA_PUBLIC, AUTH[:-4])],
)
def test_keys_that_are_none_are_refused(p256dh: str, auth: str) -> None:
    check_keys(UA_PUBLIC, AUTH)
    with pytest.raises(BadPushKeys):
        check_keys(p256dh, auth)


def test_a_push_service_can_check_who_signed() -> None:
    """RFC 8292 sections 2 and 3: the scheme `vapid`, a token by ES256, the key beside it, a day at most."""
    key = server_key("some secret of forty characters and a few more")
    header = signed("https://push.example.net/send/abc?x=1", key, "mailto:rounds@example.net", 1_790_000_000)
    scheme, _, rest = header.partition(" ")
    parts = dict(one.strip().split("=", 1) for one in rest.split(","))
    assert scheme == "vapid"
    assert unb64(parts["k"]) == point_of(key.public_key())
    head, claims, signature = parts["t"].split(".")
    assert json.loads(unb64(head)) == {"typ": "JWT", "alg": "ES256"}
    told = json.loads(unb64(claims))
    assert told["aud"] == "https://push.example.net"
    assert told["sub"] == "mailto:rounds@example.net"
    assert 0 < told["exp"] - 1_790_000_000 <= 24 * 3600
    raw = unb64(signature)
    assert len(raw) == 64
    der = encode_dss_signature(int.from_bytes(raw[:32], "big"), int.from_bytes(raw[32:], "big"))
    key.public_key().verify(der, f"{head}.{claims}".encode(), ec.ECDSA(hashes.SHA256()))


def test_the_servers_key_stays_as_long_as_its_secret() -> None:
    one, again, other = (server_key(secret * 50) for secret in "aab")
    assert point_of(one.public_key()) == point_of(again.public_key()) != point_of(other.public_key())
