"""A phone's store copied to another phone: both go on, each as a device of its own."""

from __future__ import annotations

import copy

from homestead.household.models import Device
from homestead.ledger.models import Line
from tests.lines import NOW, Family, Phone


def as_renewed(phone: Phone, device: Device) -> Phone:
    return Phone(device, "", phone.writer, phone.number)


def test_two_copies_of_a_store_end_as_two_devices_with_all_kept(family: Family, lot: str) -> None:
    """hazard 11, invariant 24"""
    one = family.phones["adult"]
    one.push(one.write("looked", {"lot": lot, "count": 1}))
    two = copy.copy(one)
    mine, theirs = (
        one.write("looked", {"lot": lot, "count": 2}),
        two.write("looked", {"lot": lot, "count": 3}),
    )
    assert mine["device_no"] == theirs["device_no"]
    before = Device.rows.of(family.household).count()
    assert one.push(mine).renewed is None
    pushed = two.push(theirs)
    assert pushed.receipts[0].result == "accepted"
    assert pushed.renewed
    assert Device.rows.of(family.household).count() == before + 1
    renewed = as_renewed(two, pushed.renewed.device)
    later = [phone.write("looked", {"lot": lot, "count": 4}) for phone in (one, renewed)]
    replies = [one.push(later[0]), renewed.push(later[1])]
    assert [reply.renewed for reply in replies] == [None, None]
    kept = {str(line) for line in Line.rows.of(family.household).values_list("uuid", flat=True)}
    assert {mine["id"], theirs["id"], later[0]["id"], later[1]["id"]} <= kept
    assert later[1]["device_no"] == theirs["device_no"] + 1


def test_a_lost_reply_makes_no_third_device(family: Family, lot: str) -> None:
    """hazard 11 with hazard 1: the copy sends again what was taken, and is told of the same new device."""
    one = family.phones["adult"]
    two = copy.copy(one)
    one.push(one.write("looked", {"lot": lot, "count": 2}))
    theirs = two.write("looked", {"lot": lot, "count": 3})
    first, again = two.push(theirs), two.push(theirs)
    assert first.renewed
    assert again.renewed
    assert again.receipts[0].result == "duplicate"
    assert again.renewed.device.pk == first.renewed.device.pk
    assert again.renewed.token != first.renewed.token


def test_the_renewed_device_has_lot_numbers_of_its_own(family: Family, lot: str) -> None:
    one = family.phones["adult"]
    two = copy.copy(one)
    first = one.push(one.write("looked", {"lot": lot, "count": 2})).codes
    second = two.push(two.write("looked", {"lot": lot, "count": 3})).codes
    assert second.first > first.last


def test_a_mended_line_is_no_sign_of_a_copy(family: Family, lot: str) -> None:
    phone = family.phones["adult"]
    line = phone.write("looked", {"lot": lot, "count": -1})
    assert phone.push(line).renewed is None
    mended = phone.write("looked", {"lot": lot, "count": 1}, id=line["id"])
    assert phone.push(mended).renewed is None


def test_lines_of_another_device_brought_back_are_no_sign_of_a_copy(family: Family, lot: str) -> None:
    from homestead.ledger.actions import begin_epoch

    begin_epoch(family.household.pk)
    one, two = family.phones["adult"], family.phones["rounds"]
    item = {"written": one.write("looked", {"lot": lot, "count": 1}), "recovered": {"clock_skew_ms": 0}}
    assert two.push(item, now=NOW).renewed is None
