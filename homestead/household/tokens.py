"""Secrets of a household: device tokens, pairing codes, first keys. All kept hashed only."""

from __future__ import annotations

import hashlib
import secrets

from django.utils.crypto import salted_hmac

#: letters and digits nobody confuses: no O and 0, no I, L and 1
LETTERS = "ABCDEFGHJKMNPQRSTUVWXYZ23456789"
CODE_LENGTH = 8
FINDER_LENGTH = 3


def new_token() -> str:
    """256 bits, for a cookie."""
    return secrets.token_urlsafe(32)


def token_hash(token: str) -> str:
    """SHA-256 in hex. A token has 256 random bits, so nothing slower is needed."""
    return hashlib.sha256(token.encode()).hexdigest()


def new_code() -> str:
    return "".join(secrets.choice(LETTERS) for _ in range(CODE_LENGTH))


def tidy_code(typed: str) -> str:
    """What a person typed, without blanks and dashes, in capitals."""
    return "".join(typed.split()).replace("-", "").upper()


def code_hash(code: str) -> str:
    """Keyed with the server's secret: a code is short, and its hash alone must not give it away."""
    return salted_hmac("rounds.code", code, algorithm="sha256").hexdigest()
