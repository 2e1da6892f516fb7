"""A browser on a phone: keeps cookies, fetches the CSRF token, speaks JSON to the real views."""

from __future__ import annotations

import json
from typing import Any

from django.http import HttpResponse
from django.test import Client
from django.utils import timezone

from api.sign_in import COOKIE
from tests.lines import Phone

HERE = {"HTTP_HOST": "localhost:8443", "REMOTE_ADDR": "127.0.0.1"}
#: an address of the block for documentation, RFC 5737
ELSEWHERE = {"HTTP_HOST": "rounds.example", "REMOTE_ADDR": "192.0.2.7"}


class Browser:
    """`at` says where it asks from."""

    def __init__(self, phone: Phone | None = None, at: dict[str, str] = HERE) -> None:
        self.client = Client(enforce_csrf_checks=True, raise_request_exception=False)
        self.at = at
        if phone:
            self.client.cookies[COOKIE] = phone.token

    @property
    def token(self) -> str:
        if "csrftoken" not in self.client.cookies:
            self.get("/api/v1/csrf")
        return self.client.cookies["csrftoken"].value

    def get(self, path: str, **headers: str) -> HttpResponse:
        response: HttpResponse = self.client.get(path, headers=headers, **self.at)  # type: ignore[arg-type]
        return response

    def send(self, method: str, path: str, body: Any, content_type: str = "application/json") -> HttpResponse:
        data = body if isinstance(body, bytes | str) else json.dumps(body)
        headers = {"X-CSRFToken": self.token}
        response: HttpResponse = self.client.generic(
            method,
            path,
            data,
            content_type=content_type,
            headers=headers,
            **self.at,  # type: ignore[arg-type]
        )
        return response

    def post(self, path: str, body: Any = None, content_type: str = "application/json") -> HttpResponse:
        return self.send("POST", path, {} if body is None else body, content_type)

    def push(self, phone: Phone, *lines: Any, **changes: Any) -> HttpResponse:
        asked = {
            "device": str(phone.device.pk),
            "sent_at": timezone.now().isoformat(timespec="milliseconds"),
            "build": "1",
            "lines": [line if "written" in line else {"written": line} for line in lines],
        }
        return self.post("/api/v1/sync/push", asked | changes)

    def pull(self, after: str = "0", limit: int = 500) -> HttpResponse:
        return self.get(f"/api/v1/sync/pull?after={after}&limit={limit}")


def told(response: HttpResponse, status: int = 200) -> dict[str, Any]:
    """The JSON of an answer with that status."""
    assert response.status_code == status, response.content[:1000]
    assert response.headers["Content-Type"] == "application/json"
    found: dict[str, Any] = json.loads(response.content)
    return found


def problem(response: HttpResponse, status: int, code: str) -> dict[str, Any]:
    """The problem of an answer, with its members as RFC 9457, section 3.1, names them (from memory)."""
    assert response.status_code == status, response.content[:1000]
    assert response.headers["Content-Type"] == "application/problem+json"
    found: dict[str, Any] = json.loads(response.content)
    assert found["code"] == code
    assert found.keys() == {"type", "title", "status", "detail", "code", "facts"}
    assert found["status"] == status
    assert found["type"] == f"urn:winter-rounds:problem:{code}"
    assert found["title"]
    assert found["detail"].endswith(".")
    return found
