"""Forecasts are kept as they were made, and judged once a look or a count told what came of them."""

from __future__ import annotations

import datetime as dt
import uuid
from typing import Any

import numpy as np
import pytest

from homestead.season.facts import Kept, household_facts
from homestead.season.forecasts import due_for_keeping, happened_of, keep_forecasts, settle_forecasts
from homestead.season.foresee import foreseen_lots, in_store
from homestead.season.models import Forecast
from homestead.season.score import score_sheet, stretch_for
from tests.bodies import out
from tests.factories import MORNING, Home

DAY = MORNING.date()


def after(days: int) -> dt.date:
    return DAY + dt.timedelta(days=days)


@pytest.fixture
def carrots(home: Home) -> Home:
    """300 carrots, 14 eaten a week."""
    cellar = home.space()
    lot = home.lot(cellar, "carrot", pieces=300, grams=30_000, day=0)
    home.edit("weekly_use", {"crop": "carrot", "grams": 1_400})
    home.lots = {"carrots": lot, "cellar": cellar}  # type: ignore[attr-defined]
    for day in (5, 12, 19, 26):
        home.write("take", {"lot": lot, "pieces": 14, "for": "eat"}, day=day)
    return home


def look(home: Home, day: int, seen: int, bad: int) -> None:
    lots: dict[str, str] = home.lots  # type: ignore[attr-defined]
    body = {"lot": lots["carrots"], "space": lots["cellar"], "way": "all", "looked": seen, "counted": True}
    home.write("inspection", body | {"out": [out(pieces=bad)]}, day=day)


def keep(home: Home, day: int, stretch: float = 1.0) -> None:
    known = household_facts(home.id)
    due = due_for_keeping(home.id, in_store(known.kept, after(day)), after(day))
    lots, _ = foreseen_lots(due, (), after(day))
    keep_forecasts(home.id, lots, after(day), as_of=7, stretch=stretch)


def settle(home: Home, day: int) -> None:
    settle_forecasts(home.id, household_facts(home.id).kept, after(day))


def test_one_forecast_a_lot_and_week_is_kept_with_what_it_stood_on(carrots: Home) -> None:
    keep(carrots, 2)
    keep(carrots, 4)
    [row] = Forecast.rows.of(carrots.id)
    assert row.inputs.keys() == {"tables", "sums", "as_of", "stretch"}
    assert (row.inputs["as_of"], row.crop, row.day) == (7, "carrot", after(2))
    for side in (row.told, row.plain):
        low, middle, high = side["sound_28"]
        assert 0 <= low <= middle <= high <= 300
        assert 0 <= side["lasts_56"] <= 1
    keep(carrots, 9)
    assert Forecast.rows.of(carrots.id).count() == 2


def test_a_full_look_near_the_day_tells_what_was_sound(carrots: Home) -> None:
    keep(carrots, 2)
    settle(carrots, 40)
    [row] = Forecast.rows.of(carrots.id)
    assert row.happened == {}
    look(carrots, 31, 240, 3)
    settle(carrots, 40)
    row.refresh_from_db()
    assert row.happened == {"sound_28": 237.0, "lasts_28": 1.0}


def test_a_look_too_far_from_the_day_settles_nothing(carrots: Home) -> None:
    keep(carrots, 2)
    look(carrots, 34, 240, 3)
    settle(carrots, 40)
    assert Forecast.rows.of(carrots.id).get().happened == {}


def test_what_is_struck_is_taken_back(carrots: Home) -> None:
    keep(carrots, 2)
    look(carrots, 30, 240, 3)
    settle(carrots, 40)
    carrots.strike(str(carrots.written[-1]["id"]))
    settle(carrots, 41)
    assert Forecast.rows.of(carrots.id).get().happened == {}


def test_the_lots_end_tells_its_run_out(carrots: Home) -> None:
    keep(carrots, 2)
    lots: dict[str, str] = carrots.lots  # type: ignore[attr-defined]
    carrots.write("count", {"lot": lots["carrots"], "pieces": 0, "gone": "eaten"}, day=40)
    settle(carrots, 45)
    assert Forecast.rows.of(carrots.id).get().happened == {"lasts_28": 1.0, "lasts_56": 0.0, "run_out": 38.0}


def test_a_lot_given_away_did_not_run_out(carrots: Home) -> None:
    keep(carrots, 2)
    lots: dict[str, str] = carrots.lots  # type: ignore[attr-defined]
    carrots.write("count", {"lot": lots["carrots"], "pieces": 0, "gone": "given"}, day=40)
    settle(carrots, 45)
    assert Forecast.rows.of(carrots.id).get().happened == {}


def test_nothing_is_known_of_a_lot_that_goes_on(carrots: Home) -> None:
    [kept] = household_facts(carrots.id).kept
    assert isinstance(kept, Kept)
    assert happened_of(after(2), kept, eaten_up=False) == {}


def made(home: Home, number: int, band: tuple[float, float, float], truth: float, **more: Any) -> None:
    told = {"sound_28": list(band), "lasts_28": 0.9}
    plain = {"sound_28": [0.0, 5.0, 6.0], "lasts_28": 0.5}
    Forecast.everywhere.create(
        household_id=home.id, lot=uuid.uuid4(), crop="carrot", day=after(number), told=told, plain=plain,
        inputs={"stretch": 1.0} | more, happened={"sound_28": truth, "lasts_28": 1.0},
    )  # fmt: skip


def test_of_twenty_bands_sixteen_held(home: Home) -> None:
    """By hand: a band of 10 wide scores 10 when it held and 10 + 10 x 2 when missed by 2; 16 and 4 of 20: 14.
    Chances of 0.9 that came true: 0.01; of 0.5: 0.25.
    """
    for number in range(20):
        made(home, number, (10, 14, 20), 12 if number < 16 else 22)
    sheet = score_sheet(home.id, after(60))
    [bands] = sheet["bands"]
    assert (sheet["made"], sheet["settled"]) == (20, 20)
    assert (bands["of"], bands["settled"], bands["within"], bands["within_handbook"]) == (
        "sound_28",
        20,
        16,
        0,
    )
    assert bands["interval"] == pytest.approx(14.0)
    assert (sheet["chances"]["brier"], sheet["chances"]["brier_handbook"]) == (0.01, 0.25)
    assert sheet["chances"]["by_fifths"][4] == [20, 1.0]


def test_bands_that_missed_too_often_are_stretched_and_only_after_twenty(home: Home) -> None:
    """By hand: 40 truths each 1.5 half bands off: e^(40/80 ln 1.5) = 1.22."""
    for number in range(19):
        made(home, number, (10, 14, 20), 23)
    assert stretch_for(home.id) == 1.0
    for number in range(19, 40):
        made(home, number, (10, 14, 20), 23)
    assert stretch_for(home.id) == pytest.approx(np.sqrt(1.5), abs=0.005)


def test_the_band_that_was_shown_is_scored_but_the_stretch_follows_the_one_worked_out(home: Home) -> None:
    for number in range(40):
        made(home, number, (10, 14, 20), 23, stretch=2.0)
    [bands] = score_sheet(home.id, after(60))["bands"]
    assert bands["within"] == 40
    assert stretch_for(home.id) == pytest.approx(np.sqrt(1.5), abs=0.005)


def test_nothing_kept_is_told_as_nothing(home: Home) -> None:
    assert score_sheet(home.id, DAY) == {
        "day": DAY.isoformat(), "made": 0, "settled": 0, "bands": [], "chances": None, "stretch": 1.0,
    }  # fmt: skip
