"""What a space costs the lots that lie in it: days of keeping, cold, and water."""

from __future__ import annotations

import datetime as dt
import math
import uuid
from collections.abc import Mapping
from typing import Any

import numpy as np

from homestead.reference import tables
from homestead.science.ageing import chill_degree_days, days_lost_a_week
from homestead.science.drying import limp_on_day, touch, water_loss_pct_day
from homestead.science.guesses import Floats
from homestead.season.air import ONE_IN_TEN, RoomAir, humidity_on
from homestead.season.facts import handbook_of
from homestead.season.stored import USUAL_FREEZING_C, Stored, StoredLot

#: days ahead that drying is followed
AHEAD_DAYS = 180
#: less than this a week is not worth a word. Ours [d]
LEAST_LOST_DAYS = 0.5
#: a room nobody read for so long is not held up as the best
LATELY = dt.timedelta(days=30)
#: day-degrees below its threshold at which a crop may have been hurt, and surely. Ours [°C d]
CHILL_CAUTION, CHILL_HURT = 20.0, 50.0
#: transpiration is known to a factor of two
SURE_OF_DRYING = (2.0, 1.0, 0.5)
#: what is wanted drier than this is kept in a dry skin, which the rule of drying does not know. Ours [%]
DAMP_PCT = 80.0
#: kinds of space that nothing is kept in as in a room
NO_STORE = frozenset({"freezer", "bed"})


def best_room(one: Stored, airs: Mapping[uuid.UUID, RoomAir], today: dt.date) -> uuid.UUID | None:
    """The coldest room read lately that neither freezes nor chills the crop; None if there is none."""
    freezing = one.first("freezing_point_c") or (USUAL_FREEZING_C,)
    chilling = one.chilling_c
    floor = max(freezing[0] + 1.0, -math.inf if chilling is None else chilling)
    fit = [
        (air.week_to(today)[0], str(space), space)
        for space, air in airs.items()
        if air.readings and today - air.readings[-1].day <= LATELY and air.week_to(today)[0] >= floor
    ]
    return min(fit)[2] if fit else None


def lost_days(
    one: Stored, space: uuid.UUID, airs: Mapping[uuid.UUID, RoomAir], today: dt.date
) -> dict[str, Any] | None:
    """By how many days of the best room the crop ages more here in a week, P10, P50, P90. None where it is
    hardly any, or no table tells how the crop ages with warmth."""
    book, best = handbook_of(one.like), best_room(one, airs, today)
    if book is None or best is None or best == space or one.first("q10_low", "q10_high") is None:
        return None
    (here, off), (there, off_there) = airs[space].week_to(today), airs[best].week_to(today)
    off = math.hypot(off, off_there)
    days = [
        days_lost_a_week(here + z * off, there, book.q10, book.hold_below_c)
        for z in (-ONE_IN_TEN, 0.0, ONE_IN_TEN)
    ]
    if days[1] < LEAST_LOST_DAYS:
        return None
    return {"crop": one.crop, "best": str(best), "days": [round(d, 1) for d in days]}


def chilled(one: Stored, air: RoomAir, today: dt.date) -> list[dict[str, Any]]:
    """Lots that lay below their chilling threshold for long enough to suffer, `may` or `surely`."""
    threshold = one.chilling_c
    if threshold is None:
        return []
    told = []
    for lot in one.lots:
        lay, _ = air.between(lot.since, (today - lot.since).days)
        degree_days = chill_degree_days(lay.tolist(), threshold)
        if degree_days >= CHILL_CAUTION:
            hurt = "surely" if degree_days >= CHILL_HURT else "may"
            told.append({"lot": str(lot.lot), "below_c": threshold, "hurt": hurt})
    return told


def dried(one: Stored, air: RoomAir, today: dt.date) -> list[dict[str, Any]]:
    """How each lot feels, and the day it turns limp: soonest, likeliest, latest; null beyond half a year.

    Weight lost in curing is water that should go: it does not count, nor does what is kept dry on purpose.
    """
    skin = one.first("transpiration_ng_kg_s_pa", "water_loss_limit_pct") or _apart(one)
    wanted = one.wanted("rh_low_pct", "rh_high_pct")
    if skin is None or wanted is None or wanted[1] < DAMP_PCT:
        return []
    return [
        told
        for lot in one.lots
        if not lot.curing and (told := _dried(one, lot, skin, air, today)) is not None
    ]


def _apart(one: Stored) -> tuple[float, ...] | None:
    """The two figures from two rows."""
    rate, limit = one.first("transpiration_ng_kg_s_pa"), one.first("water_loss_limit_pct")
    return (rate[0], limit[0]) if rate and limit else None


def _dried(
    one: Stored, lot: StoredLot, skin: tuple[float, ...], air: RoomAir, today: dt.date
) -> dict[str, Any] | None:
    first = max(lot.since, air.first)
    days = (today - first).days
    damp = humidity_on(air.readings, first, days + AHEAD_DAYS)
    if damp is None or days < 0:
        return None
    temps, _ = air.between(first, days + AHEAD_DAYS)
    losses = _losses_pct(temps, damp, skin[0], moisture_factor(one.like, lot.pack))
    lost = float(losses[:days].sum()) / skin[1]
    limp = [_day(limp_on_day((losses * by).tolist(), skin[1]), first) for by in SURE_OF_DRYING]
    if limp[0] is None:
        return None
    return {"lot": str(lot.lot), "feels": touch(lost), "limp_on": limp}


def _losses_pct(temps: Floats, damp: Floats, rate: float, factor: float) -> Floats:
    air = zip(np.clip(temps, 0.0, 25.0), np.clip(damp, 0.0, 1.0), strict=True)
    return np.array([water_loss_pct_day(float(t), float(rh), rate, factor) for t, rh in air])


def _day(number: int | None, first: dt.date) -> str | None:
    return None if number is None else (first + dt.timedelta(days=number)).isoformat()


def moisture_factor(crop: str, pack: str) -> float:
    """How much of its drying a pack lets through: the crop's own row, else any produce's, else all. [-]"""
    told = {
        row.crop_id: row.moisture_factor
        for row in tables().packs
        if row.pack == pack and row.moisture_factor is not None and row.crop_id in (crop, "any_produce")
    }
    return told.get(crop, told.get("any_produce", 1.0))
