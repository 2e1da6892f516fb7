"""What the rounds tell: which lots are due, who walked how long, which suspects wait. Plain data."""

from __future__ import annotations

import datetime as dt
import uuid
from collections import Counter, defaultdict
from collections.abc import Container, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any
from zoneinfo import ZoneInfo

from homestead.household.models import Household
from homestead.ledger.reads import history_of
from homestead.rounds.chores import named_in
from homestead.rounds.models import Chore, ChoreDone, Claim, Offer, Round, Suspect
from homestead.store.models import Lot
from homestead.store.reads import lots_here
from homestead.store.setting import figures_of
from homestead.storekeeping.due import (
    Hemisphere,
    LookingOver,
    Watched,
    days_late,
    due_of_lot,
    spare_days,
)

#: of a chore nobody gave minutes to [min]; common practice, no source
USUAL_CHORE_MINUTES = 10


@dataclass(frozen=True)
class DueLot:
    """A lot and the day it is due. `days` from its last look to the day the crop's interval asks for."""

    lot: uuid.UUID
    space: uuid.UUID
    crop: str
    last_look: dt.date
    due: dt.date
    days: int
    pieces: float | None
    grams: float | None
    #: a day that somebody asked for, or a look the outlook asks for, is not put off
    firm: bool = False
    #: days it was put off in planning, which makes it no less urgent
    put_off_days: int = 0
    #: what a week of waiting loses of it on average, where an outlook tells it [g]
    risk_g: float | None = None

    @property
    def latest(self) -> dt.date:
        """The last day on which a look is still in time: a quarter of its days on, or three. Ours."""
        spare = 0 if self.firm else spare_days(self.days)
        return self.due + dt.timedelta(days=spare - self.put_off_days)

    def every(self, days: int) -> DueLot:
        """The same lot with another interval, within the crop's own and the days that may be late; a day that
        was asked for stands.
        """
        days = min(days, self.days + spare_days(self.days))
        due = self.last_look + dt.timedelta(days=days)
        return replace(self, days=days, due=min(due, self.due) if self.firm else due)

    def looked_at(self, day: dt.date) -> DueLot:
        """As it will be after a look on that day."""
        return replace(
            self, last_look=day, due=day + dt.timedelta(days=max(1, self.days)), firm=False, put_off_days=0
        )

    def put_off(self, day: dt.date) -> DueLot:
        """What was due by then and did not fit is for the day after."""
        if self.due > day:
            return self
        tomorrow = day + dt.timedelta(days=1)
        put_off = self.put_off_days + (tomorrow - self.due).days
        return replace(self, due=tomorrow, put_off_days=put_off)

    def late(self, today: dt.date) -> int:
        """Days late: 0 on the day and before."""
        return days_late(self.due.isoformat(), today.isoformat())


def lots_due(household: uuid.UUID) -> list[DueLot]:
    """Every lot that stands in a space, soonest due first. By the tables, or the household's own figures."""
    hemisphere: Hemisphere = "south" if _hemisphere(household) == "south" else "north"
    lots = lots_here(household).select_related("space").exclude(space=None)
    figures = figures_of(household)
    found = [_due(lot, _interval(figures.get(lot.crop, {})), hemisphere) for lot in lots]
    return sorted(found, key=lambda one: (one.due, str(one.lot)))


def _hemisphere(household: uuid.UUID) -> str:
    return Household.objects.values_list("hemisphere", flat=True).get(pk=household)


def _interval(figures: Mapping[str, Any]) -> LookingOver | None:
    """The crop's days between looks, the household's own before the table's; None for a crop without any."""
    if not LookingOver.__required_keys__ <= figures.keys():
        return None
    return LookingOver(
        every_days=figures["every_days"],
        every_days_late=figures["every_days_late"],
        late_from_month=figures["late_from_month"],
    )


def _due(lot: Lot, interval: LookingOver | None, hemisphere: Hemisphere) -> DueLot:
    assert lot.space is not None
    assert lot.last_look is not None
    assert lot.put_away_day is not None
    watched = Watched(put_away_on=lot.put_away_day.isoformat(), last_look=lot.last_look.isoformat())
    by_crop = due_of_lot(interval, watched, hemisphere)
    look_on = lot.look_on.isoformat() if lot.look_on else None
    due = due_of_lot(interval, watched | {"look_on": look_on}, hemisphere)
    assert by_crop is not None
    assert due is not None
    return DueLot(
        lot=lot.uuid,
        space=lot.space.uuid,
        crop=lot.crop,
        last_look=lot.last_look,
        due=dt.date.fromisoformat(due),
        days=(dt.date.fromisoformat(by_crop) - lot.last_look).days,
        pieces=lot.pieces,
        grams=lot.grams,
        firm=due < by_crop,
    )


