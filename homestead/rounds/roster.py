"""The roster: for each space the next walk, who walks it and when. A sheet a space, `roster/<space>`.

Plain functions work it out from what is due and who there is; docs/sheets.md tells its shape.
"""

from __future__ import annotations

import datetime as dt
import uuid
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any
from zoneinfo import ZoneInfo

from django.db import transaction
from django.utils import timezone

from homestead.household.models import Person
from homestead.household.roles import WALKERS
from homestead.ledger.actions import Sheet, write_sheets
from homestead.ledger.posting import lock
from homestead.ledger.reads import head_of
from homestead.reference import tables, version
from homestead.rounds.reads import DueLot, lots_due, minutes_walked
from homestead.rounds.sharing import Door, Shares, Walker
from homestead.store.models import Space
from homestead.store.setting import figures_of

#: lots due so soon after the first are walked with it
WALK_TOGETHER = dt.timedelta(days=2)
#: who walked how much is looked at so far back
LOOK_BACK = dt.timedelta(days=28)


@dataclass(frozen=True)
class Looking:
    """How a crop is looked over: all of it or a sample, and how long 10 kg of what is looked at take."""

    sample_pieces: int
    sample_share: float
    minutes_per_10kg: float


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


def roster_of(
    doors: Iterable[Door],
    due: Iterable[DueLot],
    walkers: Sequence[Walker],
    minutes: Mapping[uuid.UUID, float],
    today: dt.date,
) -> dict[uuid.UUID, dict[str, Any]]:
    """Content of each space's sheet. The space first due is given first; the same facts give the same roster.

    `minutes` by lot. A walk that is late keeps the day it was due on: the phone says how late.
    """
    by_space: defaultdict[uuid.UUID, list[DueLot]] = defaultdict(list)
    for lot in sorted(due, key=lambda one: (one.due, str(one.lot))):
        by_space[lot.space].append(lot)
    shares = Shares(walkers)
    never = dt.date.max
    ordered = sorted(
        doors,
        key=lambda door: (min((lot.due for lot in by_space[door.space]), default=never), str(door.space)),
    )
    return {door.space: _of_space(door, by_space[door.space], shares, minutes, today) for door in ordered}


def _of_space(
    door: Door, lots: Sequence[DueLot], shares: Shares, minutes: Mapping[uuid.UUID, float], today: dt.date
) -> dict[str, Any]:
    return {
        "space": str(door.space),
        "walks": [_walk(door, lots, shares, minutes, today)] if lots else [],
        "lots": [_lot(lot, minutes[lot.lot]) for lot in lots],
    }


def _walk(
    door: Door, lots: Sequence[DueLot], shares: Shares, minutes: Mapping[uuid.UUID, float], today: dt.date
) -> dict[str, Any]:
    day = lots[0].due
    together = [lot for lot in lots if lot.due <= day + WALK_TOGETHER]
    needed = sum(minutes[lot.lot] for lot in together)
    who = shares.give(max(day, today), needed, door.cautions)
    return {
        "day": day.isoformat(),
        "who": str(who) if who else None,
        "minutes": round(needed),
        "lots": [str(lot.lot) for lot in together],
    }


def _lot(lot: DueLot, minutes: float) -> dict[str, Any]:
    return {
        "lot": str(lot.lot),
        "days": lot.days,
        "last_look": lot.last_look.isoformat(),
        "due": lot.due.isoformat(),
        "minutes": round(minutes),
    }


def make_roster(household_id: uuid.UUID, *, now: dt.datetime | None = None) -> None:
    """Work the roster out and put it into the feed. Safe to run twice: the same is not written again.

    Under the household's lock, so that what was read is what the ledger held at `as_of`.
    """
    now = now or timezone.now()
    with transaction.atomic():
        household = lock(household_id)
        today = now.astimezone(ZoneInfo(household.zone)).date()
        due = lots_due(household_id)
        content = roster_of(
            _doors(household_id), due, _walkers(household_id, today), _minutes(household_id, due), today
        )
        as_of, inputs = head_of(household_id), {"tables": version()}
        sheets = [
            Sheet(key=f"roster/{space}", kind="roster", as_of=as_of, inputs=inputs, content=told)
            for space, told in content.items()
        ]
        write_sheets(household_id, sheets, now=now)


def _doors(household: uuid.UUID) -> list[Door]:
    rows = Space.rows.of(household).values_list("uuid", "cautions")
    return [Door(space, frozenset(cautions)) for space, cautions in rows]


def _walkers(household: uuid.UUID, today: dt.date) -> list[Walker]:
    spent = minutes_walked(household, today - LOOK_BACK)
    people = Person.rows.of(household).filter(archived=False, role__in=WALKERS).order_by("uuid")
    return [
        Walker(one.uuid, one.role, one.minutes_a_week, (one.away_from, one.away_until), spent[one.uuid])
        for one in people
    ]


def _minutes(household: uuid.UUID, due: Iterable[DueLot]) -> dict[uuid.UUID, float]:
    figures = figures_of(household)
    looking = {
        row.crop_id: Looking(row.sample_pieces_min or 0, row.sample_share_pct / 100, row.minutes_per_10kg)
        for row in tables().looking_over
    }
    return {
        lot.lot: minutes_of(lot, looking.get(lot.crop), figures.get(lot.crop, {}).get("piece_g"))
        for lot in due
    }
