"""One rotten lot, space or household, and a whole night's work: the others are told all the same."""

from __future__ import annotations

import datetime as dt
import json
from typing import Any
from zoneinfo import ZoneInfo

import numpy as np
import pytest

from homestead.ledger.reads import sheets_of
from homestead.season import foresee, outlook
from homestead.season.facts import household_facts
from homestead.season.outlook import make_outlook
from homestead.season.rooms import make_rooms, room_facts, rooms_content
from tests.bodies import out
from tests.factories import MORNING, Home, HomeFactory

LATER = MORNING + dt.timedelta(days=60)


@pytest.fixture
def cellar(home: Home) -> str:
    """With a lot of beet that is in order."""
    space = home.space()
    home.lot(space, "beet", pieces=100, grams=15_000, day=0)
    return space


def outlook_of(home: Home, crop: str) -> dict[str, Any]:
    [sheet] = [one for one in sheets_of(home.id, "outlook") if one["key"] == f"outlook/{crop}"]
    return dict(sheet["content"])


def silent(home: Home) -> dict[str, str]:
    [sheet] = sheets_of(home.id, "on_the_turn")
    return {one["lot"]: one["why"] for one in sheet["content"]["silent"]}


def no_number_that_is_none(home: Home) -> None:
    """JSON knows no NaN: dumping it so would raise."""
    for sheet in sheets_of(home.id):
        json.dumps(sheet["content"], allow_nan=False)


def test_more_culled_than_looked_at_is_taken_as_all_of_them(home: Home, cellar: str) -> None:
    """Documented: the number looked at is raised to what went out."""
    lot = home.lot(cellar, "carrot", pieces=100, grams=10_000, day=0)
    look = {"lot": lot, "space": cellar, "way": "sample", "looked": 10, "counted": True}
    home.write("inspection", look | {"out": [out(pieces=14)]}, day=20)
    make_outlook(home.id, now=LATER)
    [row] = outlook_of(home, "carrot")["lots"]
    assert 0 < row["pieces"][1] < 90
    no_number_that_is_none(home)


def test_more_taken_than_ever_was(home: Home, cellar: str) -> None:
    lot = home.lot(cellar, "carrot", pieces=50, grams=5_000, day=0)
    for day in (5, 9, 14):
        home.write("take", {"lot": lot, "pieces": 40, "for": "eat"}, day=day)
    make_outlook(home.id, now=LATER)
    [row] = outlook_of(home, "carrot")["lots"]
    assert row["pieces"] == [0, 0, 0]
    no_number_that_is_none(home)


def test_a_record_older_than_its_lot_is_left_out(home: Home, cellar: str) -> None:
    lot = home.lot(cellar, "carrot", pieces=50, grams=5_000, day=10)
    home.write("take", {"lot": lot, "pieces": 4, "for": "eat"}, day=3)
    [carrots] = [one for one in household_facts(home.id).kept if one.facts.crop == "carrot"]
    assert carrots.facts.takes == ()
    make_outlook(home.id, now=LATER)
    assert outlook_of(home, "carrot")["lots"]


def test_a_lot_whose_pieces_cannot_be_is_named_and_the_others_are_told(home: Home, cellar: str) -> None:
    """A hundred kilograms at a milligram a piece are more pieces than anybody counted."""
    speck = {"table": "piece_weights", "key": "garlic", "column": "piece_g", "value": 0.001}
    home.edit("figure", speck)
    lot = home.lot(cellar, "garlic", grams=100_000, measured="weighed", day=0)
    make_outlook(home.id, now=LATER)
    told = silent(home)
    assert "pieces put away is" in told[lot]
    assert outlook_of(home, "beet")["lots"]
    no_number_that_is_none(home)


def test_a_lot_no_sum_can_be_done_for_is_named_and_the_others_are_told(
    home: Home, cellar: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    bad = home.lot(cellar, "carrot", pieces=50, grams=5_000, day=0)
    good = home.lot(cellar, "carrot", pieces=60, grams=6_000, day=0)
    truly = foresee.foresee

    def breaks(kept: Any, *rest: Any) -> Any:
        if str(kept.lot) == bad:
            raise np.linalg.LinAlgError("Singular matrix")
        return truly(kept, *rest)

    monkeypatch.setattr(foresee, "foresee", breaks)
    make_outlook(home.id, now=LATER)
    assert silent(home) == {bad: "no_sense"}
    assert [row["lot"] for row in outlook_of(home, "carrot")["lots"]] == [good]
    assert outlook_of(home, "beet")["lots"]


def test_a_crop_no_sum_can_be_done_for_is_named_and_the_others_are_told(
    home: Home, cellar: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    lots = [home.lot(cellar, "carrot", pieces=50, grams=5_000, day=0) for _ in range(2)]
    truly = outlook.crop_sheet

    def breaks(crop: str, *rest: Any, **more: Any) -> Any:
        if crop == "carrot":
            raise ZeroDivisionError
        return truly(crop, *rest, **more)

    monkeypatch.setattr(outlook, "crop_sheet", breaks)
    make_outlook(home.id, now=LATER)
    assert silent(home) == dict.fromkeys(lots, "no_sense")
    assert outlook_of(home, "beet")["lots"]


def test_a_finished_lot_that_cannot_be_teaches_nothing_and_stops_nothing(home: Home, cellar: str) -> None:
    home.edit("figure", {"table": "piece_weights", "key": "garlic", "column": "piece_g", "value": 0.001})
    lot = home.lot(cellar, "garlic", grams=100_000, measured="weighed", day=0)
    home.write("take", {"lot": lot, "grams": 100_000, "for": "eat", "last": True}, day=30)
    make_outlook(home.id, now=LATER)
    assert outlook_of(home, "beet")["lots"]


def test_a_lot_of_no_pieces(home: Home, cellar: str) -> None:
    lot = home.lot(cellar, "carrot", pieces=20, grams=2_000, day=0)
    home.write("cull", {"lot": lot, **out(pieces=20), "last": False}, day=9)
    make_outlook(home.id, now=LATER)
    make_rooms(home.id, now=LATER)
    no_number_that_is_none(home)


def test_a_space_that_cannot_be_is_named_and_the_others_are_told(
    home: Home, cellar: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    hot = home.space("Oven")
    home.write("reading", {"space": hot, "temp_c": 60.0, "rh_pct": 100}, day=59)
    home.write("reading", {"space": cellar, "temp_c": 4.0, "rh_pct": 100}, day=59)
    facts = room_facts(home.id, LATER)
    for reading in facts.readings[next(one.uuid for one in facts.spaces if one.name == "Oven")]:
        monkeypatch.setattr(reading, "temp_c", 300.0)
    told = {one["space"]: one for one in rooms_content(facts, LATER, ZoneInfo("Europe/Vienna"))["rooms"]}
    assert "300" in told[hot]["amiss"]
    assert "amiss" not in told[cellar]
    json.dumps(told, allow_nan=False)


def test_what_one_household_wrote_stops_no_other(home: Home, cellar: str) -> None:
    other = HomeFactory()
    speck = {"table": "piece_weights", "key": "carrot", "column": "piece_g", "value": 0.001}
    other.edit("figure", speck)
    other.lot(other.space(), "carrot", grams=100_000, measured="weighed", day=0)
    for one in (other, home):
        make_outlook(one.id, now=LATER)
        make_rooms(one.id, now=LATER)
    assert outlook_of(home, "beet")["lots"]
