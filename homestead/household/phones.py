"""Phones: let in by a code, known by a token, renewed, revoked; and their blocks of lot numbers."""

from __future__ import annotations

import datetime as dt
import hmac
import uuid
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from django.db import transaction

from homestead.household.errors import CannotDo
from homestead.household.models import CODE_BLOCK, Device, Household, PairingCode, Person, WrongTry
from homestead.household.roles import GROWN
from homestead.household.tokens import (
    CODE_LENGTH,
    FINDER_LENGTH,
    code_hash,
    new_code,
    new_token,
    tidy_code,
    token_hash,
)

CODE_LIVES = dt.timedelta(minutes=10)
TRIES = 5
#: wrong codes from one address in that time, before it waits: a family types behind one router
TRIES_AT_ADDRESS = 20
#: `last_seen` is written at most so often
SEEN_EVERY = dt.timedelta(minutes=1)
TOP_UP_UNDER = 20
#: numbers a phone has ahead, by its own word: a day's putting away and a sheet of blank labels with no signal
NUMBERS_AHEAD = 60


@dataclass(frozen=True)
class Numbers:
    """The phone's own word: how many lot numbers it can give still, and the last it was given."""

    left: int
    to: int


@dataclass(frozen=True)
class LetIn:
    """A device and its token, which is told this once."""

    device: Device
    token: str


def devices_of(tokens: Sequence[str]) -> dict[str, Device]:
    """The phones these tokens stand for, revoked ones too; a token worth nothing is missing."""
    if not tokens:
        return {}
    hashes = {token_hash(token): token for token in tokens}
    found = Device.everywhere.select_related("household").filter(token_hash__in=hashes)
    return {hashes[str(device.token_hash)]: device for device in found}


def note_seen(device: Device, now: dt.datetime) -> bool:
    """Note that the phone was here. True when it was written, which is when its cookie is renewed too."""
    if device.last_seen and now - device.last_seen < SEEN_EVERY:
        return False
    Device.rows.of(device.household_id).filter(pk=device.pk).update(last_seen=now)
    device.last_seen = now
    return True


def people_of(household: uuid.UUID, ids: Sequence[uuid.UUID]) -> list[Person]:
    """The people, in the order named; all must be of the household."""
    found = {person.uuid: person for person in Person.rows.of(household).filter(uuid__in=ids)}
    missing = [str(one) for one in ids if one not in found]
    if missing or not ids:
        raise CannotDo("unknown_person", "Name at least one person of the household.", people=missing)
    return [found[one] for one in ids]


def check_list(people: Sequence[Person]) -> None:
    """Only a keeper's or adult's phone lists other grown people (the holder stands first)."""
    holder, *others = people
    if holder.role not in GROWN and any(one.role in GROWN for one in others):
        sentence = f"{holder.name}'s phone may not list grown people. Put a grown person first."
        raise CannotDo("people_on_phone", sentence)
    if len(people) > 1 and "minder" in {one.role for one in people}:
        raise CannotDo("people_on_phone", "A minder's phone lists the minder alone.")


@dataclass(frozen=True)
class NewCode:
    code: str
    ends_at: dt.datetime


def make_code(
    household: Household, people: Sequence[uuid.UUID], *, now: dt.datetime, made_by: Device | None = None
) -> NewCode:
    """A pairing code for a phone on which these people write: 8 characters, 10 minutes, one use."""
    found = people_of(household.pk, people)
    check_list(found)
    code = new_code()
    PairingCode.everywhere.create(
        household=household,
        finder=code[:FINDER_LENGTH],
        code_hash=code_hash(code),
        people=[str(one.uuid) for one in found],
        made_by=made_by,
        made_at=now,
        ends_at=now + CODE_LIVES,
    )
    return NewCode(code, now + CODE_LIVES)


def claim_code(typed: str, name: str, *, address: str, now: dt.datetime) -> LetIn:
    """Let a phone in. Wrong tries are counted, in a transaction of their own, before anything is answered."""
    code = tidy_code(typed)
    at_address = token_hash(address)
    _check_address(at_address, now)
    if len(code) != CODE_LENGTH:
        raise CannotDo("code_wrong", f"A code has {CODE_LENGTH} characters. Type it again.", left=None)
    with transaction.atomic():
        found = _claim(code, now)
        if isinstance(found, PairingCode):
            return _let_in_by(found, name, now)
        WrongTry.objects.create(address_hash=at_address, at=now)
    raise found


