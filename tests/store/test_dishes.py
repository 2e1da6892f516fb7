"""Dishes of one's own: what a record of one may say, and that the tables' dishes stay within the ladder."""

from __future__ import annotations

from typing import Any

import pytest

from homestead.ledger.reads import records_of
from homestead.reference import rules, tables
from homestead.reference.ids import USE
from homestead.storekeeping.ladder import uses_of
from tests.factories import Home

STEW = {"name": "Aunt's stew", "step": "cook", "people": 6, "uses": [{"crop": "carrot", "grams": 900}]}


def test_a_dish_of_ones_own_is_kept_and_taken_off_the_list(home: Home) -> None:
    key = home.edit("dish", STEW)
    home.edit("dish", {"archived": True}, key)
    [kept] = records_of(home.id, "dish")
    assert kept["values"] == STEW | {"archived": True}


def test_a_dish_may_name_a_crop_of_ones_own(home: Home) -> None:
    oca = home.edit("crop", {"name": "Oca", "like": "potato"})
    key = home.edit("dish", STEW | {"uses": [{"crop": oca, "grams": 500}]})
    assert str(records_of(home.id, "dish")[0]["record"]) == key


@pytest.mark.parametrize(
    ("changed", "code"),
    [
        ({"uses": [{"crop": "moonfruit", "grams": 500}]}, "crop_unknown"),
        ({"uses": []}, "shape"),
        ({"uses": [{"crop": "carrot", "grams": 0}]}, "shape"),
        ({"step": "animals"}, "shape"),
        ({"people": 0}, "shape"),
    ],
)
def test_a_dish_of_nothing_or_for_nobody_is_refused(home: Home, changed: dict[str, Any], code: str) -> None:
    record = "01a0c450-6c02-7eb3-9445-9c79dd4231ba"
    body = {"type": "dish", "record": record, "base_rev": 0, "set": STEW | changed}
    assert home.refused("edit", body).code == code


def test_no_dish_of_the_tables_takes_what_the_ladder_has_taken_away() -> None:
    """Every use in every state it is written for, asked as a screen asks it. Among them: no bruised apple in
    any sauce (US FDA on patulin, the row `mould_apple_patulin`), no raw potato, no raw dry bean."""
    for dish in tables().dishes:
        for use in dish.uses.split("; "):
            read = USE.fullmatch(use)
            assert read, use
            for state in read["states"].split("/"):
                question = {"crop": read["crop"], "part": read["part"], "findings": [state]}
                answer = uses_of(rules(), question)  # type: ignore[arg-type]
                left = [one["step"] for one in answer["steps"]]
                assert answer["known"], (dish.dish_id, use, state)
                assert dish.use_step in left, (dish.dish_id, use, state)


def test_no_dish_of_the_tables_takes_rot_or_mould() -> None:
    kinds = {finding.id: finding.kind for finding in tables().findings}
    for dish in tables().dishes:
        states = {state for use in dish.uses.split("; ") for state in use.split(":")[1].split("/")}
        assert not {state for state in states if kinds.get(state) == "rot"}, dish.dish_id
