"""A server put back to an earlier state, and phones that bring back what it lost."""

from __future__ import annotations

import json
import uuid
from typing import Any

from django.db import transaction

from homestead.household.models import Household
from homestead.ledger.actions import begin_epoch, note_erased
from homestead.ledger.models import Line, Record
from homestead.ledger.reads import lacking, pull, records_of
from tests.lines import NOW, Family, Phone, Written, new_id


def pulled(family: Family) -> list[dict[str, Any]]:
    household = Household.objects.get(pk=family.household.pk)
    return [json.loads(row) for row in pull(household, household.epoch, 0).rows]


def recovered(row: dict[str, Any]) -> dict[str, Any]:
    return {"written": row["written"], "recovered": {"clock_skew_ms": row["clock_skew_ms"]}}


class Backup(Exception):
    """Raised to put the database back to where a savepoint was."""


def lose(write: Any) -> Any:
    """What `write` did is undone again, as by a restore from a backup; its result stays, as on a phone."""
    kept: list[Any] = []
    try:
        with transaction.atomic():
            kept.append(write())
            raise Backup
    except Backup:
        return kept[0]


def test_phones_bring_back_what_a_restored_server_lost(family: Family, lot: str) -> None:
    """hazard 12, invariant 21: entries, a new space, a lot in it, edits; by a phone that wrote none."""
    writer, healer = family.phones["adult"], family.phones["rounds"]

    def write() -> tuple[list[dict[str, Any]], list[dict[str, Any]]]:
        space = new_id()
        begun = writer.write("begun", {"space": space, "code": "K7"})
        looks = [writer.write("looked", {"lot": lot, "count": n}) for n in range(5)]
        writer.push(
            writer.edit("space", space, {"name": "Loft"}),
            begun,
            *looks,
            writer.edit("space", space, {"note": "dry"}, base=1),
            writer.strike(looks[0]["id"]),
            sent_at=NOW.replace(day=24),
        )
        return pulled(family), records_of(family.household.pk)

    rows, records = lose(write)
    begin_epoch(family.household.pk)
    held = [uuid.UUID(row["written"]["id"]) for row in rows]
    missing, erased = lacking(family.household.pk, held)
    assert len(missing) == 9
    assert erased == []
    lost = [row for row in rows if uuid.UUID(row["written"]["id"]) in missing]
    receipts = healer.push(*(recovered(row) for row in lost)).receipts
    assert {one.result for one in receipts} == {"accepted"}
    assert records_of(family.household.pk) == records
    now = {row["written"]["id"]: row for row in pulled(family)}
    for row in rows:
        again = now[row["written"]["id"]]
        assert again["written"] == row["written"]
        assert again["body_hash"] == row["body_hash"]
        assert again["clock_skew_ms"] == row["clock_skew_ms"]
    healed = Line.rows.of(family.household).filter(recovered_by=healer.device.pk)
    assert healed.count() == 9


def test_both_phones_may_bring_the_same_lines(family: Family, lot: str) -> None:
    """hazard 12"""
    writer = family.phones["adult"]
    line = writer.write("looked", {"lot": lot, "count": 1})
    lose(lambda: writer.push(line))
    begin_epoch(family.household.pk)
    item = {"written": line, "recovered": {"clock_skew_ms": 0}}
    first = family.phones["rounds"].push(item).receipts[0]
    second = writer.push(item).receipts[0]
    assert (first.result, second.result, first.seq) == ("accepted", "duplicate", second.seq)


def test_an_edit_with_a_base_the_server_no_longer_knows_is_taken(family: Family, space: str) -> None:
    """hazard 12: a base_rev beyond the restored one counts as the present one."""
    phone = family.phones["adult"]
    [receipt] = phone.push(phone.edit("space", space, {"name": "Loft"}, base=40)).receipts
    assert (receipt.result, receipt.rev, receipt.conflicts) == ("accepted", 2, ())


def test_without_a_reset_nobody_brings_other_peoples_lines(family: Family, lot: str) -> None:
    child = family.phones["child"]
    forged = family.phones["keeper"].write("looked", {"lot": lot, "count": 1})
    item = {"written": forged, "recovered": {"clock_skew_ms": 0}}
    [receipt] = child.push(item).receipts
    assert (receipt.code, receipt.permanent) == ("person_not_here", False)


def test_an_erased_line_is_not_taken_again(family: Family, lot: str) -> None:
    phone = family.phones["adult"]
    line = phone.write("looked", {"lot": lot, "count": 1})
    note_erased(family.household.pk, [uuid.UUID(line["id"])], now=NOW)
    begin_epoch(family.household.pk)
    assert lacking(family.household.pk, [uuid.UUID(line["id"])]) == ([], [uuid.UUID(line["id"])])
    [receipt] = phone.push(line).receipts
    assert (receipt.code, receipt.permanent) == ("erased", True)


def test_a_phone_away_for_400_days_sends_and_pulls_all_the_same(family: Family, lot: str) -> None:
    """hazard 13: nothing expires and nothing is hard-deleted."""
    away, busy = family.phones["adult"], family.phones["keeper"]
    unsent = away.write("looked", {"lot": lot, "count": 1})
    cursor = pulled(family)[-1]["seq"]
    lots = begin_many(busy, Record.rows.of(family.household).get(type="space").uuid, 20)
    for day in range(20):
        busy.push(busy.strike(lots[day]["id"]), now=NOW.replace(month=12))
    later = NOW.replace(year=2027, month=12, day=30)
    [receipt] = away.push(unsent, now=later).receipts
    assert receipt.result == "accepted"
    household = Household.objects.get(pk=family.household.pk)
    behind = [json.loads(row)["seq"] for row in pull(household, 1, cursor).rows]
    assert behind == list(range(cursor + 1, household.next_seq))


def begin_many(phone: Phone, space: uuid.UUID, count: int) -> list[Written]:
    lines = [phone.write("begun", {"space": str(space)}) for _ in range(count)]
    assert {one.result for one in phone.push(*lines).receipts} == {"accepted"}
    return lines
