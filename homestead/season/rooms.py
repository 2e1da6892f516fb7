"""The sheet `rooms`: the air of each space against what is wanted there, frost, whether to open tonight, and
what the room costs the lots in it. docs/sheets.md tells its shape.
"""

from __future__ import annotations

import datetime as dt
import uuid
from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any
from zoneinfo import ZoneInfo

from django.db import transaction
from django.utils import timezone

from homestead.ledger.actions import Sheet, write_sheet
from homestead.ledger.posting import lock
from homestead.ledger.reads import head_of
from homestead.reference import version
from homestead.science.freezing import USUAL_GAIN_C, USUAL_LAG_HOURS, Room, cooled_c, frost_level
from homestead.science.ranges import Impossible, OutsideRange
from homestead.science.venting import Air, outside_that_helps, vent_advice
from homestead.season.air import LATELY, RoomAir, air_of, band_c, last_told, moist, read_range, weeks_told
from homestead.season.stored import Stored, Wants, neighbours_of, stored_by_space, wants_of
from homestead.season.toll import AHEAD_DAYS, NO_STORE, chilled, dried, lost_days
from homestead.store.models import Reading, Space

#: a reading of a bed tells of the air outside for so long
OUTSIDE_HOLDS = dt.timedelta(hours=12)
#: a reading of a room tells whether to open it for so long
INSIDE_HOLDS = dt.timedelta(days=3)
#: warmer than this a freezer is looked through for packs gone soft. Ours, no source; kept at -18 [°C]
FREEZER_WARM_C = -12.0
NIGHT_HOURS = 10.0
NEXT_NIGHTS = 3
#: kinds of space as the lag table calls them; one without a name there lags like a cold room
LAG_OF = {
    "root_cellar": "cellar",
    "clamp": "cellar",
    "cold_room": "cold_room",
    "garage": "garage",
    "loft": "loft",
}
HEATED = frozenset({"spare_room", "pantry", "freezer", "bed"})


@dataclass(frozen=True)
class Outside:
    """The air outside as somebody read it lately, at a bed."""

    space: uuid.UUID
    when: dt.datetime
    air: Air


@dataclass(frozen=True)
class Tonight:
    """When it is told, and what is known of the air outside."""

    now: dt.datetime
    today: dt.date
    outside: Outside | None


@dataclass(frozen=True)
class RoomFacts:
    """All the sheet is made of: spaces in their order, their readings, oldest first, what lies in them."""

    spaces: Sequence[Space]
    readings: Mapping[uuid.UUID, Sequence[Reading]]
    stored: Mapping[uuid.UUID, Sequence[Stored]]


def room_facts(household: uuid.UUID, now: dt.datetime) -> RoomFacts:
    """Read them."""
    spaces = Space.rows.of(household).filter(archived=False).order_by("order", "name", "uuid")
    found: defaultdict[uuid.UUID, list[Reading]] = defaultdict(list)
    rows = Reading.rows.of(household).filter(when__lte=now).select_related("space")
    for reading in rows.order_by("when"):
        found[reading.space.uuid].append(reading)
    return RoomFacts(list(spaces), found, stored_by_space(household))


def rooms_content(facts: RoomFacts, now: dt.datetime, zone: ZoneInfo, south: bool = False) -> dict[str, Any]:
    """All spaces in use, in their order. A space whose readings cannot be says so and stops no other."""
    today = now.astimezone(zone).date()
    airs, amiss = _airs(facts, today, south)
    stores = {
        one.uuid: airs[one.uuid] for one in facts.spaces if one.uuid in airs and one.kind not in NO_STORE
    }
    tonight = Tonight(now, today, outside_of(facts, now))
    rooms = []
    for space in facts.spaces:
        its = facts.stored.get(space.uuid, ())
        try:
            told = _room(space, airs[space.uuid], stores, its, tonight) if space.uuid in airs else {}
        except (OutsideRange, Impossible) as why:
            amiss[space.uuid], told = str(why), {}
        rooms.append(told or {"space": str(space.uuid), "amiss": amiss[space.uuid]})
    return {"day": today.isoformat(), "outside": _outside_told(tonight.outside), "rooms": rooms}


