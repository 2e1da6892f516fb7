"""The two record types the ledger brings itself: the household, and its people."""

from __future__ import annotations

import datetime as dt
import uuid
from typing import Annotated, Any, Literal
from zoneinfo import ZoneInfo, available_timezones

from pydantic import AfterValidator, Field
from pydantic_core import PydanticCustomError

from homestead.household.models import Household, Person
from homestead.household.roles import GROWN, Need, Role
from homestead.ledger.kinds import Refused
from homestead.ledger.records import Change, Fields, RecordState, RecordType, register_record


def _known_zone(zone: str) -> str:
    if zone not in available_timezones():
        sentence = f"The time zone {zone} is not known here. Name it like Europe/Berlin."
        raise PydanticCustomError("wrong", "{sentence}", {"code": "zone", "sentence": sentence})
    return str(ZoneInfo(zone))


Name = Annotated[str, Field(min_length=1, max_length=100)]
AnimalKind = Annotated[str, Field(pattern=r"^[a-z][a-z0-9_]*$", max_length=32)]
Country = Annotated[
    str,
    Field(
        pattern=r"^[A-Z]{2}(-[A-Z0-9]{1,3})?$", description="ISO 3166-1, or 3166-2 where a part has its law"
    ),
]
Zone = Annotated[str, Field(max_length=64, description="IANA name"), AfterValidator(_known_zone)]


Weekday = Annotated[int, Field(ge=1, le=7, description="1 Monday to 7 Sunday (ISO 8601)")]
Eater = Literal["infant", "small_child", "pregnant", "old", "ill", "no_nuts"]


class RingUp(Fields):
    """Whom to ring when something is wrong."""

    what: Annotated[str, Field(min_length=1, max_length=40, description="vet, neighbour, keeper")]
    name: Name
    number: Annotated[str, Field(pattern=r"^[0-9+()/ .-]{2,40}$")]


class HouseholdFields(Fields):
    name: Name
    zone: Zone
    hemisphere: Literal["north", "south"] = "north"
    country: Country | None = None
    units: Literal["metric", "imperial"] = "metric"
    week_start: Literal["monday", "saturday", "sunday"] = "monday"
    language: Annotated[str, Field(pattern=r"^[a-z]{2}(-[A-Z]{2})?$", description="BCP 47")] = "en"
    code_prefix: Annotated[str, Field(pattern=r"^[A-Za-z-]{0,4}$", description="before a lot's number")] = ""
    law_confirmed: Annotated[bool, Field(description="a keeper has read what is restricted here")] = False
    kitchen_to: Annotated[
        tuple[AnimalKind, ...],
        Field(max_length=40, description="kinds of animal that may have what was cut in a kitchen"),
    ] = ()
    housing_order: Annotated[bool, Field(description="birds are kept in: nothing goes out to them")] = False
    outbreak: Annotated[bool, Field(description="bird disease near: no small child at the run")] = False
    at_table: Annotated[int, Field(ge=1, le=500, description="people at table on a usual day")] | None = None
    eaters: Annotated[
        tuple[Eater, ...], Field(max_length=6, description="who at table makes cautions stricter")
    ] = ()
    ring: Annotated[tuple[RingUp, ...], Field(max_length=20, description="whom to ring")] = ()


#: fields the household's own row has a column for; the rest lives in the record alone
_COLUMNS = {"name", "zone", "hemisphere", "country", "units", "week_start", "language", "code_prefix"}


class HouseholdRecord(RecordType[HouseholdFields]):
    """One record, its id the household's. What animals may be fed hangs on its country: the keeper's."""

    name = "household"
    fields = HouseholdFields
    roles = GROWN
    keeper_fields = frozenset({"country", "law_confirmed", "kitchen_to"})

    def check(self, change: Change) -> None:
        if change.record != change.household:
            raise Refused("unknown_reference", "A household has one record only, and its id is its own.")

    def settle(self, record: RecordState[HouseholdFields]) -> None:
        told = record.fields.model_dump(include=_COLUMNS)
        values = told | {"country": record.fields.country or ""}
        Household.objects.filter(pk=record.household).update(**values)


class PersonFields(Fields):
    name: Name
    role: Role
    minutes_a_week: (
        Annotated[int, Field(ge=0, le=10_080, description="time for rounds [min/week]")] | None
    ) = None
    away_from: dt.date | None = None
    away_until: dt.date | None = None
    may_decide: Annotated[bool, Field(description="an older child: decides, and sends to animals")] = False
    archived: bool = False
    until: Annotated[dt.date, Field(description="a minder's last day")] | None = None
    born: (
        Annotated[int, Field(ge=1900, le=2200, description="year; who is young gets chores of that age")]
        | None
    ) = None
    cannot: Annotated[
        tuple[Need, ...], Field(max_length=4, description="what chores may not ask of them")
    ] = ()
    weekdays: Annotated[
        tuple[Weekday, ...], Field(max_length=7, description="days they can give; none: all")
    ] = ()
    picture: (
        Annotated[str, Field(pattern=r"^[a-z][a-z0-9_]*$", max_length=32, description="a crop's drawing")]
        | None
    ) = None


class PersonRecord(RecordType[PersonFields]):
    name = "person"
    fields = PersonFields
    roles = GROWN
    keeper_fields = frozenset({"role", "may_decide", "archived", "until"})

    def check(self, change: Change) -> None:
        steps_down = change.set.get("role", "keeper") != "keeper" or change.set.get("archived") is True
        if steps_down and not change.new and _is_last_keeper(change.household, change.record):
            raise Refused("last_keeper", "Somebody must stay keeper. Make another person keeper first.")

    def settle(self, record: RecordState[PersonFields]) -> None:
        told = record.fields.model_dump()
        values: dict[str, Any] = told | {
            "cannot": list(told["cannot"]),
            "weekdays": list(told["weekdays"]),
            "picture": told["picture"] or "",
        }
        Person.everywhere.update_or_create(household_id=record.household, uuid=record.id, defaults=values)


def _is_last_keeper(household: uuid.UUID, person: uuid.UUID) -> bool:
    keepers = Person.rows.of(household).filter(role="keeper", archived=False).values_list("uuid", flat=True)
    return list(keepers) == [person]


def register_own_records() -> None:
    register_record(HouseholdRecord())
    register_record(PersonRecord())
