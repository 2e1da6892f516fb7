"""What `outlook/<crop>` and `on_the_turn` say, from fitted lots. docs/sheets.md tells their shape."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from typing import Any

import numpy as np

from homestead.reference import tables
from homestead.science.chance import WEEKS, Chances, chances
from homestead.science.outlook import CAP_DAYS, Ahead, Band, band
from homestead.science.reach import chance_to_meet_harvest, crop_ahead
from homestead.science.score import stretched
from homestead.science.turning import Waiting, on_the_turn
from homestead.season.foresee import SEED, Foreseen
from homestead.season.keeping import keeping, look_days
from homestead.season.months import here
from homestead.season.table import AtTable

WEEKS_SHOWN = 40
HARVEST_SPREAD_DAYS = 10.0


def grams(of: Band, stretch: float = 1.0) -> list[int]:
    """P10, P50, P90 of kilograms, in whole grams; stretched about P50 by the household's own factor."""
    return [round(1000 * x) for x in stretched(of.p10, of.p50, of.p90, stretch)]


def whole(of: Band, stretch: float = 1.0) -> list[int]:
    """P10, P50, P90 in whole numbers, stretched likewise."""
    return [round(x) for x in stretched(of.p10, of.p50, of.p90, stretch)]


def turning_rows(lots: Sequence[Foreseen]) -> list[dict[str, Any]]:
    """Lots that lose by waiting, the largest share first; weights in whole grams."""
    by_lot = {str(one.kept.lot): one for one in lots}
    return [
        {
            "lot": one.lot,
            "share": round(one.share, 3),
            "grams": round(1000 * one.kg),
            "lost": _lost_in_a_week(by_lot[one.lot]),
            "showing_grams": round(1000 * one.showing_now_kg),
        }
        for one in on_the_turn([_waiting(one) for one in lots])
    ]


def _lost_in_a_week(one: Foreseen) -> list[int]:
    sound = one.waiting.sound
    return grams(band(np.maximum(sound[0] - sound[1], 0.0) * one.kept.piece_kg))


def _waiting(one: Foreseen) -> Waiting:
    cloud, sound = one.fitted.cloud, one.waiting.sound
    turning = float(cloud.weights @ cloud.found.pieces.turning)
    now, soon = float(sound[0].mean()), float(sound[1].mean())
    return Waiting(str(one.kept.lot), now, soon, turning, one.kept.piece_kg)


def in_order(lots: Sequence[Foreseen]) -> list[Foreseen]:
    """The order to eat them in: those first that lose the largest share by a week of waiting."""
    return sorted(lots, key=lambda one: one.kept_share(1))


def crop_sheet(
    crop: str,
    lots: Sequence[Foreseen],
    need_kg: float,
    table: AtTable,
    today: dt.date,
    like: str = "",
    stretch: float = 1.0,
    south: bool = False,
) -> dict[str, Any]:
    """A crop's band by week, how far it reaches, the chance to meet the new harvest, and its lots today.

    need_kg: a week, with the usual ones at table. `like`: the crop of the tables whose harvest counts.
    stretch: by how much the household's own forecasts ask bands to be wider [-].
    """
    chance, ordered = chances(SEED), in_order(lots)
    need = need_kg * np.array(table.by_week(today, WEEKS))
    ahead = crop_ahead(
        [(one.fitted, one.temps_c) for one in ordered], need, [one.kept.piece_kg for one in ordered], chance,
        kept_back=[one.kept.seed_pieces for one in ordered],
    )  # fmt: skip
    harvest = next_harvest(like or crop, today, south)
    shown = min(max(WEEKS_SHOWN, (harvest - today).days // 7 + 3 if harvest else 0), WEEKS)
    return {
        "crop": crop,
        "day": today.isoformat(),
        "need_grams": round(1000 * need_kg),
        "seed_grams": round(sum(1000 * one.kept.seed_pieces * one.kept.piece_kg for one in lots)),
        "weeks": [grams(band(week), stretch) for week in ahead.sound[: shown + 1]],
        "run_out_days": _days(ahead.run_out(), stretch) if need_kg > 0 else None,
        "harvest": _met(ahead, harvest, today, chance) if harvest and need_kg > 0 else None,
        "lots": [_lot(one, today, stretch) for one in ordered],
    }


def _days(of: Band, stretch: float) -> list[int]:
    return [min(days, round(CAP_DAYS)) for days in whole(of, stretch)]


def _lot(one: Foreseen, today: dt.date, stretch: float) -> dict[str, Any]:
    cloud = one.fitted.cloud
    return {
        "lot": str(one.kept.lot),
        "pieces": whole(one.waiting.sound_in(0), stretch),
        "in_56_days": whole(one.waiting.sound_in(56), stretch),
        "faster": round(float(np.exp(cloud.mean()[0])), 2),
        "look_days": look_days(one, today),
        "keeping": keeping(one, today),
    }


def next_harvest(crop: str, today: dt.date, south: bool = False) -> dt.date | None:
    """The middle of the month of the next new harvest by the planting table; None where it tells none."""
    months = (row.new_harvest_month for row in tables().planting if row.crop_id == crop)
    month = next((here(month, south) for month in months if month), None)
    return dt.date(today.year + (dt.date(today.year, month, 15) <= today), month, 15) if month else None


def _met(ahead: Ahead, harvest: dt.date, today: dt.date, chance: Chances) -> dict[str, Any]:
    met = chance_to_meet_harvest(ahead, (harvest - today).days, HARVEST_SPREAD_DAYS, chance)
    return {"day": harvest.isoformat(), "chance": round(met, 3)}
