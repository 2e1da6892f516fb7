"""What becomes of pushed lines."""

from __future__ import annotations

import json
import uuid

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from homestead.household.errors import CannotDo
from homestead.household.models import Household
from homestead.ledger.envelope import body_hash
from homestead.ledger.models import Feed, Line
from tests.lines import Family, Written, new_id
from tests.small_kinds import settled, touched

LATER = "2026-11-25T11:00:00.000+01:00"


def seqs(family: Family) -> list[int]:
    return list(Line.rows.of(family.household).order_by("seq").values_list("seq", flat=True))


def test_it_gives_new_lines_the_next_numbers_without_a_gap(family: Family, lot: str) -> None:
    """invariant 4"""
    phone = family.phones["adult"]
    before = Household.objects.get(pk=family.household.pk).next_seq
    push = phone.push(*(phone.write("looked", {"lot": lot, "count": n}) for n in (1, 2, 3)))
    assert [(one.result, one.seq) for one in push.receipts] == [
        ("accepted", before),
        ("accepted", before + 1),
        ("accepted", before + 2),
    ]
    assert seqs(family) == list(range(1, before + 3))


def test_it_keeps_the_line_as_it_was_written(family: Family, lot: str) -> None:
    """invariant 3"""
    phone = family.phones["adult"]
    written = phone.write("looked", {"lot": lot, "pieces": 2.5}, schema=2, photos=["ab" * 32])
    phone.push(written)
    kept = Line.rows.of(family.household).get(uuid=written["id"])
    assert json.loads(kept.written) == written
    assert kept.body_hash == body_hash(written)
    row = json.loads(Feed.rows.of(family.household).get(seq=kept.seq).payload)
    assert row["written"] == written
    assert body_hash(row["written"]) == row["body_hash"]


def test_it_answers_a_line_sent_twice_with_the_number_it_has(family: Family, lot: str) -> None:
    """hazard 1, hazard 5, invariant 5"""
    phone = family.phones["adult"]
    line = phone.write("looked", {"lot": lot, "count": 1})
    first = phone.push(line).receipts[0]
    count = Line.everywhere.count()
    settled.clear()
    again = phone.push(line, line).receipts
    assert [(one.result, one.seq) for one in again] == [("duplicate", first.seq)] * 2
    assert Line.everywhere.count() == count
    assert settled == []


def test_it_writes_a_line_once_that_stands_twice_in_one_push(family: Family, lot: str) -> None:
    """invariant 5"""
    phone = family.phones["adult"]
    line = phone.write("looked", {"lot": lot, "count": 1})
    receipts = phone.push(line, line).receipts
    assert [one.result for one in receipts] == ["accepted", "duplicate"]
    assert receipts[0].seq == receipts[1].seq


def test_it_never_overwrites_a_line_whose_id_is_used_again(family: Family, lot: str) -> None:
    phone = family.phones["adult"]
    line = phone.write("looked", {"lot": lot, "count": 1})
    phone.push(line)
    [receipt] = phone.push(line | {"body": {"lot": lot, "count": 2}}).receipts
    assert (receipt.result, receipt.code, receipt.permanent) == ("refused", "id_reused", True)
    assert json.loads(Line.rows.of(family.household).get(uuid=line["id"]).written) == line


def test_it_takes_nine_when_one_of_ten_is_wrong(family: Family, lot: str) -> None:
    """hazard 7, invariant 14"""
    phone = family.phones["adult"]
    lines = [phone.write("looked", {"lot": lot, "count": n}) for n in range(10)]
    lines[3]["body"]["count"] = -1
    receipts = phone.push(*lines).receipts
    assert [one.result for one in receipts].count("accepted") == 9
    assert receipts[3].result == "refused"
    assert receipts[3].facts["where"] == "body.pieces"
    assert len(seqs(family)) == seqs(family)[-1]


def test_it_takes_nine_when_one_of_ten_cannot_be_settled(family: Family, lot: str) -> None:
    """invariant 14: a fault of ours holds up no phone, and the line waits on it."""
    phone = family.phones["adult"]
    lines = [phone.write("looked", {"lot": lot, "count": n}) for n in range(10)]
    lines[3]["body"]["count"] = 66
    settled.clear()
    receipts = phone.push(*lines).receipts
    assert [one.result for one in receipts].count("accepted") == 9
    assert (receipts[3].code, receipts[3].permanent) == ("not_settled", False)
    assert seqs(family) == list(range(1, len(seqs(family)) + 1))
    assert not Line.rows.of(family.household).filter(uuid=lines[3]["id"]).exists()


