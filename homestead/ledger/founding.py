"""The first steps of a household: making one's own, opening the invented one, leaving it again."""

from __future__ import annotations

import datetime as dt
import secrets
import uuid
from collections.abc import Mapping
from typing import Any

from django.db import transaction

from homestead.household.errors import CannotDo
from homestead.household.ids import uuid7
from homestead.household.models import FirstKey, Household, Person
from homestead.household.phones import LetIn, let_in
from homestead.household.roles import ROLES
from homestead.household.tokens import LETTERS, code_hash, tidy_code
from homestead.ledger.actions import write_down
from homestead.ledger.feed import stamp
from homestead.ledger.models import Leaving
from homestead.ledger.posting import lock

#: without the letters and digits nobody can tell apart; 12 of them have 59 bits
KEY_LENGTH = 12


def make_first_key(*, now: dt.datetime) -> str:
    """A key good for making one household, from whatever address. Printed once, kept hashed."""
    key = "".join(secrets.choice(LETTERS) for _ in range(KEY_LENGTH))
    FirstKey.objects.create(key_hash=code_hash(key), made_at=now)
    return key


def found_household(
    fields: Mapping[str, Any], keeper: str, phone: str, *, key: str | None, trusted: bool, now: dt.datetime
) -> LetIn:
    """Make a household with its keeper and let this phone in.

    `fields` are those of the record `household`. Needs a first key, or `trusted`: asked on this computer.
    """
    with transaction.atomic():
        if not trusted:
            _use_key(key, now)
        household = Household.objects.create(name=str(fields.get("name", "")))
        person, device = _new_id(now), uuid.uuid4()
        told = [
            _edit(household, device, 1, person, "person", person, {"name": keeper, "role": "keeper"}, now),
            _edit(household, device, 2, person, "household", household.pk, dict(fields), now),
        ]
        for receipt in write_down(household.pk, told, now=now):
            if receipt.result != "accepted":
                raise CannotDo(receipt.code or "shape", receipt.message or "", **receipt.facts)
        locked = lock(household.pk)
        people = [Person.rows.of(locked).get(uuid=person)]
        return let_in(locked, people, phone, now=now, device_id=device, highest_no=len(told))


def _use_key(key: str | None, now: dt.datetime) -> None:
    found = FirstKey.objects.filter(key_hash=code_hash(tidy_code(key or "")), used_at=None)
    if not found.update(used_at=now):
        sentence = "A household is made here on the computer itself, or with the key that its start printed."
        raise CannotDo("key_wrong", sentence)


def _edit(
    household: Household,
    device: uuid.UUID,
    number: int,
    person: uuid.UUID,
    record_type: str,
    record: uuid.UUID,
    values: Mapping[str, Any],
    now: dt.datetime,
) -> dict[str, object]:
    """An edit as a phone would write it, on this phone, by its keeper."""
    return {
        "id": str(_new_id(now)),
        "household": str(household.pk),
        "device": str(device),
        "device_no": number,
        "person": str(person),
        "kind": "edit",
        "schema": 1,
        "happened_at": stamp(now),
        "dated": "clock",
        "body": {"type": record_type, "record": str(record), "base_rev": 0, "set": dict(values)},
    }


def _new_id(now: dt.datetime) -> uuid.UUID:
    return uuid7(round(now.timestamp() * 1000))


def open_demo(phone: str, *, now: dt.datetime) -> LetIn:
    """Let a browser of this very computer into the invented household; all its people may write there."""
    with transaction.atomic():
        found = Household.objects.filter(demo=True).order_by("made_at").first()
        if found is None:
            raise CannotDo("no_demo", "There is no invented household here (any more).")
        household = lock(found.pk)
        people = [one for one in Person.rows.of(household) if one.role != "minder" and not one.archived]
        people.sort(key=lambda one: (ROLES.index(one.role), one.name))
        return let_in(household, people, phone, now=now)


def leave_demo(household: uuid.UUID) -> None:
    """Delete an invented household and all its rows, on a person's word. Refused for a real one."""
    with transaction.atomic():
        locked = lock(household)
        if not locked.demo:
            raise CannotDo("not_invented", "Only an invented household can be left like this.")
        Leaving.objects.create(household=locked.pk)
        locked.delete()
        Leaving.objects.filter(household=household).delete()
