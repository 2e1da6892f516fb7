"""A household for tests, and lines as its phones would write them."""

from __future__ import annotations

import datetime as dt
import itertools
import uuid
from dataclasses import dataclass, field
from typing import Any

from homestead.household.ids import uuid7
from homestead.household.models import Device, Household, Person
from homestead.household.phones import LetIn, Numbers, let_in
from homestead.ledger.actions import Push, append_lines, write_down

Written = dict[str, Any]
NOW = dt.datetime(2026, 11, 25, 9, 30, tzinfo=dt.UTC)
_count = itertools.count(1)


def new_id(at: dt.datetime = NOW) -> str:
    """A UUIDv7; later ones are greater, so that a failing test reads in order."""
    return str(uuid7(int(at.timestamp() * 1000), next(_count)))


@dataclass
class Phone:
    """A phone that was let in: writes lines with numbers of its own and pushes them."""

    device: Device
    token: str
    writer: str
    number: int = 0

    def write(self, kind: str, body: dict[str, Any] | None = None, **more: Any) -> Written:
        self.number += 1
        line: Written = {
            "id": new_id(),
            "household": str(self.device.household_id),
            "device": str(self.device.pk),
            "device_no": self.number,
            "person": self.writer,
            "kind": kind,
            "schema": 1,
            "happened_at": "2026-11-25T10:24:53.123+01:00",
            "dated": "clock",
            "body": body or {},
        }
        return line | more

    def edit(
        self, record_type: str, record: str, values: dict[str, Any], base: int = 0, **more: Any
    ) -> Written:
        body = {"type": record_type, "record": record, "base_rev": base, "set": values}
        return self.write("edit", body, **more)

    def strike(self, struck: str, **more: Any) -> Written:
        return self.write("strike", {}, strikes=struck, **more)

    def push(
        self,
        *lines: Any,
        now: dt.datetime = NOW,
        sent_at: dt.datetime | None = None,
        numbers: Numbers | None = None,
    ) -> Push:
        items = [line if "written" in line else {"written": line} for line in lines]
        return append_lines(self.device, items, sent_at=sent_at or now, now=now, numbers=numbers)


@dataclass
class Family:
    """An invented household with one person of each role, each with a phone."""

    household: Household
    people: dict[str, str]
    phones: dict[str, Phone] = field(default_factory=dict)

    def phone(self, *roles: str) -> Phone:
        """One more phone, on which these people write, the holder first."""
        people = [Person.rows.of(self.household).get(uuid=self.people[role]) for role in roles]
        household = Household.objects.get(pk=self.household.pk)
        let: LetIn = let_in(household, people, f"{roles[0]}'s phone", now=NOW)
        return Phone(let.device, let.token, self.people[roles[0]])


def make_family(name: str = "Hollow End", **fields: Any) -> Family:
    """All by the ledger: the household and its people are edits, as in earnest."""
    household = Household.objects.create(name=name, zone="Europe/Berlin", **fields)
    people = {role: new_id() for role in ("keeper", "adult", "rounds", "child", "minder")}
    server = str(uuid.uuid4())
    told = [
        {
            "id": new_id(),
            "household": str(household.pk),
            "device": server,
            "device_no": number,
            "person": people["keeper"],
            "kind": "edit",
            "schema": 1,
            "happened_at": "2026-11-01T08:00:00.000+01:00",
            "dated": "clock",
            "body": {"type": record_type, "record": record, "base_rev": 0, "set": values},
        }
        for number, (record_type, record, values) in enumerate(
            [
                ("household", str(household.pk), {"name": name, "zone": "Europe/Berlin"}),
                *(
                    ("person", person, {"name": role.title(), "role": role})
                    for role, person in people.items()
                ),
            ],
            start=1,
        )
    ]
    receipts = write_down(household.pk, told, now=NOW)
    assert {receipt.result for receipt in receipts} == {"accepted"}
    family = Family(household, people)
    family.phones = {role: family.phone(role) for role in people}
    return family
