"""The roster and the chores, worked out together, since one share of the work covers both.

A sheet a space, `roster/<space>`, and one of all chores, `chores`. docs/sheets.md tells their shape.
"""

from __future__ import annotations

import datetime as dt
import uuid
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any
from zoneinfo import ZoneInfo

from django.db import transaction
from django.utils import timezone

from homestead.household.models import Person
from homestead.household.roles import FAMILY
from homestead.ledger.actions import Sheet, drop_sheets, write_sheets
from homestead.ledger.posting import lock
from homestead.ledger.reads import head_of, sheets_of
from homestead.reference import tables, version
from homestead.rounds.asked import Asked, as_work, asked_of
from homestead.rounds.reads import DueLot, chores_done, days_off, held_chores, lots_due, minutes_by_day
from homestead.rounds.roster import (
    Before,
    Door,
    Looking,
    Walk,
    content_of,
    give_out,
    minutes_of,
    walks_of,
    work_of,
)
from homestead.rounds.sharing import WINDOW, Shares, Walker
from homestead.store.models import Space
from homestead.store.setting import figures_of

CHORES = "chores"


@dataclass(frozen=True)
class Facts:
    """All the plan is made from. The same facts give the same plan."""

    today: dt.date
    doors: Mapping[uuid.UUID, Door]
    due: Sequence[DueLot]
    minutes: Mapping[uuid.UUID, float]
    walkers: Sequence[Walker]
    asked: Sequence[Asked]
    claimed: Mapping[str, uuid.UUID]
    gave: Mapping[str, uuid.UUID]
    before: Before


@dataclass(frozen=True)
class Plan:
    """Walks by space, chores, who does what, and how the work is shared."""

    walks: Mapping[uuid.UUID, Sequence[Walk]]
    asked: Sequence[Asked]
    given: Before
    shares: Shares


def plan_of(facts: Facts) -> Plan:
    """Pure: what is walked and done in the next 14 days, and by whom."""
    by_space: defaultdict[uuid.UUID, list[DueLot]] = defaultdict(list)
    for lot in facts.due:
        by_space[lot.space].append(lot)
    walks = {
        space: walks_of(lots, facts.minutes, facts.today, facts.before.days_of(space))
        for space, lots in sorted(by_space.items())
    }
    work = [
        work_of(walk, facts.doors[space], facts.before, facts.today, **_hands(facts, walk.key))
        for space, its in walks.items()
        for walk in its
    ]
    work += [as_work(one, facts.today, facts.before, **_hands(facts, one.key)) for one in facts.asked]
    shares = Shares(facts.walkers, facts.today)
    return Plan(walks, facts.asked, give_out(work, shares, facts.today), shares)


def _hands(facts: Facts, key: str) -> dict[str, uuid.UUID | None]:
    return {"claimed": facts.claimed.get(key), "gave": facts.gave.get(key)}


def contents(facts: Facts, plan: Plan) -> dict[str, dict[str, Any]]:
    """Content of every sheet, by key."""
    told = {
        f"roster/{space}": content_of(
            door,
            [lot for lot in facts.due if lot.space == space],
            plan.walks.get(space, ()),
            facts.minutes,
            plan.given,
        )
        for space, door in facts.doors.items()
    }
    return told | {CHORES: chores_content(plan, facts.today)}


def chores_content(plan: Plan, today: dt.date) -> dict[str, Any]:
    """The chores, and for each person what they can give in four weeks, gave, and are asked for."""
    return {
        "day": today.isoformat(),
        "chores": [one.told(plan.given) for one in plan.asked],
        "people": [
            {
                "person": str(one.person),
                "can": round(one.can_give(today)),
                "gave": round(one.gave_until(today)),
                "asked": plan.shares.asked_of(one.person),
            }
            for one in plan.shares.walkers
        ],
    }


def make_roster(household_id: uuid.UUID, *, now: dt.datetime | None = None) -> None:
    """Work the roster out and put it into the feed. Safe to run twice: the same is not written again.

    Under the household's lock, so that what was read is what the ledger held at `as_of`.
    """
    now = now or timezone.now()
    with transaction.atomic():
        household = lock(household_id)
        zone = ZoneInfo(household.zone)
        facts = facts_of(household_id, now.astimezone(zone).date(), zone)
        told = contents(facts, plan_of(facts))
        as_of, inputs = head_of(household_id), {"tables": version()}
        sheets = [
            Sheet(key=key, kind=key.split("/")[0], as_of=as_of, inputs=inputs, content=content)
            for key, content in told.items()
        ]
        write_sheets(household_id, sheets, now=now)
        gone = [sheet["key"] for sheet in sheets_of(household_id, "roster") if sheet["key"] not in told]
        if gone:
            drop_sheets(household_id, gone)