def test_it_numbers_the_lines_of_one_phone_in_their_order(family: Family, lot: str) -> None:
    """invariant 10"""
    phone = family.phones["adult"]
    phone.push(*(phone.write("looked", {"lot": lot, "count": n}) for n in range(5)))
    numbers = Line.rows.of(family.household).filter(device=phone.device.pk).order_by("seq")
    assert list(numbers.values_list("device_no", flat=True)) == [1, 2, 3, 4, 5]


def test_a_kind_may_refuse_with_a_reason(family: Family, lot: str) -> None:
    phone = family.phones["adult"]
    [receipt] = phone.push(phone.write("looked", {"lot": lot, "count": 13})).receipts
    assert (receipt.code, receipt.permanent, receipt.facts) == ("never", True, {"pieces": 13})


def test_it_refuses_what_it_does_not_know(family: Family) -> None:
    phone = family.phones["adult"]
    kind, record_type = phone.push(
        phone.write("dreamt", {}), phone.edit("weather", new_id(), {"name": "Fog"})
    ).receipts
    assert (kind.code, record_type.code) == ("unknown_kind", "unknown_type")


def test_a_line_of_another_household_is_not_taken(family: Family, lot: str) -> None:
    phone = family.phones["adult"]
    line = phone.write("looked", {"lot": lot, "count": 1}, household=str(uuid.uuid4()))
    assert phone.push(line).receipts[0].code == "other_household"


def test_a_lot_can_be_used_in_the_push_that_begins_it(family: Family, space: str) -> None:
    phone = family.phones["adult"]
    lot = phone.write("begun", {"space": space})
    receipts = phone.push(lot, phone.write("looked", {"lot": lot["id"], "count": 2})).receipts
    assert [one.result for one in receipts] == ["accepted", "accepted"]


def test_a_record_can_be_used_in_the_push_that_makes_it(family: Family) -> None:
    phone, space = family.phones["adult"], new_id()
    receipts = phone.push(
        phone.edit("space", space, {"name": "Loft"}), phone.write("begun", {"space": space})
    ).receipts
    assert [one.result for one in receipts] == ["accepted", "accepted"]


def test_what_needs_a_refused_line_is_refused_and_can_go_back_with_it(family: Family, space: str) -> None:
    phone = family.phones["adult"]
    lot = phone.write("begun", {"space": space, "grams": -5})
    look = phone.write("looked", {"lot": lot["id"], "count": 2})
    parent, child = phone.push(lot, look).receipts
    assert (parent.result, child.code, child.permanent) == ("refused", "parent_refused", True)
    mended = lot | {"body": {"space": space, "grams": 5}, "device_no": 77}
    assert [one.result for one in phone.push(mended, look | {"device_no": 78}).receipts] == ["accepted"] * 2


def test_a_child_of_a_line_that_waits_waits_too(family: Family) -> None:
    phone = family.phones["adult"]
    lot = phone.write("begun", {"space": new_id()})
    parent, child = phone.push(lot, phone.write("looked", {"lot": lot["id"], "count": 2})).receipts
    assert (parent.code, parent.permanent) == ("unknown_reference", False)
    assert (child.code, child.permanent) == ("parent_refused", False)


def test_it_tells_followers_which_lots_were_touched(family: Family, space: str, lot: str) -> None:
    phone = family.phones["adult"]
    touched.clear()
    phone.push(phone.write("looked", {"lot": lot, "count": 1}), phone.edit("lot", lot, {"label": "sweet"}))
    [told] = touched
    assert told.lots == {uuid.UUID(lot)}
    assert told.records == {("lot", uuid.UUID(lot))}
    assert [entry.kind for entry in told.entries] == ["looked"]


def test_it_tells_followers_nothing_when_nothing_was_written(family: Family) -> None:
    touched.clear()
    family.phones["adult"].push()
    assert touched == []


def test_more_than_200_lines_are_too_many(family: Family) -> None:
    phone = family.phones["adult"]
    with pytest.raises(CannotDo, match="201 lines") as caught:
        phone.push(*({"written": {}} for _ in range(201)))
    assert caught.value.code == "too_many_lines"


