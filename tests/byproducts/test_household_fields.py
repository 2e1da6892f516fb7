"""What the household sets that feeding and food hang on: shapes and roles at push."""

from __future__ import annotations

from typing import Any

import pytest

from homestead.ledger.actions import Receipt
from homestead.ledger.reads import records_of
from tests.factories import DeviceFactory, Home

VET = {"what": "vet", "name": "Surgery at Nether Sallow", "number": "01632 960 417"}


def push(home: Home, role: str, values: dict[str, Any]) -> Receipt:
    """An edit of the household, sent by somebody of that role."""
    person = home.person(role, role)
    phone = DeviceFactory(household=home.household, people=[person])
    body = {"type": "household", "record": str(home.id), "base_rev": 0, "set": values}
    return home.push_one(phone, "edit", body)


def stands(home: Home) -> dict[str, Any]:
    [record] = records_of(home.id, "household")
    return dict(record["values"])


@pytest.mark.parametrize(
    "values",
    [{"country": "AT"}, {"law_confirmed": True}, {"kitchen_to": ["laying_hen"]}],
    ids=lambda values: next(iter(values)),
)
def test_the_law_is_a_keepers_word(home: Home, values: dict[str, Any]) -> None:
    """Country, confirmation and whom the kitchen may feed: nobody else loosens them."""
    before = stands(home)
    for role in ("adult", "rounds", "child", "minder"):
        assert push(home, role, values).result == "refused", role
    assert stands(home) == before
    assert push(home, "keeper", values).result == "accepted"
    assert stands(home) | values == stands(home)


@pytest.mark.parametrize(
    "values",
    [
        {"at_table": 5},
        {"eaters": ["small_child", "pregnant"]},
        {"ring": [VET]},
        {"housing_order": True},
        {"outbreak": True},
    ],
    ids=lambda values: next(iter(values)),
)
def test_grown_people_say_who_is_at_table_whom_to_ring_and_what_is_ordered(
    home: Home, values: dict[str, Any]
) -> None:
    for role in ("rounds", "child", "minder"):
        assert push(home, role, values).result == "refused", role
    assert push(home, "adult", values).result == "accepted"
    assert stands(home) | values == stands(home)


@pytest.mark.parametrize(
    "values",
    [
        {"country": "Atlantis"},
        {"country": None, "law_confirmed": "yes"},
        {"law_confirmed": 1},
        {"kitchen_to": "laying_hen"},
        {"kitchen_to": ["Laying hens"]},
        {"at_table": 0},
        {"at_table": 501},
        {"at_table": 2.5},
        {"eaters": ["dragon"]},
        {"eaters": ["small_child"] * 7},
        {"ring": [{"what": "vet", "name": "Surgery"}]},
        {"ring": [VET | {"number": "ring the bell"}]},
        {"ring": [VET | {"what": ""}]},
        {"ring": [VET] * 21},
        {"ring": VET},
        {"housing_order": "on"},
        {"outbreak": None},
    ],
    ids=str,
)
def test_what_does_not_fit_is_refused_and_changes_nothing(home: Home, values: dict[str, Any]) -> None:
    before = stands(home)
    receipt = push(home, "keeper", values)
    assert (receipt.result, receipt.permanent) == ("refused", True)
    assert stands(home) == before


def test_a_country_may_be_named_with_its_part(home: Home) -> None:
    """ISO 3166-2, as in fixtures/reference/feeding_law.csv: AU-QLD."""
    assert push(home, "keeper", {"country": "AU-QLD"}).result == "accepted"


def test_confirmed_without_a_country_opens_no_kitchen(home: Home) -> None:
    hens = home.animals()
    home.edit("household", {"law_confirmed": True, "kitchen_to": ["laying_hen"]}, str(home.id))
    went = [{"step": "animals", "animals": hens, "grams": 90, "cut_in": "kitchen", "part": "root"}]
    receipt = home.refused("scrap", {"crop": "carrot", "findings": ["sound"], "went": went})
    assert receipt.facts["reason"] == "country_not_set"


def test_a_country_the_tables_lack_keeps_the_strict_start_until_the_keeper_says_otherwise(home: Home) -> None:
    hens = home.animals()
    went = [{"step": "animals", "animals": hens, "grams": 90, "cut_in": "kitchen", "part": "root"}]
    scraps = {"crop": "carrot", "findings": ["sound"], "went": went}
    home.edit("household", {"country": "IS"}, str(home.id))
    assert home.refused("scrap", scraps).facts["reason"] == "law_not_known"
    home.edit("household", {"law_confirmed": True}, str(home.id))
    assert home.refused("scrap", scraps).facts["reason"] == "law_not_known"
    home.edit("household", {"kitchen_to": ["laying_hen"]}, str(home.id))
    assert home.write("scrap", scraps)