def minutes_by_day(household: uuid.UUID, since: dt.date) -> dict[uuid.UUID, Counter[dt.date]]:
    """Minutes each person gave to rounds and chores on each day; who walked along walked as long.

    Of a chore done without a time, the minutes of its record, else ten. Common practice, no source.
    """
    given: defaultdict[uuid.UUID, Counter[dt.date]] = defaultdict(Counter)
    walks = Round.rows.of(household).filter(day__gte=since).select_related("person")
    for walk in walks:
        minutes = max(0, round((walk.ended_at - walk.began_at).total_seconds() / 60))
        for person in {walk.person.uuid, *map(uuid.UUID, walk.with_people)}:
            given[person][walk.day] += minutes
    usual = dict(Chore.rows.of(household).values_list("uuid", "minutes"))
    done: dict[str, tuple[uuid.UUID, dt.date, int]] = {}
    chores = ChoreDone.rows.of(household).filter(day__gte=since).order_by("-when", "-uuid")
    for key, person, day, spent in chores.values_list("chore", "person__uuid", "day", "minutes"):
        named = named_in(key)
        of_record = usual.get(named.id) if named and named.thing == "chore" else None
        done[key] = (person, day, (of_record or USUAL_CHORE_MINUTES) if spent is None else spent)
    for person, day, spent in done.values():
        given[person][day] += spent
    return given


def held_chores(household: uuid.UUID) -> tuple[dict[str, uuid.UUID], dict[str, uuid.UUID]]:
    """Who claimed each chore, and who gave each free one away (fold F19), by key."""
    claims = Claim.rows.of(household).values_list("seq", "chore", "person__uuid")
    offers = Offer.rows.of(household).values_list("seq", "chore", "person__uuid")
    told = sorted([(*one, "claim") for one in claims] + [(*one, "offer") for one in offers])
    claimed: dict[str, uuid.UUID] = {}
    free: dict[str, uuid.UUID] = {}
    for _, key, person, kind in told:
        if kind == "offer":
            if claimed.get(key) in (None, person):
                free.setdefault(key, person)
        elif key not in claimed or key in free:
            claimed[key] = person
            free.pop(key, None)
    return {key: person for key, person in claimed.items() if key not in free}, free


def days_off(
    household: uuid.UUID, person: uuid.UUID, since: dt.date, zone: ZoneInfo, worked: Container[dt.date] = ()
) -> frozenset[dt.date]:
    """Days since then on which they were away as they said at the time, or gave away what they had.

    Who gave one piece away and did another that day (`worked`) was there.
    """
    gave = Offer.rows.of(household).filter(person__uuid=person, when__date__gte=since)
    told_on = {when.astimezone(zone).date() for when in gave.values_list("when", flat=True)}
    off = {day for day in told_on if day not in worked}
    told: dict[str, dt.date | None] = {"away_from": None, "away_until": None}
    changes = [
        one for one in history_of(household, "person", person) if one["field"] in told and one["stood"]
    ]
    for number, change in enumerate(changes):
        told[change["field"]] = dt.date.fromisoformat(change["value"]) if change["value"] else None
        last = number + 1 == len(changes)
        next_at = (
            None if last else dt.datetime.fromisoformat(changes[number + 1]["at"]).astimezone(zone).date()
        )
        off |= set(_days_between(told["away_from"], told["away_until"], since, next_at))
    return frozenset(off)


def _days_between(
    first: dt.date | None, last: dt.date | None, since: dt.date, said_until: dt.date | None
) -> Iterator[dt.date]:
    """Days away, as far as they were still said to be when they came."""
    if first is None or last is None or first > last:
        return
    end = min(last, since + dt.timedelta(days=60), said_until or last)
    for number in range((end - max(first, since)).days + 1):
        yield max(first, since) + dt.timedelta(days=number)


def chores_done(household: uuid.UUID, keys: Iterable[str]) -> set[str]:
    """Which of these chores are done."""
    return set(ChoreDone.rows.of(household).filter(chore__in=list(keys)).values_list("chore", flat=True))


def open_suspects(household: uuid.UUID) -> list[dict[str, Any]]:
    """Suspects nobody has decided on, oldest first, with their lot."""
    rows = Suspect.rows.of(household).filter(state="open").order_by("when", "uuid")
    columns = ("uuid", "lot__uuid", "lot__crop", "day", "lies", "findings", "pieces", "grams", "photos")
    return [dict(row) for row in rows.values(*columns)]
