"""Edits of records as they are pushed, kept, and told to other phones."""

from __future__ import annotations

import json
import uuid
from typing import Any

import pytest

from homestead.household.models import Household, Person
from homestead.ledger.models import Feed, Record
from homestead.ledger.reads import history_of, records_of
from tests.lines import Family, new_id
from tests.small_kinds import settled


def row(family: Family, seq: int | None) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(Feed.rows.of(family.household).get(seq=seq).payload)
    return found


def test_an_edit_makes_a_record_and_tells_what_it_came_to(family: Family) -> None:
    phone, space = family.phones["adult"], new_id()
    [receipt] = phone.push(phone.edit("space", space, {"name": "Loft", "order": 2})).receipts
    assert (receipt.result, receipt.rev) == ("accepted", 1)
    told = row(family, receipt.seq)
    assert told["type"] == "edit"
    assert told["outcome"] == {
        "type": "space",
        "record": space,
        "values": {"name": "Loft", "order": 2},
        "rev": 1,
        "field_revs": {"name": 1, "order": 1},
    }
    assert settled[-1] == ("space", "Loft")


def test_an_edit_sent_twice_does_not_raise_the_revision(family: Family, space: str) -> None:
    """invariant 18"""
    phone = family.phones["adult"]
    line = phone.edit("space", space, {"name": "Loft"}, base=1)
    phone.push(line)
    again = phone.push(line).receipts[0]
    assert (again.result, again.rev) == ("duplicate", None)
    assert Record.rows.of(family.household).get(type="space").rev == 2


def test_two_phones_edit_one_field_and_both_are_told(family: Family, space: str) -> None:
    """invariant 17"""
    mine, theirs = family.phones["adult"], family.phones["keeper"]
    later = {"happened_at": "2026-11-25T10:30:00.000+01:00"}
    mine.push(mine.edit("space", space, {"name": "Attic"}, base=1, **later))
    [receipt] = theirs.push(theirs.edit("space", space, {"name": "Garret", "order": 3}, base=1)).receipts
    assert receipt.result == "accepted"
    [conflict] = receipt.conflicts
    assert (conflict["field"], conflict["standing"], conflict["other"]) == ("name", "Attic", "Garret")
    assert conflict["other_person"] == theirs.writer
    outcome = row(family, receipt.seq)["outcome"]
    assert outcome["values"] == {"name": "Attic", "order": 3}
    assert outcome["conflicts"] == [dict(conflict)]


def test_the_value_passed_over_stays_in_the_history(family: Family, space: str) -> None:
    """invariant 17"""
    mine, theirs = family.phones["adult"], family.phones["keeper"]
    later = {"happened_at": "2026-11-25T10:30:00.000+01:00"}
    mine.push(mine.edit("space", space, {"name": "Attic"}, base=1, **later))
    theirs.push(theirs.edit("space", space, {"name": "Garret"}, base=1))
    told = [
        (one["value"], one["stood"]) for one in history_of(family.household.pk, "space", uuid.UUID(space))
    ]
    assert told == [("Root cellar", True), ("Attic", True), ("Garret", False)]


def test_a_slow_clock_is_corrected_before_edits_are_compared(family: Family, space: str) -> None:
    """hazard 10: the later edit stands, by the skew-corrected time."""
    slow, right = family.phones["adult"], family.phones["keeper"]
    three_days_ago = "2026-11-22T10:40:00.000+01:00"
    from tests.lines import NOW

    slow.push(
        slow.edit("space", space, {"name": "Attic"}, base=1, happened_at=three_days_ago),
        sent_at=NOW.replace(day=22),
    )
    right.push(right.edit("space", space, {"name": "Garret"}, base=1))
    assert records_of(family.household.pk, "space")[0]["values"]["name"] == "Attic"


def test_nothing_archived_disappears_from_the_ledger(family: Family, space: str, lot: str) -> None:
    """hazard 5, invariant 20: archived is a field, and what names the space is still taken."""
    phone = family.phones["adult"]
    phone.push(phone.edit("space", space, {"archived": True}, base=1))
    again = phone.push(
        phone.write("begun", {"space": space}), phone.edit("space", space, {"order": 9}, base=2)
    )
    assert [one.result for one in again.receipts] == ["accepted", "accepted"]
    [record] = records_of(family.household.pk, "space")
    assert record["values"] == {"name": "Root cellar", "archived": True, "order": 9}


