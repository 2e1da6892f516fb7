"""Disease that lives on in soil, against vectors by hand from fixtures/reference/soil_diseases.csv."""

from __future__ import annotations

from typing import Any

import pytest

from homestead.reference import rules
from homestead.storekeeping.soil import kin_of_bed, taken_in
from tests.storekeeping.vectors import cases, named


@pytest.mark.parametrize("case", cases("soil.json"), ids=named)
def test_a_heap_tells_what_it_took_in_and_which_bed_gets_none_of_it(case: dict[str, Any]) -> None:
    taken = taken_in(rules(), case["loads"])
    assert [[one["disease"], one["sure"], one["crop"], one["day"]] for one in taken] == case["taken"]
    barred = kin_of_bed(taken, case["grows"])
    assert (barred and barred["disease"]) == case["barred_by"]


# University of California IPM, white rot of onion and garlic,
# http://ipm.ucdavis.edu/PMG/GARDEN/VEGES/DISEASES/whiterot.html: only alliums, over 20 years, do not compost
@pytest.mark.parametrize("crop", ["onion", "shallot", "garlic", "leek"])
def test_no_allium_gets_a_heap_that_took_white_rot(crop: str) -> None:
    taken = taken_in(rules(), [{"crop": "onion", "findings": ["white_rot"], "day": "2026-10-01"}])
    assert kin_of_bed(taken, crop)
    assert "kitchen_safety:white_rot_allium" in taken[0]["rows"]


# common practice, no source: no disease is carried by a crop that is not its kin
def test_what_carries_a_disease_is_of_its_kin() -> None:
    for disease in rules()["soil"]:
        assert set(disease["carriers"]) <= set(disease["kin"])
