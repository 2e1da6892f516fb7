"""How somebody is reminded: a calendar's private link, mail, notices. Set on a phone they write on."""

from __future__ import annotations

import datetime as dt
import uuid
from typing import Annotated, Any

from django.conf import settings
from django.http import HttpResponse, HttpResponseBase
from django.utils import timezone
from drf_spectacular.types import OpenApiTypes
from drf_spectacular.utils import extend_schema
from pydantic import AwareDatetime, Field
from rest_framework.request import Request
from rest_framework.response import Response

from api import shapes
from api.base import View
from api.problems import Problem
from api.reading import Asked, read
from api.shapes import Told
from api.sign_in import SignedIn, device_of
from homestead.household.models import Device
from homestead.ledger.feed import stamp
from homestead.reminders import actions
from homestead.reminders.models import PushPhone
from homestead.reminders.push import b64, point_of, server_key

Time = Annotated[str, Field(pattern=r"^([01]\d|2[0-3]):[0-5]\d$", description="HH:MM, the household's clock")]
Address = Annotated[str, Field(max_length=254, pattern=r"^$|^[^@\s,;<>]+@[^@\s,;<>]+\.[^@\s,;<>]+$")]


class WishesTold(Told):
    """How one person is reminded. An address is told to no phone but theirs."""

    calendar_made_at: AwareDatetime | None = Field(default=None, description="absent: no link")
    mail_to: str
    mail_on: bool
    mail_here: bool = Field(description="this server sends mail")
    push_on: bool = Field(description="to this phone")
    push_key: str = Field(description="the server's public key, base64url (RFC 8292)")
    at: str
    quiet_from: str
    quiet_until: str


class WishesAsked(Asked):
    mail_to: Address
    mail_on: bool
    at: Time
    quiet_from: Time
    quiet_until: Time


class CalendarTold(Told):
    """Told this once: the link ends in `/api/v1/calendar/<token>.ics`."""

    token: str


class PushAsked(Asked):
    """What the browser's own subscription says (Push API)."""

    endpoint: Annotated[str, Field(max_length=1000)]
    p256dh: Annotated[str, Field(max_length=100)]
    auth: Annotated[str, Field(max_length=40)]


def _phone_of(request: Request, person: uuid.UUID) -> Device:
    """The phone, if that person writes on it."""
    device = device_of(request)
    if str(person) not in device.people:
        raise Problem("role", "This is set on a phone that the person writes on.")
    return device


class WishesView(View):
    """Read and set how a person is reminded."""

    permission_classes = (SignedIn,)

    @extend_schema(operation_id="wishes", responses={200: WishesTold})
    def get(self, request: Request, person: uuid.UUID) -> Response:
        return Response(_told(_phone_of(request, person), person))

    @extend_schema(operation_id="wish", request=WishesAsked, responses={200: WishesTold})
    def put(self, request: Request, person: uuid.UUID) -> Response:
        device, asked = _phone_of(request, person), read(request, WishesAsked)
        actions.wish(
            device.household_id,
            person,
            mail_to=asked.mail_to,
            mail_on=asked.mail_on,
            at=dt.time.fromisoformat(asked.at),
            quiet_from=dt.time.fromisoformat(asked.quiet_from),
            quiet_until=dt.time.fromisoformat(asked.quiet_until),
        )
        return Response(_told(device, person))


def _told(device: Device, person: uuid.UUID) -> dict[str, Any]:
    wishes = actions.reminding_of(device.household_id, person)
    here = PushPhone.rows.of(device.household_id).filter(device=device, person=person)
    made_at = wishes.calendar_made_at
    return {
        **({"calendar_made_at": stamp(made_at)} if made_at else {}),
        "mail_to": wishes.mail_to,
        "mail_on": wishes.mail_on,
        "mail_here": settings.SENDS_MAIL,
        "push_on": here.exists(),
        "push_key": b64(point_of(server_key(settings.SECRET_KEY).public_key())),
        "at": f"{wishes.at:%H:%M}",
        "quiet_from": f"{wishes.quiet_from:%H:%M}",
        "quiet_until": f"{wishes.quiet_until:%H:%M}",
    }


class MakeCalendarView(View):
    """A new link; the one before ends."""

    permission_classes = (SignedIn,)

    @extend_schema(operation_id="make_calendar", request=shapes.Nothing, responses={201: CalendarTold})
    def post(self, request: Request, person: uuid.UUID) -> Response:
        read(request, shapes.Nothing)
        device = _phone_of(request, person)
        return Response(
            {"token": actions.make_calendar(device.household_id, person, now=timezone.now())}, 201
        )


class EndCalendarView(View):
    """At once: whoever holds the link gets nothing more."""

    permission_classes = (SignedIn,)

    @extend_schema(operation_id="end_calendar", request=shapes.Nothing, responses={200: shapes.Done})
    def post(self, request: Request, person: uuid.UUID) -> Response:
        read(request, shapes.Nothing)
        actions.take_calendar_back(_phone_of(request, person).household_id, person)
        return Response({"done": True})


class PushView(View):
    """Notices for that person to this phone's browser, from now on; or no more."""

    permission_classes = (SignedIn,)

    @extend_schema(operation_id="push_on", request=PushAsked, responses={200: shapes.Done})
    def post(self, request: Request, person: uuid.UUID) -> Response:
        device, asked = _phone_of(request, person), read(request, PushAsked)
        actions.push_to(device, person, asked.endpoint, asked.p256dh, asked.auth, now=timezone.now())
        return Response({"done": True})


class EndPushView(View):
    """No more notices for that person to this phone."""

    permission_classes = (SignedIn,)

    @extend_schema(operation_id="push_off", request=shapes.Nothing, responses={200: shapes.Done})
    def post(self, request: Request, person: uuid.UUID) -> Response:
        read(request, shapes.Nothing)
        actions.push_off(_phone_of(request, person), person)
        return Response({"done": True})


class CalendarView(View):
    """The calendar itself (RFC 5545). Whoever has the link reads it: no amounts, no people."""

    authentication_classes = ()
    permission_classes = ()

    @extend_schema(operation_id="calendar", responses={(200, "text/calendar"): OpenApiTypes.STR})
    def get(self, request: Request, token: str) -> HttpResponseBase:
        text = actions.calendar_of(token, now=timezone.now())
        if text is None:
            raise Problem("unknown_link", "This link is not known here, or was taken back.")
        return HttpResponse(
            text,
            content_type="text/calendar; charset=utf-8",
            headers={"Content-Disposition": 'attachment; filename="rounds.ics"'},
        )
