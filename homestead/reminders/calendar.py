"""A person's calendar as text (RFC 5545). Plain: what is due goes in, lines come out.

Each walk and each chore is an event of its own: the roster is made anew in the night, so no rule of
recurrence would hold. A time of the day is written as the instant it is in the household's zone on that day
(form 2 of section 3.3.5), so that it holds through a change of the clocks and needs no table of zones.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator
from zoneinfo import ZoneInfo

from homestead.reminders.reads import Due
from homestead.reminders.words import Words

#: a line has at most so many octets, its end left out (section 3.1)
MOST_OCTETS = 75
#: how often a calendar asks anew (RFC 7986 section 5.7)
ASK_EVERY = "PT4H"


def calendar_text(
    due: Iterable[Due], *, household: str, zone: ZoneInfo, made_at: dt.datetime, today: dt.date, words: Words
) -> str:
    """The whole document. What is late stands on today. `made_at`: when the roster was made, aware."""
    lines = [
        "BEGIN:VCALENDAR",
        "VERSION:2.0",
        "PRODID:-//Winter Rounds//Roster//EN",
        "CALSCALE:GREGORIAN",
        "METHOD:PUBLISH",
        f"NAME:{escaped(words.calendar)}",
        f"X-WR-CALNAME:{escaped(words.calendar)}",
        f"REFRESH-INTERVAL;VALUE=DURATION:{ASK_EVERY}",
    ]
    for one in due:
        lines += _event(one, household, zone, made_at, max(one.day, today), words)
    lines.append("END:VCALENDAR")
    return "".join(f"{part}\r\n" for line in lines for part in folded(line))


def _event(
    one: Due, household: str, zone: ZoneInfo, made_at: dt.datetime, day: dt.date, words: Words
) -> Iterator[str]:
    yield "BEGIN:VEVENT"
    yield f"UID:{escaped(one.key)}@{household}"
    yield f"DTSTAMP:{_utc(made_at)}"
    yield from _when(one, day, zone)
    yield f"SUMMARY:{escaped(_summary(one, words))}"
    if one.minutes:
        yield f"DESCRIPTION:{escaped(words.minutes.format(minutes=one.minutes))}"
    yield "CLASS:PRIVATE"
    yield "TRANSP:TRANSPARENT"
    yield "END:VEVENT"


def _summary(one: Due, words: Words) -> str:
    return f"{words.tonight}: {one.title}" if one.tonight else one.title


def _when(one: Due, day: dt.date, zone: ZoneInfo) -> Iterator[str]:
    """A day, or an instant and how long it takes."""
    if not one.at:
        yield f"DTSTART;VALUE=DATE:{day:%Y%m%d}"
        yield f"DTEND;VALUE=DATE:{day + dt.timedelta(days=1):%Y%m%d}"
        return
    began = dt.datetime.combine(day, dt.time.fromisoformat(one.at), zone)
    yield f"DTSTART:{_utc(began)}"
    yield f"DURATION:PT{max(1, one.minutes)}M"


def _utc(moment: dt.datetime) -> str:
    return f"{moment.astimezone(dt.UTC):%Y%m%dT%H%M%SZ}"


def escaped(text: str) -> str:
    """A TEXT value (section 3.3.11). Control characters have no place in one."""
    plain = "".join(one for one in text if one == "\n" or (ord(one) >= 32 and ord(one) != 127))
    for mark in ("\\", ";", ","):
        plain = plain.replace(mark, f"\\{mark}")
    return plain.replace("\n", "\\n")


def folded(line: str) -> Iterator[str]:
    """The line in parts of at most 75 octets, each but the first led by a blank; no letter is cut in two."""
    part, size = "", 0
    for letter in line:
        octets = len(letter.encode())
        if size + octets > MOST_OCTETS:
            yield part
            part, size = " ", 1
        part += letter
        size += octets
    yield part
