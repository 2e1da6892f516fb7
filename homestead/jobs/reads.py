"""What the household page tells of the work that runs by itself."""

from __future__ import annotations

import datetime as dt
import uuid
from dataclasses import dataclass

from homestead.jobs.models import Beat, Run
from homestead.jobs.schedules import SILENCE, WORK
from homestead.ledger.heads import last_line_of


@dataclass(frozen=True)
class LastRun:
    """`figures_as_of` is when it last went well; `behind` is how many lines came since."""

    what: str
    result: str
    why: str
    finished_at: dt.datetime | None
    took_ms: int
    figures_as_of: dt.datetime | None
    as_of: int
    behind: int


@dataclass(frozen=True)
class JobsSeen:
    """`alive` is false when the jobs have shown no life for five minutes: figures then stay as they are."""

    alive: bool
    last_beat: dt.datetime | None
    runs: tuple[LastRun, ...]


def jobs_of(household: uuid.UUID, now: dt.datetime) -> JobsSeen:
    beat = Beat.objects.filter(pk=1).values_list("at", flat=True).first()
    kept = {run.what: run for run in Run.rows.of(household)}
    last = last_line_of(household)
    runs = tuple(_told(kept.get(work.name) or Run(what=work.name), last) for work in WORK)
    return JobsSeen(alive=beat is not None and now - beat <= SILENCE, last_beat=beat, runs=runs)


def _told(run: Run, last_line: int) -> LastRun:
    return LastRun(
        what=run.what,
        result=run.result,
        why=run.why,
        finished_at=run.finished_at,
        took_ms=run.took_ms,
        figures_as_of=run.done_at,
        as_of=run.as_of,
        behind=max(0, last_line - run.as_of),
    )
