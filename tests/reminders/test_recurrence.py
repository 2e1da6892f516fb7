"""Days of a standing chore against the recurrence rules of python-dateutil."""

from __future__ import annotations

import datetime as dt

from dateutil.rrule import DAILY, rrule
from hypothesis import given
from hypothesis import strategies as st

from homestead.rounds.asked import AHEAD, occurrences
from homestead.rounds.models import Chore

WEEKDAYS = st.lists(st.integers(1, 7), unique=True, max_size=7)
MONTHS = st.one_of(st.none(), st.tuples(st.integers(1, 12), st.integers(1, 12)))


def months_of(season: tuple[int, int] | None) -> list[int]:
    if season is None:
        return list(range(1, 13))
    first, last = season
    return [1 + (first - 1 + on) % 12 for on in range((last - first) % 12 + 1)]


@given(st.dates(dt.date(2024, 1, 1), dt.date(2029, 12, 31)), WEEKDAYS, MONTHS)
def test_a_chore_falls_on_the_days_a_recurrence_rule_gives(
    today: dt.date, weekdays: list[int], season: tuple[int, int] | None
) -> None:
    chore = Chore(weekdays=weekdays, from_month=season and season[0], to_month=season and season[1])
    rule = rrule(
        DAILY,
        dtstart=dt.datetime.combine(today, dt.time()),
        until=dt.datetime.combine(today + AHEAD, dt.time()),
        byweekday=[day - 1 for day in weekdays] or None,
        bymonth=months_of(season),
    )
    ahead = [day for day in occurrences(chore, today) if day >= today]
    assert ahead == [moment.date() for moment in rule]
