"""Days of rows hang on the household's zone: when it moves, they are set anew."""

from __future__ import annotations

import uuid
from zoneinfo import ZoneInfo

from homestead.household.models import Household
from homestead.ledger.followers import Follower, Touched
from homestead.store.models import Dated


def of_the_household(touched: Touched) -> bool:
    """Did its zone or hemisphere, perhaps, change?"""
    return any(record_type == "household" for record_type, _ in touched.records)


def keep_days(*tables: type[Dated]) -> Follower:
    """A follower that keeps the days of these tables right."""

    def follower(touched: Touched) -> None:
        if of_the_household(touched):
            zone = ZoneInfo(Household.objects.values_list("zone", flat=True).get(pk=touched.household))
            for table in tables:
                set_days(table, touched.household, zone)

    return follower


def set_days(table: type[Dated], household: uuid.UUID, zone: ZoneInfo) -> None:
    """Write anew the rows whose moment fell on another day in this zone."""
    moved = []
    for row in table.rows.of(household).only("pk", "when", "day"):
        day = row.when.astimezone(zone).date()
        if row.day != day:
            row.day = day
            moved.append(row)
    table.everywhere.bulk_update(moved, ["day"])
