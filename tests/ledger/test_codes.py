"""Lot numbers: a block for each phone, topped up, and one from the server where a phone had none left."""

from __future__ import annotations

from homestead.household.models import Household
from homestead.household.phones import Numbers
from homestead.ledger.models import Line, Record
from tests.lines import Family, Phone, Written


def begun(phone: Phone, space: str, code: str | None) -> Written:
    return phone.write("begun", {"space": space} | ({"code": code} if code else {}))


def codes(family: Family) -> list[str]:
    return [record.values["code"] for record in Record.rows.of(family.household).filter(type="lot")]


def test_each_phone_has_40_numbers_of_its_own(family: Family) -> None:
    blocks = [phone.push().codes for phone in family.phones.values()]
    given = [number for block in blocks for number in range(block.first, block.last + 1)]
    assert len(given) == len(set(given)) == 40 * len(blocks)


def test_an_empty_push_tops_up_a_block_that_runs_low(family: Family, space: str) -> None:
    phone = family.phones["adult"]
    first = phone.push().codes
    for number in range(first.first, first.first + 21):
        phone.push(begun(phone, space, f"K{number}"))
    again = phone.push().codes
    assert again.first > first.last
    assert again.last - again.first == 39
    assert phone.push().codes == again


def test_a_reply_that_was_lost_costs_no_numbers(family: Family) -> None:
    phone = family.phones["adult"]
    assert phone.push().codes == phone.push().codes


def test_a_phone_that_tells_it_has_few_gets_more_though_none_was_on_a_lot_yet(family: Family) -> None:
    """Numbers on blank labels are used up: only the phone knows."""
    phone = family.phones["adult"]
    first = phone.push().codes
    told = phone.push(numbers=Numbers(left=20, to=first.last)).codes
    assert (told.first > first.last, told.last - told.first) == (True, 39)
    assert phone.push(numbers=Numbers(left=60, to=told.last)).codes == told


def test_a_phone_that_missed_its_newest_block_hears_of_it_and_gets_no_other(family: Family) -> None:
    phone = family.phones["adult"]
    first = phone.push().codes
    told = phone.push(numbers=Numbers(left=3, to=first.last)).codes
    assert phone.push(numbers=Numbers(left=3, to=first.last)).codes == told


def test_the_server_gives_a_number_where_the_phone_had_none(family: Family, space: str) -> None:
    phone = family.phones["keeper"]
    phone.push(phone.edit("household", str(family.household.pk), {"code_prefix": "W-"}, base=1))
    next_code = Household.objects.get(pk=family.household.pk).next_code
    line = begun(phone, space, None)
    phone.push(line)
    assert codes(family) == [f"W-{next_code}"]
    assert Line.rows.of(family.household).get(uuid=line["id"]).given == f'{{"code":"W-{next_code}"}}'
    assert "code" not in line["body"]


def test_two_lots_with_one_code_both_stand(family: Family, space: str) -> None:
    one, two = family.phones["keeper"], family.phones["adult"]
    receipts = [*one.push(begun(one, space, "K7")).receipts, *two.push(begun(two, space, "K7")).receipts]
    assert [receipt.result for receipt in receipts] == ["accepted", "accepted"]
    assert codes(family) == ["K7", "K7"]


def test_a_number_told_by_a_phone_is_not_given_again(family: Family, space: str) -> None:
    """After a restore the server's counter is behind what phones have used."""
    phone = family.phones["adult"]
    ahead = Household.objects.get(pk=family.household.pk).next_code + 100
    phone.push(begun(phone, space, f"K{ahead}"))
    assert Household.objects.get(pk=family.household.pk).next_code == ahead + 1


def test_a_scheme_of_ones_own_does_not_move_the_counter(family: Family, space: str) -> None:
    phone = family.phones["adult"]
    before = Household.objects.get(pk=family.household.pk).next_code
    phone.push(begun(phone, space, "2026112501"), begun(phone, space, "blue"))
    assert Household.objects.get(pk=family.household.pk).next_code == before
