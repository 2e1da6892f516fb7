"""Edits merged field by field, as pure rules."""

from __future__ import annotations

import itertools
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from homestead.ledger.merge import Edit, Merged, merge

A, B = "0190c1a5-0000-7000-8000-00000000000a", "0190c1a5-0000-7000-8000-00000000000b"
ANNA, BELA = "0190c1a5-0000-7000-8000-0000000000aa", "0190c1a5-0000-7000-8000-0000000000bb"
_lines = itertools.count()


def edit(device: str, when: int, base: int, no: int = 1, **fields: Any) -> Edit:
    return Edit(
        base_rev=base,
        set=fields,
        when_ms=when,
        device=device,
        no=no,
        person=ANNA if device == A else BELA,
        line=f"line {next(_lines)}",
        at=f"at {when}",
    )


def after(*edits: Edit) -> Merged:
    merged = Merged(0, {}, {}, frozenset(), ())
    for one in edits:
        merged = merge(merged.rev, merged.values, merged.fields, one)
    return merged


def test_edits_of_different_fields_both_stand() -> None:
    """invariant 16"""
    made = edit(A, 1, 0, name="loft", note="")
    for order in itertools.permutations(
        [edit(A, 5, 1, 2, name="attic"), edit(B, 3, 1, note="mind the beam")]
    ):
        merged = after(made, *order)
        assert merged.values == {"name": "attic", "note": "mind the beam"}
        assert merged.conflicts == ()


def test_the_later_of_two_edits_of_one_field_stands_and_the_other_is_told() -> None:
    """invariant 17"""
    made = edit(A, 1, 0, name="loft")
    mine, theirs = edit(A, 5, 1, 2, name="attic"), edit(B, 9, 1, name="garret")
    late = after(made, mine, theirs)
    assert late.values == {"name": "garret"}
    assert late.passed_over == frozenset()
    assert late.conflicts == (
        {
            "field": "name",
            "standing": "garret",
            "other": "attic",
            "other_edit": mine.line,
            "other_person": ANNA,
            "other_at": "at 5",
            "standing_person": BELA,
        },
    )
    early = after(made, theirs, mine)
    assert early.values == {"name": "garret"}
    assert early.passed_over == {"name"}
    assert early.conflicts[0]["other_edit"] == mine.line


def test_on_a_tie_the_higher_device_stands() -> None:
    made, a, b = edit(A, 1, 0, name="loft"), edit(A, 5, 1, 2, name="attic"), edit(B, 5, 1, name="garret")
    assert after(made, a, b).values == after(made, b, a).values == {"name": "garret"}


def test_the_same_value_twice_is_no_conflict() -> None:
    made = edit(A, 1, 0, name="loft")
    merged = after(made, edit(A, 5, 1, 2, name="attic"), edit(B, 9, 1, name="attic"))
    assert merged.values == {"name": "attic"}
    assert merged.conflicts == ()


def test_ones_own_edits_are_no_conflict() -> None:
    """A phone that edits twice before it hears of the first has the same base_rev in both."""
    merged = after(
        edit(A, 1, 0, name="loft"), edit(A, 5, 0, 2, name="attic"), edit(A, 4, 0, 3, name="garret")
    )
    assert merged.values == {"name": "garret"}
    assert merged.conflicts == ()


def test_an_own_older_edit_healed_late_does_not_come_back() -> None:
    merged = after(
        edit(A, 1, 0, name="loft"), edit(A, 5, 0, 3, name="attic"), edit(A, 4, 0, 2, name="garret")
    )
    assert merged.values == {"name": "attic"}
    assert (merged.passed_over, merged.conflicts) == ({"name"}, ())


def test_a_base_beyond_the_record_counts_as_the_present_one() -> None:
    """hazard 12: after a restore phones know revisions that the server does not."""
    merged = after(edit(A, 9, 0, name="loft"), edit(B, 5, 40, name="attic"))
    assert merged.values == {"name": "attic"}
    assert merged.conflicts == ()


def test_every_edit_raises_the_revision_by_one() -> None:
    """invariant 18"""
    merged = after(edit(A, 1, 0, name="a"), edit(B, 2, 0, name="b"), edit(B, 0, 0, 1, name="c"))
    assert merged.rev == 3


EDITS = st.lists(
    st.builds(
        lambda device, when, base, field, value: (device, when, base, field, value),
        st.sampled_from([A, B]),
        st.integers(0, 20),
        st.integers(0, 5),
        st.sampled_from(["name", "note"]),
        st.integers(0, 3),
    ),
    max_size=8,
)


@given(EDITS)
def test_a_value_that_does_not_stand_was_an_older_one(told: list[tuple[str, int, int, str, int]]) -> None:
    """invariant 17: each conflict names two different values, the standing one of them is the record's."""
    merged = Merged(0, {}, {}, frozenset(), ())
    for number, (device, when, base, field, value) in enumerate(told, start=1):
        merged = merge(
            merged.rev, merged.values, merged.fields, edit(device, when, base, number, **{field: value})
        )
        assert merged.rev == number
        for conflict in merged.conflicts:
            assert conflict["standing"] == merged.values[conflict["field"]]
            assert conflict["standing"] != conflict["other"]
        assert all(stand["rev"] <= merged.rev for stand in merged.fields.values())
