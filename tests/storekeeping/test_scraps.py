"""Diet and heap as `fixtures/vectors/scraps.json` tells, its sources beside each case."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from homestead.reference.scrap_rows import heap_values, low_mid_high, scrap_values
from homestead.reference.tables import tables
from homestead.storekeeping.diet import diet_of, hen_day_lay, protein_pct
from homestead.storekeeping.heap import (
    asks_for,
    balance_of,
    to_add_kg,
    turn_on,
    usable_from,
    was_hot,
    water_litres,
)

VECTORS: dict[str, Any] = json.loads(
    (Path(__file__).parents[2] / "fixtures" / "vectors" / "scraps.json").read_text(encoding="utf-8")
)


def cases(part: str) -> Any:
    return pytest.mark.parametrize("case", VECTORS[part], ids=lambda case: case["name"])


@cases("diet")
def test_it_tells_what_scraps_are_to_the_diet(case: dict[str, Any]) -> None:
    told: Any = diet_of(case["fed"], scrap_values(tables()), case["feed_g"])
    expected = case["expect"]
    for name in ("fresh_g", "unknown_g", "protein_g"):
        assert told[name] == pytest.approx(expected[name], abs=1e-3), name
    assert told["dry_g"] == pytest.approx(expected["dry_g"], abs=1e-3)
    if expected["share"] is None:
        assert told["share"] is None
    else:
        assert told["share"] == pytest.approx(expected["share"], abs=5e-5)


@cases("lay")
def test_it_tells_hen_day_lay(case: dict[str, Any]) -> None:
    told = hen_day_lay(case["eggs"], case["hens"], case["days"])
    assert told is None if case["expect"] is None else told == pytest.approx(case["expect"], abs=1e-3)


@cases("heap")
def test_it_balances_a_heap(case: dict[str, Any]) -> None:
    told: Any = balance_of(case["loads"], case["values"])
    for name, expected in case["expect"].items():
        assert told[name] == (expected if expected is None else pytest.approx(expected, rel=2e-3)), name
    assert asks_for(told) == case["asks"]


@cases("to_add")
def test_it_tells_how_much_to_add(case: dict[str, Any]) -> None:
    told = to_add_kg(case["loads"], case["values"], case["material"])
    assert told is None if case["expect"] is None else told == pytest.approx(case["expect"], abs=1e-3)


@cases("hot")
def test_it_tells_a_hot_heap(case: dict[str, Any]) -> None:
    assert was_hot(case["warmths"], case["turned"]) is case["expect"]


@cases("usable")
def test_it_tells_from_when_a_heap_may_be_used(case: dict[str, Any]) -> None:
    assert usable_from(case["last_added"], case["hot"]) == case["expect"]


def test_a_heap_is_turned_every_two_weeks() -> None:
    assert turn_on("2026-12-25") == "2027-01-08"


def test_a_dry_heap_wants_water_and_a_wet_one_none() -> None:
    """By hand: 10 kg at 10 % water hold 9 kg dry; at 55 % they weigh 20 kg, so 10 litres are lacking."""
    straw = {"straw": {"n": 0.7, "c_to_n": 80.0, "moisture": 10.0, "density": 135.0, "row": "x"}}
    assert water_litres(balance_of([{"of": "straw", "grams": 10_000}], straw)) == pytest.approx(10.0)
    wet = {"grass": {"n": 2.4, "c_to_n": 18.75, "moisture": 77.0, "density": 200.0, "row": "x"}}
    assert water_litres(balance_of([{"of": "grass", "grams": 10_000}], wet)) == 0.0


def test_protein_of_the_whole_diet_is_a_mass_balance() -> None:
    """fixtures/reference/feed_values.csv, worked example "protein dilution by grain": 90 % feed at 16 % and
    10 % at 9 % give 15.3 %."""
    values = {"grain": {"": {"dry": (100.0, 100.0, 100.0), "protein": 9.0, "row": "x"}}}
    diet = diet_of([{"crop": "grain", "grams": 100.0}], values, None)
    assert protein_pct(diet, 900.0 / 0.89, 16.0) == pytest.approx(15.3)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("78", (78, 78, 78)),
        ("2.8-9.6", (2.8, 6.2, 9.6)),
        ("0.3-1.1 (0.7)", (0.3, 0.7, 1.1)),
        ("59-178 loose and dry", (59, 118.5, 178)),
        ("about 7", (7, 7, 7)),
        ("", None),
    ],
)
def test_a_figure_is_read_as_its_source_gives_it(text: str, told: tuple[float, ...] | None) -> None:
    assert low_mid_high(text) == (told if told is None else pytest.approx(told))


def test_every_figure_for_scraps_and_heaps_names_a_row_that_is_there() -> None:
    rows = {f"feed_values:feedstuff/{row.feedstuff}" for row in tables().feed_values}
    stuffs = {f"compost_materials:{row.material}" for row in tables().compost_materials}
    values = [value for parts in scrap_values(tables()).values() for value in parts.values()]
    assert {value["row"] for value in values} <= rows
    assert all(value["dry"] for value in values)
    assert {value["row"] for value in heap_values(tables()).values()} <= stuffs
    assert all(
        value["n"] and value["c_to_n"] and value["moisture"] for value in heap_values(tables()).values()
    )
