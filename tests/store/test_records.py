"""Descriptions the store keeps: what their fields take, and the rows they write."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest

from homestead.store.models import Guests, Lot, OwnCrop, OwnFigure, Space, Vessel, WeeklyUse
from tests.factories import DeviceFactory, Home


def test_a_space_says_what_stands_at_its_door(home: Home) -> None:
    key = home.edit("space", {"name": "Root cellar", "kind": "root_cellar", "cautions": ["gas", "ladder"]})
    home.edit("space", {"note": "Mind the third step", "order": 2}, key)
    row = Space.rows.of(home.id).get(uuid=key)
    assert (row.name, row.kind, row.cautions, row.order) == (
        "Root cellar",
        "root_cellar",
        ["gas", "ladder"],
        2,
    )
    home.edit("space", {"note": None, "archived": True}, key)
    row.refresh_from_db()
    assert (row.note, row.archived) == ("", True)


def test_a_lots_names_are_edited_and_its_past_stays(home: Home) -> None:
    lot = home.lot(home.space(), "carrot", variety="Long Ember", code="31")
    home.edit(
        "lot", {"variety": "Late Ember", "label": "For Easter", "notes": "by the door", "winter": 2027}, lot
    )
    row = home.row(lot)
    assert (row.variety, row.label, row.notes, row.winter) == (
        "Late Ember",
        "For Easter",
        "by the door",
        2027,
    )
    assert (row.code, row.grams) == ("31", 24_000)


def test_a_lot_is_made_by_an_entry_never_by_an_edit(home: Home) -> None:
    unknown = "01a0c450-6c02-7eb3-9445-9c79dd4231ba"
    receipt = home.refused(
        "edit", {"type": "lot", "record": unknown, "base_rev": 0, "set": {"label": "Mine"}}
    )
    assert receipt.code == "unknown_reference"
    assert not Lot.rows.of(home.id).exists()


def test_expected_use_guests_and_vessels_are_kept(home: Home) -> None:
    use = home.edit("weekly_use", {"crop": "carrot", "grams": 1_500})
    guests = home.edit("guests", {"number": 4, "from": "2026-12-24", "until": "2026-12-27"})
    vessel = home.edit("vessel", {"name": "A basin", "grams": 3_400})
    assert WeeklyUse.rows.of(home.id).get(uuid=use).grams == 1_500
    row = Guests.rows.of(home.id).get(uuid=guests)
    assert (row.number, row.first_day, row.last_day) == (4, dt.date(2026, 12, 24), dt.date(2026, 12, 27))
    assert Vessel.rows.of(home.id).get(uuid=vessel).grams == 3_400


def test_a_vessel_has_a_kind_and_two_weights_and_a_lot_may_stand_in_one(home: Home) -> None:
    """The weight of the empty crate is no content: it lies in a field of its own."""
    told = {"name": "Apple crate", "kind": "crate", "grams": 14_000, "empty_g": 1_800}
    vessel = home.edit("vessel", told)
    row = Vessel.rows.of(home.id).get(uuid=vessel)
    assert (row.kind, row.grams, row.empty_g) == ("crate", 14_000, 1_800)
    home.edit("vessel", {"empty_g": None, "archived": True}, vessel)
    row.refresh_from_db()
    assert (row.empty_g, row.archived) == (None, True)
    lot = home.lot(home.space(), "carrot")
    home.edit("lot", {"vessel": vessel}, lot)
    body = {"type": "lot", "record": lot, "base_rev": 0, "set": {"vessel": home.space()}}
    assert home.refused("edit", body).code == "unknown_reference"


def test_an_own_crop_may_only_be_like_one_of_the_table(home: Home) -> None:
    key = home.edit("crop", {"name": "Oca", "like": "potato", "count_unit": "kg"})
    assert OwnCrop.rows.of(home.id).get(uuid=key).like == "potato"
    body = {"type": "crop", "record": key, "base_rev": 0, "set": {"like": "moonfruit"}}
    assert home.refused("edit", body).code == "crop_unknown"


def test_an_own_figure_names_the_row_it_stands_beside(home: Home) -> None:
    told = {"table": "piece_weights", "key": "carrot", "column": "piece_g", "value": 120, "unit": "g"}
    row = OwnFigure.rows.of(home.id).get(uuid=home.edit("figure", told))
    assert (row.table, row.row, row.column, row.value, row.unit) == (
        "piece_weights",
        "carrot",
        "piece_g",
        120,
        "g",
    )


@pytest.mark.parametrize("table", ["feed_safety", "ladder", "kitchen_safety", "feeding_law", "nowhere"])
def test_no_own_figure_loosens_a_rule(home: Home, table: str) -> None:
    told = {"table": table, "key": "carrot", "column": "verdict", "value": 1}
    body = {"type": "figure", "record": "01a0c450-6c02-7eb3-9445-9c79dd4231ba", "base_rev": 0, "set": told}
    assert home.refused("edit", body).code == "figure_fixed"


@pytest.mark.parametrize(
    ("record_type", "values", "where"),
    [
        ("space", {"name": ""}, "name"),
        ("space", {"name": "Loft", "kind": "castle"}, "kind"),
        ("space", {"name": "Loft", "cautions": ["dragons"]}, "cautions"),
        ("weekly_use", {"crop": "carrot", "grams": -1}, "grams"),
        ("guests", {"number": 0, "from": "2026-12-24", "until": "2026-12-27"}, "number"),
        ("guests", {"number": 4, "from": "Christmas", "until": "2026-12-27"}, "from"),
        ("vessel", {"name": "A basin"}, "grams"),
        ("crop", {"name": "Oca", "colour": "red"}, "colour"),
        ("chore", {"name": "Feed", "weekdays": [8]}, "weekdays"),
        ("animals", {"name": "Hens", "kind": "Laying hen"}, "kind"),
    ],
)
def test_a_field_that_does_not_fit_is_named(
    home: Home, record_type: str, values: dict[str, Any], where: str
) -> None:
    body = {
        "type": record_type,
        "record": "01a0c450-6c02-7eb3-9445-9c79dd4231ba",
        "base_rev": 0,
        "set": values,
    }
    receipt = home.refused("edit", body)
    assert where in str(receipt.facts["where"])
    assert receipt.permanent


@pytest.mark.parametrize(
    ("record_type", "values", "may"),
    [
        ("space", {"name": "Loft"}, {"keeper", "adult"}),
        ("vessel", {"name": "A basin", "grams": 3_400}, {"keeper", "adult"}),
        (
            "figure",
            {"table": "piece_weights", "key": "carrot", "column": "piece_g", "value": 120},
            {"keeper"},
        ),
    ],
)
def test_who_may_edit_what(home: Home, record_type: str, values: dict[str, Any], may: set[str]) -> None:
    for role in ("keeper", "adult", "rounds", "child", "minder"):
        phone = DeviceFactory(household=home.household, people=[home.person(role, role)])
        key = str(phone.pk)
        body = {"type": record_type, "record": key, "base_rev": 0, "set": values}
        receipt = home.push_one(phone, "edit", body)
        assert (receipt.result == "accepted") == (role in may), role


def test_an_older_child_may_name_a_lot(home: Home) -> None:
    lot = home.lot(home.space())
    body = {"type": "lot", "record": lot, "base_rev": 1, "set": {"label": "Mine"}}
    for role, result in (("rounds", "accepted"), ("child", "refused")):
        phone = DeviceFactory(household=home.household, people=[home.person(role, role)])
        assert home.push_one(phone, "edit", body).result == result
