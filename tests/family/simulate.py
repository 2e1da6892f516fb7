"""Twenty-six weeks of the invented household, through the ledger: `python -m tests.family.simulate 1 20 26`.

15 % of all person-days somebody is away (announced) or ill (told by one tap), 20 % of what is asked is
forgotten, some of it given away and taken by another, in one week nobody is there, and three phones send and
fetch at random. Prints a table, a row for each seed: lot-weeks in time, looks in time, how far shares are
from what each can give over any four weeks, the churn.

A lot-week is in time unless the lot's latest day passed in it without a look, or it stood past its latest
day from the first day of the week to the last. Weeks in which nobody was there are not counted, nor what was
late before the first day. Of the four weeks before the first the roster shared out nothing: it evens them out
in the first four, so those are not judged.
"""

from __future__ import annotations

import datetime as dt
import hashlib
import json
import os
import random
import sys
import tempfile
import uuid
from collections import Counter, defaultdict
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from unittest import mock
from zoneinfo import ZoneInfo

from fixtures.demo.season import Demo
from tests.family.outcome import HEAD, STANDING, Outcome, Phone

ENDS_ON = dt.date(2026, 11, 25)
DAY = dt.timedelta(days=1)
AWAY, ILL, FORGOTTEN, GIVEN_AWAY = 0.10, 0.05, 0.20, 0.05
SENDS = 0.8
EMPTY_WEEK = 13
SETTLES = 4


