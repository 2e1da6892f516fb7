"""Lines of older and newer builds."""

from __future__ import annotations

import uuid

from homestead.ledger.reads import entries_of
from tests.lines import Family


def test_an_unsent_line_of_an_older_schema_is_taken_and_its_body_left_alone(family: Family, lot: str) -> None:
    """hazard 27, invariant 41"""
    phone = family.phones["adult"]
    old = phone.write("looked", {"lot": lot, "count": 4}, schema=1)
    new = phone.write("looked", {"lot": lot, "pieces": 4}, schema=2)
    assert [one.result for one in phone.push(old, new).receipts] == ["accepted", "accepted"]
    found = entries_of(family.household.pk, [uuid.UUID(line["id"]) for line in (old, new)])
    assert [entry.body.pieces for entry in found.values()] == [4, 4]
    assert found[uuid.UUID(old["id"])].schema == 1


def test_a_field_of_a_newer_schema_is_not_taken_under_an_older_one(family: Family, lot: str) -> None:
    phone = family.phones["adult"]
    [receipt] = phone.push(phone.write("looked", {"lot": lot, "weight": 4}, schema=1)).receipts
    assert receipt.facts["where"] == "body.weight"


def test_a_line_of_a_newer_schema_waits_on_the_phone(family: Family, lot: str) -> None:
    phone = family.phones["adult"]
    [receipt] = phone.push(phone.write("looked", {"lot": lot}, schema=3)).receipts
    assert (receipt.code, receipt.permanent) == ("schema_newer", False)
    assert receipt.facts == {"schema": 3, "newest": 2}
