"""What a forecast is told of a lot: how much was put away, what was looked over, what was taken.

Source: nature: no more can be culled than was looked at, and nothing happens before it is put away.
"""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterable
from dataclasses import dataclass, replace

from homestead.science.ranges import Impossible, within


@dataclass(frozen=True)
class Handbook:
    """Storage life as the handbooks print it: `low` to `high` days at `ref_c`, and how it shortens with
    warmth.

    `hold_below_c`: the crop's chilling threshold or freezing point, below which the clock runs no slower.
    """

    low_days: float
    high_days: float
    ref_c: float
    q10: float
    hold_below_c: float = -40.0

    @property
    def life_days(self) -> float:
        """Middle of the range. [d]"""
        return (self.low_days + self.high_days) / 2


@dataclass(frozen=True)
class Look:
    """One looking over. `looked`: pieces seen, before the cull; `culled`: rotten ones taken out.

    `full`: all were looked at; `counted`: somebody counted them, so that the number says how many there are;
    `sought`: rot was looked for, which a bare count does not.
    """

    day: dt.date
    looked: float
    culled: float = 0.0
    full: bool = True
    counted: bool = True
    sought: bool = True


@dataclass(frozen=True)
class Take:
    """Pieces taken to eat, those of them written down as turning, and rotten ones thrown out beside them."""

    day: dt.date
    pieces: float
    turning: float = 0.0
    tossed: float = 0.0


@dataclass(frozen=True)
class Lot:
    """One lot's facts. `season` is its winter; `plan_per_week` its expected use in pieces.

    `count_sd`: how far the number put away may be off [pieces]; `weighed`: takes were written in kg.
    """

    crop: str
    variety: str
    space: str
    season: int
    put_away: dt.date
    pieces: float
    handbook: Handbook
    plan_per_week: float = 0.0
    weighed: bool = False
    count_sd: float = 0.0
    looks: tuple[Look, ...] = ()
    takes: tuple[Take, ...] = ()

    def before(self, day: dt.date) -> Lot:
        """The lot as it was known on the morning of `day`: records of that day and later left out."""
        return replace(
            self,
            looks=tuple(look for look in self.looks if look.day < day),
            takes=tuple(take for take in self.takes if take.day < day),
        )

    def last_record(self) -> dt.date | None:
        """Day of the last look or take, if there is any."""
        return max(self.days(), default=None)

    def days(self) -> list[dt.date]:
        """Days of all records, looks first."""
        return [look.day for look in self.looks] + [take.day for take in self.takes]


def checked(lot: Lot) -> Lot:
    """The lot with its records in order of day. Raises OutsideRange or Impossible, naming the fact."""
    within("pieces put away", lot.pieces, 0.0, 1e7)
    within("planned pieces per week", lot.plan_per_week, 0.0, 1e7)
    within("count_sd", lot.count_sd, 0.0, 1e7)
    _check_handbook(lot.handbook)
    for look in lot.looks:
        _check_look(look)
    for take in lot.takes:
        _check_take(take)
    _check_days(lot.days(), lot.put_away)
    return replace(
        lot,
        looks=tuple(sorted(lot.looks, key=lambda look: look.day)),
        takes=tuple(sorted(lot.takes, key=lambda take: take.day)),
    )


def _check_handbook(handbook: Handbook) -> None:
    within("handbook life, low", handbook.low_days, 1.0, 20_000.0)
    within("handbook life, high", handbook.high_days, handbook.low_days, 20_000.0)
    within("handbook reference temperature", handbook.ref_c, -30.0, 40.0)
    within("handbook q10", handbook.q10, 1.0, 6.0)
    if not math.isfinite(handbook.hold_below_c):
        raise Impossible("The temperature below which the clock holds is no number.")


def _check_look(look: Look) -> None:
    within("looked at", look.looked, 0.0, 1e7)
    within("culled", look.culled, 0.0, 1e7)
    if look.culled > look.looked:
        raise Impossible(f"{look.culled:g} culled out of {look.looked:g} looked at on {look.day}.")


def _check_take(take: Take) -> None:
    within("pieces taken", take.pieces, 0.0, 1e7)
    within("thrown out", take.tossed, 0.0, 1e7)
    within("turning", take.turning, 0.0, 1e7)


def _check_days(days: Iterable[dt.date], put_away: dt.date) -> None:
    for day in days:
        if day < put_away:
            raise Impossible(f"A record of {day} is older than its lot, put away on {put_away}.")
