"""How what is there is known, and what is shown of it (F12, F16). Twin: `known.ts`."""

from __future__ import annotations

from itertools import pairwise
from statistics import median

from homestead.storekeeping.amounts import Maybe
from homestead.storekeeping.lot import Lot
from homestead.storekeeping.state import Known

COUNTED_DAYS = 14
SILENT_DAYS = 21
SILENT_GAPS = 3
GAPS_OF_TAKES = 8
RATE_DAYS = 56


def known_as(lot: Lot, today: int) -> Known:
    if not lot.finished and today - lot.last_entry.day >= silence(lot):
        return "presumed"
    counted = lot.last_count
    if counted is not None and lot.counted_well and today - counted.day <= COUNTED_DAYS:
        return "counted"
    return "worked_out"


def silence(lot: Lot) -> float:
    """Days without an entry after which takes are likely to have been forgotten."""
    days = [day for day, _pieces, _grams in lot.takes[-GAPS_OF_TAKES:]]
    gaps = [later - earlier for earlier, later in pairwise(days)]
    return max(SILENT_DAYS, SILENT_GAPS * median(gaps)) if gaps else SILENT_DAYS


def use_rate(lot: Lot) -> tuple[float, float]:
    """Pieces and grams taken a day in the 56 days up to the last entry; 0 under two takes."""
    last = lot.last_entry.day
    lately = [(pieces, grams) for day, pieces, grams in lot.takes if last - RATE_DAYS < day <= last]
    if len(lately) < 2:
        return 0.0, 0.0
    pieces = sum(each or 0.0 for each, _grams in lately) / RATE_DAYS
    return pieces, sum(each or 0.0 for _pieces, each in lately) / RATE_DAYS


def shown_amount(lot: Lot, today: int, known: Known) -> tuple[Maybe, Maybe]:
    """Never below nought; lessened by the expected use where it is presumed."""
    rates = use_rate(lot) if known == "presumed" else (0.0, 0.0)
    silent_days = today - lot.last_entry.day
    return _lessened(lot.pieces, rates[0] * silent_days), _lessened(lot.grams, rates[1] * silent_days)


def _lessened(amount: Maybe, by: float) -> Maybe:
    return None if amount is None else max(amount - by, 0.0)
