"""The sheets of a household's year: what to plant, which variety kept, and how well the forecasts held.

docs/sheets.md tells their shape.
"""

from __future__ import annotations

import datetime as dt
import uuid
from collections.abc import Mapping, Sequence
from typing import Any
from zoneinfo import ZoneInfo

from django.db import transaction
from django.utils import timezone

from homestead.ledger.actions import Sheet, write_sheets
from homestead.ledger.posting import lock
from homestead.ledger.reads import head_of, sheets_of
from homestead.reference import version
from homestead.science.chance import chances
from homestead.science.household import Saying
from homestead.season.facts import Kept, household_facts
from homestead.season.forecasts import due_for_keeping, keep_forecasts, settle_forecasts
from homestead.season.foresee import SEED, foreseen_lots, in_store
from homestead.season.planting import planting_sheet
from homestead.season.score import score_sheet, stretch_for
from homestead.season.varieties import varieties_sheet
from homestead.season.words import words_of


def make_year(household_id: uuid.UUID, *, now: dt.datetime | None = None) -> None:
    """Work the sheets out and put them into the feed. Safe to run twice: the same is not written again.

    What is read is read at one number of the ledger; the sums are done outside the lock. Forecasts are kept
    and judged once a day.
    """
    now = now or timezone.now()
    with transaction.atomic():
        household = lock(household_id)
        today = now.astimezone(ZoneInfo(household.zone)).date()
        known, as_of = household_facts(household_id), head_of(household_id)
        south = household.hemisphere == "south"
        planting = planting_sheet(household_id, today, south)
    said = words_of(household_id, known.kept, chances(SEED), anew=False).said
    if not _judged(household_id, today):
        _keep(household_id, known.kept, said, today, as_of, south)
    content = {
        "planting": planting,
        "varieties": varieties_sheet(known.kept, said, today),
        "score": score_sheet(household_id, today),
    }
    write_sheets(household_id, _sheets(content, as_of), now=now)


def _judged(household: uuid.UUID, today: dt.date) -> bool:
    return any(sheet["content"]["day"] == today.isoformat() for sheet in sheets_of(household, "score"))


def _keep(
    household: uuid.UUID,
    kept: Sequence[Kept],
    said: Sequence[Saying],
    today: dt.date,
    as_of: int,
    south: bool,
) -> None:
    """This week's forecasts, and what came of earlier ones."""
    due = due_for_keeping(household, in_store(kept, today), today)
    lots, _ = foreseen_lots(due, said, today, south)
    keep_forecasts(household, lots, today, as_of, stretch_for(household))
    settle_forecasts(household, kept, today)


def _sheets(content: Mapping[str, dict[str, Any]], as_of: int) -> list[Sheet]:
    return [
        Sheet(key=key, kind=key, as_of=as_of, inputs={"tables": version()}, content=told)
        for key, told in content.items()
    ]
