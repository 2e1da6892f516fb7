"""Scraps and eggs write the rows one expects."""

from __future__ import annotations

import datetime as dt

import pytest

from homestead.byproducts.models import AnimalGroup, Lay, Scrap
from homestead.store.models import Went
from tests.factories import Home


@pytest.fixture
def hens(home: Home) -> str:
    return home.animals()


def test_scraps_are_told_with_what_went_where(home: Home, hens: str) -> None:
    to_hens = {"step": "animals", "grams": 400, "animals": hens, "cut_in": "yard", "part": "tops"}
    went = [to_hens, {"step": "pot", "grams": 90}, {"step": "compost", "grams": 250}]
    entry = home.write("scrap", {"crop": "carrot", "findings": ["sound"], "went": went})
    row = Scrap.rows.of(home.id).get(uuid=entry)
    assert (row.crop, row.lot, row.findings, row.day) == ("carrot", None, ["sound"], dt.date(2026, 11, 25))
    rows = Went.rows.of(home.id).filter(entry=entry).order_by("place")
    assert [(one.way, one.bucket, one.grams, one.crop, one.lot) for one in rows] == [
        ("animals", "shrink", 400, "carrot", None),
        ("pot", "eaten", 90, "carrot", None),
        ("compost", "shrink", 250, "carrot", None),
    ]
    assert (str(rows[0].animals), rows[0].part, rows[0].cut_in) == (hens, "tops", "yard")


def test_scraps_of_a_lot_take_nothing_from_it(home: Home) -> None:
    lot = home.lot(home.space(), "beet")
    entry = home.write(
        "scrap", {"lot": lot, "findings": ["sound"], "went": [{"step": "compost", "grams": 300}]}
    )
    assert home.row(lot).grams == 24_000
    assert Went.rows.of(home.id).get(entry=entry).crop == "beet"
    assert str(Scrap.rows.of(home.id).get(uuid=entry).lot.uuid) == lot  # type: ignore[union-attr]


def test_mixed_scraps_are_of_no_crop(home: Home) -> None:
    entry = home.write("scrap", {"findings": ["sound"], "went": [{"step": "compost", "grams": 300}]})
    assert Went.rows.of(home.id).get(entry=entry).crop == ""


def test_scraps_may_be_of_what_is_stored_nowhere(home: Home) -> None:
    """Rhubarb leaves, bread crusts: what comes to hand in a kitchen."""
    body = {"crop": "rhubarb", "findings": ["sound"], "went": [{"step": "compost", "grams": 900}]}
    assert home.write("scrap", body)
    assert home.refused("scrap", body | {"crop": "moonfruit"}).code == "crop_unknown"


def test_what_is_poison_to_them_goes_to_no_hens(home: Home, hens: str) -> None:
    """Green potato peel: never (fixtures/reference/ladder.csv, potato/peel/greening)."""
    went = [{"step": "animals", "grams": 200, "animals": hens, "part": "peel", "cut_in": "store"}]
    receipt = home.refused("scrap", {"crop": "potato", "findings": ["greening"], "went": went})
    assert (receipt.code, receipt.permanent) == ("never", True)
    assert "ladder:potato/peel/greening" in receipt.facts["rows"]


def test_eggs_are_kept_on_the_day_they_were_laid(home: Home, hens: str) -> None:
    entry = home.write("lay", {"animals": hens, "day": "2026-11-24", "eggs": 6, "broken": 1, "hens": 8})
    row = Lay.rows.of(home.id).get(uuid=entry)
    assert (row.day, row.eggs, row.broken, row.hens) == (dt.date(2026, 11, 24), 6, 1, 8)
    assert str(row.animals.uuid) == hens


def test_a_group_of_animals_is_changed_field_by_field(home: Home, hens: str) -> None:
    home.edit("animals", {"number": 8, "feed_g_a_day": 920}, hens)
    home.edit("animals", {"withheld": True}, hens)
    row = AnimalGroup.rows.of(home.id).get(uuid=hens)
    assert (row.name, row.kind, row.number, row.feed_g_a_day, row.withheld) == (
        "Hens",
        "laying_hen",
        8,
        920,
        True,
    )
