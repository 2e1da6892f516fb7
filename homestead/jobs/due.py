"""When a piece of work is due for a household. Plain functions of what is known and of the clock."""

from __future__ import annotations

import datetime as dt
import zoneinfo
from dataclasses import dataclass

from homestead.jobs.schedules import LEASE, NIGHT, REST_BETWEEN, RESTS_AFTER_FAILURE


@dataclass(frozen=True)
class Known:
    """What `Run` keeps of one piece of work, as far as it matters here."""

    asked_at: dt.datetime | None = None
    started_at: dt.datetime | None = None
    finished_at: dt.datetime | None = None
    done_at: dt.datetime | None = None
    as_of: int = 0
    failures: int = 0


def is_due(known: Known, last_line: int, zone: str, now: dt.datetime) -> bool:
    """True once the night has come that it was not yet done in, or when lines came after the last it read."""
    if not has_rested(known, now):
        return False
    if known.done_at is None or known.done_at < last_night(zone, now):
        return True
    return last_line > known.as_of


def has_rested(known: Known, now: dt.datetime) -> bool:
    """Nobody is at it, and it has rested since it was last done or failed."""
    if _within(LEASE, known.asked_at, now) or _within(LEASE, known.started_at, now):
        return False
    return not _within(rest_after(known.failures), known.finished_at, now)


def rest_after(failures: int) -> dt.timedelta:
    """How long a piece rests that failed so many times in a row: longer each time, to the last."""
    return RESTS_AFTER_FAILURE[min(failures, len(RESTS_AFTER_FAILURE)) - 1] if failures else REST_BETWEEN


def last_night(zone: str, now: dt.datetime) -> dt.datetime:
    """The last time that the clock of the household's zone showed the hour of the night's work."""
    here = now.astimezone(_zone(zone))
    tonight = dt.datetime.combine(here.date(), NIGHT, here.tzinfo)
    return tonight if tonight <= here else tonight - dt.timedelta(days=1)


def _zone(name: str) -> dt.tzinfo:
    """A zone this system does not know must not stop the night's work: then it is done by UTC."""
    try:
        return zoneinfo.ZoneInfo(name)
    except (zoneinfo.ZoneInfoNotFoundError, ValueError):
        return dt.UTC


def _within(span: dt.timedelta, since: dt.datetime | None, now: dt.datetime) -> bool:
    """A time ahead of now, from a clock that was wrong, does not count."""
    return since is not None and dt.timedelta(0) <= now - since < span
