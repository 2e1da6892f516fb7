"""Bodies of scraps and eggs: what fits, what does not, and what is said about it."""

from __future__ import annotations

from typing import Any

import pytest

from homestead.byproducts import bodies
from homestead.ledger.kinds import Body
from tests.bodies import HENS, LOT, body, read, refusal

SHAPES: dict[str, type[Body]] = {
    "scrap": bodies.Scrap,
    "lay": bodies.Lay,
    "pail": bodies.Pail,
    "heap": bodies.HeapWork,
}


@pytest.mark.parametrize("kind", SHAPES)
def test_it_takes_a_plain_body(kind: str) -> None:
    assert read(SHAPES[kind], body(kind))


@pytest.mark.parametrize("kind", SHAPES)
def test_it_refuses_a_field_it_does_not_know(kind: str) -> None:
    assert refusal(SHAPES[kind], body(kind, bucket="red"))[0] == "bucket"


@pytest.mark.parametrize("kind", SHAPES)
def test_it_refuses_null_in_every_field(kind: str) -> None:
    for name in SHAPES[kind].model_fields:
        assert refusal(SHAPES[kind], body(kind, **{name: None}))[0] == name


@pytest.mark.parametrize("named", [{"crop": ...}, {"lot": LOT}, {"crop": ..., "lot": LOT}])
def test_scraps_may_be_mixed_or_of_a_crop_or_of_a_lot(named: dict[str, Any]) -> None:
    assert read(bodies.Scrap, body("scrap", **named))


def test_scraps_are_weighed_wherever_they_went() -> None:
    went = [{"step": "compost", "grams": 20}, {"step": "animals", "animals": HENS}]
    assert refusal(bodies.Scrap, body("scrap", went=went))[0] == "went.1.grams"


@pytest.mark.parametrize("field", ["findings", "went"])
def test_scraps_say_what_was_seen_and_where_they_went(field: str) -> None:
    assert refusal(bodies.Scrap, body("scrap", **{field: []}))[0] == field
    assert refusal(bodies.Scrap, body("scrap", **{field: ...}))[0] == field


def test_a_group_of_animals_goes_with_the_step_animals_only() -> None:
    assert (
        refusal(bodies.Scrap, body("scrap", went=[{"step": "pot", "grams": 5, "animals": HENS}]))[0]
        == "went.0"
    )


@pytest.mark.parametrize("eggs", [0, 1, 100_000])
def test_any_number_of_eggs_is_taken(eggs: int) -> None:
    assert read(bodies.Lay, body("lay", eggs=eggs, broken=0, hens=8))


@pytest.mark.parametrize("eggs", [-1, 100_001, 2.5, "six"])
def test_eggs_are_counted_in_whole_numbers(eggs: Any) -> None:
    assert refusal(bodies.Lay, body("lay", eggs=eggs))[0] == "eggs"


def test_broken_eggs_are_some_of_those_laid() -> None:
    assert read(bodies.Lay, body("lay", eggs=3, broken=3))
    assert "More eggs broken" in refusal(bodies.Lay, body("lay", eggs=3, broken=4))[1]


def test_eggs_belong_to_a_day() -> None:
    assert refusal(bodies.Lay, body("lay", day="yesterday"))[0] == "day"


def test_what_was_added_to_a_heap_is_named_and_weighed() -> None:
    added = body("heap", did="added", material="straw", grams=1_400)
    assert read(bodies.HeapWork, added)
    for missing in ("material", "grams"):
        told = {name: value for name, value in added.items() if name != missing}
        assert "write what, and how much" in refusal(bodies.HeapWork, told)[1]


@pytest.mark.parametrize(("temp_c", "fits"), [(54.5, True), (-12.0, True), (96.0, False), (54.55, False)])
def test_a_heap_is_measured_in_tenths_within_reason(temp_c: float, fits: bool) -> None:
    warm = body("heap", did="warmth", temp_c=temp_c)
    if fits:
        assert read(bodies.HeapWork, warm)
    else:
        assert refusal(bodies.HeapWork, warm)[0] == "temp_c"


def test_a_heap_that_was_measured_tells_how_warm_it_is() -> None:
    assert "how warm it is inside" in refusal(bodies.HeapWork, body("heap", did="warmth"))[1]