def _airs(
    facts: RoomFacts, today: dt.date, south: bool
) -> tuple[dict[uuid.UUID, RoomAir], dict[uuid.UUID, str]]:
    airs, amiss = {}, {}
    for space in facts.spaces:
        try:
            airs[space.uuid] = air_of(facts.readings.get(space.uuid, ()), today, AHEAD_DAYS, south)
        except (OutsideRange, Impossible) as why:
            amiss[space.uuid] = str(why)
    return airs, amiss


def outside_of(facts: RoomFacts, now: dt.datetime) -> Outside | None:
    """The newest reading of warmth and humidity together at a bed: what tells no humidity may be of soil."""
    told = [
        Outside(space.uuid, one.when, Air(one.temp_c, one.rh_pct / 100))
        for space in facts.spaces
        if space.kind == "bed"
        for one in facts.readings.get(space.uuid, ())
        if one.temp_c is not None and one.rh_pct and now - OUTSIDE_HOLDS <= one.when <= now
    ]
    return max(told, key=lambda one: one.when, default=None)


def _outside_told(outside: Outside | None) -> dict[str, Any] | None:
    if outside is None:
        return None
    told = {"space": str(outside.space), "when": outside.when.isoformat(), "temp_c": outside.air.temp_c}
    told |= {"rh_pct": round(100 * outside.air.rel_humidity)}
    try:
        return told | moist(outside.air.temp_c, outside.air.rel_humidity)
    except OutsideRange as why:
        return told | {"amiss": str(why)}


def _room(
    space: Space,
    air: RoomAir,
    stores: Mapping[uuid.UUID, RoomAir],
    stored: Sequence[Stored],
    tonight: Tonight,
) -> dict[str, Any]:
    wants = None if space.kind in NO_STORE else wants_of(stored)
    last = air.readings[-1] if air.readings else None
    lately = [one for one in air.readings if one.when >= tonight.now - LATELY]
    told: dict[str, Any] = {
        "space": str(space.uuid),
        "last": last_told(last) if last else None,
        "lately": read_range(lately),
        **_weeks(space, air, wants, tonight.today),
        "stuck_days": air.stuck_days,
        "wanted": _wanted_told(wants),
        "word": word_of(last, wants) if space.kind != "freezer" else _word_of_freezer(last),
        "neighbours": neighbours_of(stored),
    }
    return told | _toll(space, stores, stored, tonight.today) | _night(space, air, wants, tonight)


def _weeks(space: Space, air: RoomAir, wants: Wants | None, today: dt.date) -> dict[str, Any]:
    """Of a space nobody read, what a usual room would be, where that matters; a freezer is no usual room."""
    if not air.readings and (wants is None or space.kind in NO_STORE):
        return {"week": None, "weeks": []}
    return {"week": band_c(*air.week_to(today)), "weeks": weeks_told(air, today)}


def _wanted_told(wants: Wants | None) -> dict[str, Any] | None:
    if wants is None:
        return None
    return {
        "temp_c": [wants.low_c, wants.high_c],
        "rh_pct": None if wants.low_pct is None else [wants.low_pct, wants.high_pct],
        "freezing_c": wants.freezing_c,
        "freezes_first": wants.freezes_first or None,
        "crossed": wants.crossed,
    }


def word_of(last: Reading | None, wants: Wants | None) -> str:
    """One word for the last reading: frost and warmth before damp and dry."""
    if wants is None:
        return "nothing_there"
    if last is None:
        return "no_reading"
    return _of_warmth(last.temp_c, wants) or _of_damp(last.rh_pct, wants) or "right"


def _word_of_freezer(last: Reading | None) -> str:
    if last is None or last.temp_c is None:
        return "no_reading"
    return "frozen" if last.temp_c <= FREEZER_WARM_C else "thaws"


