"""A household's own figures beside the published ones."""

from __future__ import annotations

from typing import Any

import pytest

from homestead.reference import can_be_own, figures_for_fold, with_own


def figure(**fields: Any) -> dict[str, Any]:
    return {"table": "piece_weights", "key": "carrot", "column": "piece_g", "value": 95.0} | fields


def test_an_own_weighing_comes_before_the_tables() -> None:
    own = with_own(figures_for_fold(), [figure()])
    assert own["carrot"]["piece_g"] == 95.0
    assert own["carrot"]["refuse_pct"] == figures_for_fold()["carrot"]["refuse_pct"]
    assert figures_for_fold()["carrot"]["piece_g"] == 140.0


def test_an_own_interval_comes_before_the_tables() -> None:
    own = with_own(figures_for_fold(), [figure(table="looking_over", column="every_days", value=5)])
    assert own["carrot"]["every_days"] == 5


@pytest.mark.parametrize("gone", [{"archived": True}, {"value": None}, {"column": "water_pct"}])
def test_a_figure_that_was_taken_back_changes_nothing(gone: dict[str, Any]) -> None:
    assert with_own(figures_for_fold(), [figure(**gone)]) == figures_for_fold()


def test_an_own_crop_borrows_the_figures_of_the_one_it_is_like() -> None:
    own = with_own(figures_for_fold(), [], [{"id": "own", "like": "carrot", "count_unit": "piece"}])
    assert own["own"] == figures_for_fold()["carrot"] | {"count_unit": "piece"}


def test_an_own_crop_like_none_has_no_figures_until_it_is_given_one() -> None:
    own = with_own(figures_for_fold(), [figure(key="own")], [{"id": "own", "like": None}])
    assert own["own"] == {"piece_g": 95.0}


@pytest.mark.parametrize(
    ("table", "column"),
    [
        ("feed_safety", "verdict"),
        ("ladder", "best_step"),
        ("ladder", "after_days"),
        ("feeding_law", "kitchen"),
        ("kitchen_safety", "rule"),
        ("eaters", "steps"),
        ("storage", "notes"),
        ("storage", "line"),
        ("no_such_table", "value"),
    ],
)
def test_no_rule_can_be_set_as_a_figure(table: str, column: str) -> None:
    assert not can_be_own(table, column)


@pytest.mark.parametrize(
    ("table", "column"),
    [
        ("storage", "life_low_days"),
        ("storage", "shrink_pct_month_low"),
        ("piece_weights", "piece_g"),
        ("looking_over", "minutes_per_10kg"),
        ("planting", "yield_kg_per_m2_low"),
        ("planting", "yield_kg_per_m"),
        ("packs", "rot_factor"),
    ],
)
def test_numbers_can_be_ones_own(table: str, column: str) -> None:
    assert can_be_own(table, column)
