"""Chores: which are asked for, of whom, and when the next one is asked."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest
from dateutil.rrule import DAILY, rrule

from homestead.ledger.reads import sheets_of
from homestead.rounds.asked import occurrences
from homestead.rounds.models import Chore
from homestead.rounds.planning import make_roster
from tests.factories import MORNING, Home

DAY = dt.date(2026, 11, 25)


def chores(home: Home, days: int = 0) -> list[dict[str, Any]]:
    make_roster(home.id, now=MORNING + dt.timedelta(days=days))
    [sheet] = sheets_of(home.id, "chores")
    found: list[dict[str, Any]] = sheet["content"]["chores"]
    return found


@pytest.mark.parametrize(
    ("weekdays", "months"),
    [([], (None, None)), ([1, 4], (None, None)), ([6], (11, 2)), ([2, 7], (3, 11)), ([], (12, 1))],
)
def test_a_standing_chore_falls_on_the_days_dateutil_says(
    weekdays: list[int], months: tuple[int | None, int | None]
) -> None:
    """Against python-dateutil's rrule (RFC 5545 rules), from today on."""
    first, last = months[0] or 1, months[1] or 12
    of_year = [m for m in range(1, 13) if (first <= m <= last if first <= last else m >= first or m <= last)]
    chore = Chore(weekdays=weekdays, from_month=months[0], to_month=months[1])
    for today in (DAY, dt.date(2027, 2, 24), dt.date(2027, 3, 1)):
        rule = rrule(
            DAILY,
            dtstart=dt.datetime.combine(today, dt.time()),
            until=dt.datetime.combine(today + dt.timedelta(days=14), dt.time()),
            bymonth=of_year,
            byweekday=[day - 1 for day in weekdays] or None,
        )
        ours = [day for day in occurrences(chore, today) if day >= today]
        assert ours == [moment.date() for moment in rule]


def test_what_was_missed_is_caught_up_with_once_however_long_nobody_was_there(home: Home) -> None:
    weekly = home.edit("chore", {"name": "Sweep the loft", "weekdays": [2]})
    home.edit("chore", {"name": "Shut the hens in"})
    days = [one["day"] for one in chores(home, days=20) if one["key"].startswith(weekly)]
    assert days == ["2026-12-15", "2026-12-22", "2026-12-29"]
    late = [one for one in chores(home, days=21) if one["day"] < "2026-12-16"]
    assert [one["key"] for one in late] == [f"{weekly}/2026-12-15"]


def test_a_free_chore_is_asked_once_and_leaves_when_done(home: Home) -> None:
    free = home.edit("chore", {"name": "Mend the latch", "on": "2026-11-27", "minutes": 20})
    [told] = chores(home)
    assert (told["key"], told["what"], told["who"]) == (f"{free}/2026-11-27", "standing", home.keeper)
    assert (told["minutes"], told["latest"], told["name"]) == (20, "2026-11-29", "Mend the latch")
    home.write("chore_done", {"chore": told["key"]})
    assert chores(home, days=3) == []


def test_a_chore_for_children_says_from_which_age_and_is_else_nobodys_small(home: Home) -> None:
    small = home.person("Pip", "child", born=2019, minutes_a_week=600)
    home.edit("chore", {"name": "Collect the eggs", "least_age": 5, "on": "2026-11-25"})
    home.edit("chore", {"name": "Carry water", "on": "2026-11-25"})
    who = {one["name"]: one["who"] for one in chores(home)}
    assert who == {"Collect the eggs": small, "Carry water": home.keeper}


def test_an_undecided_suspect_goes_to_the_next_adult_after_its_latest_day(home: Home) -> None:
    tom = home.person("Tom", "adult")
    lot = home.lot(home.space(), "squash", pieces=9)
    suspect = home.write("suspect", {"lot": lot, "findings": ["unsure"], "lies": "set_apart"}, day=0)
    [first] = [one for one in chores(home) if one["what"] == "decide"]
    assert (first["key"], first["latest"]) == (suspect, "2026-11-26")
    assert first["who"] in (home.keeper, tom)
    [then] = [one for one in chores(home, days=2) if one["what"] == "decide"]
    assert {first["who"], then["who"]} == {home.keeper, tom}


def test_a_decision_is_its_doers_until_its_day_and_then_anothers(home: Home) -> None:
    tom = home.person("Tom", "adult", minutes_a_week=10)
    lot = home.lot(home.space(), "squash", pieces=9)
    suspect = home.write("suspect", {"lot": lot, "findings": ["unsure"], "lies": "held"}, day=0)
    decided = {"suspect": suspect, "do": "compost", "doer": tom, "by": "2026-11-26"}
    key = home.write("decision", decided, day=0)
    [told] = chores(home)
    assert (told["key"], told["what"], told["who"], told["do"]) == (key, "carry_out", tom, "compost")
    assert chores(home, days=2)[0]["who"] == home.keeper
    home.write("chore_done", {"chore": key}, day=2)
    assert chores(home, days=2) == []


def test_a_lot_to_be_picked_over_is_asked_until_every_piece_was_looked_at(home: Home) -> None:
    cellar = home.space()
    lot = home.lot(cellar, "carrot")
    look = {"lot": lot, "space": cellar, "way": "sample", "looked": 20, "counted": False}
    seen = home.write("inspection", look, day=0)
    home.write("claim", {"chore": f"pick_over/{seen}/2026-11-26"}, day=0)
    assert [(one["what"], one["day"], one["lot"]) for one in chores(home)] == [
        ("pick_over", "2026-11-26", lot)
    ]
    home.write("inspection", look | {"way": "all", "looked": 200}, day=1)
    assert chores(home, days=1) == []


def test_the_sheet_says_what_each_can_give_gave_and_is_asked(home: Home) -> None:
    home.edit("chore", {"name": "Carry water", "minutes": 5})
    chores(home)
    [sheet] = sheets_of(home.id, "chores")
    assert sheet["content"]["people"] == [{"person": home.keeper, "can": 240, "gave": 0, "asked": 75}]
