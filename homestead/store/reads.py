"""What the store tells: plain data of one household."""

from __future__ import annotations

import datetime as dt
import uuid
from collections.abc import Iterable
from typing import Any, TypedDict

from django.db.models import QuerySet

from homestead.ledger.reads import life_of_lot as entries_of_lot
from homestead.store.kin import fold_lots
from homestead.store.models import Lot, Reading, Space, Went
from homestead.storekeeping.fold import lot_at
from homestead.storekeeping.state import LotState


class ReadingTold(TypedDict):
    """One reading; temperatures [°C], humidity [%]."""

    when: dt.datetime
    temp_c: float | None
    rh_pct: int | None
    low_c: float | None
    high_c: float | None


def spaces_of(household: uuid.UUID) -> list[dict[str, Any]]:
    """Spaces in their order, archived ones last, with how many lots stand in each."""
    rows = Space.rows.of(household).order_by("archived", "order", "name", "uuid")
    standing: dict[uuid.UUID, int] = {}
    for key in lots_here(household).values_list("space_id", flat=True):
        standing[key] = standing.get(key, 0) + 1
    columns = ("key", "uuid", "name", "kind", "cautions", "archived")
    return [row | {"lots": standing.get(row.pop("key"), 0)} for row in rows.values(*columns)]


def lots_here(household: uuid.UUID) -> QuerySet[Lot]:
    """Lots that stand and are not finished, by space and day put away."""
    there = Lot.rows.of(household).filter(stands=True, finished=False)
    return there.order_by("space__order", "space__uuid", "put_away_day", "uuid")


def states_of_lots(household: uuid.UUID, lots: Iterable[uuid.UUID], today: str) -> dict[uuid.UUID, LotState]:
    """The lots as of `today`, presumed and edible amounts too; one that does not stand is missing."""
    wanted = set(lots)
    folded = fold_lots(household, wanted)
    states = {lot: lot_at(folded, str(lot), today) for lot in sorted(wanted)}
    return {lot: state for lot, state in states.items() if state}


def life_of_lot(household: uuid.UUID, lot: uuid.UUID, today: str) -> dict[str, Any]:
    """A lot's whole life: `state` as of today (None where it does not stand), `entries` in order of time with
    what each says and whether it is struck, `went` what left it and where it went."""
    went = Went.rows.of(household).filter(lot__uuid=lot).order_by("place")
    return {
        "state": states_of_lots(household, [lot], today).get(lot),
        "entries": entries_of_lot(household, lot),
        "went": [told_went(row) for row in went],
    }


def told_went(row: Went) -> dict[str, Any]:
    """A row of what went where, its grams and pieces as folded (None: not known)."""
    columns = ("entry", "kind", "day", "crop", "way", "bucket", "pieces", "grams", "findings")
    more = ("part", "cut_in", "animals", "accident", "unwritten")
    return {column: getattr(row, column) for column in columns + more}


def went_between(household: uuid.UUID, first: dt.date, last: dt.date) -> list[dict[str, Any]]:
    """All that left between two days, both counted, scraps among it; none of lots that do not stand."""
    rows = Went.rows.of(household).filter(day__gte=first, day__lte=last)
    return [told_went(row) for row in rows.order_by("day", "entry", "place", "id")]


def readings_of(household: uuid.UUID, space: uuid.UUID, since: dt.datetime) -> list[ReadingTold]:
    """Readings of a space, oldest first."""
    rows = Reading.rows.of(household).filter(space__uuid=space, when__gte=since).order_by("when", "uuid")
    return [ReadingTold(**row) for row in rows.values("when", "temp_c", "rh_pct", "low_c", "high_c")]
