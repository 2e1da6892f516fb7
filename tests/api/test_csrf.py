"""Nothing is changed without the CSRF token, at no address."""

from __future__ import annotations

import uuid

import pytest

from tests.api.browser import HERE, Browser, problem
from tests.lines import Family

#: fixed, since each process that runs tests must name them alike
NO_PHONE = uuid.UUID("01900000-0000-7000-8000-00000000dead")

UNSAFE = [
    ("POST", "/api/v1/sync/push"),
    ("POST", "/api/v1/sync/missing"),
    ("POST", "/api/v1/pair"),
    ("POST", "/api/v1/codes"),
    ("POST", "/api/v1/sign-out"),
    ("POST", f"/api/v1/devices/{NO_PHONE}/revoke"),
    ("PUT", f"/api/v1/devices/{NO_PHONE}/people"),
    ("POST", "/api/v1/households"),
    ("POST", "/api/v1/demo"),
    ("POST", "/api/v1/demo/leave"),
    ("POST", "/api/v1/minder/open"),
    ("POST", "/api/v1/minder/links"),
    ("POST", f"/api/v1/minder/links/{NO_PHONE}/end"),
    ("PUT", f"/api/v1/reminders/{NO_PHONE}"),
    ("POST", f"/api/v1/reminders/{NO_PHONE}/calendar"),
    ("POST", f"/api/v1/reminders/{NO_PHONE}/calendar/end"),
    ("POST", f"/api/v1/reminders/{NO_PHONE}/push"),
    ("POST", f"/api/v1/reminders/{NO_PHONE}/push/end"),
]


@pytest.mark.parametrize(("method", "path"), UNSAFE)
def test_nothing_is_changed_without_the_csrf_token(family: Family, method: str, path: str) -> None:
    """invariant 42"""
    browser = Browser(family.phones["keeper"])
    browser.get("/api/v1/csrf")
    for headers in ({}, {"X-CSRFToken": "x" * 32}):
        response = browser.client.generic(
            method, path, "{}", content_type="application/json", headers=headers, **HERE
        )
        found = problem(response, 403, "csrf")
        assert "X-CSRFToken" in found["detail"]


def test_every_address_that_changes_something_is_tried_above() -> None:
    """A new address that is not tried would go unseen."""
    from api.urls import urlpatterns

    unsafe = set()
    for pattern in urlpatterns:
        view = getattr(getattr(pattern, "callback", None), "cls", None)
        for method in ("post", "put", "patch", "delete"):
            if view and hasattr(view, method):
                unsafe.add((method.upper(), str(pattern.pattern)))
    tried = {(method, _without_ids(path.removeprefix("/api/v1/"))) for method, path in UNSAFE}
    assert unsafe == tried | {("PUT", "photos/<str:sha256>")}


def _without_ids(path: str) -> str:
    named = {"minder": "<uuid:link>", "reminders": "<uuid:person>"}
    parts = path.split("/")
    return "/".join(named.get(parts[0], "<uuid:device>") if len(part) == 36 else part for part in parts)
