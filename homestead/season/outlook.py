"""The outlook: a sheet a crop, `outlook/<crop>`; and one sheet of what is on the turn, `on_the_turn`.

docs/sheets.md tells their shape.
"""

from __future__ import annotations

import datetime as dt
import uuid
from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any
from zoneinfo import ZoneInfo

import numpy as np
from django.db import transaction
from django.utils import timezone

from homestead.ledger.actions import Sheet, drop_sheets, write_sheets
from homestead.ledger.posting import lock
from homestead.ledger.reads import head_of, sheets_of
from homestead.reference import tables, version
from homestead.science.chance import WEEKS, Chances, chances
from homestead.science.guesses import Floats
from homestead.science.household import Saying, belief_of
from homestead.science.outlook import Ahead, Band, band, look_ahead
from homestead.science.past import Finished, learn, lot_temps_c
from homestead.science.ranges import Impossible, OutsideRange
from homestead.science.reach import chance_to_meet_harvest, crop_ahead
from homestead.science.rooms import daily_temps_c, room_wave
from homestead.science.survival import Fitted, fit_lot
from homestead.science.turning import Waiting, on_the_turn
from homestead.season.facts import Household, Kept, household_facts
from homestead.season.table import AtTable

SEED = 20_230_915
AHEAD_DAYS = 406
WEEKS_SHOWN = 40
HARVEST_SPREAD_DAYS = 10.0


@dataclass(frozen=True)
class Foreseen:
    """A lot fitted for today, its room's days ahead [°C], and its weeks ahead untouched."""

    kept: Kept
    fitted: Fitted
    temps_c: Floats
    waiting: Ahead


def foresee(kept: Kept, words: list[Saying], today: dt.date, chance: Chances, south: bool) -> Foreseen:
    """Fit one lot. Raises OutsideRange or Impossible, naming the fact."""
    known = [r for r in kept.readings if r.day < today]
    season = [r for r in known if r.day >= kept.facts.put_away]
    temps = lot_temps_c(kept.facts, today, season, known, south)
    fitted = fit_lot(kept.facts, temps, today, belief_of(kept.facts, words), chance)
    ahead = daily_temps_c(today, AHEAD_DAYS, room_wave(known, south), season)
    untouched = fit_without_use(fitted)
    return Foreseen(kept, fitted, ahead, look_ahead(untouched, ahead[:70], chance))


def fit_without_use(fitted: Fitted) -> Fitted:
    """The same cloud of a lot nobody takes from."""
    return replace(fitted, lot=replace(fitted.lot, plan_per_week=0.0))


def words_of(known: Household, chance: Chances) -> list[Saying]:
    """What the household's finished lots say."""
    done = [
        Finished(str(one.lot), one.facts, one.closed, tuple(_while_there(one)), one.readings)
        for one in known.kept
        if one.closed is not None and one.facts.pieces > 0
    ]
    return list(learn(done, {}, chance).values())


def _while_there(one: Kept) -> list[Any]:
    return [r for r in one.readings if one.closed and one.facts.put_away <= r.day < one.closed]


def foreseen_lots(
    known: Household, today: dt.date, chance: Chances, south: bool
) -> tuple[list[Foreseen], list[dict[str, str]]]:
    """All lots in store, and those nothing can be said of, with why: one bad lot never stops the night."""
    words, found = words_of(known, chance), []
    silent = [{"lot": str(lot), "why": "no_figures"} for lot in known.unknown]
    for one in known.kept:
        if one.closed is not None or one.facts.put_away > today:
            continue
        try:
            found.append(foresee(one, words, today, chance, south))
        except (OutsideRange, Impossible) as why:
            silent.append({"lot": str(one.lot), "why": str(why)})
    return found, silent


def turning_sheet(lots: list[Foreseen]) -> dict[str, Any]:
    """Lots that lose by waiting, the largest share first; weights in whole grams."""
    by_lot = {str(one.kept.lot): one for one in lots}
    return {
        "lots": [
            {
                "lot": one.lot,
                "share": round(one.share, 3),
                "grams": round(1000 * one.kg),
                "lost": _lost_in_a_week(by_lot[one.lot]),
                "showing_grams": round(1000 * one.showing_now_kg),
            }
            for one in on_the_turn([_waiting(one) for one in lots])
        ]
    }


def _lost_in_a_week(one: Foreseen) -> list[int]:
    sound = one.waiting.sound
    return _grams(band(np.maximum(sound[0] - sound[1], 0.0) * one.kept.piece_kg))


