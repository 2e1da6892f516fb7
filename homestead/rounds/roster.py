"""Walks: which lots of a space are looked over together and when, 14 days ahead. Plain, no database.

A lot is due at its last look plus its days. A walk is never later than its first lot is due, so that two days
or more are left until the latest day, when somebody could not go. docs/sheets.md tells what comes of it.
"""

from __future__ import annotations

import datetime as dt
import uuid
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from homestead.household.roles import WALKERS
from homestead.rounds.reads import DueLot
from homestead.rounds.sharing import DOORS_NOT_ALONE, Shares, Work

#: lots due so soon after the first are walked with it
WALK_TOGETHER = dt.timedelta(days=2)
#: so far ahead walks are planned; the next walk of a space is told however far it is
AHEAD = dt.timedelta(days=14)
#: so near the latest day another is asked as well: ours, since one in four of those asked does not go
PRESSING = dt.timedelta(days=2)
#: what can wait is left for the next day where a walk would be longer [min]; ours, no source
MOST_MINUTES = 45


@dataclass(frozen=True)
class Door:
    """A space and who may be sent through it."""

    space: uuid.UUID
    cautions: frozenset[str] = frozenset()

    @property
    def needs(self) -> frozenset[str]:
        """A door marked for its air is nobody's alone: no older child is sent there."""
        return frozenset({"not_alone"}) if self.cautions & DOORS_NOT_ALONE else frozenset()


@dataclass(frozen=True)
class Looking:
    """How a crop is looked over: all of it or a sample, and how long 10 kg of what is looked at take."""

    sample_pieces: int
    sample_share: float
    minutes_per_10kg: float


@dataclass(frozen=True)
class Walk:
    """One walk. `due` is its first lot's day, also when that is past; `day` when it can be walked."""

    space: uuid.UUID
    due: dt.date
    day: dt.date
    latest: dt.date
    minutes: float
    lots: tuple[uuid.UUID, ...]
    #: tomorrow or the day after a lot of it would be late, and none is yet
    pressing: bool = False
    #: what a week of waiting loses of its lots, as far as it is known [g]
    risk_g: float | None = None

    @property
    def key(self) -> str:
        """As in claims, offers and `chore_done` (fold F19)."""
        return f"roster/{self.space}/{self.due}"


@dataclass(frozen=True)
class Before:
    """The last roster: by key who had what, and who let its day pass, so that another is asked now.

    What stands is kept as it was where nothing speaks against it. `made_on` is that roster's day.
    """

    made_on: dt.date | None = None
    who: Mapping[str, uuid.UUID | None] = field(default_factory=dict)
    not_by: Mapping[str, uuid.UUID | None] = field(default_factory=dict)
    also: Mapping[str, uuid.UUID] = field(default_factory=dict)

    def days_of(self, space: uuid.UUID) -> list[dt.date]:
        """For which days walks of the space were told."""
        head = f"roster/{space}/"
        return [dt.date.fromisoformat(key.removeprefix(head)) for key in self.who if key.startswith(head)]

    def of(self, key: str, late: bool, today: dt.date) -> tuple[uuid.UUID | None, uuid.UUID | None]:
        """Who keeps it, and who is asked only when nobody else can. Passed on once a day at most."""
        if self.made_on == today or not late:
            return self.who.get(key), self.not_by.get(key)
        return None, self.who.get(key) or self.not_by.get(key)


NOTHING_BEFORE = Before()


def minutes_of(lot: DueLot, looking: Looking | None, piece_g: float | None) -> float:
    """How long looking the lot over takes [min]: at least one; three where nothing is known of it."""
    grams = lot.grams if lot.grams is not None else _weighed(lot.pieces, piece_g)
    if looking is None or grams is None:
        return 3.0
    least = looking.sample_pieces * (piece_g or 0)
    looked_g = min(max(grams, 0), max(least, grams * looking.sample_share))
    return max(1.0, looked_g / 10_000 * looking.minutes_per_10kg)


def _weighed(pieces: float | None, piece_g: float | None) -> float | None:
    return None if pieces is None or piece_g is None else pieces * piece_g


def walks_of(
    lots: Iterable[DueLot], minutes: Mapping[uuid.UUID, float], today: dt.date, before: Sequence[dt.date] = ()
) -> list[Walk]:
    """The walks of one space from today on, the first one however far. `before`: days of the last roster."""
    waiting = sorted(lots, key=lambda one: (one.due, str(one.lot)))
    walks: list[Walk] = []
    while waiting and (not walks or waiting[0].due <= today + AHEAD):
        first = waiting[0].due
        # a day once planned for is not kept again, or a lot of every other day would be walked on it for ever
        later = [one for one in before if not walks or one > walks[-1].day]
        day = max(_kept_day(first, later), today)
        together = _fitting([one for one in waiting if one.due <= day + WALK_TOGETHER], minutes, day)
        walks.append(_walk(together, first if first < today else day, day, minutes))
        gone = {one.lot for one in together}
        again = [one.looked_at(day) if one.lot in gone else one.put_off(day) for one in waiting]
        waiting = sorted(again, key=lambda one: (one.due, str(one.lot)))
    return walks


