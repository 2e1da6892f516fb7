"""The tally: what went to whom in a week."""

from __future__ import annotations

import datetime as dt
import uuid
from typing import Any

import pytest

from homestead.byproducts.reads import added_up, scraps_between
from homestead.byproducts.tally import make_tally, tally_of, week_of
from homestead.household.models import Household
from homestead.ledger.reads import sheets_of
from tests.factories import MORNING, Home

DAY = dt.date(2026, 11, 25)  # a Wednesday
HENS = uuid.UUID(int=7)


def line(way: str, grams: float, **told: Any) -> dict[str, Any]:
    facts = {"animals": None, "crop": "carrot", "accident": False, "lines": 1, "unweighed": 0}
    return facts | {"way": way, "grams": grams} | told


@pytest.mark.parametrize(
    ("week_start", "day", "first"),
    [
        ("monday", DAY, dt.date(2026, 11, 23)),
        ("monday", dt.date(2026, 11, 29), dt.date(2026, 11, 23)),
        ("monday", dt.date(2026, 11, 30), dt.date(2026, 11, 30)),
        ("sunday", DAY, dt.date(2026, 11, 22)),
        ("saturday", DAY, dt.date(2026, 11, 21)),
        ("saturday", dt.date(2026, 11, 21), dt.date(2026, 11, 21)),
    ],
)
def test_a_week_begins_on_the_households_first_day(week_start: str, day: dt.date, first: dt.date) -> None:
    """ISO 8601: 2026-11-23 is a Monday."""
    assert dt.date(2026, 11, 23).isoweekday() == 1
    assert week_of(day, week_start) == first


def test_lines_of_one_key_are_added_up_best_step_first() -> None:
    told = added_up(
        [
            line("compost", 200.4),
            line("animals", 100, animals=HENS),
            line("compost", 100.4, lines=2, unweighed=1),
            line("animals", 50, animals=HENS, accident=True),
            line("compost", 10, crop=""),
        ]
    )
    assert [(row["way"], row["crop"], row["accident"], row["grams"], row["lines"]) for row in told] == [
        ("animals", "carrot", False, 100, 1),
        ("animals", "carrot", True, 50, 1),
        ("compost", "", False, 10, 1),
        ("compost", "carrot", False, pytest.approx(300.8), 3),
    ]


def test_a_sheet_has_whole_grams_and_ids_as_text() -> None:
    first = dt.date(2026, 11, 23)
    eggs = {
        DAY: [{"animals": HENS, "eggs": 6, "broken": 1}],
        first: [{"animals": HENS, "eggs": 5, "broken": 0}],
    }
    told = tally_of(first, {DAY: [line("animals", 100.6, animals=HENS)]}, eggs)
    assert told == {
        "from": "2026-11-23",
        "until": "2026-11-29",
        "went": [line("animals", 101, animals=str(HENS))],
        "eggs": [{"animals": str(HENS), "eggs": 11, "broken": 1, "days": 2}],
    }


def test_the_day_before_and_the_day_after_a_week_are_not_in_it() -> None:
    first = dt.date(2026, 11, 23)
    scraps = {first + dt.timedelta(days=n): [line("bin", 1)] for n in (-1, 0, 6, 7)}
    assert tally_of(first, scraps, {})["went"] == [line("bin", 2, lines=2)]


class Week:
    """Carrots of 100 g and hens; something went everywhere."""

    def __init__(self, home: Home) -> None:
        self.home, self.hens = home, home.animals()
        self.carrot = home.lot(home.space(), grams=20_000, pieces=200)

    def cull(self, day: int, *went: dict[str, Any], finding: str = "shrivelled", pieces: int = 2) -> str:
        body = {"lot": self.carrot, "pieces": pieces, "findings": [finding], "went": list(went)}
        return self.home.write("cull", body, day=day)

    def told(self) -> dict[str, dict[str, Any]]:
        return {sheet["key"]: sheet["content"] for sheet in sheets_of(self.home.id, "tally")}


@pytest.fixture
def week(home: Home) -> Week:
    return Week(home)


