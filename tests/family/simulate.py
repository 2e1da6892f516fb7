"""Twenty-six weeks of the invented household, through the ledger: `python -m tests.family.simulate 1 20 26`.

15 % of all person-days somebody is away (announced) or ill (told by one tap), 20 % of what is asked is
forgotten, some of it given away and taken by another, in one week nobody is there, and three phones send and
fetch at random. Prints, for each seed: lot-weeks in time, how far shares are from
what each can give, the churn.
"""

from __future__ import annotations

import datetime as dt
import hashlib
import json
import os
import random
import sys
import uuid
from collections import Counter, defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any
from zoneinfo import ZoneInfo

ENDS_ON = dt.date(2026, 11, 25)
DAY = dt.timedelta(days=1)
AWAY, ILL, FORGOTTEN, GIVEN_AWAY = 0.10, 0.05, 0.20, 0.05
SENDS = 0.8
EMPTY_WEEK = 13
STANDING = (
    {"name": "Let out, feed, water", "minutes": 12, "at": "08:00", "animals": True},
    {"name": "Eggs in, water again", "minutes": 8, "at": "12:00", "animals": True, "least_age": 5},
    {"name": "Shut in at dusk", "minutes": 8, "at": "16:30", "animals": True},
    {"name": "Sweep the loft", "minutes": 20, "weekdays": [6], "needs": ["ladder"]},
    {"name": "Carry straw", "minutes": 25, "weekdays": [2, 5], "needs": ["lifting"]},
)


@dataclass
class Phone:
    """What it holds unsent, and what it knew when it last fetched."""

    device: Any
    unsent: list[dict[str, Any]] = field(default_factory=list)
    sheets: list[dict[str, Any]] = field(default_factory=list)
    free: dict[str, uuid.UUID] = field(default_factory=dict)
    done: set[str] = field(default_factory=set)


@dataclass
class Outcome:
    """What came of a run."""

    in_time: int = 0
    lot_weeks: int = 0
    farthest_share: float = 0.0
    moved: int = 0
    told: int = 0
    refused: Counter[str] = field(default_factory=Counter)
    digest: str = ""

    def __str__(self) -> str:
        return (
            f"{100 * self.in_time / self.lot_weeks:.2f} % of {self.lot_weeks} lot-weeks in time, "
            f"shares at most {100 * self.farthest_share:.1f} % off, churn "
            f"{100 * self.moved / max(1, self.told):.1f} % a night of "
            f"{self.told} walks told, refused {dict(self.refused)}, rosters {self.digest[:12]}"
        )