def _waiting(one: Foreseen) -> Waiting:
    cloud = one.fitted.cloud
    turning = float(cloud.weights @ cloud.found.pieces.turning)
    sound = one.waiting.sound
    return Waiting(
        str(one.kept.lot), float(sound[0].mean()), float(sound[1].mean()), turning, one.kept.piece_kg
    )


def crop_sheet(
    crop: str, lots: list[Foreseen], need_kg: float, today: dt.date, chance: Chances, table: AtTable
) -> dict[str, Any]:
    """A crop's food by week, how far it reaches, the chance to meet the new harvest, and its lots today.

    need_kg: a week, with the usual ones at table; what is set aside for seed is no food.
    """
    ordered = sorted(
        lots, key=lambda one: one.waiting.sound[1].mean() / max(one.waiting.sound[0].mean(), 1e-9)
    )
    ahead = crop_ahead(
        [(one.fitted, one.temps_c) for one in ordered],
        need_kg * np.array(table.by_week(today, WEEKS)),
        [one.kept.piece_kg for one in ordered],
        chance,
        kept_back=[one.kept.seed_pieces for one in ordered],
    )
    return {
        "crop": crop,
        "day": today.isoformat(),
        "weeks": [_grams(band(week)) for week in ahead.sound[: WEEKS_SHOWN + 1]],
        "run_out_days": _whole(ahead.run_out()) if need_kg > 0 else None,
        "harvest": _harvest(crop, ahead, today, chance) if need_kg > 0 else None,
        "lots": [_lot(one) for one in ordered],
    }


def _lot(one: Foreseen) -> dict[str, Any]:
    now = one.waiting.sound_in(0)
    cloud = one.fitted.cloud
    return {
        "lot": str(one.kept.lot),
        "pieces": _whole(now),
        "in_56_days": _whole(one.waiting.sound_in(56)),
        "faster": round(float(np.exp(cloud.mean()[0])), 2),
    }


def _harvest(crop: str, ahead: Ahead, today: dt.date, chance: Chances) -> dict[str, Any] | None:
    months = (row.new_harvest_month for row in tables().planting if row.crop_id == crop)
    month = next((month for month in months if month), None)
    if month is None:
        return None
    day = dt.date(today.year + (dt.date(today.year, month, 15) <= today), month, 15)
    met = chance_to_meet_harvest(ahead, (day - today).days, HARVEST_SPREAD_DAYS, chance)
    return {"day": day.isoformat(), "chance": round(met, 2)}


def _grams(of: Band) -> list[int]:
    return [round(1000 * x) for x in (of.p10, of.p50, of.p90)]


def _whole(of: Band) -> list[int]:
    return [round(x) for x in (of.p10, of.p50, of.p90)]


def sheets_content(known: Household, today: dt.date, south: bool = False) -> dict[str, dict[str, Any]]:
    """Content of all sheets by key. The same facts give the same sheets."""
    chance = chances(SEED)
    lots, silent = foreseen_lots(known, today, chance, south)
    by_crop: defaultdict[str, list[Foreseen]] = defaultdict(list)
    for one in lots:
        by_crop[one.kept.facts.crop].append(one)
    content = {
        f"outlook/{crop}": crop_sheet(crop, some, known.need_kg.get(crop, 0.0), today, chance, known.table)
        for crop, some in sorted(by_crop.items())
    }
    return content | {"on_the_turn": turning_sheet(lots) | {"day": today.isoformat(), "silent": silent}}


def make_outlook(household_id: uuid.UUID, *, now: dt.datetime | None = None) -> None:
    """Work the outlook out and put it into the feed. Safe to run twice: the same is not written again.

    What is read is read at one number of the ledger; the sums are done outside the lock: they take seconds.
    """
    now = now or timezone.now()
    with transaction.atomic():
        household = lock(household_id)
        today = now.astimezone(ZoneInfo(household.zone)).date()
        known, as_of = household_facts(household_id), head_of(household_id)
    content = sheets_content(known, today, household.hemisphere == "south")
    write_sheets(household_id, _sheets(content, as_of), now=now)
    gone = [sheet["key"] for sheet in sheets_of(household_id, "outlook") if sheet["key"] not in content]
    if gone:
        drop_sheets(household_id, gone)


def _sheets(content: Mapping[str, dict[str, Any]], as_of: int) -> list[Sheet]:
    return [
        Sheet(key=key, kind=key.split("/")[0], as_of=as_of, inputs={"tables": version()}, content=told)
        for key, told in content.items()
    ]
