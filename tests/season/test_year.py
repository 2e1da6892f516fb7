"""The job of the year: its sheets go into the feed once, and a forecast is kept on the way."""

from __future__ import annotations

import datetime as dt

from homestead.ledger.reads import sheets_of
from homestead.season.models import Forecast
from homestead.season.year import make_year
from tests.factories import MORNING, Home

LATER = MORNING + dt.timedelta(days=70)


def test_its_sheets_go_into_the_feed_once_and_one_forecast_a_lot_is_kept(home: Home) -> None:
    lot = home.lot(home.space(), "carrot", pieces=200, grams=20_000, day=0)
    home.write("take", {"lot": lot, "pieces": 50, "for": "eat"}, day=30)
    make_year(home.id, now=LATER)
    kinds = ("planting", "varieties", "score")
    before = sheets_of(home.id, *kinds)
    assert {sheet["key"] for sheet in before} == set(kinds)
    make_year(home.id, now=LATER + dt.timedelta(hours=1))
    assert sheets_of(home.id, *kinds) == before
    assert Forecast.rows.of(home.id).count() == 1


def test_a_household_with_nothing_in_it_has_sheets_that_say_so(home: Home) -> None:
    make_year(home.id, now=LATER)
    by_key = {
        sheet["key"]: sheet["content"] for sheet in sheets_of(home.id, "planting", "varieties", "score")
    }
    assert by_key["planting"]["crops"] == by_key["varieties"]["crops"] == []
    assert by_key["score"]["made"] == 0