class Family:
    """The invented household, and how its people behave under one seed."""

    def __init__(self, demo: Demo, seed: int, weeks: int) -> None:
        from homestead.household.models import Device, Household, Person

        self.dice, self.weeks = random.Random(seed), weeks
        self.household = Household.objects.get(pk=demo.household)
        self.zone, self.people = ZoneInfo(demo.zone), demo.people
        self.role = dict(Person.rows.of(demo.household).order_by("uuid").values_list("uuid", "role"))
        devices = {one.pk: one for one in Device.rows.of(demo.household).order_by("id")}
        self.phones = {pk: Phone(one) for pk, one in devices.items()}
        self.phone_of = {demo.people[who]: self.phones[pk] for who, pk in demo.phones.items()}
        self.number = Counter({pk: 100_000 for pk in devices})
        self.looked: dict[uuid.UUID, dt.date] = {}
        self.overdue: set[tuple[uuid.UUID, dt.date]] = set()
        self.missed: defaultdict[int, set[uuid.UUID]] = defaultdict(set)
        self.late_days: Counter[tuple[int, uuid.UUID]] = Counter()
        self.minutes: defaultdict[uuid.UUID, Counter[dt.date]] = defaultdict(Counter)
        self.lost: defaultdict[uuid.UUID, set[dt.date]] = defaultdict(set)
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
        for number in range(self.weeks * 7):
            day = first + number * DAY
            self.a_day(day, number)
            self.judge(day, number)
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
        self.make(self.moment(day, 3), is_first=number == 0)
        for phone in self.phones.values():
            if self.dice.random() < SENDS:
                self.exchange(phone, self.moment(day, 7))
        for person in sorted(self.role):
            self.announce(person, day)
            self.act(person, day)
        for phone in self.phones.values():
            if self.dice.random() < SENDS:
                self.exchange(phone, self.moment(day, 21))

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
        phone = self.phone_of[person]
        grown = self.role[person] in ("keeper", "adult")
        for key, row in self.open_on(phone, day.isoformat()):
            if key in phone.free and phone.free[key] != person and grown and self.dice.random() < 0.5:
                yield key, row | {"taken": True}
            elif str(person) in (row["who"], row.get("also")) and phone.free.get(key) != person:
                yield key, row

    def open_on(self, phone: Phone, today: str) -> Iterator[tuple[str, dict[str, Any]]]:
        """Walks and chores whose day has come and that are open as far as the phone knows."""
        for sheet in phone.sheets:
            content = sheet["content"]
            for walk in content.get("walks", ()):
                left = self.to_look_at(phone, walk, content["lots"]) if walk["day"] <= today else []
                if left:
                    told = {"space": content["space"], "left": left, "minutes": sum(m for _, m in left)}
                    yield f"{sheet['key']}/{walk['day']}", walk | told
            for chore in content.get("chores", ()):
                passed = chore["what"] == "standing" and chore["latest"] < today
                if chore["day"] <= today and not passed and chore["key"] not in phone.done:
                    yield chore["key"], chore

    def to_look_at(
        self, phone: Phone, walk: dict[str, Any], lots: list[dict[str, Any]]
    ) -> list[tuple[str, int]]:
        """Lots of the walk nobody looked at since, with their minutes: the phone folds for itself."""
        told = {one["lot"]: one for one in lots}
        return [
            (lot, told[lot]["minutes"])
            for lot in walk["lots"]
            if phone.looks[lot].isoformat() <= told[lot]["last_look"]
        ]

    def act(self, person: uuid.UUID, day: dt.date) -> None:
        why = self.gone[person].get(day)
        if why in ("away", "empty"):
            self.lost[person].add(day)
            return
        hour = self.dice.randint(8, 18)
        asked = list(self.asked(person, day))
        if why == "ill" and asked:
            self.lost[person].add(day)
        for key, row in asked:
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
        if "left" not in row:
            if row["what"] == "decide":
                self.write(person, at, "decision", {"suspect": row["suspect"], "do": "keep"})
            self.write(person, at, "chore_done", {"chore": key, "minutes": took})
            return
        ended = at + dt.timedelta(minutes=took)
        times = {
            "began_at": at.isoformat(timespec="milliseconds"),
            "ended_at": ended.isoformat(timespec="milliseconds"),
        }
        self.write(person, ended, "round", {"space": row["space"]} | times)
        for lot, _ in row["left"]:
            look = {"lot": lot, "space": row["space"], "way": "sample", "looked": 10, "counted": False}
            self.write(person, ended, "inspection", look)
            self.looked[uuid.UUID(lot)] = self.phone_of[person].looks[lot] = at.date()
            self.outcome.looks += 1

    # -- phones and server

    def exchange(self, phone: Phone, now: dt.datetime) -> None:
        from homestead.ledger.actions import append_lines
        from homestead.ledger.reads import sheets_of
        from homestead.rounds.models import ChoreDone
        from homestead.rounds.reads import held_chores
        from homestead.store.models import Lot

        while phone.unsent:
            lines, phone.unsent = phone.unsent[:150], phone.unsent[150:]
            told = append_lines(phone.device, [{"written": one} for one in lines], sent_at=now, now=now)
            self.outcome.refused.update(
                f"{one.code} {one.message}" for one in told.receipts if one.result == "refused"
            )
        phone.sheets = sheets_of(self.household.pk, "roster", "chores")
        phone.free = held_chores(self.household.pk)[1]
        phone.done = set(ChoreDone.rows.of(self.household).values_list("chore", flat=True))
        looks = Lot.rows.of(self.household).exclude(last_look=None).values_list("uuid", "last_look")
        phone.looks = {str(lot): day for lot, day in looks}

    def make(self, now: dt.datetime, is_first: bool) -> None:
        from homestead.ledger.reads import sheets_of
        from homestead.rounds.planning import before_of, make_roster
        from homestead.rounds.roster import churn

        before = before_of(sheets_of(self.household.pk, "roster", "chores"))
        make_roster(self.household.pk, now=now)
        sheets = sorted(sheets_of(self.household.pk, "roster", "chores"), key=lambda one: str(one["key"]))
        self.digest.update(json.dumps([one["content"] for one in sheets], sort_keys=True).encode())
        if not is_first:
            after, today = before_of(sheets), now.date()
            moved, told = churn(before, after, today + DAY, today + 7 * DAY)
            self.outcome.moved += moved
            self.outcome.told += told

    # -- what came of it

    def judge(self, day: dt.date, number: int) -> None:
        """At the end of a day: what was not looked at by its latest day, and what stands past it."""
        from homestead.rounds.reads import lots_due, spare_days

        lots, week = lots_due(self.household.pk), number // 7
        for lot in lots:
            look = max(self.looked.get(lot.lot, lot.last_look), lot.last_look)
            latest = look + (lot.days + spare_days(lot.days)) * DAY
            if latest > day or latest < ENDS_ON + DAY:
                continue
            self.late_days[week, lot.lot] += 1
            if (lot.lot, look) not in self.overdue:
                self.overdue.add((lot.lot, look))
                self.missed[week].add(lot.lot)
        if number % 7 == 6 and self.was_somebody_there(day):
            all_week = {lot for (of, lot), days in self.late_days.items() if of == week and days == 7}
            self.outcome.lot_weeks += len(lots)
            self.outcome.in_time += len(lots) - len(self.missed[week] | all_week)
            self.outcome.looks_late += len(self.missed[week])

    def was_somebody_there(self, last: dt.date) -> bool:
        week = [last - back * DAY for back in range(7)]
        return any(self.gone[person].get(day) is None for person in self.role for day in week)

    def off_shares(self, first: dt.date) -> Iterator[float]:
        """Of each four weeks and each walker: how far their share of minutes is from their share of time.

        A day ill on which nothing was asked of them, so that nobody was told, is a day like others.
        """
        from homestead.household.models import Person

        weekly = dict(
            Person.rows.of(self.household).exclude(role="child").values_list("uuid", "minutes_a_week")
        )
        for begins in range(SETTLES * 7, self.weeks * 7 - 27, 7):
            days = [first + (begins + on) * DAY for on in range(28)]
            can = {
                who: minutes * sum(day not in self.lost[who] for day in days)
                for who, minutes in weekly.items()
            }
            gave = {who: sum(self.minutes[who][day] for day in days) for who in weekly}
            for who in weekly:
                if can[who] and sum(gave.values()):
                    yield abs(gave[who] / sum(gave.values()) * sum(can.values()) / can[who] - 1)