def test_scraps_of_every_kind_meet_in_the_weeks_sheet(week: Week) -> None:
    to_hens = {"step": "animals", "animals": week.hens}
    week.cull(0, to_hens)
    week.cull(1, {"step": "compost", "grams": 120}, {"step": "cook"})
    week.home.write("scrap", {"findings": ["sound"], "went": [{"step": "compost", "grams": 900}]}, day=2)
    week.home.write("lay", {"animals": week.hens, "day": "2026-11-26", "eggs": 6}, day=2)
    accident = to_hens | {"accident": True}
    week.cull(3, accident, finding="black_mould", pieces=1)
    make_tally(week.home.id, now=MORNING + dt.timedelta(days=4))
    [content] = week.told().values()
    assert [
        (row["way"], row["animals"], row["crop"], row["accident"], row["grams"]) for row in content["went"]
    ] == [
        ("cook", None, "carrot", False, 80),
        ("animals", week.hens, "carrot", False, 200),
        ("animals", week.hens, "carrot", True, 100),
        ("compost", None, "", False, 900),
        ("compost", None, "carrot", False, 120),
    ]
    assert content["eggs"] == [{"animals": week.hens, "eggs": 6, "broken": 0, "days": 1}]


def test_what_is_eaten_or_lost_by_a_count_is_no_scrap(week: Week) -> None:
    week.home.write("take", {"lot": week.carrot, "grams": 1_000, "for": "eat"})
    week.home.write("count", {"lot": week.carrot, "grams": 15_000, "gone": "lost"}, day=1)
    make_tally(week.home.id, now=MORNING)
    assert [content["went"] for content in week.told().values()] == [[]]


def test_a_line_without_a_weight_is_counted_as_unweighed(week: Week) -> None:
    own = week.home.edit("crop", {"name": "Oca"})
    lot = week.home.lot(week.home.space(), own, pieces=30)
    body = {"lot": lot, "pieces": 2, "findings": ["wet"], "went": [{"step": "bin"}]}
    week.home.write("cull", body)
    [row] = scraps_between(week.home.id, DAY, DAY)
    assert (row["way"], row["crop"], row["grams"], row["lines"], row["unweighed"]) == ("bin", own, 0, 1, 1)


def test_each_week_has_its_sheet_and_only_what_changed_is_written_again(week: Week) -> None:
    for day in (0, 7, 14):
        week.cull(day, {"step": "bin"})
    now = MORNING + dt.timedelta(days=14)
    make_tally(week.home.id, now=now)
    assert sorted(week.told()) == ["tally/2026-11-23", "tally/2026-11-30", "tally/2026-12-07"]
    head = Household.objects.get(pk=week.home.id).next_seq
    make_tally(week.home.id, now=now)
    assert Household.objects.get(pk=week.home.id).next_seq == head
    week.cull(8, {"step": "bin"})
    make_tally(week.home.id, now=now)
    assert Household.objects.get(pk=week.home.id).next_seq == head + 2, "the line and its week"
    make_tally(week.home.id, now=now + dt.timedelta(days=1))
    assert Household.objects.get(pk=week.home.id).next_seq == head + 3, (
        "this week, to show that jobs are alive"
    )


def test_a_week_that_nothing_is_left_of_leaves_the_feed(week: Week) -> None:
    mistake = week.cull(0, {"step": "bin"})
    now = MORNING + dt.timedelta(days=14)
    make_tally(week.home.id, now=now)
    assert "tally/2026-11-23" in week.told()
    week.home.strike(mistake)
    make_tally(week.home.id, now=now)
    assert list(week.told()) == ["tally/2026-12-07"]


def test_a_new_first_day_of_the_week_makes_new_weeks(week: Week) -> None:
    week.cull(4, {"step": "bin"})  # a Sunday
    make_tally(week.home.id, now=MORNING)
    assert list(week.told()) == ["tally/2026-11-23"]
    week.home.edit("household", {"week_start": "sunday"}, str(week.home.id))
    make_tally(week.home.id, now=MORNING)
    assert sorted(week.told()) == ["tally/2026-11-22", "tally/2026-11-29"]
