"""Who is asking: the phone whose token the cookie holds, and CSRF for whatever changes something."""

from __future__ import annotations

import ipaddress
import uuid
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, cast

from django.conf import settings
from django.http import HttpResponseBase
from django.http.request import split_domain_port
from rest_framework.authentication import BaseAuthentication, CSRFCheck
from rest_framework.permissions import BasePermission
from rest_framework.request import Request

from api.problems import Problem
from homestead.household.models import Device, Person
from homestead.household.phones import LetIn, devices_of

if TYPE_CHECKING:
    from rest_framework.views import APIView

COOKIE = "rounds_device"
OWN_NAMES = frozenset({"localhost", "127.0.0.1", "[::1]"})
#: chooses among the households this browser is signed in to; without it the one entered last is meant
HOUSEHOLD = "X-Household"
#: one browser may hold its own household, the invented one, and a few more
MOST_TOKENS = 4
LIVES = 400 * 24 * 3600


@dataclass(frozen=True)
class Held:
    """One token of the cookie and the phone it stands for; None where it is worth nothing (any more)."""

    token: str
    device: Device | None


def held_by(request: Request) -> list[Held]:
    """The cookie's tokens, the household entered last first."""
    tokens = [token for token in request.COOKIES.get(COOKIE, "").split(".") if token][:MOST_TOKENS]
    devices = devices_of(tokens)
    return [Held(token, devices.get(token)) for token in tokens]


class DeviceAuthentication(BaseAuthentication):
    """Whatever changes something needs the CSRF token, signed in or not."""

    def authenticate(self, request: Request) -> tuple[None, Device] | None:
        _enforce_csrf(request)
        device = _meant(request)
        return (None, device) if device and device.revoked_at is None else None

    def authenticate_header(self, request: Request) -> str:
        return 'Device realm="winter-rounds"'


def _meant(request: Request) -> Device | None:
    """The first phone of the household that is meant, a revoked one only where there is no other."""
    household = request.headers.get(HOUSEHOLD)
    devices = [one.device for one in held_by(request) if one.device]
    wanted = [one for one in devices if household is None or str(one.household_id) == household]
    return min(wanted, key=lambda one: one.revoked_at is not None, default=None)


class SignedIn(BasePermission):
    def has_permission(self, request: Request, view: APIView) -> bool:
        if request.auth is None:
            if _meant(request):
                raise Problem(
                    "revoked", "This phone was revoked. What is unsent on it can still be exported."
                )
            raise Problem("not_signed_in")
        return True


class KeepersPhone(SignedIn):
    """The phone's holder is a keeper."""

    def has_permission(self, request: Request, view: APIView) -> bool:
        super().has_permission(request, view)
        if holder_of(device_of(request)).role != "keeper":
            raise Problem("role", "Only a keeper does this, on a phone of their own.")
        return True


def device_of(request: Request) -> Device:
    return cast(Device, request.auth)


def holder_of(device: Device) -> Person:
    return Person.rows.of(device.household_id).get(uuid=uuid.UUID(device.people[0]))


def _nobody(*_: Any, **__: Any) -> HttpResponseBase:
    raise AssertionError("only the check of the middleware is used")


def _enforce_csrf(request: Request) -> None:
    check = CSRFCheck(_nobody)
    check.process_request(request._request)
    if check.process_view(request._request, _nobody, (), {}):
        raise Problem("csrf", "Fetch the CSRF token anew from /api/v1/csrf and send it in X-CSRFToken.")


def remember(response: HttpResponseBase, request: Request, let_in: LetIn) -> None:
    """Put a token first in the cookie; one of the same household, or worth nothing, is left out."""
    household = let_in.device.household_id
    kept = [one.token for one in held_by(request) if one.device and one.device.household_id != household]
    write_cookie(response, request, [let_in.token, *kept][:MOST_TOKENS])


def forget(response: HttpResponseBase, request: Request, device: Device) -> None:
    """Take a phone's token out of the cookie, when it is already worth nothing."""
    kept = [one.token for one in held_by(request) if one.device and one.device.pk != device.pk]
    write_cookie(response, request, kept)


def renew_cookie(response: HttpResponseBase, request: Request) -> None:
    """A cookie lives on as long as it is used."""
    write_cookie(response, request, [one.token for one in held_by(request)])


def write_cookie(response: HttpResponseBase, request: Request, tokens: list[str]) -> None:
    if not tokens:
        response.delete_cookie(COOKIE, samesite="Lax")
        return
    response.set_cookie(
        COOKIE,
        ".".join(tokens),
        max_age=LIVES,
        secure=request.is_secure(),
        httponly=True,
        samesite="Lax",
    )


def asked_from_here(request: Request) -> bool:
    """Was it asked on this very computer, under one of its own names?

    No page from elsewhere can do that: a name that points here (DNS rebinding) is none of those, and what a
    proxy passes on says so.
    """
    passed_on = "HTTP_X_FORWARDED_FOR" in request.META or "HTTP_FORWARDED" in request.META
    host, _ = split_domain_port(request.get_host())
    own = host in OWN_NAMES and _is_loopback(str(request.META.get("REMOTE_ADDR", "")))
    return bool(settings.OPEN_HERE and own and not passed_on)


def _is_loopback(address: str) -> bool:
    try:
        return ipaddress.ip_address(address).is_loopback
    except ValueError:
        return False


def address_of(request: Request) -> str:
    """The asker's address. Behind so many proxies as the settings say, the one the outermost of ours saw."""
    chain = [part.strip() for part in request.META.get("HTTP_X_FORWARDED_FOR", "").split(",") if part.strip()]
    if 0 < settings.PROXIES <= len(chain):
        return str(chain[-settings.PROXIES])
    return str(request.META.get("REMOTE_ADDR", ""))