def _of_warmth(temp: float | None, wants: Wants) -> str | None:
    if temp is None:
        return None
    if temp < wants.freezing_c + 1.0:
        return "near_frost"
    if temp > wants.high_c + 0.5:
        return "warm"
    return "cold" if temp < wants.low_c - 0.5 else None


def _of_damp(rh: int | None, wants: Wants) -> str | None:
    if rh is None or wants.low_pct is None or wants.high_pct is None:
        return None
    if rh > wants.high_pct + 2:
        return "damp"
    return "dry" if rh < wants.low_pct - 2 else None


def _toll(
    space: Space, stores: Mapping[uuid.UUID, RoomAir], stored: Sequence[Stored], today: dt.date
) -> dict[str, Any]:
    """What lies in a freezer or still in its bed pays none."""
    if space.uuid not in stores:
        return {"costs": [], "chilled": [], "drying": []}
    air = stores[space.uuid]
    return {
        "costs": [told for one in stored if (told := lost_days(one, space.uuid, stores, today))],
        "chilled": [row for one in stored for row in chilled(one, air, today)],
        "drying": [row for one in stored for row in dried(one, air, today)],
    }


def _night(space: Space, air: RoomAir, wants: Wants | None, tonight: Tonight) -> dict[str, Any]:
    told: dict[str, Any] = {"frost": None, "vent": None, "outside_helps": None}
    if wants is None or space.kind in HEATED:
        return told
    try:
        return told | {"frost": _frost(space, air, wants, tonight)} | _airing(air, wants, tonight)
    except (OutsideRange, Impossible) as why:
        return told | {"amiss": str(why)}


def _frost(space: Space, air: RoomAir, wants: Wants, tonight: Tonight) -> dict[str, Any] | None:
    """The coldest of the nights to come: by the air outside where somebody read it, else by the room's own
    readings and its year."""
    if not any(one.temp_c is not None for one in air.readings):
        return None
    temps, spread = air.between(tonight.today, NEXT_NIGHTS)
    lowest, sigma = float(temps.min()), float(spread[temps.argmin()])
    if tonight.outside is not None:
        room = Room(USUAL_LAG_HOURS[LAG_OF.get(space.kind, "cold_room")], USUAL_GAIN_C)
        start = float(temps[0])
        lowest = min(start, cooled_c(start, tonight.outside.air.temp_c, NIGHT_HOURS, room))
        sigma = max(room.sigma_c, float(spread[0]))
    level = frost_level(lowest, sigma, wants.freezing_c)
    if level == "calm":
        return None
    return {"level": level, "lowest_c": band_c(lowest, sigma), "by_outside": tonight.outside is not None}


def _airing(air: RoomAir, wants: Wants, tonight: Tonight) -> dict[str, Any]:
    """Advice for tonight where somebody read both airs, else at which air outside it would help."""
    last = air.readings[-1] if air.readings else None
    if last is None or last.temp_c is None or last.rh_pct is None or tonight.now - last.when > INSIDE_HOLDS:
        return {}
    inside = Air(last.temp_c, last.rh_pct / 100)
    if tonight.outside is None:
        helps = outside_that_helps(inside, wants.as_wanted())
        return {"outside_helps": [round(one, 1) for one in helps] if helps else None}
    told = vent_advice(inside, tonight.outside.air, wants.as_wanted())
    return {
        "vent": {
            "open": told.open,
            "why": told.why,
            "becomes_pct": round(100 * told.becomes_humidity),
            "shut_at_c": round(told.shut_at_c, 1),
        }
    }


def make_rooms(household_id: uuid.UUID, *, now: dt.datetime | None = None) -> None:
    """Work the sheet out and put it into the feed. Safe to run twice: the same is not written again."""
    now = now or timezone.now()
    with transaction.atomic():
        household = lock(household_id)
        facts, as_of = room_facts(household_id, now), head_of(household_id)
    content = rooms_content(facts, now, ZoneInfo(household.zone), household.hemisphere == "south")
    sheet = Sheet(key="rooms", kind="rooms", as_of=as_of, inputs={"tables": version()}, content=content)
    write_sheet(household_id, sheet, now=now)
