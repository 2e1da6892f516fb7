"""A home with a roster, somebody who wishes to be reminded, and a push service that is none."""

from __future__ import annotations

import datetime as dt
import uuid
from dataclasses import dataclass, field
from typing import Any

import pytest

from homestead.household.models import Device, Person
from homestead.reminders.models import PushPhone, Reminding
from homestead.rounds.planning import make_roster
from tests.factories import MORNING, DeviceFactory, Home, HomeFactory

#: seven in the morning in Vienna, on the day the tests are told of
SEVEN = MORNING.replace(hour=6, minute=0)
# The browser's key and secret of RFC 8291, section 5 (seen).
P256DH = "BCVxsr7N_eNgVRqvHtD0zTZsEc6-VV-JvLexhqUzORcxaOzi6-AYWXvTBHm4bjyPjs7Vd8pZGH6SRpkNtoIAiw4"
AUTH = "BTBZMqHH6r4Tts7J_aSIgg"


@dataclass
class PushService:
    """Stands in for a push service: keeps what was asked, answers as told."""

    status: int = 201
    asked: list[tuple[str, bytes, dict[str, str]]] = field(default_factory=list)

    def __call__(self, endpoint: str, body: bytes, headers: dict[str, str]) -> int:
        self.asked.append((endpoint, body, headers))
        if self.status == 0:
            raise OSError("no route")
        return self.status


@pytest.fixture
def service() -> PushService:
    return PushService()


@pytest.fixture
def home(db: None) -> Home:
    return HomeFactory()


def wishes(home: Home, person: str, **told: Any) -> Reminding:
    return Reminding.everywhere.create(household_id=home.id, person=uuid.UUID(person), **told)


def push_phone(home: Home, person: str) -> PushPhone:
    device: Device = DeviceFactory(household=home.household, people=[person], token_hash=person)
    return PushPhone.everywhere.create(
        household_id=home.id,
        device=device,
        person=uuid.UUID(person),
        endpoint="https://push.example.net/send/abc",
        p256dh=P256DH,
        auth=AUTH,
        made_at=MORNING,
    )


def roster(home: Home, now: dt.datetime = SEVEN) -> None:
    make_roster(home.id, now=now)


def person_row(home: Home, person: str) -> Person:
    return Person.rows.of(home.id).get(uuid=person)
