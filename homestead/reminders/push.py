"""Notices to a browser: encrypted for it alone (RFC 8291, RFC 8188), signed for its push service (RFC 8292).

Plain bytes and keys in, bytes and headers out; nothing here sends.
"""

from __future__ import annotations

import base64
import json
import secrets
from urllib.parse import urlsplit

from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.asymmetric.utils import decode_dss_signature
from cryptography.hazmat.primitives.ciphers.aead import AESGCM
from cryptography.hazmat.primitives.kdf.hkdf import HKDF
from cryptography.hazmat.primitives.serialization import Encoding, PublicFormat

CURVE = ec.SECP256R1()
#: one record holds a whole notice (RFC 8188 section 2.1) [bytes]
RECORD_SIZE = 4096
#: header 86, padding delimiter 1, tag 16 (RFC 8291 section 4) [bytes]
MOST_PLAIN = RECORD_SIZE - 103
#: a signature holds so long; a day at most (RFC 8292 section 2) [s]
SIGNED_FOR = 12 * 3600


class BadPushKeys(ValueError):
    """What a browser gave as its keys are none."""


def b64(raw: bytes) -> str:
    """base64url without padding (RFC 7515 section 2)."""
    return base64.urlsafe_b64encode(raw).rstrip(b"=").decode()


def unb64(text: str) -> bytes:
    """Raises BadPushKeys where it is not base64url."""
    try:
        return base64.b64decode(text + "=" * (-len(text) % 4), altchars=b"-_", validate=True)
    except ValueError as bad:
        raise BadPushKeys("not base64url") from bad


def point_of(key: ec.EllipticCurvePublicKey) -> bytes:
    """65 bytes, uncompressed."""
    return key.public_bytes(Encoding.X962, PublicFormat.UncompressedPoint)


def check_keys(p256dh: str, auth: str) -> None:
    """Raises BadPushKeys: a point of P-256, and 16 bytes."""
    _browser_key(unb64(p256dh))
    if len(unb64(auth)) != 16:
        raise BadPushKeys("an authentication secret has 16 bytes")


def encrypt(plain: bytes, p256dh: str, auth: str) -> bytes:
    """The body of one notice, with a key pair and a salt used this once."""
    return encrypt_with(
        plain, unb64(p256dh), unb64(auth), ec.generate_private_key(CURVE), secrets.token_bytes(16)
    )


def encrypt_with(
    plain: bytes, browser: bytes, auth: bytes, own: ec.EllipticCurvePrivateKey, salt: bytes
) -> bytes:
    """RFC 8291 sections 3.3, 3.4 and 4; the header is that of RFC 8188 section 2.1.

    browser: its public point [65 bytes]; auth, salt: [16 bytes]. Raises ValueError over 3,993 bytes.
    """
    if len(plain) > MOST_PLAIN:
        raise ValueError(f"A notice holds {MOST_PLAIN} bytes at most.")
    own_point = point_of(own.public_key())
    shared = own.exchange(ec.ECDH(), _browser_key(browser))
    key_info = b"WebPush: info\0" + browser + own_point
    secret = _hkdf(auth, shared, key_info, 32)
    key = _hkdf(salt, secret, b"Content-Encoding: aes128gcm\0", 16)
    nonce = _hkdf(salt, secret, b"Content-Encoding: nonce\0", 12)
    header = salt + RECORD_SIZE.to_bytes(4, "big") + bytes([len(own_point)]) + own_point
    return header + AESGCM(key).encrypt(nonce, plain + b"\x02", None)


def _browser_key(point: bytes) -> ec.EllipticCurvePublicKey:
    try:
        return ec.EllipticCurvePublicKey.from_encoded_point(CURVE, point)
    except ValueError as bad:
        raise BadPushKeys("not a point of P-256") from bad


def _hkdf(salt: bytes, secret: bytes, info: bytes, length: int) -> bytes:
    """RFC 5869 with SHA-256."""
    return HKDF(algorithm=hashes.SHA256(), length=length, salt=salt, info=info).derive(secret)


def server_key(secret: str) -> ec.EllipticCurvePrivateKey:
    """The key this server signs with, worked out from its secret, so that no other file must be kept.

    48 bytes of HKDF reduced to the order of P-256: the bias is under 2^-128 (FIPS 186-5 A.2.1, memory).
    """
    wide = int.from_bytes(_hkdf(b"", secret.encode(), b"winter rounds push", 48), "big")
    order = 0xFFFFFFFF00000000FFFFFFFFFFFFFFFFBCE6FAADA7179E84F3B9CAC2FC632551
    return ec.derive_private_key(wide % (order - 1) + 1, CURVE)


def signed(endpoint: str, key: ec.EllipticCurvePrivateKey, subject: str, now: int) -> str:
    """The header `Authorization` (RFC 8292 section 3). subject: `mailto:` or `https:`; now: [s]."""
    asked = urlsplit(endpoint)
    claims = {"aud": f"{asked.scheme}://{asked.netloc}", "exp": now + SIGNED_FOR, "sub": subject}
    head = b64(_compact({"typ": "JWT", "alg": "ES256"}))
    text = f"{head}.{b64(_compact(claims))}"
    r, s = decode_dss_signature(key.sign(text.encode(), ec.ECDSA(hashes.SHA256())))
    token = f"{text}.{b64(r.to_bytes(32, 'big') + s.to_bytes(32, 'big'))}"
    return f"vapid t={token}, k={b64(point_of(key.public_key()))}"


def _compact(told: dict[str, object]) -> bytes:
    return json.dumps(told, separators=(",", ":")).encode()
