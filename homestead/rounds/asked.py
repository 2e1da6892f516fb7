"""Chores that are asked for: from decisions, doubts, lots to be picked over, and standing ones.

Other rooms bring theirs (`add_source`): the heap to be turned, the room to be aired. Each says who
may do it; who does it is for `sharing` to say.
"""

from __future__ import annotations

import datetime as dt
import uuid
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

from homestead.household.roles import GROWN, WALKERS
from homestead.rounds.chores import named_in
from homestead.rounds.demands import of_decision, of_standing
from homestead.rounds.models import Chore, Decision, Inspection, Suspect
from homestead.rounds.reads import USUAL_CHORE_MINUTES, held_chores
from homestead.rounds.roster import AHEAD, Before, Door
from homestead.rounds.sharing import Work

What = Literal[
    "standing",
    "carry_out",
    "decide",
    "pick_over",
    "turn_heap",
    "empty_stash",
    "air",
    "vent",
    "frost",
    "shut_in",
]

#: days a grown person has to decide on a suspect before the next is asked: wet or set apart, and else. Ours
DECIDE_DAYS = {"set_apart": 1, "held": 3}
#: days a decision's chore has where the decision names none. Ours, no source
CARRY_OUT_DAYS = 2
MINUTES = {"carry_out": 5, "decide": 3, "pick_over": 15}


@dataclass(frozen=True)
class Asked:
    """One chore. `about` names what it is about: `lot`, `space`, `suspect`, `animals`, `heap`, `chore`."""

    key: str
    what: What
    day: dt.date
    latest: dt.date
    minutes: int
    roles: frozenset[str] = WALKERS
    needs: frozenset[str] = frozenset()
    least_age: int = 0
    doer: uuid.UUID | None = None
    at: str = ""
    tonight: bool = False
    about: Mapping[str, Any] = field(default_factory=dict)

    def told(self, given: Before) -> dict[str, Any]:
        """As in the sheet."""
        who, not_by = given.who.get(self.key), given.not_by.get(self.key)
        return {
            "key": self.key,
            "what": self.what,
            "day": self.day.isoformat(),
            "latest": self.latest.isoformat(),
            "who": str(who) if who else None,
            "not_by": str(not_by) if not_by else None,
            "minutes": self.minutes,
            "needs": sorted(self.needs),
            "least_age": self.least_age,
            "at": self.at,
            "tonight": self.tonight,
            **self.about,
        }


Source = Callable[[uuid.UUID, dt.date], Iterable[Asked]]
_sources: list[Source] = []


def add_source(source: Source) -> None:
    """Called from `AppConfig.ready` of a room above or beside this one."""
    if source not in _sources:
        _sources.append(source)


def asked_of(household: uuid.UUID, today: dt.date, doors: Mapping[uuid.UUID, Door]) -> list[Asked]:
    """Every chore from today to 14 days ahead, soonest first. Those done are for the caller to leave out."""
    found = [*_standing(household, today), *_decisions(household), *_doubts(household)]
    found += _to_pick_over(household, doors)
    for source in _sources:
        found += source(household, today)
    return sorted(found, key=lambda one: (one.day, one.at, one.key))


def occurrences(chore: Chore, today: dt.date) -> Iterator[dt.date]:
    """The days of a standing chore from today to 14 days ahead, and the last one before unless one is today.

    So what was missed is caught up with once, however long nobody was there.
    """
    if chore.on:
        if chore.on <= today + AHEAD:
            yield chore.on
        return
    days = [today + dt.timedelta(days=on) for on in range(AHEAD.days + 1)]
    if not _falls_on(chore, today):
        back = (today - dt.timedelta(days=on) for on in range(1, 8))
        yield from [day for day in back if _falls_on(chore, day)][:1]
    yield from (day for day in days if _falls_on(chore, day))


def _falls_on(chore: Chore, day: dt.date) -> bool:
    if chore.weekdays and day.isoweekday() not in chore.weekdays:
        return False
    first, last = chore.from_month or 1, chore.to_month or 12
    return first <= day.month <= last if first <= last else day.month >= first or day.month <= last


