"""The sheet `planting`: how much of each crop to put away and to plant, so that it lasts to the new harvest.

docs/sheets.md tells its shape.
"""

from __future__ import annotations

import datetime as dt
import math
import uuid
from collections.abc import Iterable, Mapping
from typing import Any

from homestead.reference import tables
from homestead.reference.stored_rows import Planting
from homestead.science.pieces import HAZARD_AT_LIFE
from homestead.science.planting import (
    BETWEEN_SPREAD,
    Need,
    kept_law,
    peeled_for,
    plants_needed,
    put_away_kg,
    winter_need,
)
from homestead.science.planting import Winter as Used
from homestead.science.ranges import Impossible
from homestead.season.months import here
from homestead.season.winters import USUAL_WEEKS, Past, pasts_of
from homestead.season.yields import Brings, brings_of, own_yields, row_name
from homestead.store.models import OwnCrop, WeeklyUse
from homestead.store.setting import figures_of
from homestead.storekeeping.edible import refuse_share
from homestead.storekeeping.state import CropFigures

SERVICE = 0.8
BANDS = (0.1, 0.5, 0.9)
#: eaten in the end where no own lot tells: the share still sound at the handbook's life
HANDBOOK_SHARE = math.exp(-HAZARD_AT_LIFE)


def planting_sheet(household: uuid.UUID, today: dt.date, south: bool = False) -> dict[str, Any]:
    """Crops of the garden that were put away or are used, and those of which too little is known. Grams."""
    figures, told, pasts = figures_of(household), told_kg_a_week(household), pasts_of(household, today)
    likes = OwnCrop.rows.of(household).exclude(like="").values_list("uuid", "like")
    own, like = own_yields(household), {str(crop): of for crop, of in likes}
    crops, unknown = [], []
    for crop in sorted({*told, *pasts}):
        known = like.get(crop, crop)
        rows = [row for row in tables().planting if row.crop_id == known]
        if not rows and crop not in own:
            continue
        row = _crop(
            told.get(crop), pasts.get(crop, Past()), weeks_of(rows), figures.get(crop, {}), known,
            brings_of(rows, own.get(crop, {})),
        )  # fmt: skip
        if row is None:
            unknown.append(crop)
        else:
            crops.append({"crop": crop, "sow": sow_of(rows, south)} | row)
    return {"day": today.isoformat(), "service": SERVICE, "crops": crops, "unknown": unknown}


def _crop(
    told_kg: float | None, past: Past, weeks: int, figures: CropFigures, known: str, brings: Brings | None
) -> dict[str, Any] | None:
    """None where nobody told a use and no winter was long enough. Seed is part of the need."""
    edible = _edible_by_week(known, figures, weeks)
    fresh = peeled_for(told_kg, edible) / weeks if told_kg and edible else told_kg
    used = [Used((one.eaten + one.put_by) / 1000, one.weeks) for one in past.winters]
    try:
        kg, spread = winter_need(used, weeks, fresh)
    except Impossible:
        return None
    a, b = kept_law(past.kept, HANDBOOK_SHARE)
    need = Need(kg + past.seed_kg, spread, a, b, *((brings.kg, brings.spread) if brings else (1.0, 0.0)))
    return {
        "weeks": weeks,
        "told": told_kg is not None,
        "need": _log_normal_grams(kg, spread),
        "seed_grams": round(1000 * past.seed_kg),
        "kept_pct": round(100 * a / (a + b)),
        "own_lots": len(past.kept),
        "edible": [round(edible[0], 2), round(edible[-1], 2)] if edible else None,
        "put_away": [round(1000 * put_away_kg(need, share)) for share in BANDS],
        "plant": _plant(need, brings) if brings else None,
        "winters": [one.told() for one in past.winters],
    }


def _plant(need: Need, brings: Brings) -> dict[str, Any]:
    """`numbers`: for half the winters, for `service` and for nine in ten."""
    return brings.told() | {"numbers": [max(1, plants_needed(need, share)) for share in (0.5, SERVICE, 0.9)]}


def _log_normal_grams(kg: float, spread: float) -> list[int]:
    """P10, P50, P90; 1.2816 standard deviations hold eight in ten of a normal law."""
    return [round(1000 * kg * math.exp(z * max(spread, BETWEEN_SPREAD))) for z in (-1.2816, 0.0, 1.2816)]


def _edible_by_week(crop: str, figures: CropFigures, weeks: int) -> list[float] | None:
    refuse = [refuse_share(crop, figures, 7.0 * week) for week in range(weeks)]
    told = [1.0 - one for one in refuse if one is not None and one < 0.99]
    return told if len(told) == weeks else None


def sow_of(rows: Iterable[Planting], south: bool) -> dict[str, Any] | None:
    """First and last month of sowing or planting out, as they fall here, and the row; None of trees."""
    for row in rows:
        if row.first_crop_years_low is None and row.sow_from_month and row.sow_to_month:
            months = [here(month, south) for month in (row.sow_from_month, row.sow_to_month)]
            return {"months": months, "row": row_name(row)}
    return None


def weeks_of(rows: Iterable[Planting]) -> int:
    """Weeks the store has to last: from the last month of putting away to the new harvest's, by the table."""
    for row in rows:
        if row.put_away_to_month is not None and row.new_harvest_month is not None:
            months = (row.new_harvest_month - row.put_away_to_month) % 12 or 12
            return round(months * 365.25 / 12 / 7)
    return USUAL_WEEKS


def told_kg_a_week(household: uuid.UUID) -> dict[str, float]:
    """The weekly use somebody told, by crop. [kg]"""
    figures, told = figures_of(household), {}
    for use in WeeklyUse.rows.of(household).filter(archived=False):
        grams = use.grams if use.grams is not None else (use.pieces or 0.0) * _piece_g(figures, use.crop)
        if grams > 0:
            told[use.crop] = grams / 1000
    return told


def _piece_g(figures: Mapping[str, CropFigures], crop: str) -> float:
    return figures.get(crop, CropFigures()).get("piece_g") or 0.0
