"""The machinery of the work that runs by itself: ask for what is due, do it once, keep what came of it.

`minute` and `do` are what the queue calls. Both may be called twice, or at the same time by two workers.
"""

from __future__ import annotations

import datetime as dt
import logging
import time
import uuid
from collections.abc import Iterable

from django.db.models import F, Q
from django.utils import timezone
from django_q.tasks import async_task

from homestead import environment as env
from homestead.household.models import Household
from homestead.jobs.due import Known, has_rested, is_due
from homestead.jobs.models import Beat, Run
from homestead.jobs.schedules import LEASE, REMIND, WORK, work_named
from homestead.ledger.followers import Touched
from homestead.ledger.heads import last_line_of, last_lines
from homestead.reminders.telling import households_to_remind

log = logging.getLogger("homestead.jobs")


def minute() -> str:
    """Once a minute: show that the jobs are alive, then ask for all that is due."""
    now = timezone.now()
    Beat.objects.update_or_create(pk=1, defaults={"at": now})
    env.HEARTBEAT.touch()
    asked = ask_for_what_is_due(last_lines(), now) + ask_to_remind(now)
    return f"asked for {asked}"


def ask_to_remind(now: dt.datetime) -> int:
    """People are reminded at an hour of their own: asked for when it has come for somebody.

    What could not be told rests before it is tried again, as all work that failed.
    """
    households = households_to_remind(now)
    known = _known(households)
    ready = [
        household for household in households if has_rested(known.get((household, REMIND), Known()), now)
    ]
    return sum(_ask(household, REMIND, now) for household in ready)


def after_push(touched: Touched) -> None:
    """The ledger grew: ask at once, so that the figures follow the walk."""
    ask_for_what_is_due({touched.household: last_line_of(touched.household)}, timezone.now())


def ask_for_what_is_due(last: dict[uuid.UUID, int], now: dt.datetime) -> int:
    """Put what is due into the queue, once each; what waits there or runs already is left alone."""
    known = _known(last)
    due = [
        (household, work.name)
        for household, zone in Household.objects.filter(pk__in=last).values_list("pk", "zone")
        for work in WORK
        if is_due(known.get((household, work.name), Known()), last[household], zone, now)
    ]
    return sum(_ask(household, what, now) for household, what in due)


def _known(households: Iterable[uuid.UUID]) -> dict[tuple[uuid.UUID, str], Known]:
    kept = ("asked_at", "started_at", "finished_at", "done_at", "as_of", "failures")
    rows = Run.everywhere.filter(household__in=list(households)).values_list("household_id", "what", *kept)
    return {(household, what): Known(*rest) for household, what, *rest in rows}


def _ask(household: uuid.UUID, what: str, now: dt.datetime) -> bool:
    """Marked before it is queued: two who ask at the same time queue it once."""
    run, _ = Run.everywhere.get_or_create(household_id=household, what=what)
    free = Q(asked_at=None) | Q(asked_at__lte=now - LEASE) | Q(asked_at__gt=now)
    if not Run.rows.of(household).filter(free, pk=run.pk).update(asked_at=now):
        return False
    async_task("homestead.jobs.work.do", what, str(household), group=what)
    return True


def do(what: str, household_id: str) -> str:
    """One piece of work for one household, unless somebody else is at it. What goes wrong is kept, raised.

    Where the queue is longer than the lease, the same is asked for again and waits in it twice: the first
    that comes takes what was asked for, the others find nothing asked.
    """
    household, now = uuid.UUID(household_id), timezone.now()
    free = Q(started_at=None) | Q(started_at__lte=now - LEASE) | Q(started_at__gt=now)
    mine = Run.rows.of(household).filter(what=what)
    if not mine.filter(free, asked_at__isnull=False).update(started_at=now, asked_at=None):
        return "nothing is asked, somebody else is at it, or the household has left"
    as_of, began = last_line_of(household), time.monotonic()
    try:
        work_named(what).make(household)
    except Exception as problem:
        failures = F("failures") + 1
        mine.update(**_ended(began), result=Run.Result.FAILED, why=_sentence(problem), failures=failures)
        raise
    ended = _ended(began)
    mine.update(
        **ended, done_at=ended["finished_at"], result=Run.Result.DONE, why="", failures=0, as_of=as_of
    )
    return f"{what} in {ended['took_ms']} ms"


def _ended(began: float) -> dict[str, dt.datetime | int | None]:
    took = round((time.monotonic() - began) * 1000)
    return {"started_at": None, "finished_at": timezone.now(), "took_ms": took}


def _sentence(problem: Exception) -> str:
    return f"{type(problem).__name__}: {problem}"[:300]