class Family:
    """The invented household, and how its people behave under one seed."""

    def __init__(self, seed: int, weeks: int) -> None:
        from fixtures.demo.load import _phones, _write
        from fixtures.demo.season import demo_of
        from homestead.household.models import Device, Household, Person

        self.dice, self.weeks = random.Random(seed), weeks
        demo = demo_of(ENDS_ON)
        self.household = Household.objects.create(
            id=demo.household, name="Invented", zone=demo.zone, demo=True
        )
        _phones(self.household, demo)
        _write(self.household, demo)
        self.zone, self.people = ZoneInfo(demo.zone), demo.people
        self.role = dict(Person.rows.of(demo.household).values_list("uuid", "role"))
        devices = {one.pk: one for one in Device.rows.of(demo.household)}
        self.phones = {pk: Phone(one) for pk, one in devices.items()}
        self.phone_of = {demo.people[who]: self.phones[pk] for who, pk in demo.phones.items()}
        self.number = Counter({pk: 100_000 for pk in devices})
        self.looked: dict[uuid.UUID, dt.date] = {}
        self.minutes: defaultdict[uuid.UUID, Counter[dt.date]] = defaultdict(Counter)
        self.gone: dict[uuid.UUID, dict[dt.date, str]] = {person: {} for person in self.role}
        self.made, self.digest, self.outcome = 0, hashlib.sha256(), Outcome()

    # -- lines

    def new_id(self) -> str:
        from homestead.household.ids import uuid7

        self.made += 1
        return str(uuid7(1_800_000_000_000 + self.made, self.dice.getrandbits(74)))

    def write(self, person: uuid.UUID, at: dt.datetime, kind: str, body: dict[str, Any]) -> None:
        phone = self.phone_of[person]
        pk = phone.device.pk
        self.number[pk] += 1
        phone.unsent.append(
            {
                "id": self.new_id(),
                "household": str(self.household.pk),
                "device": str(pk),
                "device_no": self.number[pk],
                "person": str(person),
                "kind": kind,
                "schema": 1,
                "happened_at": at.isoformat(timespec="milliseconds"),
                "dated": "clock",
                "body": body,
            }
        )

    def edit(self, at: dt.datetime, type_: str, record: str, values: dict[str, Any]) -> None:
        body = {"type": type_, "record": record, "base_rev": 1_000, "set": values}
        self.write(self.people["ruth"], at, "edit", body)

    def moment(self, day: dt.date, hour: int, minute: int = 0) -> dt.datetime:
        return dt.datetime.combine(day, dt.time(hour, minute), self.zone)

    # -- what happens

    def run(self) -> Outcome:
        first = ENDS_ON + DAY
        self.plan_absences(first)
        hens = next(iter(self._hens()))
        for chore in STANDING:
            values = chore | ({"animals": str(hens)} if chore.get("animals") else {})
            self.edit(self.moment(ENDS_ON, 22), "chore", self.new_id(), values)
        self.exchange(self.phone_of[self.people["ruth"]], self.moment(ENDS_ON, 23))
        late: dict[uuid.UUID, dt.date] = {}
        for number in range(self.weeks * 7):
            day = first + number * DAY
            self.a_day(day, number)
            self.judge(day, number, late)
        self.outcome.farthest_share = max(self.off_shares(first), default=0.0)
        self.outcome.digest = self.digest.hexdigest()
        return self.outcome

    def _hens(self) -> list[uuid.UUID]:
        from homestead.byproducts.models import AnimalGroup

        return list(AnimalGroup.rows.of(self.household).filter(name="Hens").values_list("uuid", flat=True))

    def plan_absences(self, first: dt.date) -> None:
        """Days away come one to four at a time, days ill one to three; in one week nobody is there."""
        for _, days in sorted(self.gone.items()):
            for why, share, most in (("away", AWAY, 4), ("ill", ILL, 3)):
                left = round(self.weeks * 7 * share)
                while left > 0:
                    begins, length = self.dice.randrange(self.weeks * 7), self.dice.randint(1, most)
                    for day in range(begins, min(begins + length, self.weeks * 7)):
                        if first + day * DAY not in days:
                            days[first + day * DAY] = why
                            left -= 1
            for day in range(7):
                if self.weeks > EMPTY_WEEK:
                    days[first + (EMPTY_WEEK * 7 + day) * DAY] = "empty"

    def a_day(self, day: dt.date, number: int) -> None:
        self.make(self.moment(day, 3), number)
        for phone in self.phones.values():
            if self.dice.random() < SENDS:
                self.exchange(phone, self.moment(day, 7))
        for person in sorted(self.role):
            self.announce(person, day)
            self.act(person, day)
        for phone in self.phones.values():
            if self.dice.random() < SENDS:
                self.exchange(phone, self.moment(day, 21))
        self.make(self.moment(day, 21, 1), None)

    def announce(self, person: uuid.UUID, day: dt.date) -> None:
        """Whoever goes away tomorrow says so today, until when."""
        gone, tomorrow = self.gone[person], day + DAY
        if gone.get(tomorrow) == "away" and gone.get(day) != "away":
            until = tomorrow
            while gone.get(until + DAY) == "away":
                until += DAY
            away = {"away_from": tomorrow.isoformat(), "away_until": until.isoformat()}
            self.edit(self.moment(day, 6), "person", str(person), away)

    def asked(self, person: uuid.UUID, day: dt.date) -> Iterator[tuple[str, dict[str, Any]]]:
        """What the phone tells them to do today: theirs, and what others gave away."""
        phone, today = self.phone_of[person], day.isoformat()
        for sheet in phone.sheets:
            content = sheet["content"]
            rows = [(f"{sheet['key']}/{walk['day']}", walk | content) for walk in content.get("walks", ())]
            rows += [(chore["key"], chore) for chore in content.get("chores", ())]
            for key, row in rows:
                on = row["day"] if "chore" in row or "what" in row else key[-10:]
                if on > today or key in phone.done:
                    continue
                standing = row.get("what") == "standing" and on < today and not row["latest"] >= today
                if standing:
                    continue
                may = self.role[person] in ("keeper", "adult")
                if key in phone.free and phone.free[key] != person and may and self.dice.random() < 0.5:
                    yield key, row | {"taken": True}
                elif row["who"] == str(person) and phone.free.get(key) != person:
                    yield key, row

    def act(self, person: uuid.UUID, day: dt.date) -> None:
        why = self.gone[person].get(day)
        if why in ("away", "empty"):
            return
        hour = self.dice.randint(8, 18)
        for key, row in list(self.asked(person, day)):
            if why == "ill" or self.dice.random() < GIVEN_AWAY:
                self.write(person, self.moment(day, hour), "offer", {"chore": key})
                self.phone_of[person].free[key] = person
            elif self.dice.random() >= FORGOTTEN:
                self.do(person, self.moment(day, hour, self.dice.randint(0, 20)), key, row)

    def do(self, person: uuid.UUID, at: dt.datetime, key: str, row: dict[str, Any]) -> None:
        if row.get("taken"):
            self.write(person, at, "claim", {"chore": key})
        self.phone_of[person].done.add(key)
        took = max(1, row["minutes"])
        self.minutes[person][at.date()] += took
        if "lots" not in row:
            if row["what"] == "standing":
                self.write(person, at, "chore_done", {"chore": key, "minutes": took})
            return
        walk = next(walk for walk in row["walks"] if key.endswith(walk["day"]))
        ended = at + dt.timedelta(minutes=took)
        times = {
            "began_at": at.isoformat(timespec="milliseconds"),
            "ended_at": ended.isoformat(timespec="milliseconds"),
        }
        self.write(person, ended, "round", {"space": row["space"]} | times)
        for lot in walk["lots"]:
            look = {"lot": lot, "space": row["space"], "way": "sample", "looked": 10, "counted": False}
            self.write(person, ended, "inspection", look)
            self.looked[uuid.UUID(lot)] = at.date()

    # -- phones and server

    def exchange(self, phone: Phone, now: dt.datetime) -> None:
        from homestead.ledger.actions import append_lines
        from homestead.ledger.reads import sheets_of
        from homestead.rounds.models import ChoreDone
        from homestead.rounds.reads import held_chores

        while phone.unsent:
            lines, phone.unsent = phone.unsent[:150], phone.unsent[150:]
            told = append_lines(phone.device, [{"written": one} for one in lines], sent_at=now, now=now)
            self.outcome.refused.update(
                f"{one.code} {one.message}" for one in told.receipts if one.result == "refused"
            )
        phone.sheets = sheets_of(self.household.pk, "roster", "chores")
        phone.free = held_chores(self.household.pk)[1]
        phone.done = set(ChoreDone.rows.of(self.household).values_list("chore", flat=True))

    def make(self, now: dt.datetime, number: int | None) -> None:
        from homestead.ledger.reads import sheets_of
        from homestead.rounds.planning import before_of, make_roster
        from homestead.rounds.roster import churn

        before = before_of(sheets_of(self.household.pk, "roster", "chores"))
        make_roster(self.household.pk, now=now)
        sheets = sorted(sheets_of(self.household.pk, "roster", "chores"), key=lambda one: str(one["key"]))
        self.digest.update(json.dumps([one["content"] for one in sheets], sort_keys=True).encode())
        if number:
            after, today = before_of(sheets), now.date()
            moved, told = churn(before, after, today + DAY, today + 7 * DAY)
            self.outcome.moved += moved
            self.outcome.told += told

    # -- what came of it

    def judge(self, day: dt.date, number: int, late: dict[uuid.UUID, dt.date]) -> None:
        """A lot-week is in time unless the lot's latest day passed in it without a look."""
        from homestead.rounds.reads import lots_due, spare_days

        for lot in lots_due(self.household.pk):
            look = max(self.looked.get(lot.lot, lot.last_look), lot.last_look)
            if look + (lot.days + spare_days(lot.days)) * DAY == day - DAY:
                late[lot.lot] = day
        if number % 7 == 6:
            week = [day - back * DAY for back in range(7)]
            if any(self.gone[person].get(one) is None for person in self.role for one in week):
                standing = len(lots_due(self.household.pk))
                self.outcome.lot_weeks += standing
                self.outcome.in_time += standing - sum(passed in week for passed in late.values())

    def off_shares(self, first: dt.date) -> Iterator[float]:
        """Of each four weeks and each walker: how far their share of minutes is from their share of time."""
        from homestead.household.models import Person

        weekly = dict(
            Person.rows.of(self.household).exclude(role="child").values_list("uuid", "minutes_a_week")
        )
        for begins in range(0, self.weeks * 7 - 27, 7):
            days = [first + (begins + on) * DAY for on in range(28)]
            can = {
                who: minutes * sum(day not in self.gone[who] for day in days)
                for who, minutes in weekly.items()
            }
            gave = {who: sum(self.minutes[who][day] for day in days) for who in weekly}
            for who in weekly:
                if can[who] and sum(gave.values()):
                    yield abs(gave[who] / sum(gave.values()) * sum(can.values()) / can[who] - 1)


def run(seed: int, weeks: int = 26) -> Outcome:
    """One run in the database at hand; what it made is left there."""
    return Family(seed, weeks).run()


def main() -> None:
    """Each seed in a transaction that is rolled back. A household of the same ids must not be there yet."""
    import tempfile

    os.environ.setdefault("ROUNDS_DATA", tempfile.mkdtemp(prefix="rounds-family-"))
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "homestead.settings")
    import django

    django.setup()
    from django.core.management import call_command
    from django.db import transaction

    call_command("migrate", verbosity=0)
    first, last, weeks = (int(one) for one in (*sys.argv[1:], *("1", "20", "26")[len(sys.argv) - 1 :]))
    for seed in range(first, last + 1):
        with transaction.atomic():
            print(f"seed {seed}: {run(seed, weeks)}", flush=True)
            transaction.set_rollback(True)


if __name__ == "__main__":
    main()
