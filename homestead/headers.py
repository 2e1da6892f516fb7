"""What every answer carries, so that a page can load nothing but our own parts."""

from __future__ import annotations

from collections.abc import Callable

from django.http import HttpRequest, HttpResponse
from django.utils.cache import patch_cache_control

#: no inline script or style, no eval, nothing from elsewhere; pictures may come from the phone's own memory
POLICY = (
    "default-src 'self'; img-src 'self' blob: data:; object-src 'none'; base-uri 'none'; "
    "frame-ancestors 'none'; form-action 'self'"
)
#: asked for anew each time: an old one of these would keep a phone on an old build
ALWAYS_FRESH = ("/", "/index.html", "/sw.js", "/app.webmanifest")


class ContentPolicy:
    """A view that sets a stricter policy of its own, as that of photos does, keeps it."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        response = self.get_response(request)
        response.headers.setdefault("Content-Security-Policy", POLICY)
        if request.path in ALWAYS_FRESH:
            response.headers.pop("Cache-Control", None)
            patch_cache_control(response, no_cache=True)
        return response
