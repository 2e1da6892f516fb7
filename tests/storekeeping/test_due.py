"""Due days against their vectors, written by hand from docs/fold.md F17."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from homestead.reference import rules
from homestead.storekeeping.due import days_late, due_of_lot, due_of_space, interval_of
from tests.storekeeping.vectors import cases, named

DAYS = st.dates(min_value=dt.date(2024, 1, 1), max_value=dt.date(2030, 1, 1)).map(dt.date.isoformat)


@pytest.mark.parametrize("case", cases("due.json"), ids=named)
def test_it_says_when_a_lot_is_due(case: dict[str, Any]) -> None:
    assert due_of_lot(case["interval"], case["lot"], case["hemisphere"]) == case["expect"]


def test_a_space_is_due_with_its_first_lot() -> None:
    assert due_of_space(["2026-12-02", None, "2026-11-30"]) == "2026-11-30"


def test_a_space_with_nothing_in_it_is_not_due() -> None:
    assert due_of_space([None]) is None


@pytest.mark.parametrize(
    ("due", "today", "late"),
    [
        ("2026-11-25", "2026-11-25", 0),
        ("2026-11-25", "2026-11-24", 0),
        ("2026-11-25", "2026-11-27", 2),
        ("2028-02-28", "2028-03-01", 2),
        (None, "2026-11-25", 0),
    ],
)
def test_it_says_how_many_days_late(due: str | None, today: str, late: int) -> None:
    assert days_late(due, today) == late


def test_it_finds_the_interval_of_a_crop_and_none_of_ones_own() -> None:
    assert interval_of(rules(), "savoy_cabbage") == {
        "every_days": 7,
        "every_days_late": 4,
        "late_from_month": 1,
    }
    assert interval_of(rules(), "own_crop") is None


@given(put_away=DAYS, last=DAYS, crop=st.sampled_from(sorted(rules()["looking_over"])))
def test_a_lot_is_due_after_its_look_and_within_the_longer_interval(
    put_away: str, last: str, crop: str
) -> None:
    interval = interval_of(rules(), crop)
    assert interval
    due = due_of_lot(interval, {"put_away_on": put_away, "last_look": last})
    waited = days_late(last, due or last)
    shorter, longer = sorted((interval["every_days"], interval["every_days_late"]))
    assert shorter <= waited <= longer


@pytest.mark.parametrize("month", range(1, 13))
def test_south_is_north_six_months_on(month: int) -> None:
    """The first of a month, half a year apart, stands as far into its winter in both."""
    interval = {"every_days": 20, "every_days_late": 5, "late_from_month": month}
    north = dt.date(2026, 8, 1), dt.date(2027, 3, 1)
    south = dt.date(2026, 2, 1), dt.date(2026, 9, 1)
    waited = []
    for (born, looked), hemisphere in ((north, "north"), (south, "south")):
        lot = {"put_away_on": born.isoformat(), "last_look": looked.isoformat()}
        waited.append(days_late(looked.isoformat(), due_of_lot(interval, lot, hemisphere) or ""))
    assert waited[0] == waited[1]
