"""Figures the kitchen's clocks run by, taken from the tables: the strictest of what they say."""

from __future__ import annotations

from collections import defaultdict
from typing import Any

from homestead.reference.stored_rows import Storage
from homestead.reference.tables import Tables, row_name

#: how nuts, eggs and what was put by lie decides how long they keep
CLOCKED = (
    *("egg", "walnut", "hazelnut", "almond", "chestnut"),
    *("jar", "ferment", "frozen", "dried"),
)
#: nowhere that somebody keeps what was given
NO_KITCHEN = frozenset(("frozen", "in_shell_frozen", "bunched", "clamp", "in_ground"))


def clocks(tables: Tables) -> dict[str, dict[str, list[Any]]]:
    """By crop and the condition it lies in: [days, row]; the shortest of a home's figures, else of any."""
    rows: dict[tuple[str, str], list[Storage]] = defaultdict(list)
    for row in tables.storage:
        if row.crop_id in CLOCKED and row.life_low_days is not None:
            rows[row.crop_id, row.condition].append(row)
    found: dict[str, dict[str, list[Any]]] = {}
    for (crop, condition), told in rows.items():
        at_home = [row for row in told if row.life_basis == "home"] or told
        shortest = min(at_home, key=lambda row: row.life_low_days or 0)
        found.setdefault(crop, {})[condition] = [shortest.life_low_days, row_name("storage", shortest)]
    return found


def keeping(tables: Tables) -> dict[str, list[Any]]:
    """By crop, how it wants to lie: low and high °C, low and high % humidity, row.

    The first place told that a house has, above freezing; what is frozen stays frozen.
    """
    found: dict[str, list[Any]] = {}
    for row in tables.storage:
        apart = row.condition in NO_KITCHEN or (row.temp_high_c or 0) < 0
        if row.crop_id in found or row.temp_high_c is None or (apart and row.crop_id != "frozen"):
            continue
        air = [row.rh_low_pct, row.rh_high_pct]
        found[row.crop_id] = [row.temp_low_c, row.temp_high_c, *air, row_name("storage", row)]
    return found


def keeps_days(tables: Tables) -> dict[str, int]:
    """By topic of kitchen_safety; of several rows the shortest."""
    found: dict[str, int] = {}
    for row in tables.kitchen_safety:
        if row.keeps_days is not None:
            found[row.topic] = min(row.keeps_days, found.get(row.topic, row.keeps_days))
    return found


def jarred(tables: Tables) -> dict[str, str]:
    """By crop: acid or acidified; what is not here is low in acid, or nobody knows."""
    return {crop.crop_id: crop.jarred for crop in tables.crops if crop.jarred in ("acid", "acidified")}
