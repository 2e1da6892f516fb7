"""What to plant for next winter, from what was put away, eaten and lost, and from the tables' yields."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest

from homestead.ledger.reads import sheets_of
from homestead.reference import tables
from homestead.season.planting import planting_sheet, sow_of, weeks_of
from homestead.season.winters import pasts_of
from homestead.season.year import make_year
from homestead.season.yields import brings_of
from tests.bodies import out
from tests.factories import MORNING, Home

DAY = MORNING.date()
LATER = MORNING + dt.timedelta(days=140)


def rows_of(crop: str) -> list[Any]:
    return [row for row in tables().planting if row.crop_id == crop]


@pytest.fixture
def winter(home: Home) -> Home:
    """30 kg of carrots: 14 eaten, 2 given, 3 culled in twenty weeks; and 5 kg of swede nobody eats."""
    cellar = home.space()
    carrots = home.lot(cellar, "carrot", pieces=300, grams=30_000, day=0)
    home.lot(cellar, "swede", grams=5_000, measured="weighed", day=0)
    for day in range(7, 141, 10):
        home.write("take", {"lot": carrots, "grams": 1_000, "measured": "weighed", "for": "eat"}, day=day)
    home.write("take", {"lot": carrots, "grams": 2_000, "measured": "weighed", "for": "give"}, day=60)
    look = {"lot": carrots, "space": cellar, "way": "all", "looked": 200, "counted": False}
    home.write("inspection", look | {"out": [out(pieces=30)]}, day=80)
    return home


def carrot(home: Home) -> dict[str, Any]:
    sheet = planting_sheet(home.id, LATER.date())
    return next(one for one in sheet["crops"] if one["crop"] == "carrot")


def test_a_winter_is_told_as_it_was(winter: Home) -> None:
    [told] = carrot(winter)["winters"]
    assert (told["winter"], told["put_away"], told["eaten"], told["given"]) == (2026, 30_000, 14_000, 2_000)
    assert told["lost"] == pytest.approx(3_000, abs=60)
    assert (told["weeks"], told["ended"]) == (20, None)


def test_twenty_weeks_eaten_are_carried_on_to_the_new_harvest(winter: Home) -> None:
    """By hand: carrots are put away to November and new in June: 30 weeks; 14 kg in 20 are 21 kg."""
    told = carrot(winter)
    assert told["weeks"] == weeks_of(rows_of("carrot")) == 30
    assert told["need"][1] == pytest.approx(21_000, rel=0.001)
    assert told["need"][0] < 21_000 < told["need"][2]
    assert told["told"] is False


def test_more_is_put_away_than_eaten_and_planted_by_the_metre(winter: Home) -> None:
    told = carrot(winter)
    low, middle, high = told["put_away"]
    assert told["need"][1] < middle
    assert low < middle < high
    plant = told["plant"]
    assert (plant["unit"], plant["grams"], plant["row"]) == ("metre", 1490, "planting:carrot/yield/1")
    half, most, nearly_all = plant["numbers"]
    assert half < most < nearly_all
    assert half == pytest.approx(middle / 1490, rel=0.05)


def test_ones_own_yield_goes_before_the_printed_one_which_stays_beside_it(winter: Home) -> None:
    before = carrot(winter)["plant"]
    figure = {"table": "planting", "key": "carrot", "column": "yield_kg_per_m", "value": 2.98, "unit": "kg"}
    winter.edit("figure", figure)
    after = carrot(winter)["plant"]
    assert (after["grams"], after["published_grams"], after["own"]) == (2980, 1490, True)
    assert after["numbers"][0] == pytest.approx(before["numbers"][0] / 2, abs=1)


def test_a_weekly_use_that_was_told_speaks_beside_the_winters(winter: Home) -> None:
    winter.edit("weekly_use", {"crop": "carrot", "grams": 1_400})
    told = carrot(winter)
    assert told["told"] is True
    assert 21_000 < told["need"][1] < 60_000


def test_what_is_kept_for_seed_is_put_away_too(winter: Home) -> None:
    before = carrot(winter)["put_away"][1]
    lot = winter.lot(winter.space("Loft"), "carrot", pieces=40, grams=4_000, day=100)
    winter.write("set_aside", {"lot": lot, "pieces": 40}, day=101)
    told = carrot(winter)
    assert told["seed_grams"] == pytest.approx(4_000)
    assert told["put_away"][1] > before


def test_the_share_that_came_to_some_good_is_learnt_from_finished_lots(winter: Home) -> None:
    lot = winter.lot(winter.space("Loft"), "carrot", pieces=10, grams=1_000, day=1)
    winter.write("take", {"lot": lot, "pieces": 5, "grams": 500, "for": "eat"}, day=20)
    winter.write("count", {"lot": lot, "pieces": 0, "gone": "lost"}, day=30)
    assert pasts_of(winter.id, LATER.date())["carrot"].kept == (0.5,)
    assert carrot(winter)["own_lots"] == 1


def test_a_crop_nobody_ate_is_named_as_unknown(winter: Home) -> None:
    assert planting_sheet(winter.id, LATER.date())["unknown"] == ["swede"]


def test_it_says_when_to_sow_in_either_half_of_the_world(winter: Home) -> None:
    """Carrots are sown from April to June, so from October to December in the south."""
    assert carrot(winter)["sow"] == {"months": [4, 6], "row": "planting:carrot/calendar_and_spacing/7"}
    assert sow_of(rows_of("carrot"), south=True) == {
        "months": [10, 12], "row": "planting:carrot/calendar_and_spacing/7",
    }  # fmt: skip
    assert sow_of(rows_of("apple"), south=False) is None


def test_what_no_garden_bears_is_not_planted(winter: Home) -> None:
    winter.lot(winter.space("Pantry"), "egg", pieces=60, day=0)
    winter.edit("weekly_use", {"crop": "egg", "pieces": 12})
    sheet = planting_sheet(winter.id, LATER.date())
    assert "egg" not in [*sheet["unknown"], *(one["crop"] for one in sheet["crops"])]


def test_the_edible_share_falls_as_the_crop_ages(winter: Home) -> None:
    edible = carrot(winter)["edible"]
    assert edible is None or 0 < edible[1] <= edible[0] <= 1


def test_cabbages_are_planted_by_the_piece_and_trees_not_at_all() -> None:
    cabbage = brings_of(rows_of("cabbage"), {})
    assert cabbage is not None
    assert (cabbage.unit, cabbage.evidence) == ("plant", "seen")
    assert cabbage.kg == pytest.approx((0.34 * 1.36) ** 0.5)
    assert brings_of(rows_of("apple"), {}) is None
    assert brings_of([], {}) is None


def test_a_printed_yield_by_the_metre_is_one_by_the_plant_where_plants_stand_apart() -> None:
    """By hand: 1.49 kg a metre, plants 1.83 m apart: 2.73 kg each; reckoned, so no longer `seen`."""
    squash = brings_of(rows_of("squash"), {})
    assert squash is not None
    assert (squash.unit, squash.evidence) == ("plant", "derived")
    assert squash.kg == pytest.approx(1.49 * 1.83)


def test_the_sheet_goes_into_the_feed_once(winter: Home) -> None:
    make_year(winter.id, now=LATER)
    [before] = sheets_of(winter.id, "planting")
    make_year(winter.id, now=LATER + dt.timedelta(hours=1))
    assert sheets_of(winter.id, "planting") == [before]
