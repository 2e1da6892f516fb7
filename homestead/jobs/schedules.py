"""All that runs by itself, in one place. The machinery is in `work.py`; `due.py` says when a piece is due.

A piece of work is called with a household's id, writes its sheet through the ledger and returns nothing.
It is safe to run twice, and at any time. Each runs in the night, and again soon after lines were pushed.
A computer that slept through the night makes it up once, in the first minute after it wakes.
"""

from __future__ import annotations

import datetime as dt
import uuid
from dataclasses import dataclass

from django.utils.module_loading import import_string


@dataclass(frozen=True)
class Work:
    """`name` is what the household page calls it. `function` is named and not imported, so that the web,
    which only asks for work, never loads what the work needs.
    """

    name: str
    function: str

    def make(self, household: uuid.UUID) -> None:
        import_string(self.function)(household)


WORK = (
    Work("roster", "homestead.rounds.planning.make_roster"),
    Work("tally", "homestead.byproducts.tally.make_tally"),
    Work("outlook", "homestead.season.outlook.make_outlook"),
    Work("rooms", "homestead.season.rooms.make_rooms"),
    Work("year", "homestead.season.year.make_year"),
    Work("remind", "homestead.reminders.telling.remind"),
)

#: asked for also at the hour each person wishes to be reminded
REMIND = "remind"

#: the one schedule of the queue: it shows that the jobs are alive and asks for what is due
EVERY_MINUTE = "homestead.jobs.work.minute"

#: the hour, in the household's own zone, from which a day's work may be done
NIGHT = dt.time(3, 0)
#: after a push: at once, but not sooner than this after the last run; the next minute then takes it up
REST_BETWEEN = dt.timedelta(seconds=20)
#: a piece that failed is tried again after the first of these, then the next; the last stands. Ours
RESTS_AFTER_FAILURE = tuple(dt.timedelta(minutes=each) for each in (2, 10, 60, 360))
#: asked for or begun so long ago and nothing came of it: whoever had it is gone
LEASE = dt.timedelta(minutes=5)
#: jobs that have not shown life for so long are dead
SILENCE = dt.timedelta(minutes=5)


def work_named(name: str) -> Work:
    """The piece of that name. Raises KeyError when there is none."""
    return {work.name: work for work in WORK}[name]