@pytest.mark.parametrize(
    ("values", "code", "where"),
    [
        ({"name": ""}, "shape", "body.set.name"),
        ({"name": None}, "shape", "body.set.name"),
        ({"colour": "red"}, "shape", "body.set.colour"),
        ({"order": "2"}, "shape", "body.set.order"),
        ({}, "shape", "body.set"),
    ],
)
def test_an_edit_that_does_not_fit_is_told_where(
    family: Family, space: str, values: dict[str, Any], code: str, where: str
) -> None:
    phone = family.phones["adult"]
    [receipt] = phone.push(phone.edit("space", space, values, base=1)).receipts
    assert (receipt.result, receipt.code, receipt.facts["where"]) == ("refused", code, where)


def test_a_record_cannot_be_made_without_what_it_must_have(family: Family) -> None:
    phone = family.phones["adult"]
    [receipt] = phone.push(phone.edit("space", new_id(), {"order": 1})).receipts
    assert receipt.facts["where"] == "body.set.name"


def test_a_field_is_cleared_with_null(family: Family, space: str) -> None:
    phone = family.phones["adult"]
    phone.push(phone.edit("space", space, {"note": "damp"}, base=1))
    phone.push(phone.edit("space", space, {"note": None}, base=2))
    assert records_of(family.household.pk, "space")[0]["values"]["note"] is None


def test_a_lot_is_not_made_by_an_edit(family: Family) -> None:
    phone = family.phones["adult"]
    [receipt] = phone.push(phone.edit("lot", new_id(), {"label": "?"})).receipts
    assert (receipt.code, receipt.permanent) == ("unknown_reference", False)


def test_a_lots_record_begins_with_its_entry(family: Family, space: str) -> None:
    phone = family.phones["adult"]
    line = phone.write("begun", {"space": space, "code": "K7"})
    [receipt] = phone.push(line).receipts
    outcome = row(family, receipt.seq)["outcome"]
    assert (outcome["type"], outcome["record"], outcome["values"]) == ("lot", line["id"], {"code": "K7"})
    [edited] = phone.push(phone.edit("lot", line["id"], {"label": "sweet"}, base=0)).receipts
    assert (edited.rev, edited.conflicts) == (2, ())


def test_an_own_edit_of_what_the_birth_told_is_no_conflict(family: Family, space: str) -> None:
    """A phone offline edits its own new lot: it has heard of no revision yet."""
    phone = family.phones["adult"]
    line = phone.write("begun", {"space": space, "code": "K7"})
    receipts = phone.push(line, phone.edit("lot", line["id"], {"code": "K8"})).receipts
    assert [one.conflicts for one in receipts] == [(), ()]
    assert records_of(family.household.pk, "lot")[0]["values"] == {"code": "K8"}


def test_the_households_own_fields_reach_its_table(family: Family) -> None:
    phone, household = family.phones["keeper"], str(family.household.pk)
    values = {"name": "High Croft", "zone": "Pacific/Auckland", "hemisphere": "south", "country": "NZ"}
    phone.push(phone.edit("household", household, values, base=1))
    kept = Household.objects.get(pk=family.household.pk)
    assert (kept.name, kept.zone, kept.hemisphere, kept.country) == (
        "High Croft",
        "Pacific/Auckland",
        "south",
        "NZ",
    )


def test_an_unknown_time_zone_is_refused(family: Family) -> None:
    phone, household = family.phones["keeper"], str(family.household.pk)
    [receipt] = phone.push(phone.edit("household", household, {"zone": "Middle/Earth"}, base=1)).receipts
    assert (receipt.code, receipt.facts["where"]) == ("zone", "body.set.zone")


def test_a_household_has_one_record_only(family: Family) -> None:
    phone = family.phones["keeper"]
    [receipt] = phone.push(phone.edit("household", new_id(), {"name": "B", "zone": "UTC"})).receipts
    assert receipt.code == "unknown_reference"


def test_a_person_made_by_an_edit_can_be_named_in_the_same_push(family: Family, space: str, lot: str) -> None:
    phone, person = family.phones["keeper"], new_id()
    receipts = phone.push(
        phone.edit("person", person, {"name": "Ida", "role": "child"}),
        phone.write("looked", {"lot": lot, "count": 1}, **{"with": [person]}),
    ).receipts
    assert [one.result for one in receipts] == ["accepted", "accepted"]
    assert Person.rows.of(family.household).get(uuid=person).name == "Ida"


def test_the_last_keeper_stays_keeper(family: Family) -> None:
    phone = family.phones["keeper"]
    step_down, archive = phone.push(
        phone.edit("person", phone.writer, {"role": "adult"}, base=1),
        phone.edit("person", phone.writer, {"archived": True}, base=1),
    ).receipts
    assert (step_down.code, archive.code) == ("last_keeper", "last_keeper")
    receipts = phone.push(
        phone.edit("person", family.people["adult"], {"role": "keeper"}, base=1),
        phone.edit("person", phone.writer, {"role": "adult"}, base=1),
    ).receipts
    assert [one.result for one in receipts] == ["accepted", "accepted"]
