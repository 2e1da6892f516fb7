"""The sheet `score`: how the household's forecasts came out, beside the handbook's alone on the same lots.

docs/sheets.md tells its shape.
"""

from __future__ import annotations

import datetime as dt
import uuid
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from homestead.science.score import (
    brier,
    covered_share,
    interval_score,
    miss_in_bands,
    pinball,
    reliability,
    stretch_factor,
    stretched,
)
from homestead.season.forecasts import DAYS_AHEAD
from homestead.season.models import Forecast

QUANTITIES = (*(f"sound_{days}" for days in DAYS_AHEAD), "run_out")
CHANCES = tuple(f"lasts_{days}" for days in DAYS_AHEAD)
Bands = Sequence[tuple[float, float, float]]


def score_sheet(household: uuid.UUID, today: dt.date) -> dict[str, Any]:
    """Of the forecasts whose day came and was seen: cover, scores, reliability; the stretch they ask for."""
    rows = list(Forecast.rows.of(household).order_by("day", "lot"))
    settled = [row for row in rows if any(name in row.happened for name in (*QUANTITIES, *CHANCES))]
    return {
        "day": today.isoformat(),
        "made": len(rows),
        "settled": len(settled),
        "bands": [told for name in QUANTITIES if (told := _bands(name, rows))],
        "chances": _chances(rows),
        "stretch": stretch_of(rows),
    }


def stretch_for(household: uuid.UUID) -> float:
    """By how much the household's bands are to be stretched now; 1 below 20 settled forecasts. [-]"""
    return stretch_of(Forecast.rows.of(household))


def stretch_of(rows: Iterable[Forecast]) -> float:
    """By the misses of the bands as they were worked out, not as shown: else it would chase itself."""
    misses = [
        miss_in_bands(*_three(row.told, name), float(row.happened[name]))
        for row in rows
        for name in QUANTITIES
        if name in row.happened
    ]
    return round(stretch_factor(misses), 2)


def _bands(name: str, rows: Sequence[Forecast]) -> dict[str, Any] | None:
    """`within`: truths inside the band that was shown."""
    known = [row for row in rows if name in row.happened]
    if not known:
        return None
    truths = [float(row.happened[name]) for row in known]
    shown = [stretched(*_three(row.told, name), row.inputs.get("stretch", 1.0)) for row in known]
    plain = [_three(row.plain, name) for row in known]
    return {
        "of": name,
        "settled": len(known),
        "within": _within(shown, truths),
        "within_handbook": _within(plain, truths),
        "interval": _interval(shown, truths),
        "interval_handbook": _interval(plain, truths),
        "pinball": _pinball(shown, truths),
    }


def _three(told: Mapping[str, Any], name: str) -> tuple[float, float, float]:
    p10, p50, p90 = told[name]
    return float(p10), float(p50), float(p90)


def _within(bands: Bands, truths: Sequence[float]) -> int:
    return round(len(truths) * covered_share([(low, high) for low, _, high in bands], truths))


def _interval(bands: Bands, truths: Sequence[float]) -> float:
    return _mean(interval_score(low, high, y) for (low, _, high), y in zip(bands, truths, strict=True))


def _pinball(bands: Bands, truths: Sequence[float]) -> float:
    return _mean(
        sum(pinball(q, share, y) for q, share in zip(three, (0.1, 0.5, 0.9), strict=True)) / 3
        for three, y in zip(bands, truths, strict=True)
    )


def _chances(rows: Sequence[Forecast]) -> dict[str, Any] | None:
    """Brier score of the chances to last, ours and the handbook's; by fifths, how many and how often true."""
    known = [(row, name) for row in rows for name in CHANCES if name in row.happened]
    if not known:
        return None
    came = [row.happened[name] > 0 for row, name in known]
    ours, plain = (_said(side, known) for side in ("told", "plain"))
    return {
        "settled": len(known),
        "brier": round(brier(ours, came), 3),
        "brier_handbook": round(brier(plain, came), 3),
        "by_fifths": [[count, round(share, 3)] for count, share in reliability(ours, came)],
    }


def _said(side: str, known: Sequence[tuple[Forecast, str]]) -> list[float]:
    told: list[Mapping[str, float]] = [getattr(row, side) for row, _ in known]
    return [float(one[name]) for one, (_, name) in zip(told, known, strict=True)]


def _mean(values: Iterable[float]) -> float:
    told = list(values)
    return round(sum(told) / len(told), 2)
