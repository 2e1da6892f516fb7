"""What changes how somebody is reminded: the calendar's link, mail, notices."""

from __future__ import annotations

import datetime as dt
import uuid
from zoneinfo import ZoneInfo

from homestead.household.errors import CannotDo
from homestead.household.models import Device, Household, Person
from homestead.household.roles import FAMILY
from homestead.household.tokens import new_token, token_hash
from homestead.ledger.reads import sheets_of
from homestead.reminders import sending
from homestead.reminders.calendar import calendar_text
from homestead.reminders.models import PushPhone, Reminding
from homestead.reminders.push import BadPushKeys, check_keys
from homestead.reminders.reads import due_for
from homestead.reminders.words import words_in
from homestead.rounds.planning import CHORES


def reminding_of(household: uuid.UUID, person: uuid.UUID) -> Reminding:
    """Their wishes, the usual ones where they said nothing. Raises CannotDo for a stranger."""
    if not Person.rows.of(household).filter(uuid=person, archived=False, role__in=FAMILY).exists():
        raise CannotDo("unknown_person", "This person is not of the family.")
    made, _ = Reminding.everywhere.get_or_create(household_id=household, person=person)
    return made


def make_calendar(household: uuid.UUID, person: uuid.UUID, *, now: dt.datetime) -> str:
    """A new link's token, told this once; the link before is worth nothing from now on."""
    wishes, token = reminding_of(household, person), new_token()
    told = {"calendar_hash": token_hash(token), "calendar_made_at": now}
    Reminding.rows.of(household).filter(pk=wishes.pk).update(**told)
    return token


def take_calendar_back(household: uuid.UUID, person: uuid.UUID) -> None:
    told = {"calendar_hash": None, "calendar_made_at": None}
    Reminding.rows.of(household).filter(pk=reminding_of(household, person).pk).update(**told)


def calendar_of(token: str, *, now: dt.datetime) -> str | None:
    """The calendar as text; None where the link is none, or was taken back, or its person has left."""
    wishes = Reminding.everywhere.filter(calendar_hash=token_hash(token)).first()
    if wishes is None:
        return None
    household = Household.objects.get(pk=wishes.household_id)
    if not Person.rows.of(household).filter(uuid=wishes.person, archived=False).exists():
        return None
    zone = ZoneInfo(household.zone)
    return calendar_text(
        due_for(household, wishes.person),
        household=str(household.pk),
        zone=zone,
        made_at=_made_at(household.pk) or now,
        today=now.astimezone(zone).date(),
        words=words_in(household.language),
    )


def _made_at(household: uuid.UUID) -> dt.datetime | None:
    """When the newest of the sheets was made: events bear its stamp, so that asking twice gives the same."""
    made = [sheet["made_at"] for sheet in sheets_of(household, "roster", CHORES)]
    return max((_moment(one) for one in made), default=None)


def _moment(told: str | dt.datetime) -> dt.datetime:
    return dt.datetime.fromisoformat(told) if isinstance(told, str) else told


def wish(
    household: uuid.UUID,
    person: uuid.UUID,
    *,
    mail_to: str,
    mail_on: bool,
    at: dt.time,
    quiet_from: dt.time,
    quiet_until: dt.time,
) -> None:
    """Keep somebody's wishes. Raises CannotDo where mail is wanted and no address is given."""
    if mail_on and not mail_to:
        raise CannotDo("no_address", "Mail needs an address: write one, or switch mail off.")
    told = {
        "mail_to": mail_to,
        "mail_on": mail_on,
        "at": at,
        "quiet_from": quiet_from,
        "quiet_until": quiet_until,
    }
    Reminding.rows.of(household).filter(pk=reminding_of(household, person).pk).update(**told)


def push_to(
    device: Device, person: uuid.UUID, endpoint: str, p256dh: str, auth: str, *, now: dt.datetime
) -> None:
    """From now on notices for that person come to this phone. Raises CannotDo for a wrong address."""
    reminding_of(device.household_id, person)
    try:
        sending.check_endpoint(endpoint)
        check_keys(p256dh, auth)
    except (ValueError, BadPushKeys) as wrong:
        raise CannotDo("bad_push", "This browser's push service cannot be used.") from wrong
    PushPhone.everywhere.update_or_create(
        household_id=device.household_id,
        device=device,
        person=person,
        defaults={"endpoint": endpoint, "p256dh": p256dh, "auth": auth, "made_at": now},
    )


def push_off(device: Device, person: uuid.UUID) -> None:
    PushPhone.rows.of(device.household_id).filter(device=device, person=person).delete()
