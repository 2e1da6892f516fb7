"""The stash of trimmings for stock is emptied before its oldest has lain too long."""

from __future__ import annotations

import datetime as dt

from homestead.season.stash import stash_to_empty
from tests.factories import Home, HomeFactory

TODAY = dt.date(2026, 11, 25)


def add(home: Home, day: int, grams: int | None = 400) -> None:
    went = {"step": "pot", "part": "peel", "cut_in": "kitchen"} | ({"grams": grams} if grams else {})
    home.write("scrap", {"crop": "carrot", "findings": ["sound"], "went": [went]}, day=day)


def made_stock(home: Home, day: int, grams: int) -> None:
    went = {"step": "compost", "grams": grams, "cut_in": "kitchen"}
    home.write("scrap", {"findings": ["spent"], "went": [went]}, day=day)


def keys(home: Home) -> list[str]:
    return [one.key for one in stash_to_empty(home.id, TODAY)]


def test_it_is_asked_for_two_weeks_before_three_months_are_over(home: Home) -> None:
    """90 days: rule stock_pot_stash of kitchen_safety.csv, from memory."""
    add(home, 0)
    add(home, 9)
    [one] = stash_to_empty(home.id, TODAY)
    assert (one.key, one.latest) == ("empty_stash/2026-11-25", dt.date(2027, 2, 23))
    assert one.latest - one.day == dt.timedelta(days=14)


def test_a_pot_of_stock_takes_the_oldest_and_moves_the_day(home: Home) -> None:
    add(home, 0)
    add(home, 9, 300)
    made_stock(home, 10, 400)
    assert keys(home) == ["empty_stash/2026-12-04"]
    made_stock(home, 11, 300)
    assert keys(home) == []


def test_part_of_it_leaves_the_rest_as_old_as_it_was(home: Home) -> None:
    add(home, 0)
    made_stock(home, 3, 100)
    assert keys(home) == ["empty_stash/2026-11-25"]


def test_an_empty_stash_and_another_familys_ask_for_nothing(home: Home) -> None:
    add(HomeFactory(), 0)
    assert keys(home) == []
