"""Moments and days in the household's zone (F1). Twin: `frontend/src/storekeeping/days.ts`.

A day is a whole number, days since 1970-01-01, so that both twins count alike; text only at the edges.
"""

from __future__ import annotations

import datetime as dt
from functools import lru_cache
from zoneinfo import ZoneInfo

DAY_MS = 86_400_000
NOON_MS = 43_200_000
_FIRST_DAY = dt.date(1970, 1, 1).toordinal()


class Zone:
    """Offsets of one IANA zone, remembered by day: asking the zone's tables for every entry is slow."""

    def __init__(self, name: str) -> None:
        self._zone = ZoneInfo(name)
        self._steady: dict[int, int] = {}
        self._turning: dict[int, tuple[int, int, int]] = {}

    def day_of(self, when_ms: int) -> int:
        """The household's day at a moment."""
        return (when_ms + self.offset_ms(when_ms)) // DAY_MS

    def noon_of(self, day: int) -> int:
        """12:00 of a day [ms since 1970, UTC]."""
        wall = day * DAY_MS + NOON_MS
        first_guess = wall - self.offset_ms(wall)
        return wall - self.offset_ms(first_guess)

    def offset_ms(self, when_ms: int) -> int:
        """Local time less UTC [ms]."""
        day = when_ms // DAY_MS
        steady = self._steady.get(day)
        if steady is not None:
            return steady
        turning = self._turning.get(day) or self._look_up(day)
        instant, before, after = turning
        return before if when_ms < instant else after

    def _look_up(self, day: int) -> tuple[int, int, int]:
        """Where the clocks change within this UTC day: (moment, offset before, offset after)."""
        early, late = day * DAY_MS, (day + 1) * DAY_MS
        before, after = self._asked(early), self._asked(late)
        if before == after:
            self._steady[day] = before
            return late, before, after
        while late - early > 1:
            middle = (early + late) // 2
            if self._asked(middle) == before:
                early = middle
            else:
                late = middle
        self._turning[day] = (late, before, after)
        return late, before, after

    def _asked(self, when_ms: int) -> int:
        moment = dt.datetime.fromtimestamp(when_ms / 1000, self._zone)
        return round((moment.utcoffset() or dt.timedelta()).total_seconds() * 1000)


@lru_cache(maxsize=64)
def zone_named(name: str) -> Zone:
    """The zone of an IANA name. Raises ZoneInfoNotFoundError for an unknown one."""
    return Zone(name)


def moment_ms(text: str) -> int:
    """ISO 8601 with offset to ms since 1970. Raises ValueError for anything else."""
    return round(dt.datetime.fromisoformat(text).timestamp() * 1000)


@lru_cache(maxsize=8192)
def day_number(text: str) -> int:
    """`2026-11-25` to its number. Raises ValueError for anything else."""
    return dt.date.fromisoformat(text).toordinal() - _FIRST_DAY


@lru_cache(maxsize=8192)
def day_text(day: int) -> str:
    return dt.date.fromordinal(day + _FIRST_DAY).isoformat()


def winter_of(day: int, hemisphere: str) -> int:
    """The winter a day belongs to, named by the year it begins in: from 1 August, in the south 1 February."""
    date = dt.date.fromordinal(day + _FIRST_DAY)
    begins = 8 if hemisphere == "north" else 2
    return date.year if date.month >= begins else date.year - 1
