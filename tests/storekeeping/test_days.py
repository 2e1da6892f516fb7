"""Days in the household's zone, held against the zone tables and the law of summer time."""

from __future__ import annotations

import datetime as dt
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from homestead.storekeeping.days import DAY_MS, Zone, day_number, day_text, moment_ms, winter_of, zone_named

ZONES = [
    "Europe/Vienna",
    "America/New_York",
    "America/St_Johns",
    "Australia/Lord_Howe",
    "Pacific/Auckland",
    "Africa/Casablanca",
    "Asia/Kathmandu",
    "UTC",
]
MOMENTS = st.integers(moment_ms("2015-01-01T00:00:00Z"), moment_ms("2037-01-01T00:00:00Z"))


def asked(zone: str, when_ms: int) -> dt.datetime:
    seconds, ms = divmod(when_ms, 1000)
    return dt.datetime.fromtimestamp(seconds, ZoneInfo(zone)).replace(microsecond=ms * 1000)


@settings(deadline=None, max_examples=500)
@given(st.sampled_from(ZONES), MOMENTS)
def test_it_remembers_what_the_zone_tables_say(zone: str, when_ms: int) -> None:
    wall = asked(zone, when_ms)
    remembered = zone_named(zone)
    assert remembered.offset_ms(when_ms) == (wall.utcoffset() or dt.timedelta()).total_seconds() * 1000
    assert day_text(remembered.day_of(when_ms)) == wall.date().isoformat()


@settings(deadline=None)
@given(st.sampled_from(ZONES), st.dates(dt.date(2015, 1, 1), dt.date(2036, 12, 31)))
def test_noon_is_noon_of_that_day(zone: str, day: dt.date) -> None:
    remembered = zone_named(zone)
    noon_ms = remembered.noon_of(day_number(day.isoformat()))
    assert asked(zone, noon_ms).replace(tzinfo=None) == dt.datetime.combine(day, dt.time(12))


# Summer time in the EU begins and ends at 01:00 UTC on the last Sundays of March and October.
# Source: Directive 2000/84/EC, articles 2 and 3, from memory. The dates: the calendar.
@pytest.mark.parametrize(
    ("turn", "before_h", "after_h"),
    [("2026-10-25T01:00:00Z", 2, 1), ("2027-03-28T01:00:00Z", 1, 2), ("2027-10-31T01:00:00Z", 2, 1)],
)
def test_the_clocks_change_when_the_law_says(turn: str, before_h: int, after_h: int) -> None:
    zone, turn_ms = Zone("Europe/Vienna"), moment_ms(turn)
    assert zone.offset_ms(turn_ms - 1) == before_h * 3_600_000
    assert zone.offset_ms(turn_ms) == after_h * 3_600_000


def test_a_day_of_the_changes_has_23_or_25_hours() -> None:
    zone = Zone("Europe/Vienna")
    hours = range(moment_ms("2026-10-24T00:00:00Z"), moment_ms("2026-10-27T00:00:00Z"), 3_600_000)
    autumn = [hour for hour in hours if day_text(zone.day_of(hour)) == "2026-10-25"]
    hours = range(moment_ms("2027-03-27T00:00:00Z"), moment_ms("2027-03-30T00:00:00Z"), 3_600_000)
    spring = [hour for hour in hours if day_text(zone.day_of(hour)) == "2027-03-28"]
    assert (len(autumn), len(spring)) == (25, 23)


def test_days_are_counted_from_1970() -> None:
    assert day_number("1970-01-01") == 0
    assert day_number("2026-11-25") * DAY_MS == moment_ms("2026-11-25T00:00:00Z")
    assert day_text(-1) == "1969-12-31"


@pytest.mark.parametrize(
    ("day", "north", "south"),
    [
        ("2026-07-31", 2025, 2026),
        ("2026-08-01", 2026, 2026),
        ("2027-01-31", 2026, 2026),
        ("2027-02-01", 2026, 2027),
        ("2026-12-31", 2026, 2026),
    ],
)
def test_a_winter_begins_in_august_in_the_south_in_february(day: str, north: int, south: int) -> None:
    assert winter_of(day_number(day), "north") == north
    assert winter_of(day_number(day), "south") == south


def test_a_moment_without_sense_is_refused_loudly() -> None:
    with pytest.raises(ValueError, match="yesterday"):
        moment_ms("yesterday")
    with pytest.raises(ValueError, match="day is out of range"):
        day_number("2026-02-30")