def _standing(household: uuid.UUID, today: dt.date) -> Iterator[Asked]:
    rows = Chore.rows.of(household).filter(archived=False).select_related("doer", "space").order_by("uuid")
    for chore in rows:
        demands = of_standing(chore)
        spare = dt.timedelta(days=2 if chore.weekdays or chore.on else 0)
        about = {"chore": str(chore.uuid), "name": chore.name, "note": chore.note}
        if chore.animals:
            about["animals"] = str(chore.animals)
        if chore.space:
            about["space"] = str(chore.space.uuid)
        for day in occurrences(chore, today):
            yield Asked(
                f"{chore.uuid}/{day}",
                "standing",
                day,
                day + spare,
                chore.minutes or USUAL_CHORE_MINUTES,
                demands.roles,
                demands.needs,
                demands.least_age,
                chore.doer.uuid if chore.doer else None,
                chore.at,
                about=about,
            )


def _decisions(household: uuid.UUID) -> Iterator[Asked]:
    """What was decided and is still to be done. Its doer is asked first, until its day."""
    rows = Decision.rows.of(household).filter(
        stands=True, done=False, on_the_spot=False, suspect__state="to_do"
    )
    for row in rows.select_related("suspect__lot__space", "doer").order_by("when", "uuid"):
        latest = row.by or row.day + dt.timedelta(days=CARRY_OUT_DAYS)
        lot = row.suspect.lot
        about = {"lot": str(lot.uuid), "suspect": str(row.suspect.uuid), "do": row.do}
        if lot.space:
            about["space"] = str(lot.space.uuid)
        doer = row.doer.uuid if row.doer else None
        yield Asked(
            str(row.uuid),
            "carry_out",
            row.day,
            latest,
            MINUTES["carry_out"],
            WALKERS,
            of_decision(row).needs,
            0,
            doer,
            about=about,
        )


def _doubts(household: uuid.UUID) -> Iterator[Asked]:
    """Undecided suspects: an adult's to decide."""
    rows = Suspect.rows.of(household).filter(state="open").select_related("lot").order_by("when", "uuid")
    for row in rows:
        latest = row.day + dt.timedelta(days=DECIDE_DAYS[row.lies])
        about = {"lot": str(row.lot.uuid), "suspect": str(row.uuid)}
        yield Asked(str(row.uuid), "decide", row.day, latest, MINUTES["decide"], GROWN, about=about)


def _to_pick_over(household: uuid.UUID, doors: Mapping[uuid.UUID, Door]) -> Iterator[Asked]:
    """A lot in which something spreads, until every piece of it was looked at since."""
    claimed, free = held_chores(household)
    for key in sorted({*claimed, *free}):
        named = named_in(key)
        if named is None or named.thing != "inspection":
            continue
        seen = Inspection.rows.of(household).filter(uuid=named.id).select_related("lot__space").first()
        if seen is None or seen.lot.space is None or seen.lot.finished or _picked_over(seen):
            continue
        space, day = seen.lot.space.uuid, dt.date.fromisoformat(key[-10:])
        needs = doors[space].needs if space in doors else frozenset()
        about = {"lot": str(seen.lot.uuid), "space": str(space)}
        latest = day + dt.timedelta(days=2)
        yield Asked(key, "pick_over", day, latest, MINUTES["pick_over"], WALKERS, needs, about=about)


def _picked_over(seen: Inspection) -> bool:
    later = Inspection.rows.of(seen.household_id).filter(lot=seen.lot, when__gt=seen.when, way="all")
    return later.exists()


def as_work(one: Asked, today: dt.date, before: Before, **who: uuid.UUID | None) -> Work:
    """The chore as work to be given: by its doer, by whoever had it; past its latest day by the next."""
    late = today > one.latest
    had, let_pass = before.of(one.key, late, today)
    return Work(
        key=one.key,
        day=max(one.day, today),
        minutes=one.minutes,
        roles=one.roles,
        needs=one.needs,
        least_age=one.least_age,
        doer=None if late else who.get("claimed") or one.doer,
        before=had,
        not_by=who.get("gave") or let_pass,
        gave=who.get("gave"),
    )
