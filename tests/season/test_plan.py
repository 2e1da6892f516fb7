"""What to eat week by week, from what each lot is expected to lose, and what nobody will eat in time."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from homestead.season.facts import household_facts
from homestead.season.foresee import Foreseen, foreseen_lots, in_store
from homestead.season.plan import periods, plan_sheet
from homestead.season.table import NOBODY_KNOWN
from tests.factories import MORNING, Home

TODAY = MORNING.date() + dt.timedelta(days=30)


def lots_of(home: Home) -> list[Foreseen]:
    found, _ = foreseen_lots(in_store(household_facts(home.id).kept, TODAY), (), TODAY)
    return found


def plan(lots: list[Foreseen], need_kg: float) -> dict[str, Any]:
    told = plan_sheet("carrot", lots, need_kg, NOBODY_KNOWN, TODAY)
    assert told is not None
    return told


def losing(lot: Foreseen, share_a_week: float) -> Foreseen:
    """The lot as if it lost so much of itself each week, untouched."""
    sound = lot.waiting.sound
    kept = (1 - share_a_week) ** np.arange(len(sound))
    return replace(lot, waiting=replace(lot.waiting, sound=kept[:, None] * sound[0]))


@pytest.fixture
def two(home: Home) -> list[Foreseen]:
    """Twice twenty kilograms, the first losing a twenty-fifth a week, the second next to nothing."""
    for place in ("Loft", "Cellar"):
        home.lot(home.space(place), "carrot", pieces=200, grams=20_000, day=0)
    lots = sorted(lots_of(home), key=lambda one: str(one.kept.lot))
    assert len(lots) == 2
    return [losing(lots[0], 0.04), losing(lots[1], 0.001)]


def test_what_loses_most_is_eaten_first_and_what_keeps_is_held_back(two: list[Foreseen]) -> None:
    told = plan(two, 2.0)
    fast, slow = (str(one.kept.lot) for one in two)
    assert [row["lot"] for row in told["weeks"][0]["lots"]] == [fast]
    assert told["weeks"][0]["lots"][0]["grams"] == 2_000
    assert [one["lot"] for one in told["hold"]] == [slow]
    assert told["saved"][1] > 500
    assert told["saved"] == sorted(told["saved"])


def test_no_more_is_planned_than_is_wanted_or_there(two: list[Foreseen]) -> None:
    told = plan(two, 2.0)
    for week in told["weeks"]:
        assert sum(row["grams"] for row in week["lots"]) <= 2_000 * week["weeks"] + 1
    assert sum(row["grams"] for week in told["weeks"] for row in week["lots"]) <= 40_000


def test_what_nobody_will_eat_is_over_and_urgent_where_it_goes_fast(two: list[Foreseen]) -> None:
    told = plan(two, 0.2)
    assert {row["lot"] for row in told["surplus"]} == {str(one.kept.lot) for one in two}
    assert told["surplus"][0]["day"] == TODAY.isoformat()
    assert told["can_be_put_by"] is True
    assert plan(two, 20.0)["surplus"] == []


def test_without_a_need_or_food_there_is_no_plan(two: list[Foreseen]) -> None:
    assert plan_sheet("carrot", two, 0.0, NOBODY_KNOWN, TODAY) is None
    assert plan_sheet("carrot", [], 2.0, NOBODY_KNOWN, TODAY) is None


def test_what_is_set_aside_for_seed_is_not_eaten(two: list[Foreseen]) -> None:
    seed = [replace(one, kept=replace(one.kept, seed_pieces=10_000.0)) for one in two]
    assert plan_sheet("carrot", seed, 2.0, NOBODY_KNOWN, TODAY) is None


def test_guests_raise_the_need_of_their_week(two: list[Foreseen]) -> None:
    table = replace(NOBODY_KNOWN, usual=2, guests=((2, TODAY, TODAY + dt.timedelta(days=6)),))
    told = plan_sheet("carrot", two, 2.0, table, TODAY)
    assert told is not None
    first, second = (sum(row["grams"] for row in week["lots"]) for week in told["weeks"][:2])
    assert (first, second) == (4_000, 2_000)


def test_the_plan_ends_with_the_harvest_of_the_households_half_of_the_world(two: list[Foreseen]) -> None:
    """New carrots come in June, in the south in December."""
    north = plan_sheet("carrot", two, 2.0, NOBODY_KNOWN, TODAY)
    south = plan_sheet("carrot", two, 2.0, NOBODY_KNOWN, dt.date(2027, 6, 1), south=True)
    assert north is not None
    assert south is not None
    assert (north["until"], south["until"]) == ("2027-06-15", "2027-12-15")


def test_periods_are_five_weeks_and_then_fours_to_the_harvest() -> None:
    assert periods(10).starts == (0, 1, 2, 3, 4, 5, 9)
    assert periods(10).lengths == (1, 1, 1, 1, 1, 4, 1)
    assert sum(periods(None).lengths) == 37
    assert periods(0).starts == (0,)
