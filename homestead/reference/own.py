"""A household's own figures and crops, laid beside the published ones.

An own figure replaces a number where the project reckons with it; the published row stays and is shown
beside it. It never touches a rule: no verdict, no step of the ladder, no law can be set this way.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable, Mapping
from typing import Any, get_type_hints

from homestead.reference.tables import ROW_TYPES

#: tables that say what is forbidden, and tables that are no figures
RULES = frozenset(
    ("ladder", "feed_safety", "feeding_law", "kitchen_safety", "eaters", "findings", "look_fors")
)
#: columns of an own weighing, and what they are in the fold
_FOLD_FIGURES = {
    ("piece_weights", "piece_g"): "piece_g",
    ("piece_weights", "refuse_pct"): "refuse_pct",
    ("looking_over", "every_days"): "every_days",
    ("looking_over", "every_days_late"): "every_days_late",
    ("looking_over", "late_from_month"): "late_from_month",
}
#: yields of one's own garden: a single figure beside the table's low and high
_OWN_YIELDS = {("planting", "yield_kg_per_m"), ("planting", "yield_kg_per_plant")}


def can_be_own(table: str, column: str) -> bool:
    """May a household set its own figure here? Numbers only, and none of a table that holds rules."""
    if (table, column) in _FOLD_FIGURES or (table, column) in _OWN_YIELDS:
        return True
    if table not in ROW_TYPES or table in RULES or column == "line":
        return False
    names = {field.name for field in dataclasses.fields(ROW_TYPES[table])}
    return column in names and get_type_hints(ROW_TYPES[table])[column] in (
        int,
        float,
        int | None,
        float | None,
    )


def with_own(
    figures: Mapping[str, Mapping[str, Any]],
    own_figures: Iterable[Mapping[str, Any]],
    own_crops: Iterable[Mapping[str, Any]] = (),
) -> dict[str, dict[str, Any]]:
    """The fold's figures with the household's own before the table's.

    own_figures: fields of `figure` records (`table`, `key`, `column`, `value`; the key's first part is the
    crop). own_crops: `id` and fields of `crop` records; one that is `like` a crop of the table borrows its
    figures.
    """
    merged = {crop: dict(known) for crop, known in figures.items()}
    for crop in own_crops:
        borrowed = dict(figures.get(crop.get("like") or "", {}))
        unit = {"count_unit": crop["count_unit"]} if crop.get("count_unit") else {}
        merged[str(crop["id"])] = borrowed | unit
    for figure in own_figures:
        name = _FOLD_FIGURES.get((figure["table"], figure["column"]))
        if name and figure.get("value") is not None and not figure.get("archived"):
            merged.setdefault(str(figure["key"]).split("/")[0], {})[name] = figure["value"]
    return merged
