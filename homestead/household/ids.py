"""Ids the server itself makes, of the same sort as the phones' (RFC 9562, section 5.7)."""

from __future__ import annotations

import secrets
import uuid


def uuid7(unix_ms: int, random_bits: int | None = None) -> uuid.UUID:
    """A UUIDv7 of that millisecond. `random_bits` are the 74 bits `rand_a`, `rand_b`; drawn unless given."""
    bits = secrets.randbits(74) if random_bits is None else random_bits
    rand_a, rand_b = bits >> 62, bits & ((1 << 62) - 1)
    return uuid.UUID(int=unix_ms << 80 | 0x7 << 76 | rand_a << 64 | 0b10 << 62 | rand_b)
