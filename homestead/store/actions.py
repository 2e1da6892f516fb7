"""What changes the store's tables beside the kinds themselves: the one table of what went where."""

from __future__ import annotations

import datetime as dt
import uuid
from collections.abc import Sequence

from homestead.store.models import Lot, Went
from homestead.storekeeping import state as fold

#: what is compared to see whether a row is right already
_TOLD = (
    *("entry", "place", "kind", "day", "crop", "way", "bucket", "pieces", "grams", "findings"),
    *("part", "cut_in", "animals", "accident", "unwritten"),
)


def write_went(household: uuid.UUID, lot: Lot, rows: Sequence[fold.Went]) -> None:
    """Make the lot's rows what the fold says left it. Rows at the front that are right already stay."""
    kept = list(Went.rows.of(household).filter(lot=lot).order_by("place"))
    told = [went_row(household, row, place, lot) for place, row in enumerate(rows)]
    same = 0
    while same < min(len(kept), len(told)) and _same(kept[same], told[same]):
        same += 1
    if kept[same:]:
        Went.rows.of(household).filter(lot=lot, place__gte=same).delete()
    Went.everywhere.bulk_create(told[same:])


def write_scrap_went(household: uuid.UUID, rows: Sequence[fold.Went]) -> None:
    """Rows of scraps that no lot's entry told of."""
    Went.everywhere.bulk_create(went_row(household, row, place, None) for place, row in enumerate(rows))


def take_back_went(household: uuid.UUID, entry: uuid.UUID) -> None:
    """The scraps were struck out."""
    Went.rows.of(household).filter(lot=None, entry=entry).delete()


def went_row(household: uuid.UUID, row: fold.Went, place: int, lot: Lot | None) -> Went:
    """A row of the fold as a row of the table, not yet kept."""
    return Went(
        household_id=household,
        lot=lot,
        entry=uuid.UUID(row["entry"]),
        place=place,
        kind=row["kind"],
        day=dt.date.fromisoformat(row["day"]),
        crop=row["crop"] or "",
        way=row["way"],
        bucket=row["bucket"],
        pieces=row["pieces"],
        grams=row["grams"],
        findings=list(row["findings"]),
        part=row["part"] or "",
        cut_in=row["cut_in"] or "",
        animals=uuid.UUID(row["animals"]) if row["animals"] else None,
        accident=row["accident"],
        unwritten=row["unwritten"],
    )


def _same(kept: Went, told: Went) -> bool:
    return all(getattr(kept, name) == getattr(told, name) for name in _TOLD)
