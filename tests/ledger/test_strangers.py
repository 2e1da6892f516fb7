"""Ids of another family answer as unknown ids do."""

from __future__ import annotations

import uuid
from typing import Any

import pytest

from homestead.ledger.reads import entries_of, lacking, life_of_lot, lines_of_lots
from tests.ledger.conftest import cellar, lot_in
from tests.lines import Family, Written, make_family, new_id


@pytest.fixture
def stranger(family: Family) -> dict[str, str]:
    """Another household's things, by what they are; each known there."""
    other = make_family("Nether End")
    phone, space = other.phones["keeper"], cellar(other)
    lot = lot_in(other, space)
    doubt = phone.write("doubted", {"lot": lot})
    animals = new_id()
    phone.push(doubt)
    return {
        "household": str(other.household.pk),
        "space": space,
        "lot": lot,
        "suspect": doubt["id"],
        "animals": animals,
        "person": other.people["child"],
        "entry": doubt["id"],
    }


def bodies(ids: dict[str, str], own: dict[str, str]) -> dict[str, tuple[str, Written]]:
    """A line for each field that refers to something, naming `ids`; all else in it is the family's own."""
    return {
        "space": ("begun", {"space": ids["space"]}),
        "grower": ("begun", {"space": own["space"], "grower": ids["person"]}),
        "lot": ("looked", {"lot": ids["lot"], "count": 1}),
        "lot in a list": ("looked", {"lot": own["lot"], "count": 1, "out": [{"lot": ids["lot"]}]}),
        "animals": (
            "looked",
            {"lot": own["lot"], "count": 1, "out": [{"lot": own["lot"], "animals": ids["animals"]}]},
        ),
        "doubt": ("doubted", {"lot": ids["lot"]}),
        "suspect": ("decided", {"suspect": ids["suspect"]}),
    }


FIELDS = ["space", "grower", "lot", "lot in a list", "animals", "doubt", "suspect"]


@pytest.mark.parametrize("field", FIELDS)
def test_a_foreign_id_in_any_field_answers_as_an_unknown_one(
    family: Family, space: str, lot: str, stranger: dict[str, str], field: str
) -> None:
    """hazard 31, invariant 36"""
    own = {"space": space, "lot": lot}
    unknown = {name: new_id() for name in stranger}
    phone = family.phones["adult"]
    told = []
    for ids in (stranger, unknown):
        kind, body = bodies(ids, own)[field]
        [receipt] = phone.push(phone.write(kind, body)).receipts
        facts = {name: value for name, value in receipt.facts.items() if name != "id"}
        told.append((receipt.result, receipt.code, receipt.message, receipt.permanent, facts))
    assert told[0] == told[1]
    assert told[0][:2] == ("refused", "unknown_reference")


def test_every_field_of_the_small_kinds_is_tried() -> None:
    """A field that refers to something and is not tried above would go unseen."""
    from homestead.ledger.references import _fields_of
    from tests.small_kinds import SMALL_KINDS

    referring = {name for kind in SMALL_KINDS for name, _, _ in _fields_of(kind.body)}
    assert referring == {"space", "grower", "lot", "out", "suspect"}


@pytest.mark.parametrize("field", ["record", "keeper", "strikes", "id", "device", "with"])
def test_a_foreign_id_in_the_envelope_answers_as_an_unknown_one(
    family: Family, space: str, lot: str, stranger: dict[str, str], field: str
) -> None:
    """hazard 31, invariant 36"""
    phone = family.phones["keeper"]

    def line(ids: dict[str, str]) -> dict[str, Any]:
        return {
            "record": lambda: phone.edit("lot", ids["lot"], {"label": "?"}),
            "keeper": lambda: phone.edit("space", space, {"keeper": ids["person"]}, base=1),
            "strikes": lambda: phone.strike(ids["entry"]),
            "id": lambda: phone.write("looked", {"lot": lot, "count": 1}, id=ids["entry"]),
            "device": lambda: phone.write("looked", {"lot": lot, "count": 1}, device=ids["entry"]),
            "with": lambda: phone.write("looked", {"lot": lot, "count": 1}, **{"with": [ids["person"]]}),
        }[field]()

    told = []
    for ids in (stranger, {name: new_id() for name in stranger}):
        [receipt] = phone.push(line(ids)).receipts
        told.append((receipt.result, receipt.code, receipt.message, receipt.permanent))
    assert told[0] == told[1]


def test_reads_of_foreign_ids_find_nothing(family: Family, stranger: dict[str, str]) -> None:
    """invariant 36"""
    own, lot, entry = family.household.pk, uuid.UUID(stranger["lot"]), uuid.UUID(stranger["entry"])
    assert lines_of_lots(own, [lot]) == []
    assert life_of_lot(own, lot) == []
    assert entries_of(own, [entry]) == {}
    assert lacking(own, [entry]) == ([entry], [])


def test_the_same_ids_may_live_in_two_households(family: Family, stranger: dict[str, str]) -> None:
    """An id made on a phone is no secret: nobody blocks another family by using it."""
    from homestead.household.models import Person
    from homestead.ledger.models import Line

    phone = family.phones["keeper"]
    edit = phone.edit("person", stranger["person"], {"name": "Theirs", "role": "child"}, id=stranger["entry"])
    assert phone.push(edit).receipts[0].result == "accepted"
    assert Line.everywhere.filter(uuid=stranger["entry"]).count() == 2
    names = Person.everywhere.filter(uuid=stranger["person"]).values_list("name", flat=True)
    assert sorted(names) == ["Child", "Theirs"]
