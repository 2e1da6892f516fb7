"""The air a space had, from the few readings there are, with how sure that is."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from homestead.science.air import absolute_humidity_g_m3, dew_point_c, vapour_pressure_deficit_kpa
from homestead.science.guesses import Floats
from homestead.science.ranges import OutsideRange
from homestead.science.rooms import Reading as Warmth
from homestead.science.rooms import daily_spread_c, daily_temps_c, room_wave, stuck_days, wave_error_c
from homestead.season.facts import warmths
from homestead.store.models import Reading

LATELY = dt.timedelta(days=7)
WEEKS_TOLD = 6
SEASON_DAYS = 300
#: one time in ten beyond
ONE_IN_TEN = 1.2816


@dataclass(frozen=True)
class RoomAir:
    """A space's readings, oldest first, and its warmth on each day from `first` with how far off that may be
    [°C].

    Readings of a thermometer that stands still say how warm it is said to be, and nothing of how sure.
    """

    readings: tuple[Reading, ...]
    first: dt.date
    temps_c: Floats
    spread_c: Floats
    stuck_days: int

    def between(self, first: dt.date, days: int) -> tuple[Floats, Floats]:
        """Warmth and how far off it may be, on so many days; days before the first are left out."""
        start = max((first - self.first).days, 0)
        end = max((first - self.first).days + days, start)
        return self.temps_c[start:end], self.spread_c[start:end]

    def week_to(self, day: dt.date) -> tuple[float, float]:
        """Mean of the seven days before, and how far off it may be; the days of a week are off together."""
        temps, spread = self.between(day - LATELY, LATELY.days)
        return float(temps.mean()), float(spread.mean())


def air_of(readings: Sequence[Reading], today: dt.date, ahead: int, south: bool) -> RoomAir:
    """Raises OutsideRange, naming the reading that cannot be."""
    known = [one for one in warmths(readings) if one.day <= today]
    first = today - dt.timedelta(days=SEASON_DAYS)
    season = [one for one in known if one.day >= first]
    days = SEASON_DAYS + ahead
    still = stuck_days(known)
    sure = _moving(season, still)
    error = wave_error_c(first, days, _moving(known, still), south)
    temps = daily_temps_c(first, days, room_wave(known, south), season)
    return RoomAir(tuple(readings), first, temps, daily_spread_c(first, days, error, sure), still)


def _moving(readings: Sequence[Warmth], stuck: int) -> list[Warmth]:
    """Those before the thermometer stood still."""
    if not stuck:
        return list(readings)
    since = readings[-1].day - dt.timedelta(days=stuck)
    return [one for one in readings if one.day <= since]


def band_c(temp_c: float, spread_c: float) -> list[float]:
    """P10, P50, P90. [°C]"""
    return [round(temp_c + z * spread_c, 1) for z in (-ONE_IN_TEN, 0.0, ONE_IN_TEN)]


def last_told(reading: Reading) -> dict[str, Any]:
    """A reading as written; what comes of it where the formulas cover it, else why they do not."""
    told: dict[str, Any] = {
        "when": reading.when.isoformat(), "temp_c": reading.temp_c, "rh_pct": reading.rh_pct
    }  # fmt: skip
    if reading.temp_c is None or reading.rh_pct is None:
        return told
    try:
        return told | moist(reading.temp_c, reading.rh_pct / 100)
    except OutsideRange as why:
        return told | {"amiss": str(why)}


def moist(temp_c: float, rel_humidity: float) -> dict[str, float]:
    """Dew point [°C], drying power [kPa] and water [g/m³] of the air. Raises OutsideRange."""
    return {
        "dew_c": round(dew_point_c(temp_c, rel_humidity), 1),
        "drying_kpa": round(vapour_pressure_deficit_kpa(temp_c, rel_humidity), 3),
        "water_g_m3": round(absolute_humidity_g_m3(temp_c, rel_humidity), 1),
    }


def weeks_told(air: RoomAir, today: dt.date) -> list[dict[str, Any]]:
    """The last weeks, oldest first: from which day, the mean's band [°C], how often it was read, and the
    lowest and highest that was read in it, also on a thermometer that keeps them.
    """
    return [_week(air, today - dt.timedelta(days=7 * ago)) for ago in range(WEEKS_TOLD, 0, -1)]


def _week(air: RoomAir, first: dt.date) -> dict[str, Any]:
    there = [one for one in air.readings if first <= one.day < first + LATELY]
    told = read_range(there)
    return {"from": first.isoformat(), "band": band_c(*air.week_to(first + LATELY)), "reads": len(there)} | (
        {"read": told} if told else {}
    )


def read_range(readings: Sequence[Reading]) -> list[float] | None:
    """Lowest and highest that was read; None where nothing was. [°C]"""
    temps = [t for one in readings for t in (one.temp_c, one.low_c, one.high_c) if t is not None]
    return [min(temps), max(temps)] if temps else None


def humidity_on(readings: Sequence[Reading], first: dt.date, days: int) -> Floats | None:
    """Humidity on each day, straight lines between readings and held at the ends. [-]

    None where nobody read it.
    """
    told = {one.day: one.rh_pct / 100 for one in readings if one.rh_pct is not None}
    if not told:
        return None
    known = [(day - first).days for day in sorted(told)]
    return np.interp(np.arange(days), known, [told[day] for day in sorted(told)])
