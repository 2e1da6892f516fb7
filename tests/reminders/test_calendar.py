"""A person's calendar: read by the PyPI library icalendar, and held to the limits of RFC 5545."""

from __future__ import annotations

import datetime as dt
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st
from icalendar import Calendar

from homestead.reminders.calendar import calendar_text, escaped, folded
from homestead.reminders.reads import Due
from homestead.reminders.words import words_in

VIENNA = ZoneInfo("Europe/Vienna")
MADE = dt.datetime(2026, 11, 25, 2, 0, tzinfo=dt.UTC)
TODAY = dt.date(2026, 11, 25)


def text(*due: Due, zone: ZoneInfo = VIENNA, today: dt.date = TODAY, language: str = "en") -> str:
    return calendar_text(due, household="h1", zone=zone, made_at=MADE, today=today, words=words_in(language))


def read(told: str) -> Calendar:
    return Calendar.from_ical(told)


def test_it_is_read_as_it_was_meant() -> None:
    walk = Due("roster/x/2026-11-27", "Walk: Root cellar", dt.date(2026, 11, 27), 16)
    shut = Due("c/2026-11-25", "Shut in; hens, ducks", TODAY, 5, "16:30", True)
    calendar = read(text(walk, shut))
    assert calendar["VERSION"] == "2.0"
    first, second = calendar.walk("VEVENT")
    assert first["SUMMARY"] == "Walk: Root cellar"
    assert first.decoded("DTSTART") == dt.date(2026, 11, 27)
    assert first.decoded("DTEND") == dt.date(2026, 11, 28), "the day after, which is not in it (3.6.1)"
    assert second["SUMMARY"] == "Before dark: Shut in; hens, ducks"
    assert second.decoded("DTSTART") == dt.datetime(2026, 11, 25, 16, 30, tzinfo=VIENNA)
    assert second.decoded("DURATION") == dt.timedelta(minutes=5)
    assert {one.decoded("DTSTAMP") for one in (first, second)} == {MADE}


def test_each_event_has_a_name_of_its_own_that_stays() -> None:
    """3.8.4.7: asked anew with another roster, the same chore is the same event."""
    chores = [Due(f"c/2026-11-{day}", "Feed", dt.date(2026, 11, day), 10) for day in (25, 26)]
    names = [event["UID"] for event in read(text(*chores)).walk("VEVENT")]
    assert len(set(names)) == 2
    moved = Due("c/2026-11-25", "Feed them", TODAY, 20)
    assert read(text(moved)).walk("VEVENT")[0]["UID"] == names[0]


def test_what_is_late_stands_on_today() -> None:
    late = Due("roster/x/2026-11-20", "Walk", dt.date(2026, 11, 20), 10)
    assert read(text(late)).walk("VEVENT")[0].decoded("DTSTART") == TODAY


def test_lines_are_folded_between_letters_and_end_in_crlf() -> None:
    """3.1: 75 octets a line, its end left out."""
    name = "Füttern und tränken, 鶏小屋 🐔 " * 12
    told = text(Due("c/2026-11-25", name, TODAY, 10))
    lines = told.split("\r\n")
    assert lines[-1] == ""
    assert "\n" not in told.replace("\r\n", "")
    assert max(len(line.encode()) for line in lines) <= 75
    assert read(told).walk("VEVENT")[0]["SUMMARY"] == name


@given(st.text(max_size=400))
def test_any_name_comes_back_as_it_was_written(name: str) -> None:
    """Letters no calendar may hold are left out (3.1: CONTROL)."""
    kept = "".join(one for one in name if one == "\n" or (ord(one) >= 32 and ord(one) != 127))
    [event] = read(text(Due("k", name, TODAY, 10))).walk("VEVENT")
    assert str(event["SUMMARY"]) == kept
    assert "".join(
        part.removeprefix(" ") if at else part for at, part in enumerate(folded("X" + escaped(name)))
    ) == ("X" + escaped(name))


@pytest.mark.parametrize(
    ("zone", "week"),
    [
        ("Europe/Vienna", dt.date(2026, 3, 26)),
        ("Europe/Vienna", dt.date(2026, 10, 22)),
        ("America/New_York", dt.date(2026, 3, 5)),
        ("Australia/Lord_Howe", dt.date(2026, 4, 2)),
    ],
)
def test_an_evening_chore_stays_at_its_hour_through_a_change_of_the_clocks(zone: str, week: dt.date) -> None:
    """Read by icalendar and put into the zone, every day of the week says 16:30; the offset changes once."""
    here = ZoneInfo(zone)
    days = [week + dt.timedelta(days=on) for on in range(7)]
    told = text(*(Due(f"c/{day}", "Shut in", day, 5, "16:30") for day in days), zone=here, today=week)
    starts = [event.decoded("DTSTART").astimezone(here) for event in read(told).walk("VEVENT")]
    assert [one.date() for one in starts] == days
    assert {one.time() for one in starts} == {dt.time(16, 30)}
    assert len({one.utcoffset() for one in starts}) == 2


def test_it_says_no_amounts_and_no_people() -> None:
    told = text(Due("roster/x/2026-11-27", "Walk: Root cellar", TODAY, 16))
    fields = {line.split(":")[0].split(";")[0] for line in told.split("\r\n") if line and line[0] != " "}
    assert fields.isdisjoint({"ATTENDEE", "ORGANIZER", "CONTACT", "LOCATION", "COMMENT"})