def _check_address(at_address: str, now: dt.datetime) -> None:
    WrongTry.objects.filter(at__lt=now - CODE_LIVES).delete()
    tries = WrongTry.objects.filter(address_hash=at_address)
    if tries.count() >= TRIES_AT_ADDRESS:
        minutes = int(CODE_LIVES.total_seconds() // 60)
        sentence = f"Too many wrong codes from here. Wait {minutes} minutes, then ask for a new code."
        raise CannotDo("too_many_tries", sentence, retry_after=minutes * 60)


def _claim(code: str, now: dt.datetime) -> PairingCode | CannotDo:
    """The live code that fits, or what to tell; a miss is counted on every live code it could have been."""
    candidates = PairingCode.everywhere.select_for_update().filter(finder=code[:FINDER_LENGTH])
    wanted = code_hash(code)
    for pairing in candidates:
        if hmac.compare_digest(pairing.code_hash, wanted):
            return _refuse_spent(pairing, now) or pairing
    left: int | None = None
    for pairing in candidates:
        if pairing.tries < TRIES and pairing.used_at is None and pairing.ends_at > now:
            pairing.tries += 1
            pairing.save(update_fields=["tries"])
            left = TRIES - pairing.tries
    if left == 0:
        return CannotDo("code_spent", "Five wrong tries: this code is spent. Ask for a new one.")
    return CannotDo("code_wrong", "This code does not fit. Look at it again and type it anew.", left=left)


def _refuse_spent(pairing: PairingCode, now: dt.datetime) -> CannotDo | None:
    if pairing.used_at:
        return CannotDo("code_spent", "This code was used already. Ask for a new one.")
    if pairing.tries >= TRIES:
        return CannotDo("code_spent", "Five wrong tries: this code is spent. Ask for a new one.")
    if pairing.ends_at <= now:
        return CannotDo("code_spent", "This code is older than 10 minutes. Ask for a new one.")
    return None


def _let_in_by(pairing: PairingCode, name: str, now: dt.datetime) -> LetIn:
    pairing.used_at = now
    pairing.save(update_fields=["used_at"])
    household = Household.objects.select_for_update().get(pk=pairing.household_id)
    people = people_of(household.pk, [uuid.UUID(one) for one in pairing.people])
    return let_in(household, people, name, now=now)


def let_in(
    household: Household,
    people: Sequence[Person],
    name: str,
    *,
    now: dt.datetime,
    device_id: uuid.UUID | None = None,
    highest_no: int = 0,
) -> LetIn:
    """A new device with its token and its first block of lot numbers. The household's row is locked."""
    check_list(people)
    token = new_token()
    device = Device(
        id=device_id or uuid.uuid4(),
        highest_no=highest_no,
        household=household,
        name=name,
        token_hash=token_hash(token),
        people=[str(one.uuid) for one in people],
        last_seen=now,
    )
    give_block(household, device)
    device.save(force_insert=True)
    return LetIn(device, token)


def give_block(household: Household, device: Device) -> None:
    """The next 40 lot numbers of the household. Its row is locked; the device is saved by the caller."""
    device.code_from = household.next_code
    device.code_to = household.next_code + CODE_BLOCK - 1
    device.highest_code = device.code_from - 1
    household.next_code = device.code_to + 1
    household.save(update_fields=["next_code"])


def top_up(household: Household, device: Device, codes: Iterable[int], told: Numbers | None = None) -> None:
    """Note the numbers seen of the phone's block, and give a new block when few are left.

    What the phone tells comes first: numbers on blank labels are used up and on no lot yet. A phone that has
    not heard of its newest block hears of that one, so that a lost answer costs no numbers.
    """
    used = [code for code in codes if device.code_from <= code <= device.code_to]
    device.highest_code = max([device.highest_code, *used])
    if told is None:
        few = device.code_to - device.highest_code < TOP_UP_UNDER
    else:
        few = told.left < NUMBERS_AHEAD and told.to >= device.code_to
    if few:
        give_block(household, device)


def renew(household: Household, device: Device, now: dt.datetime) -> LetIn:
    """A device of its own for the copy of a phone's store. One that was never used is given out again."""
    renewed = Device.rows.of(household).filter(renewed_from=device, last_seen=None, revoked_at=None).first()
    token = new_token()
    if renewed is None:
        renewed = Device(
            household=household,
            name=device.name,
            people=device.people,
            renewed_from=device,
            highest_no=device.highest_no,
        )
        give_block(household, renewed)
    renewed.token_hash = token_hash(token)
    renewed.save()
    return LetIn(renewed, token)


def revoke(household: Household, device: uuid.UUID, *, now: dt.datetime) -> None:
    """From its next request on the phone is refused; what it has unsent stays on it and can be exported."""
    found = Device.rows.of(household).filter(pk=device, revoked_at=None).update(revoked_at=now)
    if not found:
        raise CannotDo("unknown_device", "This phone is not known here, or was revoked already.")


def list_people(household: Household, device: uuid.UUID, people: Sequence[uuid.UUID]) -> None:
    """Set who may write on a phone, the holder first."""
    found = people_of(household.pk, people)
    check_list(found)
    names = [str(one.uuid) for one in found]
    if not Device.rows.of(household).filter(pk=device, revoked_at=None).update(people=names):
        raise CannotDo("unknown_device", "This phone is not known here, or was revoked.")


def sign_out(device: Device) -> None:
    """The token is worth nothing from now on; the device stays, since its lines name it."""
    Device.rows.of(device.household_id).filter(pk=device.pk).update(token_hash=None)
