"""What all views of ours share."""

from __future__ import annotations

from typing import Any

from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from api.sign_in import COOKIE, device_of, renew_cookie
from homestead.household.phones import note_seen


class View(APIView):
    """Signed in by the phone's cookie unless the view says otherwise; notes when a phone was last seen."""

    def finalize_response(self, request: Request, response: Response, *args: Any, **kwargs: Any) -> Response:
        finished = super().finalize_response(request, response, *args, **kwargs)
        device = getattr(request, "_auth", None) and device_of(request)
        seen = device and finished.status_code < 400 and note_seen(device, timezone.now())
        if seen and COOKIE not in finished.cookies:
            renew_cookie(finished, request)
        finished.headers.setdefault("Cache-Control", "no-store")
        return finished
