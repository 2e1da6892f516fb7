"""Getting in and out: pairing, sign-in state, phones, the first household, the invented one."""

from __future__ import annotations

import uuid
from typing import Any

from django.middleware.csrf import get_token
from django.utils import timezone
from drf_spectacular.utils import extend_schema
from rest_framework.request import Request
from rest_framework.response import Response

from api import shapes
from api.base import View
from api.problems import Problem
from api.reading import read
from api.sign_in import (
    KeepersPhone,
    SignedIn,
    address_of,
    asked_from_here,
    device_of,
    forget,
    holder_of,
    remember,
)
from homestead.household import phones
from homestead.household.models import Device, Household
from homestead.ledger.feed import stamp
from homestead.ledger.founding import found_household, leave_demo, open_demo
from homestead.photos.actions import forget_household


def told_let_in(device: Device) -> dict[str, Any]:
    household = Household.objects.get(pk=device.household_id)
    return {
        "household": {"id": str(household.pk), "name": household.name, "demo": household.demo},
        "device": {"id": str(device.pk), "name": device.name, "people": device.people},
        "minder": holder_of(device).role == "minder",
        "codes": {"from": device.code_from, "to": device.code_to},
        "last_no": device.highest_no,
        "epoch": household.epoch,
    }


def _entered(request: Request, let_in: phones.LetIn) -> Response:
    response = Response(told_let_in(let_in.device), 201)
    remember(response, request, let_in)
    return response


class CsrfView(View):
    """Sets the cookie `csrftoken`, which goes back in the header `X-CSRFToken`."""

    permission_classes = ()

    @extend_schema(operation_id="csrf", responses={200: shapes.Done})
    def get(self, request: Request) -> Response:
        get_token(request._request)
        return Response({"done": True})


class SessionView(View):
    """Who is signed in, and what this server allows the asker."""

    permission_classes = ()

    @extend_schema(operation_id="session", responses={200: shapes.Session})
    def get(self, request: Request) -> Response:
        get_token(request._request)
        here = asked_from_here(request)
        demo = here and Household.objects.filter(demo=True).exists()
        told: dict[str, Any] = {"may": {"open_demo": demo, "found_household": here}}
        if request.auth:
            told["let_in"] = told_let_in(device_of(request))
        return Response(told | {"now": stamp(timezone.now())})


class PairView(View):
    """Let a phone in by a code that a keeper's phone shows."""

    permission_classes = ()

    @extend_schema(operation_id="pair", request=shapes.PairAsked, responses={201: shapes.LetIn})
    def post(self, request: Request) -> Response:
        asked = read(request, shapes.PairAsked)
        let_in = phones.claim_code(asked.code, asked.name, address=address_of(request), now=timezone.now())
        return _entered(request, let_in)


class CodesView(View):
    """Make a pairing code; only a keeper's phone."""

    permission_classes = (KeepersPhone,)

    @extend_schema(operation_id="make_code", request=shapes.CodeAsked, responses={201: shapes.NewCode})
    def post(self, request: Request) -> Response:
        device = device_of(request)
        made = phones.make_code(
            device.household, read(request, shapes.CodeAsked).people, now=timezone.now(), made_by=device
        )
        return Response({"code": made.code, "ends_at": stamp(made.ends_at)}, 201)


class SignOutView(View):
    """The phone's token is worth nothing afterwards."""

    permission_classes = (SignedIn,)

    @extend_schema(operation_id="sign_out", request=shapes.Nothing, responses={200: shapes.Done})
    def post(self, request: Request) -> Response:
        read(request, shapes.Nothing)
        device = device_of(request)
        phones.sign_out(device)
        response = Response({"done": True})
        forget(response, request, device)
        return response


class DevicesView(View):
    """The household's phones; only a keeper's phone sees them."""

    permission_classes = (KeepersPhone,)

    @extend_schema(operation_id="devices", responses={200: shapes.Devices})
    def get(self, request: Request) -> Response:
        this = device_of(request)
        found = Device.rows.of(this.household_id).order_by("made_at")
        return Response({"devices": [_told_device(device, this) for device in found]})


def _told_device(device: Device, this: Device) -> dict[str, Any]:
    return {
        "id": str(device.pk),
        "name": device.name,
        "people": device.people,
        "this_one": device.pk == this.pk,
        "last_seen": stamp(device.last_seen) if device.last_seen else None,
        "revoked_at": stamp(device.revoked_at) if device.revoked_at else None,
        "signed_out": device.token_hash is None,
        "clock_skew_ms": device.clock_skew_ms,
    }


class RevokeView(View):
    """From its next request on the phone is refused."""

    permission_classes = (KeepersPhone,)

    @extend_schema(operation_id="revoke", request=shapes.Nothing, responses={200: shapes.Done})
    def post(self, request: Request, device: uuid.UUID) -> Response:
        read(request, shapes.Nothing)
        phones.revoke(device_of(request).household, device, now=timezone.now())
        return Response({"done": True})


class DevicePeopleView(View):
    """Set who may write on a phone."""

    permission_classes = (KeepersPhone,)

    @extend_schema(operation_id="list_people", request=shapes.PeopleAsked, responses={200: shapes.Done})
    def put(self, request: Request, device: uuid.UUID) -> Response:
        asked = read(request, shapes.PeopleAsked)
        phones.list_people(device_of(request).household, device, asked.people)
        return Response({"done": True})


class HouseholdsView(View):
    """Make one's own household: on the computer itself, or with the key its start printed."""

    permission_classes = ()

    @extend_schema(operation_id="found_household", request=shapes.FoundAsked, responses={201: shapes.LetIn})
    def post(self, request: Request) -> Response:
        asked = read(request, shapes.FoundAsked)
        let_in = found_household(
            asked.household.model_dump(exclude_none=True),
            asked.keeper,
            asked.phone,
            key=asked.key,
            trusted=asked_from_here(request),
            now=timezone.now(),
        )
        return _entered(request, let_in)


class DemoView(View):
    """Open the invented household; only on the computer itself."""

    permission_classes = ()

    @extend_schema(operation_id="open_demo", request=shapes.DemoAsked, responses={201: shapes.LetIn})
    def post(self, request: Request) -> Response:
        asked = read(request, shapes.DemoAsked)
        if not asked_from_here(request):
            raise Problem(
                "not_here", "The invented household opens without a code on this computer itself only."
            )
        return _entered(request, open_demo(asked.name or "This computer", now=timezone.now()))


class LeaveDemoView(View):
    """Delete the invented household with all its rows, on a person's word."""

    permission_classes = (KeepersPhone,)

    @extend_schema(operation_id="leave_demo", request=shapes.Nothing, responses={200: shapes.Done})
    def post(self, request: Request) -> Response:
        read(request, shapes.Nothing)
        device = device_of(request)
        leave_demo(device.household_id)
        forget_household(device.household_id)
        response = Response({"done": True})
        forget(response, request, device)
        return response
