"""The canonical text of a line and its hash, against published vectors."""

from __future__ import annotations

import hashlib
import json
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from homestead.ledger.envelope import DEEPEST, body_hash, canonical, check_plain, is_plain
from homestead.ledger.kinds import Refused

#: RFC 8785, section 3.2.2 (the sample) and 3.2.3 (sorting), as printed there; written from memory of the RFC
SAMPLE = r"""{
  "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
  "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
  "literals": [null, true, false]
}"""
SAMPLE_CANONICAL = (
    '{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],'
    '"string":"€$\\u000f\\nA\'B\\"\\\\\\\\\\"/"}'
)
SORTING = r"""{
  "\u20ac": "Euro Sign",
  "\r": "Carriage Return",
  "\ufb33": "Hebrew Letter Dalet With Dagesh",
  "1": "One",
  "\ud83d\ude00": "Emoji: Grinning Face",
  "\u0080": "Control",
  "\u00f6": "Latin Small Letter O With Diaeresis"
}"""
SORTED_VALUES = [
    "Carriage Return",
    "One",
    "Control",
    "Latin Small Letter O With Diaeresis",
    "Euro Sign",
    "Emoji: Grinning Face",
    "Hebrew Letter Dalet With Dagesh",
]
#: FIPS 180-4 examples (SHA-256 of "abc", of the two-block message, of the empty message); from memory
SHA_256 = [
    (b"abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"),
    (
        b"abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq",
        "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1",
    ),
    (b"", "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"),
]


def test_the_sample_of_the_rfc_is_written_as_the_rfc_writes_it() -> None:
    assert canonical(json.loads(SAMPLE)).decode() == SAMPLE_CANONICAL


def test_names_are_sorted_by_utf_16_code_units() -> None:
    assert list(json.loads(canonical(json.loads(SORTING))).values()) == SORTED_VALUES


@pytest.mark.parametrize(("message", "digest"), SHA_256)
def test_the_hash_is_sha_256(message: bytes, digest: str) -> None:
    assert hashlib.sha256(message).hexdigest() == digest


def test_the_body_hash_is_that_of_the_canonical_text() -> None:
    line = {"b": 1.0, "a": "ä"}
    assert body_hash(line) == hashlib.sha256('{"a":"ä","b":1}'.encode()).hexdigest()
    assert body_hash(dict(reversed(line.items()))) == body_hash(line)


@given(st.integers(-999_999_999_999, 999_999_999_999).map(lambda thousandths: thousandths / 1000))
def test_a_number_taken_has_at_most_nine_digits_and_three_decimals(number: float) -> None:
    """Both languages write the same digits: no exponent is ever needed (ECMA-262, Number::toString)."""
    check_plain(number)
    text = canonical(number).decode()
    whole, _, decimals = text.lstrip("-").partition(".")
    assert "e" not in text
    assert len(whole) <= 9
    assert len(decimals) <= 3
    assert float(text) == number


@pytest.mark.parametrize("wrong", [1e9, -1e9, 0.0001, 1.2345, float("inf"), float("nan"), 10**30, 1e-9])
def test_other_numbers_are_refused(wrong: float) -> None:
    with pytest.raises(Refused) as caught:
        check_plain({"a": [wrong]})
    assert (caught.value.code, caught.value.facts) == ("number", {"where": "a.0"})


JSON = st.recursive(
    st.none()
    | st.booleans()
    | st.integers(-(10**6), 10**6)
    | st.text(st.characters(codec="utf-8"), max_size=8),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=4), inner, max_size=3),
    max_leaves=10,
)


@given(JSON)
def test_canonical_text_read_again_is_the_same_value(value: Any) -> None:
    try:
        check_plain(value)
    except Refused:
        return
    assert json.loads(canonical(value)) == value


def passes(value: Any) -> bool:
    try:
        check_plain(value)
    except Refused:
        return False
    return True


ODD = st.sampled_from(
    ["\x00", "a\ud800", "\udfff", 1e9, -1e9, 0.5, 0.0001, float("nan"), float("inf"), 10**30]
)
NESTED = st.recursive(
    JSON | ODD,
    lambda inner: (
        st.lists(inner, max_size=2) | st.dictionaries(st.text(max_size=2) | st.just("\ud800"), inner)
    ),
    max_leaves=6,
)


@given(NESTED)
def test_the_quick_look_says_what_the_long_one_says(value: Any) -> None:
    assert is_plain(value) is passes(value)


@pytest.mark.parametrize("levels", range(DEEPEST - 2, DEEPEST + 3))
@pytest.mark.parametrize("leaf", [1, [], {}, None])
def test_the_quick_look_counts_the_same_levels(levels: int, leaf: Any) -> None:
    value = leaf
    for _ in range(levels):
        value = {"in": value}
    assert is_plain(value) is passes(value)
