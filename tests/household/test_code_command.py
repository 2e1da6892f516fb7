"""A keeper whose phones are all lost is let in again by whoever runs the server."""

from __future__ import annotations

import io
import uuid

import pytest
from django.core.management import CommandError, call_command
from django.utils import timezone

from homestead.household.models import Person
from homestead.household.phones import claim_code
from tests.lines import Family, make_family


def run(*named: str) -> str:
    out = io.StringIO()
    call_command("code", *named, stdout=out)
    return out.getvalue()


def test_it_prints_a_code_that_lets_the_keeper_in(family: Family) -> None:
    make_family("Invented", demo=True)
    code = run().split()[0]
    let_in = claim_code(code, "new phone", address="192.0.2.1", now=timezone.now())
    assert let_in.device.people == [family.people["keeper"]]


def test_it_asks_which_of_several_households_is_meant(family: Family) -> None:
    other = make_family("Nether End")
    for named in ((), (str(uuid.uuid4()),), ("nonsense",)):
        with pytest.raises(CommandError, match="Nether End"):
            run(*named)
    assert "Nether End" in run(str(other.household.pk))


def test_a_household_without_a_keeper_is_told(family: Family) -> None:
    Person.rows.of(family.household).filter(role="keeper").update(archived=True)
    with pytest.raises(CommandError, match="no keeper"):
        run()