def begin() -> Demo:
    """The invented household in the database at hand."""
    from django.db import transaction

    from fixtures.demo import load
    from fixtures.demo.season import demo_of
    from homestead.household.models import Household

    demo = demo_of(ENDS_ON)
    with transaction.atomic():
        household = Household.objects.create(id=demo.household, name="Invented", zone=demo.zone, demo=True)
        load._phones(household, demo)
        load._write(household, demo)
    return demo


def run(demo: Demo, seed: int, weeks: int = 26) -> Outcome:
    """One run in the household that was begun; what it made is taken back."""
    from django.db import transaction

    with transaction.atomic():
        outcome = Family(demo, seed, weeks).run()
        transaction.set_rollback(True)
    return outcome


def set_up() -> None:
    """A database of its own, unless one is named."""
    os.environ.setdefault("ROUNDS_DATA", tempfile.mkdtemp(prefix="rounds-family-"))
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "homestead.settings")
    import django

    django.setup()
    from django.core.management import call_command

    call_command("migrate", verbosity=0)


def runs(demo: Demo, seeds: range, weeks: int) -> Iterator[Outcome]:
    """Each seed in the household as it was begun. SQLite keeps every page of an open transaction in memory:
    there the file is copied back instead."""
    from django.conf import settings
    from django.db import connection

    if connection.vendor != "sqlite":
        yield from (run(demo, seed, weeks) for seed in seeds)
        return
    path = Path(settings.DATABASES["default"]["NAME"])
    connection.close()
    begun = path.read_bytes()
    for seed in seeds:
        yield Family(demo, seed, weeks).run()
        connection.close()
        for one in path.parent.glob(f"{path.name}-*"):
            one.unlink()
        path.write_bytes(begun)


def main() -> None:
    """A household of the same ids must not be there yet."""
    set_up()
    from django.db import connection

    first, last, weeks = (int(one) for one in (*sys.argv[1:], *("1", "20", "26")[len(sys.argv) - 1 :]))
    if connection.vendor == "sqlite":
        connection.settings_dict["OPTIONS"]["init_command"] += " PRAGMA synchronous=OFF;"
    held, seeds = 0, range(first, last + 1)
    print(HEAD, flush=True)
    # what follows a push is for the queue, and nobody reads it here
    with mock.patch("homestead.ledger.posting.followers_after_commit", tuple):
        for seed, outcome in zip(seeds, runs(begin(), seeds, weeks), strict=True):
            held += outcome.holds()
            print(outcome.row(seed), flush=True)
    print(f"{held} of {len(seeds)} seeds: 98 % of lot-weeks in time, shares within 15 %")


if __name__ == "__main__":
    main()
