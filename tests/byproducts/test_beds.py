"""Compost that took in what lives on in soil, and the beds it must not go on: the refusals of push."""

from __future__ import annotations

import datetime as dt
import uuid

import pytest

from homestead.byproducts.beds import taken_by_heap
from homestead.byproducts.models import HeapWork
from tests.factories import DeviceFactory, Home


class Heap:
    """A heap that fills from September; on 25 November, the first day of the tests, something goes on it."""

    def __init__(self, home: Home) -> None:
        self.home = home
        self.id = home.edit("heap", {"name": "Left heap", "fills_from": "2026-09-01"})

    def takes(self, crop: str, finding: str, step: str = "compost", day: int = 0) -> None:
        went = [{"step": step, "grams": 400, "cut_in": "yard"}]
        self.home.write("scrap", {"crop": crop, "findings": [finding], "went": went}, day=day)

    def spread(self, **more: object) -> dict[str, object]:
        return {"heap": self.id, "did": "spread", "bed": "by the wall"} | more


@pytest.fixture
def heap(home: Home) -> Heap:
    return Heap(home)


def test_a_heap_that_took_club_root_goes_on_no_bed_of_its_kin(heap: Heap) -> None:
    heap.takes("swede", "club_root")
    receipt = heap.home.refused("heap", heap.spread(grows="kale"), day=1)
    assert (receipt.code, receipt.permanent) == ("kin_of_bed", True)
    assert receipt.facts["disease"] == "club_root"
    assert receipt.facts["rows"] == ["soil_diseases:club_root", "kitchen_safety:heap_soil_disease"]
    assert not HeapWork.rows.of(heap.home.id).exists()
    assert heap.home.write("heap", heap.spread(grows="carrot"), day=1)


def test_it_asks_what_is_to_grow_there_once_a_disease_is_sure(heap: Heap) -> None:
    assert heap.home.write("heap", heap.spread())
    heap.takes("onion", "white_rot")
    assert heap.home.refused("heap", heap.spread(), day=1).code == "bed_crop_missing"


def test_what_only_may_be_a_disease_is_for_the_form_to_ask(heap: Heap) -> None:
    heap.takes("potato", "rot")
    assert heap.home.write("heap", heap.spread(grows="potato"), day=1)


def test_a_crop_of_ones_own_is_judged_as_the_one_it_is_like(heap: Heap) -> None:
    own = heap.home.edit("crop", {"name": "Wall kale", "like": "kale", "count_unit": "piece"})
    heap.takes("swede", "club_root")
    assert heap.home.refused("heap", heap.spread(grows=own), day=1).code == "kin_of_bed"


def test_what_went_to_the_bin_or_on_the_heap_before_marks_nothing(heap: Heap) -> None:
    heap.takes("swede", "club_root", step="bin")
    later = heap.home.edit("heap", {"name": "Right heap", "fills_from": "2026-11-26"})
    heap.takes("cabbage", "club_root", day=2)
    last = dt.date(2026, 12, 1)

    def diseases(one: str, until: dt.date = last) -> list[str]:
        taken = taken_by_heap(heap.home.household.pk, uuid.UUID(one), until)
        return [disease["disease"] for disease in taken]

    assert diseases(heap.id) == []
    assert diseases(later) == ["club_root"]
    assert diseases(later, dt.date(2026, 11, 26)) == []


def test_what_lies_on_kin_already_is_written_by_an_adult_as_an_accident(heap: Heap) -> None:
    heap.takes("swede", "club_root")
    accident = heap.spread(grows="kale", accident=True)
    walker = heap.home.person("Rue", "rounds")
    phone = DeviceFactory(household=heap.home.household, people=[walker])
    assert heap.home.push_one(phone, "heap", accident).code == "accident_by_grown"
    heap.home.write("heap", accident, day=1)
    [row] = HeapWork.rows.of(heap.home.id)
    assert (row.grows, row.accident) == ("kale", True)
