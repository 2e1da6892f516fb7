"""The job of the sheets `outlook/<crop>`, `plan/<crop>` and `on_the_turn`. docs/sheets.md tells them.

A push changes a few lots: only crops whose facts are others than the last sheet was made of are worked out
again. In the night, when the day is another, all are.
"""

from __future__ import annotations

import datetime as dt
import logging
import uuid
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any
from zoneinfo import ZoneInfo

from django.db import transaction
from django.utils import timezone

from homestead.ledger.actions import Sheet, drop_sheets, write_sheets
from homestead.ledger.posting import lock
from homestead.ledger.reads import head_of, sheets_of
from homestead.reference import version
from homestead.science.chance import chances
from homestead.season.bands import crop_sheet, turning_rows
from homestead.season.facts import Household, Kept, household_facts
from homestead.season.foresee import SEED, foreseen_lots, in_store
from homestead.season.plan import plan_sheet
from homestead.season.score import stretch_for
from homestead.season.words import NOTHING_SAID, Words, mark_of, words_of

log = logging.getLogger("homestead.season")

TURNING = "on_the_turn"
KINDS = ("outlook", "plan", TURNING)
Row = dict[str, Any]


@dataclass(frozen=True)
class Before:
    """The last sheets by key, the mark of the facts each crop's were made of, and what was on the turn."""

    content: Mapping[str, Row] = field(default_factory=dict)
    marks: Mapping[str, str] = field(default_factory=dict)
    turning: Row = field(default_factory=dict)

    @classmethod
    def of(cls, sheets: Iterable[Mapping[str, Any]]) -> Before:
        rows = list(sheets)
        crops = {one["content"]["crop"]: one for one in rows if one["kind"] == "outlook"}
        return cls(
            {one["key"]: one["content"] for one in rows},
            {crop: one["inputs"]["facts"] for crop, one in crops.items() if "facts" in one["inputs"]},
            next((one["content"] for one in rows if one["kind"] == TURNING), {}),
        )

    def is_of(self, day: dt.date) -> bool:
        """Whether that day's work was done once already."""
        return self.turning.get("day") == day.isoformat()


NOTHING_BEFORE = Before()


@dataclass(frozen=True)
class Worked:
    """Sheets by key, and the mark of each crop's facts."""

    content: Mapping[str, Row]
    marks: Mapping[str, str]


@dataclass(frozen=True)
class Asked:
    """For which day, in which half of the world, and by how much the household stretches its bands."""

    today: dt.date
    south: bool = False
    stretch: float = 1.0


def work_out(known: Household, words: Words, asked: Asked, before: Before = NOTHING_BEFORE) -> Worked:
    """All sheets. Crops whose facts are those of `before` are taken over as they stand."""
    today = asked.today
    by_crop: defaultdict[str, list[Kept]] = defaultdict(list)
    for one in in_store(known.kept, today):
        by_crop[one.facts.crop].append(one)
    content: dict[str, Row] = {}
    marks: dict[str, str] = {}
    turning: list[Row] = []
    silent: list[Row] = [{"lot": str(lot), "why": "no_figures"} for lot in known.unknown]
    spaces = {one.space: one.readings for one in known.kept}
    airs = {space: mark_of(readings) for space, readings in spaces.items()}
    for crop, lots in sorted(by_crop.items()):
        marks[crop] = _mark(crop, lots, known, words, airs, asked)
        told = _as_before(crop, lots, before) if before.marks.get(crop) == marks[crop] else None
        sheets, rows, dumb = told or _anew(crop, lots, known, words, asked)
        content |= sheets
        turning, silent = turning + rows, silent + dumb
    turning.sort(key=lambda row: (-row["share"], row["lot"]))
    content[TURNING] = {"day": today.isoformat(), "lots": turning, "silent": silent}
    return Worked(content, marks)


def sheets_content(
    known: Household, today: dt.date, south: bool = False, words: Words = NOTHING_SAID
) -> Mapping[str, Row]:
    """Content of all sheets by key, from nothing. The same facts give the same sheets."""
    return work_out(known, words, Asked(today, south)).content


#: a crop's sheets by key, its lots on the turn and those nothing can be said of
_Told = tuple[dict[str, Row], list[Row], list[Row]]


def _anew(crop: str, kept: Sequence[Kept], known: Household, words: Words, asked: Asked) -> _Told:
    lots, dumb = foreseen_lots(kept, words.said, asked.today, asked.south)
    if not lots:
        return {}, [], dumb
    of = (crop, lots, known.need_kg.get(crop, 0.0), known.table, asked.today, known.like.get(crop, crop))
    try:
        plan = plan_sheet(*of, south=asked.south)
        sheets = {f"outlook/{crop}": crop_sheet(*of, stretch=asked.stretch, south=asked.south)}
    except (ValueError, ArithmeticError):  # no fact anybody thought of: the other crops are told all the same
        log.exception("%s could not be worked out", crop)
        return {}, [], [*dumb, *({"lot": str(one.kept.lot), "why": "no_sense"} for one in lots)]
    return sheets | ({f"plan/{crop}": plan} if plan else {}), turning_rows(lots), dumb


def _as_before(crop: str, kept: Sequence[Kept], before: Before) -> _Told:
    ids = {str(one.lot) for one in kept}
    rows = (before.turning.get(name, []) for name in ("lots", "silent"))
    turning, silent = ([row for row in some if row["lot"] in ids] for some in rows)
    sheets = {key: told for key, told in before.content.items() if told.get("crop") == crop}
    return sheets, turning, silent


def _mark(
    crop: str,
    kept: Sequence[Kept],
    known: Household,
    words: Words,
    airs: Mapping[uuid.UUID, str],
    asked: Asked,
) -> str:
    """Of all that a crop's sheet hangs on. Readings are many and shared: those of a space are marked once."""
    lots = [(replace(one, readings=()), airs[one.space]) for one in kept]
    need, like = known.need_kg.get(crop), known.like.get(crop)
    return mark_of(lots, need, like, known.table, words.mark, asked, version())


def make_outlook(household_id: uuid.UUID, *, now: dt.datetime | None = None) -> None:
    """Work the outlook out and put it into the feed. Safe to run twice: the same is not written again.

    What is read is read at one number of the ledger; the sums are done outside the lock: they take seconds.
    """
    now = now or timezone.now()
    with transaction.atomic():
        household = lock(household_id)
        today = now.astimezone(ZoneInfo(household.zone)).date()
        known, as_of = household_facts(household_id), head_of(household_id)
        before = Before.of(sheets_of(household_id, *KINDS))
    words = words_of(household_id, known.kept, chances(SEED), anew=not before.is_of(today))
    asked = Asked(today, household.hemisphere == "south", stretch_for(household_id))
    worked = work_out(known, words, asked, before)
    write_sheets(household_id, _sheets(worked, as_of), now=now)
    kept = (sheet["key"] for sheet in sheets_of(household_id, *KINDS))
    gone = [key for key in kept if key not in worked.content]
    if gone:
        drop_sheets(household_id, gone)


def _sheets(worked: Worked, as_of: int) -> list[Sheet]:
    return [
        Sheet(
            key=key,
            kind=key.split("/")[0],
            as_of=as_of,
            inputs=_inputs(worked, told.get("crop")),
            content=told,
        )
        for key, told in worked.content.items()
    ]


def _inputs(worked: Worked, crop: str | None) -> dict[str, str]:
    facts = {"facts": worked.marks[crop]} if crop else {}
    return {"tables": version()} | facts
