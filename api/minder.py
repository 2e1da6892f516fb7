"""Whoever minds the place: a keeper's links, a phone let in by one, and the one document it gets."""

from __future__ import annotations

import datetime as dt
import uuid
from typing import Annotated, Any

from django.utils import timezone
from drf_spectacular.utils import extend_schema
from pydantic import Field
from rest_framework.request import Request
from rest_framework.response import Response

from api import shapes
from api.access import told_let_in
from api.base import View
from api.problems import Problem
from api.reading import Asked, read
from api.shapes import Told
from api.sign_in import KeepersPhone, device_of, holder_of, remember
from homestead.household import minding
from homestead.household.models import MinderLink
from homestead.ledger.kinds import Id, Maybe
from homestead.rounds.minding import document_of

Day = Annotated[dt.date, Field(strict=False)]
Words = Annotated[str, Field(max_length=500)]


class LinkAsked(Asked):
    """A week for a minder, a person kept before. `home`: lots of which sound pieces may be taken home."""

    person: Id
    from_day: Day
    until: Day
    home: Annotated[list[Id], Field(max_length=100)]
    way: Words
    note: Words


class NewLinkTold(Told):
    """The token is told this once: the link ends in `#/minder/<token>`."""

    id: uuid.UUID
    token: str


class LinkTold(Told):
    id: uuid.UUID
    person: uuid.UUID
    from_day: dt.date
    until: dt.date
    opened: int = Field(description="phones it was opened on")
    ended: bool = Field(description="by the keeper, at once")


class LinksTold(Told):
    links: list[LinkTold]


class OpenAsked(Asked):
    token: Annotated[str, Field(min_length=20, max_length=100)]
    name: Maybe[shapes.Name] = None


class MinderDocument(Told):
    """The days of one minder; the phone reads it loosely, so that an older page reads a newer server."""

    household: str
    zone: str
    language: str
    person: uuid.UUID
    from_: dt.date = Field(alias="from")
    until: dt.date
    ring: list[dict[str, Any]]
    way: str
    note: str
    animals: list[dict[str, Any]]
    chores: list[dict[str, Any]]
    walks: list[dict[str, Any]]
    spaces: list[dict[str, Any]]
    lots: list[dict[str, Any]] = Field(description="on those walks, without amounts")
    home: list[dict[str, Any]] = Field(description="of these sound pieces may be taken home")


class LinksView(View):
    """A keeper's phone sees the links there are, and makes one."""

    permission_classes = (KeepersPhone,)

    @extend_schema(operation_id="minder_links", responses={200: LinksTold})
    def get(self, request: Request) -> Response:
        found = MinderLink.rows.of(device_of(request).household_id).order_by("-from_day")
        return Response({"links": [_told(link) for link in found]})

    @extend_schema(operation_id="make_minder_link", request=LinkAsked, responses={201: NewLinkTold})
    def post(self, request: Request) -> Response:
        asked = read(request, LinkAsked)
        made = minding.make_link(
            device_of(request).household_id,
            asked.person,
            asked.from_day,
            asked.until,
            home=asked.home,
            way=asked.way,
            note=asked.note,
            now=timezone.now(),
        )
        return Response({"id": str(made.link.pk), "token": made.token}, 201)


def _told(link: MinderLink) -> dict[str, Any]:
    return {
        "id": str(link.pk),
        "person": str(link.person),
        "from_day": link.from_day.isoformat(),
        "until": link.until.isoformat(),
        "opened": link.opened,
        "ended": link.ended_at is not None,
    }


class EndLinkView(View):
    """At once."""

    permission_classes = (KeepersPhone,)

    @extend_schema(operation_id="end_minder_link", request=shapes.Nothing, responses={200: shapes.Done})
    def post(self, request: Request, link: uuid.UUID) -> Response:
        read(request, shapes.Nothing)
        minding.end_link(device_of(request).household_id, link, now=timezone.now())
        return Response({"done": True})


class OpenLinkView(View):
    """Let this phone in for the minder of a link."""

    permission_classes = ()

    @extend_schema(operation_id="open_minder_link", request=OpenAsked, responses={201: shapes.LetIn})
    def post(self, request: Request) -> Response:
        asked = read(request, OpenAsked)
        let_in = minding.open_link(asked.token, asked.name or "A minder's phone", today_in=timezone.now())
        response = Response(told_let_in(let_in.device), 201)
        remember(response, request, let_in)
        return response


class MinderView(View):
    """The one document. A family's phone has the feed instead."""

    @extend_schema(operation_id="minder", responses={200: MinderDocument})
    def get(self, request: Request) -> Response:
        device = device_of(request)
        if holder_of(device).role != "minder":
            raise Problem("role", "This is for whoever minds the place.")
        now = timezone.now()
        return Response(document_of(minding.link_of(device, now), now))
