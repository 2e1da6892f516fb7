"""Forecasts are kept as they were made, one a lot and week, and judged once a look or a count tells."""

from __future__ import annotations

import datetime as dt
import uuid
from collections.abc import Iterable, Mapping
from typing import Any

import numpy as np

from homestead.reference import version
from homestead.science.chance import chances
from homestead.science.outlook import Ahead, Band, look_ahead
from homestead.science.plain import handbook_curves, plain_ahead
from homestead.season.facts import Kept
from homestead.season.foresee import SEED, Foreseen
from homestead.season.models import Forecast
from homestead.store.models import Lot

#: what the sums are called in a kept forecast: another number when the estimator answers otherwise
SUMS = 1
EVERY = dt.timedelta(days=7)
#: a full look or a count so near the day asked for tells the truth of it
NEAR = dt.timedelta(days=3)
DAYS_AHEAD = (28, 56)
#: a lot of which more than this share was given, put by or moved did not run out by eating. Ours [-]
ELSEWHERE = 0.1
#: a forecast so old is settled or never will be: a run-out is told 400 days ahead at most
LONGEST = dt.timedelta(days=400 + 60)


def due_for_keeping(household: uuid.UUID, lots: Iterable[Kept], today: dt.date) -> list[Kept]:
    """Lots of which none was kept in the last week."""
    lately = Forecast.rows.of(household).filter(day__gt=today - EVERY, day__lte=today)
    known = set(lately.values_list("lot", flat=True))
    return [one for one in lots if one.lot not in known]


def keep_forecasts(
    household: uuid.UUID, lots: Iterable[Foreseen], today: dt.date, as_of: int, stretch: float
) -> None:
    """Keep one of each lot as it is made; what was kept is never written anew.

    as_of: the number of the ledger that was known; stretch: what the bands shown were stretched by [-].
    """
    inputs = {"tables": version(), "sums": SUMS, "as_of": as_of, "stretch": stretch}
    made = [_made(household, one, today, inputs) for one in lots]
    Forecast.everywhere.bulk_create(made, ignore_conflicts=True)


def _made(household: uuid.UUID, one: Foreseen, today: dt.date, inputs: Mapping[str, Any]) -> Forecast:
    ours, facts = look_ahead(one.fitted, one.temps_c, chances(SEED)), one.kept.facts
    temps = np.concatenate([one.lived_c[: (today - facts.put_away).days], one.temps_c])
    plain = plain_ahead(facts.before(today), today, temps, handbook_curves(facts.handbook))
    return Forecast(
        household_id=household, lot=one.kept.lot, crop=facts.crop, day=today, inputs=dict(inputs),
        told=told_of(ours), plain=told_of(plain),
    )  # fmt: skip


def told_of(ahead: Ahead) -> dict[str, Any]:
    """Bands [P10, P50, P90] in pieces or days, and chances to last so many days."""
    bands = {f"sound_{days}": ahead.sound_in(days) for days in DAYS_AHEAD} | {"run_out": ahead.run_out()}
    chances_ = {f"lasts_{days}": round(ahead.chance_to_last(days), 4) for days in DAYS_AHEAD}
    return {name: _three(one) for name, one in bands.items()} | chances_


def _three(of: Band) -> list[float]:
    return [round(x, 2) for x in (of.p10, of.p50, of.p90)]


def settle_forecasts(household: uuid.UUID, kept: Iterable[Kept], today: dt.date) -> None:
    """Write beside each forecast what came of it, as far as it is known; what is struck is taken back."""
    by_lot = {one.lot: one for one in kept}
    eaten_up, changed = _eaten_up(household), []
    for row in Forecast.rows.of(household).filter(day__gte=today - LONGEST):
        lot = by_lot.get(row.lot)
        happened = happened_of(row.day, lot, eaten_up=row.lot in eaten_up) if lot else {}
        if happened != row.happened:
            row.happened = happened
            changed.append(row)
    Forecast.everywhere.bulk_update(changed, ["happened"], batch_size=500)


def _eaten_up(household: uuid.UUID) -> set[uuid.UUID]:
    """Finished lots that eating and rot brought to their end: hardly any was given, put by or moved."""
    rows = Lot.rows.of(household).filter(stands=True, finished=True).values_list("uuid", "tallies")
    return {lot for lot, told in rows if _elsewhere(told) <= ELSEWHERE * (told.get("put_away") or 0.0)}


def _elsewhere(tallies: Mapping[str, Any]) -> float:
    return sum(float(tallies.get(name) or 0.0) for name in ("given", "put_by", "moved", "seed"))


def happened_of(day: dt.date, lot: Kept, *, eaten_up: bool) -> dict[str, float]:
    """What is known of a forecast of that day: pieces sound, days it lasted, 1 or 0 for whether it lasted.

    Only a full look or a count near the day asked for tells what was sound; only the end of a lot that was
    eaten up tells its run-out. A lot seen on the day lasted until then.
    """
    found: dict[str, float] = {}
    ended = lot.closed if eaten_up else None
    for days in DAYS_AHEAD:
        asked = day + dt.timedelta(days=days)
        seen = _seen_about(asked, lot)
        if seen is not None:
            found[f"sound_{days}"] = seen
        if ended is not None and ended > day:
            found[f"lasts_{days}"] = float(ended > asked)
        elif seen is not None:
            found[f"lasts_{days}"] = 1.0
    if ended is not None and ended > day:
        found["run_out"] = float((ended - day).days - 1)
    return found


def _seen_about(asked: dt.date, lot: Kept) -> float | None:
    near = [look for look in lot.facts.looks if look.full and look.counted and abs(look.day - asked) <= NEAR]
    if not near:
        return None
    best = min(near, key=lambda look: (abs(look.day - asked), look.day))
    return best.looked - best.culled
