"""Months in store against a published chart that no row of the table was taken from.

Organic Gardening magazine, What to store in a root cellar (chart of average storage life), read at
http://www.organicgardening.com/cook/what-store-root-cellar. A chart in months is taken at 30.4 days.
"""

from __future__ import annotations

import pytest

from homestead.reference import rules, tables

DAYS_IN_MONTH = 30.4
#: crop: low and high of the chart [months]
CHART = {
    "beet": (1, 3),
    "cabbage": (3, 4),
    "carrot": (4, 6),
    "celery": (2, 3),
    "garlic": (6, 7),
    "horseradish": (10, 12),
    "jerusalem_artichoke": (2, 5),
    "onion": (5, 8),
    "parsnip": (2, 6),
    "potato": (5, 8),
    "pumpkin": (2, 3),
    "swede": (2, 4),
    "sweet_potato": (4, 6),
    "turnip": (4, 5),
    "squash": (3, 6),
}


def lives(crop: str) -> list[tuple[int, int]]:
    return [
        (row.life_low_days, row.life_high_days)
        for row in tables().storage
        if row.crop_id == crop and row.life_low_days is not None and row.life_high_days is not None
    ]


@pytest.mark.parametrize("crop", CHART)
def test_the_published_range_lies_within_what_the_table_allows(crop: str) -> None:
    high = CHART[crop][1] * DAYS_IN_MONTH
    assert min(life for life, _ in lives(crop)) <= high
    assert max(life for _, life in lives(crop)) >= high * 0.9


@pytest.mark.parametrize("crop", CHART)
def test_some_row_of_the_table_agrees_with_the_published_range(crop: str) -> None:
    low, high = (months * DAYS_IN_MONTH for months in CHART[crop])
    assert any(life_low <= high and life_high >= low for life_low, life_high in lives(crop))


@pytest.mark.parametrize("crop", CHART)
def test_it_is_looked_over_several_times_within_its_shortest_published_life(crop: str) -> None:
    """Common practice, no source: often enough that a rot is found before the lot is gone."""
    interval = rules()["looking_over"][crop]
    assert interval["every_days"] * 2 <= CHART[crop][0] * DAYS_IN_MONTH


def test_a_crop_counts_as_old_within_its_published_life() -> None:
    """The ladder's age for `old` is no later than the longest life any row of storage.csv gives the crop."""
    for crop, rule in rules()["crops"].items():
        if "old_after_days" in rule and lives(crop):
            assert rule["old_after_days"] <= max(high for _, high in lives(crop)), crop
