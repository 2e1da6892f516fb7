"""Ids the server makes."""

from __future__ import annotations

import uuid

from hypothesis import given
from hypothesis import strategies as st

from homestead.household.ids import uuid7


def test_it_makes_the_id_of_the_rfc() -> None:
    """RFC 9562, appendix A.6: 2022-02-22 14:22:22.00 -05:00; from memory."""
    rand_a, rand_b = 0xCC3, 0x18C4DC0C0C07398F
    assert uuid7(0x017F22E279B0, rand_a << 62 | rand_b) == uuid.UUID("017f22e2-79b0-7cc3-98c4-dc0c0c07398f")


@given(st.integers(0, 2**48 - 1))
def test_it_says_its_version_variant_and_millisecond(unix_ms: int) -> None:
    """RFC 9562, section 5.7"""
    made = uuid7(unix_ms)
    assert (made.version, made.variant) == (7, uuid.RFC_4122)
    assert made.int >> 80 == unix_ms
    assert uuid7(unix_ms) != made
