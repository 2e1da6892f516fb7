"""A room's temperature on every day, from the few readings a family writes down.

A yearly wave is fitted to all readings of the space; this season's own readings bend it.
"""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from homestead.science.guesses import Floats
from homestead.science.ranges import within

YEAR_DAYS = 365.25
USUAL_WAVE = (8.0, -4.0, 0.0)
"""A room nobody measured: 4 °C on 30 January, 12 °C half a year on. Ours. [°C]"""
_TRUST = np.diag([1 / 36, 1 / 6, 1 / 2])
FADES_DAYS = 10.0
READING_VARIANCE = 2.5
READ_ERROR_C = 0.5
"""How far a reading is off the day's mean. Ours. [°C]"""
STUCK_READINGS, STUCK_DAYS = 8, 42
"""So many equal readings over so many days are no living thermometer's, but for a freezer's. Ours."""
COLDEST_C, WARMEST_C = -40.0, 60.0


@dataclass(frozen=True)
class Reading:
    """Mean temperature of a space on a day. [°C]"""

    day: dt.date
    temp_c: float


@dataclass(frozen=True)
class Wave:
    """Yearly wave of a room: mean, and the two halves of its swing. [°C]"""

    mean_c: float
    cos_c: float
    sin_c: float
    south: bool = False

    def at(self, day: dt.date) -> float:
        """Temperature the wave gives on a day. [°C]"""
        cos, sin = _season(day, self.south)
        return self.mean_c + self.cos_c * cos + self.sin_c * sin


def _season(day: dt.date, south: bool) -> tuple[float, float]:
    angle = 2 * math.pi * (day.timetuple().tm_yday - 30) / YEAR_DAYS + (math.pi if south else 0.0)
    return math.cos(angle), math.sin(angle)


def room_wave(readings: Sequence[Reading], south: bool = False) -> Wave:
    """The room's yearly wave from this and past seasons' readings.

    Few readings, or many close together, say little: then it stays near a usual room. Raises OutsideRange.
    Source: Bayesian linear regression (ridge towards a usual room; its weights are ours).
    """
    usual = np.array(USUAL_WAVE)
    once = _once_a_day(readings)
    if not once:
        return Wave(*USUAL_WAVE, south)
    temps = np.array([reading.temp_c for reading in once])
    rows, weight = _rows(once, south)
    b = np.linalg.solve(_TRUST + weight * rows.T @ rows, _TRUST @ usual + weight * rows.T @ temps)
    return Wave(float(b[0]), float(b[1]), float(b[2]), south)


def _rows(once: Sequence[Reading], south: bool) -> tuple[Floats, float]:
    """The wave's terms on the days of the readings, and what a reading weighs."""
    span = (once[-1].day - once[0].day).days
    weight = max(min(1.0, span / (6.0 * len(once))), 1 / 6 / len(once)) / READING_VARIANCE
    return np.array([(1.0, *_season(reading.day, south)) for reading in once]), weight


def wave_error_c(first: dt.date, days: int, readings: Sequence[Reading], south: bool = False) -> Floats:
    """How far `room_wave` may be off on each of `days` days from `first`, one standard deviation. [°C]

    Raises OutsideRange. Source: posterior covariance of the regression of `room_wave`.
    """
    trust = _TRUST
    if once := _once_a_day(readings):
        rows, weight = _rows(once, south)
        trust = trust + weight * rows.T @ rows
    ahead = np.array([(1.0, *_season(first + dt.timedelta(days=day), south)) for day in range(days)])
    return np.asarray(np.sqrt(np.einsum("ij,ji->i", ahead, np.linalg.solve(trust, ahead.T))))


def _once_a_day(readings: Sequence[Reading]) -> list[Reading]:
    by_day: dict[dt.date, list[float]] = {}
    for reading in readings:
        temp = within("reading of the room", reading.temp_c, COLDEST_C, WARMEST_C)
        by_day.setdefault(reading.day, []).append(temp)
    return [Reading(day, sum(temps) / len(temps)) for day, temps in sorted(by_day.items())]


def daily_temps_c(first: dt.date, days: int, wave: Wave, season: Sequence[Reading]) -> Floats:
    """Temperature on each of `days` days from `first`. [°C]

    season: this season's readings, straight lines between them; before the first and after the last the
    wave and
    a deviation that fades with exp(-gap / 10 d), after the last the mean deviation of the last three.
    Raises OutsideRange. Source: ours.
    """
    once = _once_a_day(season)
    days_ahead = np.arange(days)
    base = _wave_on(first, days, wave)
    if not once:
        return base
    known = np.array([(reading.day - first).days for reading in once])
    temps = np.array([reading.temp_c for reading in once])
    off = temps - np.array([wave.at(reading.day) for reading in once])
    before = base + off[0] * np.exp(-np.maximum(known[0] - days_ahead, 0) / FADES_DAYS)
    after = base + off[-3:].mean() * np.exp(-np.maximum(days_ahead - known[-1], 0) / FADES_DAYS)
    between = np.interp(days_ahead, known, temps)
    outside = np.where(days_ahead < known[0], before, after)
    return np.asarray(np.where((days_ahead >= known[0]) & (days_ahead <= known[-1]), between, outside))


def _wave_on(first: dt.date, days: int, wave: Wave) -> Floats:
    start = first.timetuple().tm_yday - 30
    angle = 2 * math.pi * (start + np.arange(days)) / YEAR_DAYS + (math.pi if wave.south else 0.0)
    return np.asarray(wave.mean_c + wave.cos_c * np.cos(angle) + wave.sin_c * np.sin(angle))


def daily_spread_c(first: dt.date, days: int, wave_error_c: Floats, season: Sequence[Reading]) -> Floats:
    """How far the room may have been off `daily_temps_c`, one standard deviation. [°C]

    Half a degree on the day of a reading; the longer the gap, the nearer to a room nobody read this season.
    wave_error_c: of those days [°C]. Raises OutsideRange.
    Source: process whose deviations fade with exp(-gap / 10 d), pinned at its readings (conditional of a
    joint normal; Uhlenbeck and Ornstein 1930, memory).
    """
    far = READING_VARIANCE + wave_error_c**2
    known = np.array([(reading.day - first).days for reading in _once_a_day(season)], dtype=np.float64)
    return np.asarray(np.sqrt(READ_ERROR_C**2 + far * _unpinned(np.arange(days, dtype=np.float64), known)))


def _unpinned(days: Floats, known: Floats) -> Floats:
    """Share of the variance that the nearest reading on each side leaves."""
    at = np.searchsorted(known, days)
    edges = np.concatenate([[-np.inf], known, [np.inf]])
    before, after = days - edges[at], edges[at + 1] - days
    left, right = np.exp(-2.0 * before / FADES_DAYS), np.exp(-2.0 * after / FADES_DAYS)
    both = left * right
    return np.asarray(np.maximum(1.0 - (left + right - 2.0 * both) / np.maximum(1.0 - both, 1e-12), 0.0))


def stuck_days(readings: Sequence[Reading]) -> int:
    """For how many days the newest readings have all been the same; 0 where that is nothing odd. [d]

    Eight or more over six weeks or more are odd. Source: ours.
    """
    once = _once_a_day(readings)
    same = [one.day for one in once]
    for number in range(len(once) - 1, -1, -1):
        if once[number].temp_c != once[-1].temp_c:
            same = same[number + 1 :]
            break
    over = (same[-1] - same[0]).days if same else 0
    return over if len(same) >= STUCK_READINGS and over >= STUCK_DAYS else 0
