"""Brings a notice to a push service. A browser names the address, so none within this house is ever asked."""

from __future__ import annotations

import http.client
import ipaddress
import socket
import ssl
import time
from collections.abc import Callable
from typing import Literal
from urllib.parse import urlsplit

from django.conf import settings

from homestead.reminders.models import PushPhone
from homestead.reminders.push import encrypt, server_key, signed

Outcome = Literal["sent", "gone", "later"]
#: asks `endpoint` with a body and headers; the answer's status
Post = Callable[[str, bytes, dict[str, str]], int]

TIMEOUT_S = 10.0
#: a day's notice is worth nothing the day after [s]
LIVES = 12 * 3600


class NotThere(OSError):
    """The address may not, or cannot, be asked."""


def check_endpoint(endpoint: str) -> None:
    """Raises ValueError: only https, under a name, on the usual port, with no user in it."""
    asked = urlsplit(endpoint)
    if asked.scheme != "https" or not asked.hostname or asked.username or asked.port not in (None, 443):
        raise ValueError("A push service is asked by https, under its name.")
    if "." not in asked.hostname or _is_number(asked.hostname):
        raise ValueError("A push service has a name, and is none of this house.")


def _is_number(host: str) -> bool:
    try:
        ipaddress.ip_address(host)
    except ValueError:
        return False
    return True


def post(endpoint: str, body: bytes, headers: dict[str, str]) -> int:
    """One request, to the very address that was looked at; no redirect is followed. Raises OSError."""
    check_endpoint(endpoint)
    asked = urlsplit(endpoint)
    assert asked.hostname
    address = _public_address(asked.hostname)
    plain = socket.create_connection((address, 443), TIMEOUT_S)
    connection = http.client.HTTPSConnection(asked.hostname, timeout=TIMEOUT_S)
    connection.sock = ssl.create_default_context().wrap_socket(plain, server_hostname=asked.hostname)
    try:
        path = asked.path + (f"?{asked.query}" if asked.query else "")
        connection.request("POST", path or "/", body=body, headers=headers)
        return connection.getresponse().status
    except http.client.HTTPException as broken:
        raise NotThere(str(broken)) from broken
    finally:
        connection.close()


def _public_address(host: str) -> str:
    found = [str(info[4][0]) for info in socket.getaddrinfo(host, 443, type=socket.SOCK_STREAM)]
    if not found or not all(ipaddress.ip_address(one).is_global for one in found):
        raise NotThere(f"{host} is no address of the open net")
    return found[0]


def send(phone: PushPhone, text: str, *, post: Post = post) -> Outcome:
    """`gone`: the browser took it back, nothing more goes there; `later`: no answer, or not now."""
    key = server_key(settings.SECRET_KEY)
    headers = {
        "Content-Encoding": "aes128gcm",
        "Content-Type": "application/octet-stream",
        "TTL": str(LIVES),
        "Urgency": "normal",
        "Authorization": signed(phone.endpoint, key, settings.PUSH_SUBJECT, int(time.time())),
    }
    try:
        status = post(phone.endpoint, encrypt(text.encode(), phone.p256dh, phone.auth), headers)
    except OSError:
        return "later"
    if status in (404, 410):
        return "gone"
    return "sent" if status < 300 else "later"