@pytest.mark.parametrize(
    ("item", "code"),
    [
        (None, "shape"),
        ([], "shape"),
        ("line", "shape"),
        ({"written": []}, "shape"),
        ({"written": {}, "more": 1}, "shape"),
        ({"written": {"id": 5}}, "shape"),
    ],
)
def test_an_item_that_is_no_line_gets_a_receipt_without_an_id(
    family: Family, item: object, code: str
) -> None:
    phone = family.phones["adult"]
    wrapped = item if isinstance(item, dict) else {"written": item}
    [receipt] = phone.push(wrapped).receipts
    assert (receipt.id, receipt.result, receipt.code) == (None, "refused", code)


CHANGES: list[tuple[Written, str, str]] = [
    ({"id": "0190C1A5-0000-7000-8000-000000000001"}, "shape", "id"),
    ({"device_no": 0}, "shape", "device_no"),
    ({"device_no": 1.5}, "shape", "device_no"),
    ({"happened_at": "2026-11-25"}, "shape", "happened_at"),
    ({"happened_at": "2026-11-25T10:24:53.1234+01:00"}, "shape", "happened_at"),
    ({"happened_at": "2026-11-25T10:24:53"}, "shape", "happened_at"),
    ({"happened_at": "0001-01-01T00:00:00+14:00"}, "shape", "happened_at"),
    ({"happened_at": "2026-02-30T00:00:00Z"}, "shape", "happened_at"),
    ({"dated": "guess"}, "shape", "dated"),
    ({"photos": ["x"]}, "shape", "photos.0"),
    ({"photos": ["ab" * 32] * 7}, "shape", "photos"),
    ({"with": None}, "shape", "with"),
    ({"schema": 9}, "schema_newer", ""),
    ({"strikes": "0190c1a5-0000-7000-8000-000000000001"}, "shape", "strikes"),
    ({"kind": "strike", "body": {}}, "shape", "strikes"),
    ({"colour": "red"}, "shape", "colour"),
    ({"body": {"lot": "?", "count": 1}}, "shape", "body.lot"),
    ({"body": {"count": 1}}, "shape", "body.lot"),
    ({"body": {"lot": "LOT", "temp_f": 40}}, "shape", "body.temp_f"),
    ({"body": {"lot": "LOT", "count": 100_001}}, "shape", "body.pieces"),
    ({"body": {"lot": "LOT", "count": 1e9}}, "number", "body.count"),
    ({"body": {"lot": "LOT", "count": 0.0001}}, "number", "body.count"),
    ({"body": {"lot": "LOT", "count": "3"}}, "shape", "body.pieces"),
    ({"body": {"lot": "LOT", "note": "a\0b"}}, "text", "body.note"),
    ({"body": {"lot": "LOT", "note": "\ud800"}}, "text", "body.note"),
    ({"body": {"lot": "LOT", "note": "x" * 70_000}}, "too_large", ""),
    ({"body": {"lot": "LOT", "a": [[[[[[[[[[[[[[]]]]]]]]]]]]]]}}, "too_deep", "body.a.0.0.0.0.0.0.0.0.0.0.0"),
    ({"body": []}, "shape", "body"),
]


@pytest.mark.parametrize(("change", "code", "where"), CHANGES)
def test_a_line_that_does_not_fit_is_told_where(
    family: Family, lot: str, change: Written, code: str, where: str
) -> None:
    phone = family.phones["adult"]
    line = phone.write("looked", {"lot": lot, "count": 1}) | json.loads(
        json.dumps(change).replace("LOT", lot)
    )
    good = phone.write("looked", {"lot": lot, "count": 1})
    refused, accepted = phone.push(line, good).receipts
    assert (refused.result, refused.code) == ("refused", code)
    assert refused.facts.get("where", "") == where
    assert refused.message
    assert accepted.result == "accepted"


SENDINGS = st.lists(st.tuples(st.integers(0, 8), st.integers(0, 8)), max_size=6)


@settings(max_examples=30, suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None)
@given(sendings=SENDINGS)
def test_any_grouping_and_repeating_gives_the_same_ledger(
    family: Family, lot: str, sendings: list[tuple[int, int]]
) -> None:
    """invariant 5: whatever the batches, and however often lines are sent, each is there once, in order."""
    phone = family.phone("adult")
    lines = [phone.write("looked", {"lot": lot, "count": n}) for n in range(8)]
    sent = 0
    for start, length in [*sendings, (0, 8)]:
        batch = lines[min(start, sent) : max(start, sent) + length]
        phone.push(*batch)
        sent = max(sent, lines.index(batch[-1]) + 1) if batch else sent
    kept = Line.rows.of(family.household).filter(device=phone.device.pk).order_by("seq")
    assert [str(one) for one in kept.values_list("uuid", flat=True)] == [one["id"] for one in lines]
