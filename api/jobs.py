"""What works by itself: when it last ran, how long it took, and whether it still does."""

from __future__ import annotations

import datetime as dt
from typing import Any

from django.utils import timezone
from drf_spectacular.utils import extend_schema
from pydantic import AwareDatetime, Field
from rest_framework.request import Request
from rest_framework.response import Response

from api.base import View
from api.shapes import Told
from api.sign_in import SignedIn, device_of
from homestead.jobs.reads import LastRun, jobs_of
from homestead.ledger.feed import stamp


class JobTold(Told):
    """One piece of work. Never run: no `ended_at`, and `ok` is false."""

    name: str
    ok: bool = Field(description="the last run went well")
    why: str = Field(default="", description="why it did not")
    ended_at: AwareDatetime | None = None
    seconds: float | None = Field(default=None, ge=0)
    figures_as_of: AwareDatetime | None = Field(default=None, description="when it last went well")
    behind: int = Field(ge=0, description="lines that came since the last it read")


class JobsTold(Told):
    jobs: list[JobTold]
    working: bool = Field(description="false: no sign of life for five minutes, figures stay as they are")
    last_beat: AwareDatetime | None = None


class JobsView(View):
    """For the household page."""

    permission_classes = (SignedIn,)

    @extend_schema(operation_id="jobs", responses={200: JobsTold})
    def get(self, request: Request) -> Response:
        seen = jobs_of(device_of(request).household_id, timezone.now())
        told = {"jobs": [_told(run) for run in seen.runs], "working": seen.alive}
        return Response(told | _given(last_beat=seen.last_beat))


def _told(run: LastRun) -> dict[str, Any]:
    told = {"name": run.what, "ok": run.result == "done", "behind": run.behind}
    took = {"seconds": run.took_ms / 1000} if run.finished_at else {}
    why = {"why": run.why} if run.why else {}
    return told | took | why | _given(ended_at=run.finished_at, figures_as_of=run.figures_as_of)


def _given(**moments: dt.datetime | None) -> dict[str, str]:
    """Absent rather than null."""
    return {name: stamp(moment) for name, moment in moments.items() if moment}
