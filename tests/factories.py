"""Rows and lines for tests, made as the product makes them: all that the ledger keeps goes through it.

`HomeFactory` gives a household with a keeper, a phone and a pen: `home.write(...)`, `home.push(...)`.
"""

from __future__ import annotations

import datetime as dt
import itertools
import uuid
from collections.abc import Mapping, Sequence
from typing import Any, cast

import factory

from homestead.household.ids import uuid7
from homestead.household.models import Device, Household, Person
from homestead.ledger.actions import Receipt, append_lines, write_down
from homestead.store.models import Lot, Space

#: a Wednesday in the invented winter, ten in the morning in Vienna
MORNING = dt.datetime(2026, 11, 25, 9, 0, tzinfo=dt.UTC)

_moments = itertools.count()


def new_id() -> str:
    """An id as a phone makes them, each later than the last."""
    return str(uuid7(1_790_000_000_000 + next(_moments)))


class HouseholdFactory(factory.django.DjangoModelFactory[Household]):
    class Meta:
        model = Household

    name = factory.Sequence(lambda n: f"House {n} at Nettle Lane")
    zone = "Europe/Vienna"


class LineFactory(factory.DictFactory):
    """A written line. `schema` is what the phone calls it; the numbers of a phone go up."""

    class Meta:
        rename = {"schema_": "schema"}

    id = factory.LazyFunction(new_id)
    household: Any = None
    device = factory.LazyFunction(lambda: str(uuid.uuid4()))
    device_no = factory.Sequence(lambda n: n + 1)
    person: Any = None
    kind = "take"
    schema_ = 1
    happened_at = "2026-11-25T10:00:00.000+01:00"
    dated = "clock"
    body = factory.LazyFunction(dict)


def line(**told: Any) -> dict[str, Any]:
    return cast(dict[str, Any], LineFactory(**told))


def wire_time(moment: dt.datetime) -> str:
    return moment.astimezone(dt.UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")


class Home:
    """A household in a test. What the pen writes is an hour later each time, unless said."""

    def __init__(self, household: Household) -> None:
        self.household = household
        self.id = household.pk
        self.device = str(uuid.uuid4())
        self.hour = 0
        self.written: list[Mapping[str, Any]] = []
        self.keeper = self.person("Ruth", "keeper")
        self.edit("household", {"name": household.name, "zone": household.zone}, str(self.id))

    def line(self, kind: str, body: Mapping[str, Any], **told: Any) -> dict[str, Any]:
        """A line not yet sent. `at` is a moment; `day` a day counted from the first, at noon."""
        self.hour += 1
        at = told.pop("at", None) or MORNING + dt.timedelta(hours=self.hour)
        if "day" in told:
            at = MORNING.replace(hour=11) + dt.timedelta(days=told.pop("day"), minutes=self.hour)
        defaults = {"household": str(self.id), "device": self.device, "person": getattr(self, "keeper", None)}
        return line(**defaults | {"kind": kind, "body": dict(body), "happened_at": wire_time(at)} | told)

    def write(self, kind: str, body: Mapping[str, Any], **told: Any) -> str:
        """Write one line down as the server does; it must be taken. Returns its id."""
        written = self.line(kind, body, **told)
        [receipt] = self.write_lines([written])
        assert receipt.result == "accepted", receipt
        self.written.append(written)
        return str(written["id"])

    def write_lines(self, lines: Sequence[Mapping[str, Any]]) -> Sequence[Receipt]:
        return write_down(self.id, lines, now=MORNING + dt.timedelta(days=400))

    def refused(self, kind: str, body: Mapping[str, Any], **told: Any) -> Receipt:
        """Write a line that must not be taken; its receipt."""
        [receipt] = self.write_lines([self.line(kind, body, **told)])
        assert receipt.result == "refused", receipt
        return receipt

    def edit(
        self, record_type: str, values: Mapping[str, Any], record: str | None = None, **told: Any
    ) -> str:
        """Make or change a record; returns its id."""
        key = record or new_id()
        body = {"type": record_type, "record": key, "base_rev": 0, "set": dict(values)}
        self.write("edit", body, **told)
        return key

    def person(self, name: str, role: str, **values: Any) -> str:
        key = new_id()
        self.edit("person", {"name": name, "role": role} | values, key, person=getattr(self, "keeper", key))
        return key

    def space(self, name: str = "Root cellar", **values: Any) -> str:
        return self.edit("space", {"name": name, "kind": "root_cellar"} | values)

    def animals(self, name: str = "Hens", kind: str = "laying_hen", **values: Any) -> str:
        return self.edit("animals", {"name": name, "kind": kind} | values)

    def lot(self, space: str, crop: str = "carrot", **told: Any) -> str:
        """Put a lot away: 24 kg, unless pieces or grams are said."""
        envelope = {name: told.pop(name) for name in ("at", "day", "person", "id") if name in told}
        much = {} if told.keys() & {"pieces", "grams"} else {"grams": 24_000, "measured": "weighed"}
        return self.write("put_away", {"crop": crop, "space": space} | much | told, **envelope)

    def strike(self, entry: str, **told: Any) -> str:
        return self.write("strike", {}, strikes=entry, **told)

    def push(self, phone: Device, lines: Sequence[Mapping[str, Any]]) -> Sequence[Receipt]:
        """Send lines from a phone, so that roles are asked."""
        now = MORNING + dt.timedelta(days=400)
        return append_lines(phone, [{"written": one} for one in lines], sent_at=now, now=now).receipts

    def push_one(self, phone: Device, kind: str, body: Mapping[str, Any], **told: Any) -> Receipt:
        defaults = {"device": str(phone.pk), "person": phone.people[0]}
        [receipt] = self.push(phone, [self.line(kind, body, **defaults | told)])
        return receipt

    def row(self, lot: str) -> Lot:
        return Lot.rows.of(self.id).get(uuid=lot)


class HomeFactory(factory.Factory[Home]):
    class Meta:
        model = Home

    household = factory.SubFactory(HouseholdFactory)


class PersonFactory(factory.Factory[Person]):
    """Somebody of a home, through the ledger. Give `home`."""

    class Meta:
        model = Person

    name = factory.Sequence(lambda n: f"Person {n}")
    role = "adult"

    @classmethod
    def _create(cls, model_class: type[Person], *args: Any, **told: Any) -> Person:
        home: Home = told.pop("home")
        return Person.rows.of(home.id).get(uuid=home.person(**told))


class DeviceFactory(factory.django.DjangoModelFactory[Device]):
    """A phone let in. Give `household` and `people`, a list of ids, the holder first."""

    class Meta:
        model = Device

    name = factory.Sequence(lambda n: f"Phone {n}")
    code_from = 1
    code_to = 40


class SpaceFactory(factory.Factory[Space]):
    """A space of a home, through the ledger. Give `home`."""

    class Meta:
        model = Space

    name = factory.Sequence(lambda n: f"Cellar {n}")

    @classmethod
    def _create(cls, model_class: type[Space], *args: Any, **told: Any) -> Space:
        home: Home = told.pop("home")
        return Space.rows.of(home.id).get(uuid=home.space(**told))


class LotFactory(factory.Factory[Lot]):
    """A lot of a home, put away through the ledger. Give `home`; a space is made unless given."""

    class Meta:
        model = Lot

    crop = "carrot"

    @classmethod
    def _create(cls, model_class: type[Lot], *args: Any, **told: Any) -> Lot:
        home: Home = told.pop("home")
        return home.row(home.lot(told.pop("space", None) or home.space(), **told))
