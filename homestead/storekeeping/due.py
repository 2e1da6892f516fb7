"""When a lot is to be looked over again (fold F17). Days are ISO dates as text, as in entries.

Twin: `frontend/src/storekeeping/due.ts`; both run `fixtures/vectors/due*.json`.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Literal, NotRequired, TypedDict


class LookingOver(TypedDict):
    """One row of `looking_over.csv` as far as due needs it: days between looks, and from which month (north,
    1 to 12) the shorter interval holds."""

    every_days: int
    every_days_late: int
    late_from_month: int


class Watched(TypedDict):
    """What due asks of a lot: the day put away (its winter), the last look, count or birth, an earlier day asked
    for, days the roster gives it, and whether it is finished."""

    put_away_on: str
    last_look: str
    look_on: NotRequired[str | None]
    roster_days: NotRequired[int | None]
    finished: NotRequired[bool]


Hemisphere = Literal["north", "south"]


def due_of_lot(interval: LookingOver | None, lot: Watched, hemisphere: Hemisphere = "north") -> str | None:
    """The day the lot is due, None if finished. Without an interval (own crop) 7 days are taken."""
    raise NotImplementedError


def due_of_space(due_days: Iterable[str | None]) -> str | None:
    """A space is due with its first lot; None when nothing in it is."""
    raise NotImplementedError


def days_late(due: str | None, today: str) -> int:
    """0 on the day and before; 2 two days after."""
    raise NotImplementedError


def interval_of(rules: Mapping[str, object], crop: str) -> LookingOver | None:
    """The crop's row of `looking_over`, from the rules."""
    raise NotImplementedError
