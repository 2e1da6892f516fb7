"""When a lot is to be looked over again (fold F17). Days are ISO dates as text, as in entries.

Twin: `frontend/src/storekeeping/due.ts`; both run `fixtures/vectors/due*.json`.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from typing import Literal, NotRequired, TypedDict

from homestead.storekeeping.rules import Rules

#: days between looks at a crop that no table knows: a week, the project's own figure
OWN_CROP_DAYS = 7
#: days after it was made that a roster's days hold for a look made since; ours
ROSTER_HOLDS_DAYS = 14
#: month a winter begins, by hemisphere (architecture: 1 August; south 1 February)
WINTER_BEGINS = {"north": 8, "south": 2}

Hemisphere = Literal["north", "south"]


class LookingOver(TypedDict):
    """One row of `looking_over.csv` as far as due needs it: days between looks, and from which month (north,
    1 to 12) the late interval holds."""

    every_days: int
    every_days_late: int
    late_from_month: int


class Watched(TypedDict):
    """What due asks of a lot: the day put away (its winter), the last look, count or birth, an earlier day
    asked for, days the roster gives it and the day that was made on, and whether it is finished."""

    put_away_on: str
    last_look: str
    look_on: NotRequired[str | None]
    roster_days: NotRequired[int | None]
    roster_on: NotRequired[str | None]
    finished: NotRequired[bool]


def due_of_lot(interval: LookingOver | None, lot: Watched, hemisphere: Hemisphere = "north") -> str | None:
    """The day the lot is due, None if finished.

    The roster's days hold where it gives any, unless it is older than the last look by over two weeks, and
    no later than the last day in time by the crop's interval; else that interval; without one 7 days. A day
    asked for (`look_on`) brings it forward, never back.
    """
    if lot.get("finished"):
        return None
    last = dt.date.fromisoformat(lot["last_look"])
    due = _by_table(interval, lot, last, hemisphere)
    roster_days = lot.get("roster_days")
    if roster_days is not None and _holds(lot.get("roster_on"), last):
        latest = _after(due, spare_days((due - last).days))
        due = min(_after(last, roster_days), latest)
    look_on = lot.get("look_on")
    return min(due.isoformat(), look_on) if look_on else due.isoformat()


def spare_days(days: int) -> int:
    """Days a look may be late of an interval of so many: a quarter, or three of six and more. Ours."""
    return max(min(3, days // 2), days // 4)


def due_of_space(due_days: Iterable[str | None]) -> str | None:
    """A space is due with its first lot; None when nothing in it is."""
    return min((day for day in due_days if day), default=None)


def days_late(due: str | None, today: str) -> int:
    """0 on the day and before; 2 two days after."""
    if due is None:
        return 0
    return max(0, (dt.date.fromisoformat(today) - dt.date.fromisoformat(due)).days)


def interval_of(rules: Rules, crop: str) -> LookingOver | None:
    """The crop's row of `looking_over`, from the rules."""
    row: LookingOver | None = rules["looking_over"].get(crop)
    return row


def _holds(roster_on: str | None, last: dt.date) -> bool:
    return roster_on is None or last <= _after(dt.date.fromisoformat(roster_on), ROSTER_HOLDS_DAYS)


def _by_table(interval: LookingOver | None, lot: Watched, last: dt.date, hemisphere: Hemisphere) -> dt.date:
    if interval is None:
        return _after(last, OWN_CROP_DAYS)
    late_from = _late_from(interval, dt.date.fromisoformat(lot["put_away_on"]), hemisphere)
    return _by_interval(interval, last, late_from)


def _after(day: dt.date, days: int) -> dt.date:
    return day + dt.timedelta(days=days)


def _late_from(interval: LookingOver, put_away_on: dt.date, hemisphere: Hemisphere) -> dt.date:
    """First day of the lot's winter on which the late interval holds; south six months on."""
    begins = WINTER_BEGINS[hemisphere]
    year = put_away_on.year if put_away_on.month >= begins else put_away_on.year - 1
    month = interval["late_from_month"]
    if hemisphere == "south":
        month = (month + 5) % 12 + 1
    return dt.date(year if month >= begins else year + 1, month, 1)


def _by_interval(interval: LookingOver, last: dt.date, late_from: dt.date) -> dt.date:
    """The first day on which the interval in force has passed: a month that turns late brings it forward."""
    early = _after(last, interval["every_days"])
    if early < late_from:
        return early
    return max(_after(last, interval["every_days_late"]), late_from)
