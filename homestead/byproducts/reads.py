"""What the byproducts tell: scraps by destination, animal and crop; eggs. Plain data."""

from __future__ import annotations

import datetime as dt
import uuid
from collections import defaultdict
from collections.abc import Iterable, Mapping
from typing import Any

from django.db.models import Count, Q, QuerySet, Sum

from homestead.byproducts.models import Lay
from homestead.store.models import STEPS, Went

#: one line of a tally: by step, animals, crop and accident
KEYS = ("way", "animals", "crop", "accident")


def scraps_by_day(household: uuid.UUID) -> dict[dt.date, list[dict[str, Any]]]:
    """All that went to a use step, by day. Each: `way`, `animals` (id or None), `crop` (empty: mixed),
    `accident`, `grams` [g] as far as known, `lines`, and `unweighed` lines whose weight is not known."""
    told = _scraps(household).values("day", *KEYS)
    told = told.annotate(known=Sum("grams"), lines=Count("id"), unweighed=Count("id", filter=Q(grams=None)))
    by_day: defaultdict[dt.date, list[dict[str, Any]]] = defaultdict(list)
    for row in told:
        by_day[row.pop("day")].append(row | {"grams": row.pop("known") or 0.0})
    return by_day


def scraps_between(household: uuid.UUID, first: dt.date, last: dt.date) -> list[dict[str, Any]]:
    """The same between two days, both counted, added up."""
    by_day = scraps_by_day(household)
    return added_up(row for day, rows in by_day.items() if first <= day <= last for row in rows)


def added_up(rows: Iterable[Mapping[str, Any]]) -> list[dict[str, Any]]:
    """Lines of one key joined, best step first."""
    joined: dict[tuple[Any, ...], dict[str, Any]] = {}
    for row in rows:
        line = joined.setdefault(
            tuple(row[key] for key in KEYS),
            {key: row[key] for key in KEYS} | {"grams": 0.0, "lines": 0, "unweighed": 0},
        )
        for amount in ("grams", "lines", "unweighed"):
            line[amount] += row[amount]
    return sorted(joined.values(), key=_in_order)


def _in_order(row: Mapping[str, Any]) -> tuple[int, str, str, bool]:
    return STEPS.index(row["way"]), str(row["animals"] or ""), row["crop"], row["accident"]


def _scraps(household: uuid.UUID) -> QuerySet[Went]:
    return Went.rows.of(household).filter(way__in=STEPS, unwritten=False).order_by()


def eggs_by_day(household: uuid.UUID) -> dict[dt.date, list[dict[str, Any]]]:
    """Eggs laid, by day and group: `animals`, `eggs`, `broken` (of them)."""
    rows = Lay.rows.of(household).values("day", "animals__uuid")
    by_day: defaultdict[dt.date, list[dict[str, Any]]] = defaultdict(list)
    for row in rows.annotate(laid=Sum("eggs"), lost=Sum("broken")):
        told = {"animals": row["animals__uuid"], "eggs": row["laid"], "broken": row["lost"]}
        by_day[row["day"]].append(told)
    return by_day
