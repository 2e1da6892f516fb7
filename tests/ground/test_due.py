"""When work is due: in the household's own night, after lines, once after a sleep, never twice at once."""

from __future__ import annotations

import datetime as dt
from itertools import pairwise

import pytest
from dateutil.rrule import DAILY, rrule
from dateutil.tz import gettz

from homestead.jobs.due import Known, is_due, last_night

VIENNA = "Europe/Vienna"


def at(text: str) -> dt.datetime:
    return dt.datetime.fromisoformat(text)


@pytest.mark.parametrize(
    ("zone", "now", "night"),
    [
        (VIENNA, "2026-11-25T10:00:00+01:00", "2026-11-25T03:00:00+01:00"),
        (VIENNA, "2026-11-25T02:59:00+01:00", "2026-11-24T03:00:00+01:00"),
        (VIENNA, "2026-11-25T03:00:00+01:00", "2026-11-25T03:00:00+01:00"),
        ("Pacific/Auckland", "2026-11-25T13:30:00+00:00", "2026-11-25T03:00:00+13:00"),
        ("America/Denver", "2026-11-25T10:30:00+00:00", "2026-11-25T03:00:00-07:00"),
        # clocks go forward at 02:00 and back at 03:00: the night's hour comes once all the same
        (VIENNA, "2026-03-29T12:00:00+02:00", "2026-03-29T03:00:00+02:00"),
        (VIENNA, "2026-10-25T12:00:00+01:00", "2026-10-25T03:00:00+01:00"),
        ("Nowhere/Unknown", "2026-11-25T10:00:00+00:00", "2026-11-25T03:00:00+00:00"),
    ],
)
def test_the_night_is_the_household_s_own(zone: str, now: str, night: str) -> None:
    assert last_night(zone, at(now)) == at(night)


NOW = at("2026-11-25T10:00:00+01:00")


def ran(ago: dt.timedelta, as_of: int = 7, well: bool = True) -> Known:
    return Known(finished_at=NOW - ago, done_at=NOW - ago if well else None, as_of=as_of)


def minutes(number: float) -> dt.timedelta:
    return dt.timedelta(minutes=number)


def test_what_never_ran_is_due() -> None:
    assert is_due(Known(), 0, VIENNA, NOW)


def test_what_ran_this_morning_and_read_every_line_is_not_due() -> None:
    assert not is_due(ran(minutes(60)), 7, VIENNA, NOW)


def test_new_lines_make_it_due() -> None:
    assert is_due(ran(minutes(60)), 8, VIENNA, NOW)


def test_lines_that_follow_at_once_wait_a_little() -> None:
    assert not is_due(ran(dt.timedelta(seconds=19)), 8, VIENNA, NOW)
    assert is_due(ran(dt.timedelta(seconds=20)), 8, VIENNA, NOW)


def test_the_night_makes_it_due_without_a_line() -> None:
    assert is_due(ran(minutes(7 * 60 + 1)), 7, VIENNA, NOW)
    assert not is_due(ran(minutes(7 * 60 - 1)), 7, VIENNA, NOW)


def test_a_week_asleep_is_made_up_once() -> None:
    assert is_due(ran(dt.timedelta(days=7)), 7, VIENNA, NOW)
    assert not is_due(ran(minutes(1)), 7, VIENNA, NOW)


def test_what_waits_or_runs_is_not_asked_for_again() -> None:
    assert not is_due(Known(asked_at=NOW - minutes(4)), 8, VIENNA, NOW)
    assert not is_due(Known(started_at=NOW - minutes(4)), 8, VIENNA, NOW)


def test_what_was_lost_on_the_way_is_asked_for_again() -> None:
    assert is_due(Known(asked_at=NOW - minutes(5)), 8, VIENNA, NOW)
    assert is_due(Known(started_at=NOW - minutes(5)), 8, VIENNA, NOW)


@pytest.mark.parametrize(("failures", "rest"), [(1, 2), (2, 10), (3, 60), (4, 360), (9, 360)])
def test_what_failed_rests_longer_each_time(failures: int, rest: int) -> None:
    failed = Known(finished_at=NOW - minutes(rest - 1), done_at=NOW - dt.timedelta(days=2), failures=failures)
    assert not is_due(failed, 8, VIENNA, NOW)
    assert is_due(failed, 8, VIENNA, NOW + minutes(1))


@pytest.mark.parametrize("zone", [VIENNA, "America/Denver", "Pacific/Auckland"])
def test_each_day_of_a_year_has_one_night_through_both_clock_changes(zone: str) -> None:
    """Hour by hour through 2026: the night changes once a day, on 03:00 of the zone's own clock."""
    start = at("2026-01-01T12:00:00+00:00")
    nights = {last_night(zone, start + dt.timedelta(hours=hour)) for hour in range(24 * 365)}
    assert len(nights) in (365, 366)
    assert {night.hour for night in nights} == {3}
    assert len({night.date() for night in nights}) == len(nights)


@pytest.mark.parametrize("zone", [VIENNA, "America/Denver", "Pacific/Auckland"])
def test_the_nights_of_a_year_are_those_dateutil_tells(zone: str) -> None:
    """Against python-dateutil: its daily rule at three, on its own reading of the zone's clock changes."""
    here = gettz(zone)
    first = dt.datetime(2026, 1, 2, 3)
    nights = [wall.replace(tzinfo=here).astimezone(dt.UTC) for wall in rrule(DAILY, dtstart=first, count=360)]
    assert len({night.astimezone(here).utcoffset() for night in nights}) == 2, "both clock changes lie in it"
    for before, night in pairwise(nights):
        assert last_night(zone, night) == night
        assert last_night(zone, night - minutes(1)) == before


def test_times_of_a_clock_that_was_ahead_do_not_hold_it_up() -> None:
    ahead = NOW + dt.timedelta(days=400)
    assert is_due(Known(asked_at=ahead, started_at=ahead, finished_at=ahead, done_at=ahead), 8, VIENNA, NOW)
