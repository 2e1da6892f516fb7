"""The tally: scraps of a week by destination, animal and crop, and the eggs beside. A sheet a week.

The week begins on the household's first day; key `tally/<that day>`. docs/sheets.md tells its shape.
"""

from __future__ import annotations

import datetime as dt
import uuid
from collections.abc import Mapping, Sequence
from typing import Any
from zoneinfo import ZoneInfo

from django.db import transaction
from django.utils import timezone

from homestead.byproducts.reads import added_up, eggs_by_day, scraps_by_day
from homestead.ledger.actions import Sheet, drop_sheets, write_sheets
from homestead.ledger.posting import lock
from homestead.ledger.reads import head_of, sheets_of

FIRST_DAYS = {"monday": 0, "saturday": 5, "sunday": 6}


def week_of(day: dt.date, week_start: str) -> dt.date:
    """The first day of the week that the day is in."""
    return day - dt.timedelta(days=(day.weekday() - FIRST_DAYS[week_start]) % 7)


def tally_of(
    first: dt.date,
    scraps: Mapping[dt.date, Sequence[Mapping[str, Any]]],
    eggs: Mapping[dt.date, Sequence[Mapping[str, Any]]],
) -> dict[str, Any]:
    """Content of the week's sheet, of what was told by day: grams whole, accidents on lines of their own."""
    days = [first + dt.timedelta(days=n) for n in range(7)]
    return {
        "from": first.isoformat(),
        "until": days[-1].isoformat(),
        "went": [_went(row) for row in added_up(row for day in days for row in scraps.get(day, ()))],
        "eggs": _eggs([row for day in days for row in eggs.get(day, ())]),
    }


def _went(row: Mapping[str, Any]) -> dict[str, Any]:
    animals = row["animals"]
    return dict(row) | {"animals": str(animals) if animals else None, "grams": round(row["grams"])}


def _eggs(rows: Sequence[Mapping[str, Any]]) -> list[dict[str, Any]]:
    """By group: eggs, broken ones among them, and on how many days they were counted."""
    groups = sorted({str(row["animals"]) for row in rows})
    of_group = {group: [row for row in rows if str(row["animals"]) == group] for group in groups}
    return [
        {
            "animals": group,
            "eggs": sum(row["eggs"] for row in told),
            "broken": sum(row["broken"] for row in told),
            "days": len(told),
        }
        for group, told in of_group.items()
    ]


def make_tally(household_id: uuid.UUID, *, now: dt.datetime | None = None) -> None:
    """Work every week out and write those that differ from their sheet, and this week. Safe to run twice.

    Under the household's lock, so that what was read is what the ledger held at `as_of`.
    """
    now = now or timezone.now()
    with transaction.atomic():
        household = lock(household_id)
        starts = household.week_start
        this_week = week_of(now.astimezone(ZoneInfo(household.zone)).date(), starts)
        content = _weeks(household_id, starts, this_week)
        kept = {sheet["key"]: sheet["content"] for sheet in sheets_of(household_id, "tally")}
        as_of, inputs = head_of(household_id), {"week_start": starts}
        changed = [
            Sheet(key=key, kind="tally", as_of=as_of, inputs=inputs, content=told)
            for key, told in content.items()
            if told != kept.get(key) or key == f"tally/{this_week}"
        ]
        drop_sheets(household_id, sorted(kept.keys() - content.keys()))
        write_sheets(household_id, changed, now=now)


def _weeks(household: uuid.UUID, starts: str, this_week: dt.date) -> dict[str, dict[str, Any]]:
    """Content by key, of every week that something was told of, and of this one."""
    scraps, eggs = scraps_by_day(household), eggs_by_day(household)
    weeks = {week_of(day, starts) for day in scraps.keys() | eggs.keys()} | {this_week}
    return {f"tally/{first}": tally_of(first, scraps, eggs) for first in sorted(weeks)}
