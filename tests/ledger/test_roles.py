"""Who may push what: the role of the line's person decides, on a phone that lists them."""

from __future__ import annotations

import datetime as dt

import pytest

from homestead.household.models import Person
from tests.lines import NOW, Family, new_id

ROLES = ("keeper", "adult", "rounds", "child", "minder")


@pytest.mark.parametrize(
    ("kind", "allowed"),
    [
        ("begun", {"keeper", "adult", "rounds"}),
        ("looked", {"keeper", "adult", "rounds", "child", "minder"}),
    ],
)
@pytest.mark.parametrize("role", ROLES)
def test_a_kind_says_which_roles_write_it(
    family: Family, space: str, lot: str, kind: str, allowed: set[str], role: str
) -> None:
    phone = family.phones[role]
    body = {"space": space} if kind == "begun" else {"lot": lot, "count": 1}
    [receipt] = phone.push(phone.write(kind, body)).receipts
    assert (receipt.result == "accepted") == (role in allowed)
    assert receipt.code in (None, "role")


@pytest.mark.parametrize("role", ROLES)
def test_only_grown_people_edit_spaces_and_only_a_keeper_roles(family: Family, space: str, role: str) -> None:
    phone = family.phones[role]
    edit, promote = phone.push(
        phone.edit("space", space, {"note": "damp"}, base=1),
        phone.edit("person", family.people["child"], {"role": "rounds"}, base=1),
    ).receipts
    assert (edit.result == "accepted") == (role in ("keeper", "adult"))
    assert (promote.result == "accepted") == (role == "keeper")


def test_an_adult_may_edit_a_persons_other_fields(family: Family) -> None:
    phone = family.phones["adult"]
    edit = phone.edit("person", family.people["child"], {"minutes_a_week": 20}, base=1)
    assert phone.push(edit).receipts[0].result == "accepted"


def test_only_a_keeper_sets_the_country(family: Family) -> None:
    household = str(family.household.pk)
    adult, keeper = family.phones["adult"], family.phones["keeper"]
    refused = adult.push(adult.edit("household", household, {"country": "DE"}, base=1)).receipts[0]
    assert (refused.code, refused.facts["fields"]) == ("role", ["country"])
    assert keeper.push(keeper.edit("household", household, {"country": "DE"}, base=1)).receipts[0].seq


def test_an_older_child_decides_only_where_the_switch_says_so(family: Family, lot: str) -> None:
    phone, keeper = family.phones["rounds"], family.phones["keeper"]
    doubt = phone.write("doubted", {"lot": lot})
    phone.push(doubt)
    verdict = phone.write("decided", {"suspect": doubt["id"]})
    assert phone.push(verdict).receipts[0].code == "needs_switch"
    keeper.push(keeper.edit("person", phone.writer, {"may_decide": True}, base=1))
    assert phone.push(verdict).receipts[0].result == "accepted"


def test_the_writer_must_be_listed_on_the_phone(family: Family, lot: str) -> None:
    """hazard 30: it waits on the phone until its writer signs in there; it is nobody else's."""
    phone = family.phones["adult"]
    line = phone.write("looked", {"lot": lot, "count": 1}, person=family.people["keeper"])
    [receipt] = phone.push(line).receipts
    assert (receipt.code, receipt.permanent) == ("person_not_here", False)
    shared = family.phone("keeper", "adult")
    [receipt] = shared.push(line).receipts
    assert receipt.result == "accepted"


def test_the_role_of_the_person_decides_not_that_of_the_phones_holder(family: Family, space: str) -> None:
    shared = family.phone("adult", "child")
    line = shared.write("begun", {"space": space}, person=family.people["child"])
    assert shared.push(line).receipts[0].code == "role"


def test_others_who_were_there_are_people_of_the_household(family: Family, lot: str) -> None:
    phone = family.phones["adult"]
    line = phone.write("looked", {"lot": lot, "count": 1}, **{"with": [new_id()]})
    [receipt] = phone.push(line).receipts
    assert (receipt.code, receipt.facts["where"]) == ("unknown_reference", "with.0")


class TestMinder:
    """A minder's lines: happened before the end, taken up to 30 days after it."""

    END = dt.date(2026, 11, 25)

    @pytest.fixture(autouse=True)
    def _ends(self, family: Family) -> None:
        Person.rows.of(family.household).filter(role="minder").update(until=self.END)

    @pytest.mark.parametrize(
        ("happened_at", "received", "taken"),
        [
            ("2026-11-25T23:30:00.000+01:00", NOW, True),
            ("2026-11-26T00:30:00.000+01:00", NOW, False),
            ("2026-11-25T10:00:00.000+01:00", NOW + dt.timedelta(days=30), True),
            ("2026-11-25T10:00:00.000+01:00", NOW + dt.timedelta(days=31), False),
        ],
    )
    def test_it_is_taken_in_time(
        self, family: Family, lot: str, happened_at: str, received: dt.datetime, taken: bool
    ) -> None:
        phone = family.phones["minder"]
        line = phone.write("looked", {"lot": lot, "count": 1}, happened_at=happened_at)
        [receipt] = phone.push(line, now=received).receipts
        assert (receipt.result == "accepted") == taken
        assert receipt.code in (None, "minder_ended")
