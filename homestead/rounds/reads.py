"""What the rounds tell: which lots are due, who walked how long, which suspects wait. Plain data."""

from __future__ import annotations

import datetime as dt
import uuid
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from homestead.household.models import Household
from homestead.rounds.models import ChoreDone, Round, Suspect
from homestead.store.models import Lot
from homestead.store.reads import lots_here
from homestead.store.setting import figures_of
from homestead.storekeeping.due import Hemisphere, LookingOver, Watched, days_late, due_of_lot


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
    )


def minutes_walked(household: uuid.UUID, since: dt.date) -> Counter[uuid.UUID]:
    """Minutes each person gave to rounds and chores from that day on; who walked along walked as long."""
    given: Counter[uuid.UUID] = Counter()
    walks = Round.rows.of(household).filter(day__gte=since).select_related("person")
    for walk in walks:
        minutes = max(0, round((walk.ended_at - walk.began_at).total_seconds() / 60))
        for person in {walk.person.uuid, *map(uuid.UUID, walk.with_people)}:
            given[person] += minutes
    chores = ChoreDone.rows.of(household).filter(day__gte=since, minutes__isnull=False)
    for person, spent in chores.values_list("person__uuid", "minutes"):
        given[person] += spent or 0
    return given


def open_suspects(household: uuid.UUID) -> list[dict[str, Any]]:
    """Suspects nobody has decided on, oldest first, with their lot."""
    rows = Suspect.rows.of(household).filter(state="open").order_by("when", "uuid")
    columns = ("uuid", "lot__uuid", "lot__crop", "day", "lies", "findings", "pieces", "grams", "photos")
    return [dict(row) for row in rows.values(*columns)]
