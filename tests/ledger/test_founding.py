"""The first household of one's own, and the invented one."""

from __future__ import annotations

import datetime as dt

import pytest

from homestead.household.errors import CannotDo
from homestead.household.models import FirstKey, Household, Person
from homestead.ledger.founding import found_household, make_first_key, open_demo
from homestead.ledger.models import Line
from homestead.ledger.replay import replay
from tests.lines import NOW, make_family

FIELDS = {"name": "Hollow End", "zone": "Europe/Berlin", "hemisphere": "north"}


def test_a_household_begins_with_its_keeper_as_lines_of_the_ledger(db: None) -> None:
    let_in = found_household(FIELDS, "Ruth", "Ruth's phone", key=None, trusted=True, now=NOW)
    household = Household.objects.get(pk=let_in.device.household_id)
    assert (household.name, household.zone, household.demo) == ("Hollow End", "Europe/Berlin", False)
    [person] = Person.rows.of(household)
    assert (person.name, person.role) == ("Ruth", "keeper")
    assert let_in.device.people == [str(person.uuid)]
    assert let_in.device.highest_no == Line.rows.of(household).filter(device=let_in.device.pk).count() == 2
    assert replay(household.pk, check=True) == []


def test_it_needs_the_key_where_it_is_not_asked_on_the_computer_itself(db: None) -> None:
    key = make_first_key(now=NOW)
    assert not FirstKey.objects.filter(key_hash__contains=key).exists()
    with pytest.raises(CannotDo, match="key"):
        found_household(FIELDS, "Ruth", "phone", key="WRONG-KEY", trusted=False, now=NOW)
    with pytest.raises(CannotDo, match="key"):
        found_household(FIELDS, "Ruth", "phone", key=None, trusted=False, now=NOW)
    typed = f" {key[:6].lower()}-{key[6:]} "
    found_household(FIELDS, "Ruth", "phone", key=typed, trusted=False, now=NOW)
    with pytest.raises(CannotDo, match="key"):
        found_household(FIELDS, "Ruth", "phone", key=key, trusted=False, now=NOW)


def test_a_household_that_does_not_fit_uses_up_no_key(db: None) -> None:
    key = make_first_key(now=NOW)
    with pytest.raises(CannotDo) as caught:
        found_household(FIELDS | {"zone": "Middle/Earth"}, "Ruth", "p", key=key, trusted=False, now=NOW)
    assert caught.value.code == "zone"
    assert not Household.objects.exists()
    assert found_household(FIELDS, "Ruth", "p", key=key, trusted=False, now=NOW)


def test_the_invented_household_opens_for_all_its_people(db: None) -> None:
    with pytest.raises(CannotDo) as caught:
        open_demo("This computer", now=NOW)
    assert caught.value.code == "no_demo"
    demo = make_family("Invented", demo=True)
    make_family("Real")
    let_in = open_demo("This computer", now=NOW + dt.timedelta(days=1))
    assert let_in.device.household_id == demo.household.pk
    assert let_in.device.people == [demo.people[role] for role in ("keeper", "adult", "rounds", "child")]
