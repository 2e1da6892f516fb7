"""A heap asks to be turned: when, and until when. Two weeks are common practice, no source."""

from __future__ import annotations

import datetime as dt

import pytest

from homestead.season.heaps import heaps_to_turn
from tests.factories import Home, HomeFactory

TODAY = dt.date(2026, 11, 25)


@pytest.fixture
def home(db: None) -> Home:
    return HomeFactory()


def days(home: Home, today: dt.date = TODAY) -> list[dt.date]:
    return [one.day for one in heaps_to_turn(home.id, today)]


def test_it_is_turned_two_weeks_after_it_was_begun_or_turned_last(home: Home) -> None:
    heap = home.edit("heap", {"name": "Left heap", "fills_from": "2026-11-01"})
    assert days(home) == [dt.date(2026, 11, 15)]
    turned = home.write("heap", {"heap": heap, "did": "turned"}, day=0)
    assert days(home) == [dt.date(2026, 12, 9)]
    home.strike(turned)
    assert days(home) == [dt.date(2026, 11, 15)]


def test_what_is_done_to_it_otherwise_turns_nothing(home: Home) -> None:
    heap = home.edit("heap", {"name": "Left heap", "fills_from": "2026-11-01"})
    home.write("heap", {"heap": heap, "did": "warmth", "temp_c": 50.0}, day=0)
    assert days(home) == [dt.date(2026, 11, 15)]


def test_a_ripe_heap_and_one_used_up_ask_for_nothing(home: Home) -> None:
    ripe = {"name": "Old heap", "fills_from": "2026-03-01", "fills_until": "2026-07-28"}
    home.edit("heap", ripe)
    home.edit("heap", {"name": "Gone", "fills_from": "2026-11-01", "archived": True})
    assert days(home, dt.date(2026, 11, 24)) != []
    assert days(home) == []


def test_another_familys_heap_is_none_of_ours(home: Home) -> None:
    HomeFactory().edit("heap", {"name": "Theirs", "fills_from": "2026-11-01"})
    assert days(home) == []


def test_it_names_the_heap_and_wants_a_strong_back(home: Home) -> None:
    heap = home.edit("heap", {"name": "Left heap", "fills_from": "2026-11-01"})
    [one] = heaps_to_turn(home.id, TODAY)
    assert one.key == f"turn_heap/{heap}/2026-11-15"
    assert (one.what, one.needs, one.about) == (
        "turn_heap",
        frozenset({"lifting"}),
        {"heap": heap, "name": "Left heap"},
    )
