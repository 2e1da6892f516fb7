"""Links for whoever minds the place: made by a keeper, opened on a phone, ended by their day or at once."""

from __future__ import annotations

import datetime as dt
import uuid
import zoneinfo
from collections.abc import Sequence
from dataclasses import dataclass

from django.db import transaction
from django.db.models import F

from homestead.household.errors import CannotDo
from homestead.household.models import Device, Household, MinderLink, Person
from homestead.household.phones import LetIn, let_in
from homestead.household.tokens import new_token, token_hash

#: a minder's own phone, a new one, and one of whoever helps
MOST_PHONES = 5


@dataclass(frozen=True)
class NewLink:
    """A link and its token, which is told this once."""

    link: MinderLink
    token: str


def make_link(
    household: uuid.UUID,
    person: uuid.UUID,
    from_day: dt.date,
    until: dt.date,
    *,
    home: Sequence[uuid.UUID] = (),
    way: str = "",
    note: str = "",
    now: dt.datetime,
) -> NewLink:
    """Only for a person who is a minder until that day, so that what they write is judged by the same day."""
    minder = Person.rows.of(household).filter(uuid=person, role="minder", archived=False).first()
    if minder is None or minder.until != until or from_day > until:
        sentence = "A link is for a minder, from a day until their last day. Keep the person first."
        raise CannotDo("unknown_person", sentence)
    token = new_token()
    link = MinderLink.everywhere.create(
        household_id=household,
        person=person,
        token_hash=token_hash(token),
        from_day=from_day,
        until=until,
        home=[str(lot) for lot in home],
        way=way,
        note=note,
        made_at=now,
    )
    return NewLink(link, token)


def end_link(household: uuid.UUID, link: uuid.UUID, *, now: dt.datetime) -> None:
    """At once: from now on it shows nothing. What was written before is still taken for 30 days."""
    if not MinderLink.rows.of(household).filter(pk=link, ended_at=None).update(ended_at=now):
        raise CannotDo("unknown_link", "This link is not known here, or was ended already.")


def open_link(token: str, name: str, *, today_in: dt.datetime) -> LetIn:
    """Let a phone in for the minder alone. Raises CannotDo once the link has ended."""
    with transaction.atomic():
        link = MinderLink.everywhere.select_for_update().filter(token_hash=token_hash(token)).first()
        if link is None:
            raise CannotDo("unknown_link", "This link is not known here. Ask for it once more.")
        household = Household.objects.select_for_update().get(pk=link.household_id)
        _check_open(link, household, today_in)
        if link.opened >= MOST_PHONES:
            raise CannotDo("link_spent", f"This link was opened on {MOST_PHONES} phones. Ask for a new one.")
        MinderLink.rows.of(household).filter(pk=link.pk).update(opened=F("opened") + 1)
        person = Person.rows.of(household).get(uuid=link.person)
        return let_in(household, [person], name, now=today_in)


def link_of(device: Device, now: dt.datetime) -> MinderLink:
    """The link that a minder's phone lives by. Raises CannotDo when it has ended."""
    links = MinderLink.rows.of(device.household_id).filter(person=uuid.UUID(device.people[0]))
    link = links.order_by("-until", "-made_at").first()
    if link is None:
        raise CannotDo("unknown_link", "No link is known for this phone.")
    _check_open(link, device.household, now)
    return link


def ended_before(household: uuid.UUID, person: uuid.UUID, when: dt.datetime) -> bool:
    """Was the minder's last link ended before that moment?"""
    link = MinderLink.rows.of(household).filter(person=person).order_by("-until", "-made_at").first()
    return link is not None and link.ended_at is not None and link.ended_at < when


def _check_open(link: MinderLink, household: Household, now: dt.datetime) -> None:
    today = now.astimezone(zoneinfo.ZoneInfo(household.zone)).date()
    if link.ended_at is not None or today > link.until:
        raise CannotDo("minder_ended", "This week is over. What is unsent on the phone is still taken.")
