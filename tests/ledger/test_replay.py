"""What is worked out from the lines can be thrown away and worked out again."""

from __future__ import annotations

import io
from typing import Any

import pytest
from django.core.management import CommandError, call_command

from homestead.household.models import Household, Person
from homestead.ledger.actions import Sheet, write_sheet
from homestead.ledger.derived import derived_tables
from homestead.ledger.models import Birth, Feed, Line, Record, RecordChange, Touch
from homestead.ledger.replay import replay
from tests.lines import NOW, Family
from tests.small_kinds import settled, touched

DERIVED = (Person, Birth, Touch, Record, RecordChange, Feed)


@pytest.fixture
def lived_in(family: Family, space: str, lot: str) -> Family:
    """Lines of every sort: conflicts, strikes before and after, a code from the server, a wrong clock."""
    one, two = family.phones["adult"], family.phones["keeper"]
    look, early = one.write("looked", {"lot": lot, "count": 2}), one.write("looked", {"lot": lot, "count": 3})
    strike = one.strike(look["id"])
    one.push(look, strike, one.strike(early["id"]), one.strike(strike["id"]), early)
    one.push(one.edit("space", space, {"name": "Attic"}, base=1), sent_at=NOW.replace(day=22))
    two.push(two.edit("space", space, {"name": "Garret", "note": "dry"}, base=1))
    two.push(two.write("begun", {"space": space, "code": "K7"}), two.edit("lot", lot, {"label": "sweet"}))
    doubt = one.write("doubted", {"lot": lot})
    one.push(doubt, one.edit("person", family.people["child"], {"minutes_a_week": 15}, base=1))
    write_sheet(family.household.pk, Sheet("roster", "roster", 1, {}, {"a": 1}), now=NOW)
    return family


def dump() -> dict[str, list[dict[str, Any]]]:
    found = {}
    for model in DERIVED:
        names = [f.attname for f in model._meta.concrete_fields if f.name != "id"]
        found[model.__name__] = sorted(model.everywhere.values(*names), key=repr)
    return found


def test_replay_makes_the_same_rows_again(lived_in: Family) -> None:
    before, household = dump(), Household.objects.values().get(pk=lived_in.household.pk)
    assert replay(lived_in.household.pk, check=False) == []
    assert dump() == before
    assert Household.objects.values().get(pk=lived_in.household.pk) == household


def test_replay_settles_and_undoes_as_when_the_lines_came(lived_in: Family) -> None:
    in_order = list(settled)
    settled.clear()
    replay(lived_in.household.pk, check=True)
    assert settled == in_order


def test_replay_tells_followers_of_every_lot_once(lived_in: Family) -> None:
    lots = set(Birth.rows.of(lived_in.household).filter(thing="lot").values_list("uuid", flat=True))
    touched.clear()
    replay(lived_in.household.pk, check=True)
    assert [told.lots for told in touched] == [lots]


@pytest.mark.parametrize(
    ("model", "change", "said"),
    [
        (Person, {"name": "Nobody"}, "household.person"),
        (Record, {"values": {}}, "ledger.record"),
        (Feed, {"payload": "{}"}, "ledger.feed"),
        (RecordChange, {"stood": False}, "ledger.recordchange"),
    ],
)
def test_it_says_which_row_differs(lived_in: Family, model: Any, change: dict[str, Any], said: str) -> None:
    row = model.everywhere.order_by("pk").first()
    model.everywhere.filter(pk=row.pk).update(**change)
    differences = replay(lived_in.household.pk, check=True)
    assert differences
    assert {one.table for one in differences} == {said}
    assert next(iter(change)) in str(differences[0]) or "stood" in change
    assert model.everywhere.filter(pk=row.pk, **change).exists()
    assert replay(lived_in.household.pk, check=False)
    assert replay(lived_in.household.pk, check=False) == []


def test_it_says_which_row_is_missing_or_one_too_many(lived_in: Family) -> None:
    Touch.rows.of(lived_in.household).first().delete()  # type: ignore[union-attr]
    Birth.everywhere.create(household=lived_in.household, thing="lot", uuid=lived_in.household.pk, seq=1)
    told = "\n".join(str(one) for one in replay(lived_in.household.pk, check=True))
    assert "ledger.touch" in told
    assert "not kept, though the lines say" in told
    assert "kept, though no line says so" in told


def test_the_command_checks_every_household_and_fails_when_one_differs(lived_in: Family) -> None:
    out = io.StringIO()
    call_command("replay", "--check", stdout=out)
    assert "0 rows differ" in out.getvalue()
    Person.rows.of(lived_in.household).filter(role="child").update(name="Nobody")
    with pytest.raises(SystemExit) as caught:
        call_command("replay", "--check", "--household", str(lived_in.household.pk), stdout=out)
    assert caught.value.code == 1
    assert "name 'Nobody' -> 'Child'" in out.getvalue()
    call_command("replay", stdout=out)
    assert Person.rows.of(lived_in.household).get(role="child").name == "Child"


def test_the_command_does_not_know_other_households(db: None) -> None:
    with pytest.raises(CommandError, match="No household"):
        call_command("replay", "--household", "nonsense")


def test_lines_are_not_among_what_is_thrown_away() -> None:
    assert Line not in derived_tables()
