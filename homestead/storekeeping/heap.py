"""A compost heap's balance, of what went in: C:N, moisture, volume; what to add; was it hot, may it be used.

Twin: `frontend/src/storekeeping/heap.ts`. Pure; figures come from the tables
(`homestead.reference.scrap_rows`). Forms: Cornell Composting, see `homestead.science.heap`. What a heap has
lost by rotting is not reckoned: the balance tells how it was built.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from typing import Any, TypedDict

MIXED = "any_produce"
#: C:N that works, and the better part of it: `compost_materials.csv`, GUIDE, acceptable and ideal
C_TO_N = (20.0, 60.0)
C_TO_N_IDEAL = (25.0, 40.0)
#: moisture that works [%], and the one to aim at
MOISTURE = (40.0, 65.0)
MOISTURE_GOAL = 55.0
#: loose fresh scraps where the tables have no density [kg/m3]. From memory.
SCRAPS_DENSITY = 500.0
#: °C, days and turnings of a heap that counts as hot: US rule for turned piles (40 CFR 503). From memory.
HOT_C, HOT_DAYS, HOT_TURNS = 55.0, 15, 5
#: days between the last that was added and use on beds: a heap measured hot, another. US organic rule for
#: what holds manure (7 CFR 205.203: 120 days before harvest of what touches soil). From memory.
WAIT_HOT, WAIT_COLD = 60, 120
TURN_DAYS = 14
WATER = "water"

Values = Mapping[str, Mapping[str, Any]]


class Load(TypedDict):
    """Something on a heap [g]. `of`: crop or material, None mixed scraps, `water`."""

    of: str | None
    grams: float


class Balance(TypedDict):
    """kg: all. unknown_kg: of what the tables do not know. c_to_n, moisture_pct: None for nothing known.
    litres: as loaded."""

    kg: float
    unknown_kg: float
    c_to_n: float | None
    moisture_pct: float | None
    litres: float


class Warmth(TypedDict):
    day: str
    temp_c: float


def balance_of(loads: Sequence[Load], values: Values) -> Balance:
    """C:N = sum of carbon / sum of nitrogen, moisture = sum of water / sum of weight (Cornell)."""
    carbon = nitrogen = water = known = litres = 0.0
    for load in loads:
        if load["of"] == WATER:
            water, known = water + load["grams"], known + load["grams"]
            continue
        value = values.get(load["of"] or MIXED)
        litres += load["grams"] / ((value and value["density"]) or SCRAPS_DENSITY)
        if value:
            dry = load["grams"] * (100.0 - value["moisture"]) / 100.0
            nitrogen += dry * value["n"] / 100.0
            carbon += dry * value["n"] / 100.0 * value["c_to_n"]
            water += load["grams"] - dry
            known += load["grams"]
    all_g = sum(load["grams"] for load in loads)
    return Balance(
        kg=all_g / 1000.0,
        unknown_kg=(all_g - known) / 1000.0,
        c_to_n=carbon / nitrogen if nitrogen > 0 else None,
        moisture_pct=100.0 * water / known if known > 0 else None,
        litres=litres,
    )


def asks_for(balance: Balance) -> str | None:
    """`brown`: too wet or too much nitrogen. `green`: too little. `water`: too dry. None: it is right, or not
    known."""
    ratio, moisture = balance["c_to_n"], balance["moisture_pct"]
    if ratio is None or moisture is None:
        return None
    if moisture > MOISTURE[1] or ratio < C_TO_N[0]:
        return "brown"
    if ratio > C_TO_N[1]:
        return "green"
    return "water" if moisture < MOISTURE[0] else None


def to_add_kg(loads: Sequence[Load], values: Values, material: str) -> float | None:
    """Kilograms of a material that bring the heap into what works: the most of what C:N and moisture ask for,
    but never so much that C:N leaves it at the other end. Wet stuff may then stay wet.

    None where this material cannot do it. Source: Cornell, both forms solved for the second material.
    """
    balance, value = balance_of(loads, values), values[material]
    ratio, moisture = balance["c_to_n"], balance["moisture_pct"]
    if ratio is None or moisture is None:
        return None
    known = balance["kg"] - balance["unknown_kg"]
    wanted = []
    if not C_TO_N[0] <= ratio <= C_TO_N[1]:
        goal = C_TO_N_IDEAL[0] if ratio < C_TO_N[0] else C_TO_N_IDEAL[1]
        wanted.append(_for_ratio(loads, values, value, goal))
    if moisture > MOISTURE[1] and value["moisture"] < MOISTURE[1]:
        wanted.append(known * (moisture - MOISTURE[1]) / (MOISTURE[1] - value["moisture"]))
    if any(kg is None for kg in wanted):
        return None
    most = _for_ratio(loads, values, value, C_TO_N[1]) if value["c_to_n"] > C_TO_N[1] else None
    kg = max((kg for kg in wanted if kg is not None), default=0.0)
    return kg if most is None else min(kg, most)


def _for_ratio(loads: Sequence[Load], values: Values, value: Mapping[str, Any], goal: float) -> float | None:
    """Kilograms that bring the C:N to the goal, None where they would draw it away."""
    carbon = nitrogen = 0.0
    for load in loads:
        if one := values.get(load["of"] or MIXED):
            n = load["grams"] / 1000.0 * (100.0 - one["moisture"]) * one["n"]
            nitrogen, carbon = nitrogen + n, carbon + n * one["c_to_n"]
    each = (100.0 - value["moisture"]) * value["n"]
    pull = each * (value["c_to_n"] - goal)
    lack = goal * nitrogen - carbon
    return lack / pull if pull * lack > 0 else None


def water_litres(balance: Balance) -> float:
    """Litres that bring a dry heap to the moisture to aim at. Source: mass balance."""
    moisture = balance["moisture_pct"]
    if moisture is None or moisture >= MOISTURE[0]:
        return 0.0
    return (balance["kg"] - balance["unknown_kg"]) * (MOISTURE_GOAL - moisture) / (100.0 - MOISTURE_GOAL)


def was_hot(warmths: Sequence[Warmth], turned: Sequence[str]) -> bool:
    """Measured hot: 55 °C or more from a first to a last reading 15 days apart or more, none colder between,
    turned 5 times in between. From memory, see HOT_C."""
    run: list[str] = []
    for one in sorted(warmths, key=lambda warmth: warmth["day"]):
        run = [*run, one["day"]] if one["temp_c"] >= HOT_C else []
        if len(run) > 1 and _days(run[0], run[-1]) >= HOT_DAYS:
            turns = sum(run[0] <= day <= run[-1] for day in turned)
            if turns >= HOT_TURNS:
                return True
    return False


def usable_from(last_added: str, hot: bool) -> str:
    """The day from which it may go on beds."""
    wait = WAIT_HOT if hot else WAIT_COLD
    return (dt.date.fromisoformat(last_added) + dt.timedelta(days=wait)).isoformat()


def turn_on(last: str) -> str:
    """The day to turn it: two weeks after it was turned last, or begun. Common practice, no source."""
    return (dt.date.fromisoformat(last) + dt.timedelta(days=TURN_DAYS)).isoformat()


def _days(first: str, last: str) -> int:
    return (dt.date.fromisoformat(last) - dt.date.fromisoformat(first)).days
