"""What changes the store's tables beside the kinds themselves: the one table of what went where."""

from __future__ import annotations

import datetime as dt
import uuid
from collections import defaultdict
from collections.abc import Mapping, Sequence
from typing import Any

from homestead.store.models import Went
from homestead.storekeeping import state as fold

#: the columns a row of the fold fills, in the order of `_told`
_COLUMNS = (
    *("entry", "place", "kind", "day", "crop", "way", "bucket", "pieces", "grams", "findings"),
    *("part", "cut_in", "animals", "accident", "unwritten"),
)


def write_went(household: uuid.UUID, by_lot: Mapping[uuid.UUID, Sequence[fold.Went]]) -> None:
    """Make the rows of these lots (by key) what the fold says left them.

    Rows at the front that are right already stay; mostly there is only something new at the end.
    """
    kept: defaultdict[uuid.UUID, list[tuple[Any, ...]]] = defaultdict(list)
    rows = Went.rows.of(household).filter(lot__in=list(by_lot)).order_by("place")
    for lot, *columns in rows.values_list("lot_id", *_COLUMNS):
        assert lot
        kept[lot].append(tuple(columns))
    new: list[Went] = []
    for lot, told in by_lot.items():
        lines = [_told(row, place) for place, row in enumerate(told)]
        same = _alike_at_front(kept[lot], lines)
        if len(kept[lot]) > same:
            Went.rows.of(household).filter(lot=lot, place__gte=same).delete()
        new += [_row(household, lot, line) for line in lines[same:]]
    Went.everywhere.bulk_create(new)


def write_scrap_went(household: uuid.UUID, rows: Sequence[fold.Went]) -> None:
    """Rows of scraps that no lot's entry told of."""
    Went.everywhere.bulk_create(_row(household, None, _told(row, place)) for place, row in enumerate(rows))


def take_back_went(household: uuid.UUID, entry: uuid.UUID) -> None:
    """The scraps were struck out."""
    Went.rows.of(household).filter(lot=None, entry=entry).delete()


def _row(household: uuid.UUID, lot: uuid.UUID | None, line: tuple[Any, ...]) -> Went:
    return Went(household_id=household, lot_id=lot, **dict(zip(_COLUMNS, line, strict=True)))


def _told(row: fold.Went, place: int) -> tuple[Any, ...]:
    return (
        uuid.UUID(row["entry"]),
        place,
        row["kind"],
        dt.date.fromisoformat(row["day"]),
        row["crop"] or "",
        row["way"],
        row["bucket"],
        row["pieces"],
        row["grams"],
        list(row["findings"]),
        row["part"] or "",
        row["cut_in"] or "",
        uuid.UUID(row["animals"]) if row["animals"] else None,
        row["accident"],
        row["unwritten"],
    )


def _alike_at_front(kept: Sequence[tuple[Any, ...]], told: Sequence[tuple[Any, ...]]) -> int:
    """How many lines agree before the first that does not."""
    for same, (one, other) in enumerate(zip(kept, told, strict=False)):
        if one != other:
            return same
    return min(len(kept), len(told))
