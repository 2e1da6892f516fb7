"""The exchange: push, pull, and which lines are missing."""

from __future__ import annotations

import json
import re
import uuid
from collections.abc import Mapping
from typing import Any, cast

from django.conf import settings
from django.http import HttpResponse, HttpResponseBase
from django.utils import timezone
from drf_spectacular.utils import OpenApiParameter, extend_schema
from rest_framework.request import Request
from rest_framework.response import Response

from api import shapes, wire
from api.base import View
from api.problems import Problem
from api.reading import read
from api.sign_in import device_of, held_by, holder_of, remember
from homestead.household.models import Device, Household
from homestead.household.phones import Numbers
from homestead.ledger.actions import Push, Receipt, append_lines
from homestead.ledger.feed import stamp
from homestead.ledger.reads import MOST_ROWS, lacking, pull


class PushView(View):
    """Lines from a phone. Each gets its own receipt; HTTP 200 alone says nothing of any of them."""

    @extend_schema(operation_id="push", request=wire.PushLines, responses={200: shapes.PushTold})
    def post(self, request: Request) -> Response:
        asked = read(request, shapes.PushAsked, apart="lines")
        if asked.build.isdigit() and int(asked.build) < settings.OLDEST_BUILD:
            raise Problem("update_needed", "A newer build is needed. Everything stays on the phone.")
        device, now = _pusher(request, asked.device), timezone.now()
        lines = cast(Mapping[str, list[object]], request.data)["lines"]
        told = asked.codes
        numbers = Numbers(told.left, told.to) if told else None
        pushed = append_lines(device, lines, sent_at=asked.sent_at, now=now, numbers=numbers)
        goes_on_as = pushed.renewed.device if pushed.renewed else device
        response = Response(_told_push(pushed, goes_on_as, asked.device) | {"now": stamp(now)})
        if pushed.renewed:
            remember(response, request, pushed.renewed)
        return response


def _pusher(request: Request, named: uuid.UUID) -> Device:
    """The phone that says it pushes, if this browser is signed in as it.

    A copied phone that was renewed, but did not take down its new name, is known by its new token.
    """
    for held in held_by(request):
        device = held.device
        if device and device.revoked_at is None and named in (device.pk, device.renewed_from_id):
            return device
    raise Problem("other_phone", "This browser is signed in as another phone. Sign in again; all is kept.")


def _told_push(pushed: Push, device: Device, named: uuid.UUID) -> dict[str, Any]:
    told: dict[str, Any] = {
        "receipts": [told_receipt(receipt) for receipt in pushed.receipts],
        "codes": {"from": pushed.codes.first, "to": pushed.codes.last},
        "clock_skew_ms": pushed.clock_skew_ms,
    }
    return told | ({"renew": {"device": str(device.pk)}} if device.pk != named else {})


def told_receipt(receipt: Receipt) -> dict[str, Any]:
    """Absent rather than null, but for the id of a line that gave none."""
    told: dict[str, Any] = {"id": receipt.id, "result": receipt.result}
    if receipt.result == "refused":
        return told | {
            "code": receipt.code,
            "message": receipt.message,
            "permanent": receipt.permanent,
            "facts": dict(receipt.facts),
        }
    told["seq"] = receipt.seq
    if receipt.conflicts:
        told["conflicts"] = list(receipt.conflicts)
    if receipt.rev is not None:
        told["rev"] = receipt.rev
    return told


class PullView(View):
    """Rows behind a cursor, in order; ready texts, put together."""

    @extend_schema(
        operation_id="pull",
        parameters=[
            OpenApiParameter("after", str, description="`<epoch>.<seq>`; absent or 0: from the start"),
            OpenApiParameter("limit", int, description=f"rows at most, 1 to {MOST_ROWS}"),
        ],
        responses={200: wire.PullPage},
    )
    def get(self, request: Request) -> HttpResponseBase:
        device = device_of(request)
        if holder_of(device).role == "minder":
            raise Problem("minder_pulls_nothing", "A minder's phone gets its own week, not the ledger.")
        household = Household.objects.only("pk", "epoch").get(pk=device.household_id)
        epoch, after = _cursor(request.query_params, household.epoch)
        page = pull(household, epoch, after, _limit(request.query_params))
        return HttpResponse(
            f'{{"rows":[{",".join(page.rows)}],"next":"{epoch}.{page.last}","more":{json.dumps(page.more)},'
            f'"head":"{epoch}.{page.head}","now":"{stamp(timezone.now())}"}}',
            content_type="application/json",
        )


def _cursor(params: Mapping[str, str], present: int) -> tuple[int, int]:
    given = params.get("after", "0")
    if given == "0":
        return present, 0
    found = re.fullmatch(r"(\d{1,9})\.(\d{1,15})", given)
    if not found:
        raise Problem("bad_cursor", "A cursor is written <epoch>.<seq>, as it was given.", after=given[:40])
    return int(found[1]), int(found[2])


def _limit(params: Mapping[str, str]) -> int:
    given = params.get("limit", str(MOST_ROWS))
    if not re.fullmatch(r"\d{1,4}", given) or not 1 <= int(given) <= MOST_ROWS:
        raise Problem("bad_request", f"The limit is a whole number from 1 to {MOST_ROWS}.", where="limit")
    return int(given)


class MissingView(View):
    """After a reset: which of the lines a phone holds does the server lack?"""

    @extend_schema(operation_id="missing", request=shapes.MissingAsked, responses={200: shapes.Missing})
    def post(self, request: Request) -> Response:
        ids = read(request, shapes.MissingAsked).ids
        missing, erased = lacking(device_of(request).household_id, ids)
        return Response({"missing": [str(one) for one in missing], "erased": [str(one) for one in erased]})
