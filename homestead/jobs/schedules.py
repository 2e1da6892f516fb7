"""All that runs by itself, in one place. The machinery is in `work.py`; `due.py` says when a piece is due.

A piece of work is called with a household's id, writes its sheet through the ledger and returns nothing.
It is safe to run twice, and at any time. Each runs in the night, and again soon after lines were pushed.
A computer that slept through the night makes it up once, on the first minute after it wakes.

What this needs of the rooms below:
  homestead.ledger.followers.follow(call)   `call(household_id, seq)` after the commit of a push that wrote
                                            lines; an exception in it is logged, never shown to who pushed
  homestead.ledger.reads.last_lines()       {household_id: seq of its last entry or edit}, no sheets
  homestead.household.reads.zones()         {household_id: name of its time zone}
  homestead.rounds.roster.make_roster(household_id), homestead.byproducts.tally.make_tally(household_id)
"""

from __future__ import annotations

import datetime as dt
import uuid
from collections.abc import Callable
from dataclasses import dataclass


@dataclass(frozen=True)
class Work:
    """`name` is what the household page and `Run` call it."""

    name: str
    make: Callable[[uuid.UUID], None]


#: the hour, in the household's own zone, from which a day's work may be done
NIGHT = dt.time(3, 0)
#: after a push: at once, but not sooner than this after the last run; the next minute then takes it up
REST_BETWEEN = dt.timedelta(seconds=20)
#: a piece that failed is tried again after this long
REST_AFTER_FAILURE = dt.timedelta(hours=1)
#: asked for or begun so long ago and nothing came of it: whoever had it is gone
LEASE = dt.timedelta(minutes=5)
#: jobs that have not shown life for so long are dead
SILENCE = dt.timedelta(minutes=5)
