"""Answers that are no success: problem details (RFC 9457), a code for the phone, facts for a sentence."""

from __future__ import annotations

import logging
from collections.abc import Mapping
from typing import Any

from django.core.exceptions import PermissionDenied, RequestDataTooBig
from django.db import OperationalError
from django.http import Http404, HttpRequest, HttpResponse, JsonResponse
from rest_framework import exceptions
from rest_framework.response import Response

from homestead.household.errors import CannotDo
from homestead.ledger.kinds import Refused

logger = logging.getLogger(__name__)

CONTENT_TYPE = "application/problem+json"

#: code -> status and title. docs/sync.md tells of each what the phone does; a test holds the two together.
CODES: Mapping[str, tuple[int, str]] = {
    "bad_json": (400, "The request is not JSON"),
    "bad_request": (400, "The request does not fit"),
    "bad_cursor": (400, "The cursor cannot be read"),
    "not_signed_in": (401, "This phone is not signed in"),
    "other_phone": (401, "This browser is signed in as another phone"),
    "csrf": (403, "The CSRF token is missing or old"),
    "revoked": (403, "This phone was revoked"),
    "role": (403, "Not allowed to this person"),
    "minder_pulls_nothing": (403, "A minder's phone pulls nothing"),
    "key_wrong": (403, "The key does not fit"),
    "not_here": (403, "Only on the computer itself"),
    "not_found": (404, "Not found"),
    "unknown_device": (404, "Phone not known"),
    "no_demo": (404, "No invented household here"),
    "bad_method": (405, "Not done this way"),
    "not_acceptable": (406, "No answer of that kind"),
    "reset": (409, "The ledger was set anew"),
    "not_invented": (409, "Not an invented household"),
    "people_on_phone": (409, "These people may not share a phone"),
    "unknown_person": (409, "Person not known"),
    "minder_ended": (410, "The week is over"),
    "unknown_link": (404, "Link not known"),
    "link_spent": (410, "The link is spent"),
    "no_address": (409, "No address for mail"),
    "bad_push": (409, "Not a push service"),
    "code_spent": (410, "The code is spent"),
    "too_large": (413, "The request is too large"),
    "too_many_lines": (413, "Too many lines"),
    "bad_type": (415, "Not a kind of content taken here"),
    "code_wrong": (422, "The code does not fit"),
    "photo_large": (413, "The photo is too large"),
    "photo_kind": (415, "Not a kind of photo taken here"),
    "photo_heic": (415, "Not a kind of photo taken here"),
    "photo_hash": (422, "Not the photo that was named"),
    "photo_size": (422, "The photo has too many points"),
    "photo_tail": (422, "Something follows the photo"),
    "photo_slow": (422, "The photo took too long to read"),
    "photo_broken": (422, "The photo cannot be read"),
    "update_needed": (426, "A newer build is needed"),
    "too_many_tries": (429, "Too many tries"),
    "fault": (500, "A fault of the program"),
    "busy": (503, "Busy, try again"),
}

_SENTENCES = {
    "not_signed_in": "Sign in with a pairing code. What is unsent stays on the phone.",
    "bad_method": "This address does not take that method.",
    "not_found": "There is nothing at this address.",
    "bad_json": "What was sent is not JSON, or only a part of it. Send it again.",
    "bad_type": "Send JSON, with the content type application/json.",
    "not_acceptable": "The answer is JSON; ask for that.",
    "too_large": "The request is larger than is taken here. Send less at a time.",
    "fault": "The program made a mistake; it is written down. Nothing was changed. Try again later.",
    "busy": "The database is busy. Nothing was changed. Try again in a moment.",
}

_OF_REST: Mapping[type[Exception], str] = {
    exceptions.ParseError: "bad_json",
    exceptions.NotFound: "not_found",
    Http404: "not_found",
    exceptions.MethodNotAllowed: "bad_method",
    exceptions.NotAcceptable: "not_acceptable",
    exceptions.UnsupportedMediaType: "bad_type",
    exceptions.NotAuthenticated: "not_signed_in",
    exceptions.AuthenticationFailed: "not_signed_in",
    exceptions.PermissionDenied: "role",
    PermissionDenied: "role",
    RequestDataTooBig: "too_large",
    OperationalError: "busy",
}


class Problem(Exception):
    """Raised in views for what no action says."""

    def __init__(self, code: str, detail: str = "", **facts: Any) -> None:
        super().__init__(detail or _SENTENCES.get(code, ""))
        self.code = code
        self.detail = detail or _SENTENCES[code]
        self.facts = facts


def told(code: str, detail: str, facts: Mapping[str, Any]) -> dict[str, Any]:
    """The members of RFC 9457, and ours: `code`, `facts`."""
    status, title = CODES[code]
    return {
        "type": f"urn:winter-rounds:problem:{code}",
        "title": title,
        "status": status,
        "detail": detail,
        "code": code,
        "facts": dict(facts),
    }


def answer(failure: Exception, context: Mapping[str, Any]) -> Response:
    """DRF's exception handler. What nobody foresaw is a `fault`, and is logged with its trace."""
    problem = _problem_of(failure)
    if problem is None:
        logger.exception("A request failed.", exc_info=failure)
        problem = Problem("fault")
    body = told(problem.code, problem.detail, problem.facts)
    return Response(body, body["status"], headers=_headers(problem), content_type=CONTENT_TYPE)


def _problem_of(failure: Exception) -> Problem | None:
    if isinstance(failure, Problem):
        return failure
    if isinstance(failure, CannotDo | Refused):
        code = failure.code if failure.code in CODES else "bad_request"
        return Problem(code, failure.message, **failure.facts)
    for known, code in _OF_REST.items():
        if isinstance(failure, known):
            return Problem(code)
    return None


def _headers(problem: Problem) -> dict[str, str]:
    status, _ = CODES[problem.code]
    headers = {}
    if status == 401:
        headers["WWW-Authenticate"] = 'Device realm="winter-rounds"'
    if status == 426:
        headers["Upgrade"] = "winter-rounds"
    if status in (429, 503):
        headers["Retry-After"] = str(problem.facts.get("retry_after", 5))
    return headers


def not_found(request: HttpRequest, *args: Any, **kwargs: Any) -> HttpResponse:
    """For every address under /api/ that is none."""
    body = told("not_found", _SENTENCES["not_found"], {})
    return JsonResponse(body, status=404, content_type=CONTENT_TYPE)