def facts_of(household: uuid.UUID, today: dt.date, zone: ZoneInfo) -> Facts:
    """What the tables hold and what the last roster said."""
    doors = _doors(household)
    due = by_outlook(lots_due(household), sheets_of(household, "outlook"))
    due = with_risk(due, sheets_of(household, "on_the_turn"))
    asked = asked_of(household, today, doors)
    done = chores_done(household, (one.key for one in asked))
    claimed, gave = held_chores(household)
    return Facts(
        today=today,
        doors=doors,
        due=due,
        minutes=_minutes(household, due),
        walkers=walkers_of(household, today, zone),
        asked=[one for one in asked if one.key not in done],
        claimed=claimed,
        gave=gave,
        before=before_of(sheets_of(household, "roster", CHORES)),
    )


def by_outlook(due: Iterable[DueLot], sheets: Iterable[Mapping[str, Any]]) -> list[DueLot]:
    """Days between looks by the lot's own hazard where an outlook tells them (`look_days`)."""
    rows = (row for sheet in sheets for row in sheet["content"].get("lots", ()))
    days = {row["lot"]: row["look_days"] for row in rows if row.get("look_days")}
    return [lot.every(days[str(lot.lot)]) if str(lot.lot) in days else lot for lot in due]


def with_risk(due: Iterable[DueLot], sheets: Iterable[Mapping[str, Any]]) -> list[DueLot]:
    """What a week of waiting loses of each, as the last outlook told it."""
    risk_g = {row["lot"]: row["grams"] for sheet in sheets for row in sheet["content"].get("lots", ())}
    return [replace(lot, risk_g=risk_g.get(str(lot.lot))) for lot in due]


def before_of(sheets: Iterable[Mapping[str, Any]]) -> Before:
    """What the last sheets said."""
    rows: list[tuple[str, Mapping[str, Any]]] = []
    made_on: dt.date | None = None
    for sheet in sheets:
        content = sheet["content"]
        if content.get("day"):
            made_on = dt.date.fromisoformat(content["day"])
        rows += [(f"{sheet['key']}/{walk['day']}", walk) for walk in content.get("walks", ())]
        rows += [(chore["key"], chore) for chore in content.get("chores", ())]
    return Before(
        made_on,
        {key: uuid.UUID(row["who"]) if row["who"] else None for key, row in rows},
        {key: uuid.UUID(row["not_by"]) for key, row in rows if row.get("not_by")},
    )


def _doors(household: uuid.UUID) -> dict[uuid.UUID, Door]:
    rows = Space.rows.of(household).order_by("uuid").values_list("uuid", "cautions")
    return {space: Door(space, frozenset(cautions)) for space, cautions in rows}


def walkers_of(household: uuid.UUID, today: dt.date, zone: ZoneInfo) -> list[Walker]:
    """The family, children too, with what each gave in the last four weeks."""
    since = today - WINDOW
    gave = minutes_by_day(household, since)
    idle = idle_days(gave.values(), today)
    people = Person.rows.of(household).filter(archived=False, role__in=FAMILY).order_by("uuid")
    return [
        Walker(
            one.uuid,
            one.role,
            one.minutes_a_week,
            (one.away_from, one.away_until),
            gave.get(one.uuid, {}),
            one.born,
            frozenset(one.cannot),
            frozenset(one.weekdays),
            idle | days_off(household, one.uuid, since, zone, gave.get(one.uuid, {})),
        )
        for one in people
    ]


def idle_days(gave: Iterable[Mapping[dt.date, float]], today: dt.date) -> frozenset[dt.date]:
    """Days before today on which nobody did anything, since somebody first did: they count for nobody.

    Else who was away in other weeks than the one when all were would seem to have had more time than was.
    """
    worked = {day for days in gave for day, minutes in days.items() if minutes > 0}
    first = min(worked, default=today)
    days = (first + dt.timedelta(days=on) for on in range((today - first).days))
    return frozenset(day for day in days if day not in worked)


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
