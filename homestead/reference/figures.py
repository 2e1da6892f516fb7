"""The figures the fold needs of each crop (docs/fold.md F5, F14, F16, F17)."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from homestead.reference.stored_rows import Crop, LookingOver, PieceWeight
from homestead.reference.tables import Tables

#: what one of `pieces` is, where the table weighs several kinds of piece
PIECE_OF = {
    **{"garlic": "head", "celery": "head", "brussels_sprout": "stem of sprouts", "grape": "bunch"},
    **{"chicory_root": "root", "citrus": "orange", "egg": "egg", "mushroom_dried": "jar"},
}


def fold_figures(tables: Tables) -> dict[str, dict[str, Any]]:
    """By crop: `count_unit`, `piece_g` [g], `refuse_pct` [%], `refuse_stored` [{months, pct}] rising by
    months, `every_days`, `every_days_late` [days], `late_from_month` (north). What is not known is absent."""
    looking_over = {row.crop_id: row for row in tables.looking_over}
    return {
        crop.crop_id: _figures(
            crop, [w for w in tables.piece_weights if w.crop_id == crop.crop_id], looking_over[crop.crop_id]
        )
        for crop in tables.crops
    }


def _figures(crop: Crop, weights: list[PieceWeight], interval: LookingOver) -> dict[str, Any]:
    figures: dict[str, Any] = {
        "count_unit": crop.count_unit,
        "piece_g": _piece_g(crop, weights),
        "refuse_pct": next((w.refuse_pct for w in weights if w.refuse_pct is not None), None),
        "refuse_stored": _refuse_stored(weights),
        "every_days": interval.every_days,
        "every_days_late": interval.every_days_late,
        "late_from_month": interval.late_from_month,
    }
    return {name: figure for name, figure in figures.items() if figure not in (None, [])}


def _piece_g(crop: Crop, weights: list[PieceWeight]) -> float | None:
    """Middle of medium; a garden's figure (recalled) before a shop's (from a food table)."""
    named = PIECE_OF.get(crop.crop_id)
    medium = [w for w in weights if w.size == "medium" and named in (None, w.piece)]
    garden = [w for w in medium if w.evidence == "memory"]
    for weight in [*garden, *medium]:
        if weight.whole_g_low is not None and weight.whole_g_high is not None:
            return (weight.whole_g_low + weight.whole_g_high) / 2
    return None


def _refuse_stored(weights: Iterable[PieceWeight]) -> list[dict[str, float]]:
    """Middle of each refuse after months of store."""
    stored = [
        {"months": w.stored_months, "pct": (w.refuse_stored_pct_low + w.refuse_stored_pct_high) / 2}
        for w in weights
        if w.stored_months is not None
        and w.refuse_stored_pct_low is not None
        and w.refuse_stored_pct_high is not None
    ]
    return sorted(stored, key=lambda point: point["months"])