def _kept_day(first: dt.date, before: Sequence[dt.date]) -> dt.date:
    """The day it was told for, if that is still soon enough and not much sooner than needed."""
    kept = [day for day in before if first - WALK_TOGETHER <= day <= first]
    return max(kept, default=first)


def _walk(together: Sequence[DueLot], due: dt.date, day: dt.date, minutes: Mapping[uuid.UUID, float]) -> Walk:
    latest = min(one.latest for one in together)
    known = [one.risk_g for one in together if one.risk_g is not None]
    return Walk(
        together[0].space,
        due,
        day,
        max(latest, day),
        sum(minutes[one.lot] for one in together),
        tuple(one.lot for one in together),
        pressing=dt.timedelta(0) <= latest - day < PRESSING,
        risk_g=sum(known) if known else None,
    )


def _fitting(together: list[DueLot], minutes: Mapping[uuid.UUID, float], day: dt.date) -> list[DueLot]:
    """Of a walk longer than it should be, what can wait until the next day is left for that.

    What is late already is no later tomorrow: of a walk after days on which nobody could, what loses most by
    waiting goes first, and the rest is given new days.
    """
    told: list[DueLot] = []
    sum_of = 0.0
    for one in sorted(together, key=lambda one: _urgency(one, day)):
        sum_of += minutes[one.lot]
        if not told or sum_of <= MOST_MINUTES or one.latest == day:
            told.append(one)
    return told


def _urgency(one: DueLot, day: dt.date) -> tuple[int, float, dt.date, str]:
    """First what would be late tomorrow, then what is late, most at risk first, then what is due soonest."""
    if one.latest == day:
        return 0, 0.0, one.due, str(one.lot)
    if one.latest < day:
        return 1, -(one.risk_g or 0.0), one.latest, str(one.lot)
    return 2, 0.0, one.due, str(one.lot)


def work_of(walk: Walk, door: Door, before: Before, today: dt.date, **who: uuid.UUID | None) -> Work:
    """The walk as work to be given. `claimed` by whom it was taken on, `gave` who gave it away."""
    had, let_pass = before.of(walk.key, walk.due < walk.day, today)
    return Work(
        key=walk.key,
        day=walk.day,
        minutes=walk.minutes,
        roles=WALKERS,
        needs=door.needs,
        doer=who.get("claimed") if today <= walk.latest else None,
        before=had,
        not_by=who.get("gave") or let_pass,
        gave=who.get("gave"),
        pressing=walk.pressing and walk.day == today,
    )


def content_of(
    door: Door,
    lots: Sequence[DueLot],
    walks: Sequence[Walk],
    minutes: Mapping[uuid.UUID, float],
    given: Before,
) -> dict[str, Any]:
    """Content of the space's sheet."""
    ordered = sorted(lots, key=lambda one: (one.due, str(one.lot)))
    return {
        "space": str(door.space),
        "day": given.made_on.isoformat() if given.made_on else None,
        "walks": [_told_walk(walk, given) for walk in walks],
        "lots": [_told_lot(lot, minutes[lot.lot]) for lot in ordered],
    }


def _told_walk(walk: Walk, given: Before) -> dict[str, Any]:
    who, not_by, also = given.who.get(walk.key), given.not_by.get(walk.key), given.also.get(walk.key)
    return {
        "day": walk.due.isoformat(),
        "latest": walk.latest.isoformat(),
        "who": str(who) if who else None,
        "not_by": str(not_by) if not_by else None,
        "also": str(also) if also else None,
        "minutes": round(walk.minutes),
        "risk_g": None if walk.risk_g is None else round(walk.risk_g),
        "lots": [str(lot) for lot in walk.lots],
    }


def _told_lot(lot: DueLot, minutes: float) -> dict[str, Any]:
    return {
        "lot": str(lot.lot),
        "days": lot.days,
        "last_look": lot.last_look.isoformat(),
        "due": lot.due.isoformat(),
        "latest": lot.latest.isoformat(),
        "minutes": round(minutes),
        "risk_g": None if lot.risk_g is None else round(lot.risk_g),
    }


def churn(before: Before, after: Before, first: dt.date, last: dt.date) -> tuple[int, int]:
    """How many walks told for these days stand otherwise now, or no more, and how many were told."""
    told = [
        (key, who)
        for key, who in before.who.items()
        if key.startswith("roster/") and first.isoformat() <= key[-10:] <= last.isoformat()
    ]
    return sum(key not in after.who or after.who[key] != who for key, who in told), len(told)


def give_out(work: Iterable[Work], shares: Shares, today: dt.date) -> Before:
    """Who does what. What is due first is given first; the same facts give the same shares."""
    ordered = sorted(work, key=lambda one: (one.day, one.key))
    given = {one.key: shares.give(one) for one in ordered}
    not_by = {one.key: one.not_by for one in ordered if one.not_by}
    also = {one.key: shares.beside(one, given[one.key]) for one in ordered if one.pressing}
    return Before(today, given, not_by, {key: who for key, who in also.items() if who})
