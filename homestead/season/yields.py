"""What a plant or a metre of row brings: by the planting table, or by one's own figure beside it."""

from __future__ import annotations

import math
import uuid
from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from homestead.reference.stored_rows import Planting
from homestead.store.models import OwnFigure

#: 80 % of a normal law lie within so many standard deviations of its middle
WITHIN_80 = 1.2816
#: on the log scale, from one year to another: of a single printed figure, of one's own, and the least. Ours
SINGLE, OWN, LEAST = 0.25, 0.20, 0.15
#: plants nearer than this are counted by the metre [cm]. Ours
HAND_APART_CM = 20.0
COLUMNS = {"yield_kg_per_plant": "plant", "yield_kg_per_m": "metre"}


@dataclass(frozen=True)
class Brings:
    """What one `unit` brings: middle [kg] and spread on the log scale; `published` by the table's `row`."""

    unit: str
    kg: float
    spread: float
    published_kg: float | None = None
    row: str = ""
    evidence: str = ""

    def told(self) -> dict[str, Any]:
        """For the sheet: grams of a unit, those the table tells, and which row does."""
        published = None if self.published_kg is None else round(1000 * self.published_kg)
        return {
            "unit": self.unit,
            "grams": round(1000 * self.kg),
            "published_grams": published,
            "row": self.row,
            "evidence": self.evidence,
            "own": self.published_kg is None or self.kg != self.published_kg,
        }


def brings_of(rows: Iterable[Planting], own: Mapping[str, float]) -> Brings | None:
    """A crop's yield in the unit it is planted by; the household's own figure goes before the table's.

    None where neither tells one, and of trees: nobody plants a tree for next winter. `own`: kg by unit.
    """
    told = sorted(rows, key=lambda row: (row.evidence == "memory", row.rank))
    if any(row.first_crop_years_low for row in told):
        return None
    apart_m = _apart_m(told)
    published = next((one for row in told if (one := _published(row, apart_m)) is not None), None)
    unit = published.unit if published else next(iter(own), "")
    if unit not in own:
        return published
    if published is None:
        return Brings(unit, own[unit], OWN)
    return replace(published, kg=own[unit], spread=OWN)


def _apart_m(rows: Iterable[Planting]) -> float | None:
    """How far plants stand apart in the row; None where they stand nearer than a hand and are counted by the
    metre. [m]
    """
    told = next((row for row in rows if row.in_row_cm_low and row.in_row_cm_high), None)
    if told is None or not told.in_row_cm_low or not told.in_row_cm_high:
        return None
    middle = math.sqrt(told.in_row_cm_low * told.in_row_cm_high)
    return middle / 100 if middle >= HAND_APART_CM else None


def _published(row: Planting, apart_m: float | None) -> Brings | None:
    """By the plant as it is printed, else by the metre, where need be times how far plants stand apart."""
    if apart_m and row.yield_kg_per_plant_low:
        return _brings("plant", row.yield_kg_per_plant_low, row.yield_kg_per_plant_high, row)
    low, high, evidence = row.yield_kg_per_m_low, row.yield_kg_per_m_high, row.evidence
    if not low and row.yield_kg_per_m2_low and row.yield_kg_per_m2_high and row.row_apart_cm_low:
        rows_m, evidence = row.row_apart_cm_low / 100, _derived(row.evidence)
        low, high = row.yield_kg_per_m2_low * rows_m, row.yield_kg_per_m2_high * rows_m
    if apart_m is None or not low or not high:
        return _brings("metre", low, high, row, evidence)
    return _brings("plant", low * apart_m, high * apart_m, row, _derived(evidence))


def _derived(evidence: str) -> str:
    """A seen figure that was reckoned on is derived; weaker ones stay what they are."""
    return "derived" if evidence == "seen" else evidence


def _brings(
    unit: str, low: float | None, high: float | None, row: Planting, evidence: str = ""
) -> Brings | None:
    """A published range holds eight years in ten (ours)."""
    if not low or not high:
        return None
    spread = max(math.log(high / low) / (2 * WITHIN_80), LEAST) if high > low else SINGLE
    middle = math.sqrt(low * high)
    return Brings(unit, middle, spread, middle, row_name(row), evidence or row.evidence)


def row_name(row: Planting) -> str:
    """As the phone asks for a row's source."""
    return f"planting:{row.crop_id}/{row.kind}/{row.rank}"


def own_yields(household: uuid.UUID) -> dict[str, dict[str, float]]:
    """The household's own yields: by crop, kg of a plant or a metre of row."""
    found: defaultdict[str, dict[str, float]] = defaultdict(dict)
    kept = OwnFigure.rows.of(household).filter(table="planting", column__in=COLUMNS, archived=False)
    for one in kept.exclude(value=None).order_by("uuid"):
        if one.value is not None and one.value > 0:
            found[one.row.split("/")[0]][COLUMNS[one.column]] = one.value
    return dict(found)
