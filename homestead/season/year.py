"""The sheets of a household's year: what to plant. docs/sheets.md tells their shape."""

from __future__ import annotations

import datetime as dt
import uuid
from typing import Any
from zoneinfo import ZoneInfo

from django.db import transaction
from django.utils import timezone

from homestead.ledger.actions import Sheet, write_sheets
from homestead.ledger.posting import lock
from homestead.ledger.reads import head_of
from homestead.reference import version
from homestead.season.planting import planting_sheet


def make_year(household_id: uuid.UUID, *, now: dt.datetime | None = None) -> None:
    """Work the sheets out and put them into the feed. Safe to run twice: the same is not written again.

    What is read is read at one number of the ledger.
    """
    now = now or timezone.now()
    with transaction.atomic():
        household = lock(household_id)
        today = now.astimezone(ZoneInfo(household.zone)).date()
        as_of, planting = head_of(household_id), planting_sheet(household_id, today)
    write_sheets(household_id, _sheets({"planting": planting}, as_of), now=now)


def _sheets(content: dict[str, dict[str, Any]], as_of: int) -> list[Sheet]:
    return [
        Sheet(key=key, kind=key.split("/")[0], as_of=as_of, inputs={"tables": version()}, content=told)
        for key, told in content.items()
    ]
