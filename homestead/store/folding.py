"""Folds touched lots again in the push's transaction, and keeps what the fold says in the store's tables."""

from __future__ import annotations

import datetime as dt
import uuid
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from homestead.household.rows import key_of
from homestead.ledger.followers import Touched
from homestead.store.actions import write_went
from homestead.store.days import of_the_household
from homestead.store.kin import fold_lots, with_parts
from homestead.store.models import Lot
from homestead.storekeeping.fold import Folded, lot_without_past, went_of
from homestead.storekeeping.state import LotState

#: nothing kept here hangs on the day the fold is asked for (presumed and edible do, and are not kept)
ANY_DAY = "2000-01-01"
#: rows written by one statement
AT_ONCE = 50


@dataclass(frozen=True)
class Refolded:
    """A lot folded again, told without its past; `state` is None where its birth does not count."""

    household: uuid.UUID
    lot: uuid.UUID
    state: LotState | None


Listener = Callable[[Sequence[Refolded]], None]
_listeners: list[Listener] = []


def follow_folding(listener: Listener) -> None:
    """Call it in the same transaction with every lot folded again: rooms above keep their own part of it."""
    _listeners.append(listener)


def refold(touched: Touched) -> None:
    """Fold the touched lots and the parts moved from them. One read of their lines a push.

    A household that moved to another zone or hemisphere has all its lots folded again.
    """
    household = touched.household
    lots: Iterable[uuid.UUID] = touched.lots
    if of_the_household(touched):
        lots = Lot.rows.of(household).values_list("uuid", flat=True)
    affected = with_parts(household, lots)
    if not affected:
        return
    folded = fold_lots(household, affected)
    rows = list(Lot.rows.of(household).filter(uuid__in=affected).order_by("uuid"))
    results = _keep(folded, rows)
    standing = [row for row in rows if row.stands]
    write_went(
        household,
        {row.key: [] for row in rows} | {row.key: went_of(folded, str(row.uuid)) for row in standing},
    )
    for listener in _listeners:
        listener(results)


def _keep(folded: Folded, rows: Sequence[Lot]) -> list[Refolded]:
    """Write what changed of all the rows at once."""
    results, changed = [], []
    columns: set[str] = set()
    for row in rows:
        state = lot_without_past(folded, str(row.uuid), ANY_DAY)
        told = _columns(row.household_id, state) if state else _nothing(folded, row)
        news = [column for column, value in told.items() if getattr(row, column) != value]
        for column in news:
            setattr(row, column, told[column])
        if news:
            changed.append(row)
            columns.update(news)
        results.append(Refolded(row.household_id, row.uuid, state))
    if changed:
        Lot.everywhere.bulk_update(changed, sorted(columns), batch_size=AT_ONCE)
    return results


def _columns(household: uuid.UUID, state: LotState) -> dict[str, Any]:
    """The columns of a lot's row that the fold tells."""
    return {
        "stands": True,
        "code": state["code"] or "",
        "variety": state["variety"] or "",
        "label": state["label"] or "",
        "born_day": day_of(state["born_day"]),
        "put_away_day": day_of(state["put_away_day"]),
        "winter": state["winter"],
        "space_id": key_of(household, uuid.UUID(state["space"])),
        "pack": state["pack"] or "",
        "spot": state["spot"] or "",
        "curing": state["curing"],
        "pieces": state["pieces"],
        "grams": state["grams"],
        "ratio": state["ratio"],
        "own_measure": state["own_measure"],
        "counted_on": day_of(state["last_count"]["day"]) if state["last_count"] else None,
        "asks_count": state["asks_count"],
        "finished": state["finished"],
        "seed_pieces": state["seed"]["pieces"],
        "seed_grams": state["seed"]["grams"],
        "seed_treated": state["seed"]["treated"],
        "held_pieces": state["held"]["pieces"],
        "held_grams": state["held"]["grams"],
        "last_look": day_of(state["last_look"]["day"]),
        "look_on": day_of(state["look_on"]),
        "last_entry": day_of(state["last_entry"]["day"]),
        "tallies": state["tallies"],
    }


def _nothing(folded: Folded, row: Lot) -> dict[str, Any]:
    """A lot whose birth does not count keeps its names only, so that its page stays readable."""
    named = folded.setting.get("lots", {}).get(str(row.uuid), {})
    blank = Lot()
    empty = {column: getattr(blank, column) for column in FOLDED}
    names = {name: named.get(name) or "" for name in ("code", "variety", "label")}
    return empty | names | {"winter": named.get("winter")}


#: the columns of `_columns`
FOLDED = (
    *("stands", "code", "variety", "label", "born_day", "put_away_day", "winter"),
    *("space_id", "pack", "spot", "curing"),
    *("pieces", "grams", "ratio", "own_measure", "counted_on", "asks_count", "finished"),
    *("seed_pieces", "seed_grams", "seed_treated", "held_pieces", "held_grams"),
    *("last_look", "look_on", "last_entry", "tallies"),
)


def day_of(text: str | None) -> dt.date | None:
    return dt.date.fromisoformat(text) if text else None
