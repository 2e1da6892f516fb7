"""Every query on family data names its household."""

from __future__ import annotations

import ast
import uuid
from pathlib import Path

import pytest
from django.apps import apps
from django.db import models

from homestead.household.models import Person
from homestead.household.rows import OfHousehold, Unbounded, key_of
from tests.lines import Family, make_family

ROOMS = ("household", "ledger", "photos", "store", "rounds", "byproducts", "season", "reminders", "jobs")
#: tables that belong to no family
NOBODYS = {"household.household", "household.wrongtry", "household.firstkey", "ledger.leaving", "jobs.beat"}
#: where families are crossed on purpose, or one row is made whose household it names
MAY_CROSS = ("admin.py", "/migrations/")


def tables() -> list[type[models.Model]]:
    return [model for model in apps.get_models() if model._meta.app_label in ROOMS]


def test_every_table_with_family_data_belongs_to_a_household() -> None:
    """invariant 36"""
    loose = {model._meta.label_lower for model in tables() if not issubclass(model, OfHousehold)}
    assert loose <= NOBODYS


def test_rows_cannot_be_asked_for_before_the_household_is_named() -> None:
    """invariant 36"""
    for model in tables():
        if issubclass(model, OfHousehold):
            with pytest.raises(Unbounded):
                model.rows.all()
            with pytest.raises(Unbounded):
                model.rows.get(pk=1)


def test_rows_are_those_of_the_household_alone(family: Family) -> None:
    """invariant 36"""
    other = make_family("Nether End")
    own = set(Person.rows.of(family.household).values_list("uuid", flat=True))
    assert own == {uuid.UUID(person) for person in family.people.values()}
    assert own == set(Person.rows.of(family.household.pk).values_list("uuid", flat=True))
    assert not own & set(Person.rows.of(other.household).values_list("uuid", flat=True))


CALLS_THAT_WRITE = {"create", "bulk_create", "bulk_update", "update_or_create", "get_or_create"}


def test_no_code_reads_across_families_unseen() -> None:
    """invariant 36: `everywhere` reads only where it stands here; writing names the household in the row."""
    found = set()
    for path in sorted(Path("homestead").rglob("*.py")) + sorted(Path("api").rglob("*.py")):
        if any(part in f"/{path}" for part in MAY_CROSS):
            continue
        tree = ast.parse(path.read_text())
        for node in ast.walk(tree):
            asked = isinstance(node, ast.Attribute) and getattr(node.value, "attr", None) == "everywhere"
            if asked and node.attr not in CALLS_THAT_WRITE:
                found.add(str(path))
    assert found <= {
        "homestead/household/minding.py",  # by a link's token: no household is known yet
        "homestead/household/phones.py",  # by a token's hash, by a code's finder: no household is known yet
        "homestead/jobs/work.py",  # from household to household
        "homestead/jobs/reads.py",
        "homestead/ledger/actions.py",  # the teardown of tests
        "homestead/ledger/heads.py",  # from household to household
        "homestead/photos/actions.py",  # the sweep of photos nobody names
        "homestead/photos/sweep.py",
        "homestead/reminders/actions.py",  # by a link's token: no household is known yet
        "homestead/reminders/telling.py",  # from household to household
    }


def test_the_key_of_a_row_is_worked_out_from_its_household_and_id(family: Family) -> None:
    person = Person.rows.of(family.household).get(role="child")
    assert person.pk == key_of(family.household.pk, person.uuid)
    assert key_of(uuid.uuid4(), person.uuid) != person.pk
    [made] = Person.everywhere.bulk_create(
        [Person(household=family.household, uuid=uuid.uuid4(), name="Ida", role="child")]
    )
    assert made.pk == key_of(family.household.pk, made.uuid)
