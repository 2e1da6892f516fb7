"""Lines are for ever: not the shell, not the admin pages, not SQL by hand changes one."""

from __future__ import annotations

import pytest
from django.db import DatabaseError, connection, transaction

from homestead.household.errors import CannotDo
from homestead.household.models import Household
from homestead.ledger.founding import leave_demo
from homestead.ledger.models import Feed, Leaving, Line
from tests.lines import Family, make_family


def sql(statement: str) -> None:
    with transaction.atomic(), connection.cursor() as cursor:
        cursor.execute(statement)


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE ledger_line SET written = '{}'",
        "UPDATE ledger_line SET seq = seq + 1000",
        "DELETE FROM ledger_line",
    ],
)
def test_sql_by_hand_changes_no_line(family: Family, statement: str) -> None:
    """invariant 3"""
    before = list(Line.everywhere.order_by("pk").values())
    with pytest.raises(DatabaseError, match="never"):
        sql(statement)
    assert list(Line.everywhere.order_by("pk").values()) == before


def test_the_model_changes_no_line(family: Family) -> None:
    line = Line.rows.of(family.household).first()
    assert line is not None
    line.written = "{}"
    with pytest.raises(DatabaseError, match="never"), transaction.atomic():
        line.save()
    with pytest.raises(DatabaseError, match="never"), transaction.atomic():
        line.delete()
    with pytest.raises(DatabaseError, match="never"), transaction.atomic():
        family.household.delete()


def test_no_line_is_replaced_by_another_of_its_number(family: Family) -> None:
    columns = [f.column for f in Line._meta.concrete_fields if f.name != "id"]
    same = ", ".join("'{}'" if column == "written" else column for column in columns)
    verb = "INSERT OR REPLACE" if connection.vendor == "sqlite" else "INSERT"
    with pytest.raises(DatabaseError):
        sql(f"{verb} INTO ledger_line ({', '.join(columns)}) SELECT {same} FROM ledger_line WHERE seq = 1")
    assert Line.rows.of(family.household).get(seq=1).written != "{}"


@pytest.mark.django_db(transaction=True)
def test_no_table_is_emptied_at_once() -> None:
    """PostgreSQL's TRUNCATE fires no trigger of rows; SQLite has only DELETE."""
    make_family()
    with pytest.raises(DatabaseError, match="never"):
        sql(
            "TRUNCATE ledger_line CASCADE" if connection.vendor == "postgresql" else "DELETE FROM ledger_line"
        )
    assert Line.everywhere.exists()


def test_leaving_the_invented_household_takes_its_rows_and_no_others(family: Family) -> None:
    demo = make_family("Invented", demo=True)
    kept = Line.rows.of(family.household).count()
    leave_demo(demo.household.pk)
    assert not Household.objects.filter(pk=demo.household.pk).exists()
    assert not Line.everywhere.filter(household=demo.household.pk).exists()
    assert not Feed.everywhere.filter(household=demo.household.pk).exists()
    assert Line.rows.of(family.household).count() == kept
    assert not Leaving.objects.exists()


def test_a_real_household_is_not_left(family: Family) -> None:
    with pytest.raises(CannotDo, match="invented"):
        leave_demo(family.household.pk)
    assert Line.rows.of(family.household).exists()


def test_the_guard_outlives_every_migration(db: None) -> None:
    """SQLite drops a table's triggers when a migration makes the table anew."""
    with connection.cursor() as cursor:
        if connection.vendor == "sqlite":
            cursor.execute(
                "SELECT name FROM sqlite_master WHERE type = 'trigger' AND tbl_name = 'ledger_line'"
            )
            wanted = {"ledger_line_no_update", "ledger_line_no_delete", "ledger_line_no_replace"}
        else:
            cursor.execute("SELECT tgname FROM pg_trigger WHERE tgrelid = 'ledger_line'::regclass")
            wanted = {"ledger_line_guard_rows", "ledger_line_guard_all"}
        assert wanted <= {name for (name,) in cursor.fetchall()}
