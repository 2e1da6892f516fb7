"""The stash of trimmings for stock, as a chore: boiled before the oldest of it has lain too long."""

from __future__ import annotations

import datetime as dt
import uuid
from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from django.db.models import Q

from homestead.reference import tables
from homestead.reference.kitchen_rows import keeps_days
from homestead.rounds.asked import Asked
from homestead.store.models import Went

#: how long before its last day it is asked for, so that a free evening is found. Ours
BEFORE = dt.timedelta(days=14)
#: work at a pot of stock; it boils by itself. Common practice, no source [min]
MINUTES = 20
TOPIC = "stock_pot_stash"


def stash_to_empty(household: uuid.UUID, today: dt.date) -> Iterator[Asked]:
    """One chore, from two weeks before the oldest has lain as long as the table lets it.

    Key `empty_stash/<day of the oldest>`: a pot of stock made takes the oldest out and moves the key on.
    """
    keeps = keeps_days(tables()).get(TOPIC)
    # what was boiled out is of no one crop
    went = Went.rows.of(household).filter(Q(way="pot") | Q(kind="scrap", crop=""), accident=False)
    rows = went.order_by("day", "entry", "place").values_list("day", "kind", "way", "grams", "findings")
    oldest = oldest_of(Saved(*row) for row in rows)
    if keeps is None or oldest is None:
        return
    latest = oldest + dt.timedelta(days=keeps)
    yield Asked(
        key=f"empty_stash/{oldest}",
        what="empty_stash",
        day=latest - BEFORE,
        latest=latest,
        minutes=MINUTES,
        about={"oldest": oldest.isoformat()},
    )


class Saved(NamedTuple):
    """What went to the pot, or was boiled out of it [g]; None: not weighed."""

    day: dt.date
    kind: str
    way: str
    grams: float | None
    findings: Sequence[str]

    @property
    def is_spent(self) -> bool:
        return self.kind == "scrap" and "spent" in self.findings


def oldest_of(went: Iterable[Saved]) -> dt.date | None:
    """The day of the oldest that is left. Stock takes the oldest first, all of it where it was not weighed.

    What was boiled out is a scrap found `spent`; what was never weighed goes with what lay beside it. Of one
    day what was put in comes before what was taken out. The phone's twin:
    `frontend/src/places/kitchen/pot.ts`.
    """
    saved: list[tuple[dt.date, float]] = []
    for one in sorted(went, key=lambda one: (one.day, one.is_spent)):
        if one.is_spent:
            saved = _taken_out(saved, float("inf") if one.grams is None else one.grams)
        elif one.way == "pot":
            saved.append((one.day, one.grams or 0.0))
    return min((day for day, _ in saved), default=None)


def _taken_out(saved: list[tuple[dt.date, float]], grams: float) -> list[tuple[dt.date, float]]:
    left: list[tuple[dt.date, float]] = []
    for day, has in saved:
        taken = min(grams, has)
        if grams <= 0 or has > taken:
            left.append((day, has - taken))
        grams -= taken
    return left
