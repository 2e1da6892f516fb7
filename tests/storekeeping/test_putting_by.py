"""What may be put by: the vectors, and random questions against the tables read anew as text.

"Only sound pieces" is common practice of preserving; that patulin outlives heat is the FDA's (the row
`mould_apple_patulin` of kitchen_safety.csv names the page).
"""

from __future__ import annotations

import csv
from typing import Any

import pytest

from homestead.reference import rules
from homestead.reference.tables import FOLDER
from homestead.storekeeping.putting_by import may_be_trimmed_off, may_put_by, may_put_by_of_lot
from tests.storekeeping.ladder_combinations import combinations
from tests.storekeeping.vectors import cases, named

SEED, COUNT = 20_261_126, 4_000


@pytest.mark.parametrize("case", cases("put_by.json"), ids=named)
def test_it_puts_by_only_what_is_sound(case: dict[str, Any]) -> None:
    assert may_put_by(rules(), case["crop"], case["findings"]) == case["expect"]


@pytest.mark.parametrize("case", cases("put_by_of_lot.json"), ids=named)
def test_it_puts_by_of_a_lot_only_what_leaves_the_bad_pieces_behind(case: dict[str, Any]) -> None:
    answer = may_put_by_of_lot(rules(), case["crop"], case["told"], case["amount"], case["lot"])
    assert answer.get("code") == case["code"]
    assert answer["allowed"] == (case["code"] is None)


def test_no_piece_that_rot_or_mould_was_cut_from_is_put_by() -> None:
    assert may_be_trimmed_off(rules(), "carrot", ["black_mould"])["code"] == "spoilt"
    assert may_be_trimmed_off(rules(), "apple", ["bruise"])["code"] == "patulin"
    for fine in ([], ["sound"], ["shrivelled"], ["gnawed"]):
        assert may_be_trimmed_off(rules(), "carrot", fine)["allowed"], fine


def rotten() -> set[str]:
    with (FOLDER / "findings.csv").open(encoding="utf-8", newline="") as text:
        return {line["id"] for line in csv.DictReader(text) if line["kind"] == "rot"}


def test_nothing_rotten_mouldy_or_doubtful_is_ever_put_by() -> None:
    allowed = 0
    bad = rotten() | {"unsure", "trimmed", "thawed", "spent", "treated", "gnawed"}
    for one in combinations(rules(), SEED, COUNT):
        question = one["question"]
        answer = may_put_by(rules(), question["crop"], question["findings"])
        if bad.intersection(question["findings"]) or not question["findings"]:
            assert not answer["allowed"], question
        allowed += answer["allowed"]
        assert answer["allowed"] or answer["rows"] or answer["code"] in ("unsure", "not_known"), question
    assert allowed > COUNT / 20, "a rule that lets nothing be put by is no rule"


def test_every_sound_crop_that_is_eaten_may_be_put_by() -> None:
    for crop, rule in rules()["crops"].items():
        sound = rules()["ladder"][crop]["sound"]
        stored = sound[rule["stored_part"]]
        eaten = {"raw", "cook"}.intersection(stored["steps"])
        assert may_put_by(rules(), crop, ["sound"])["allowed"] == bool(eaten), crop


def test_no_bruised_mouldy_or_rotten_apple_goes_into_any_jar_or_drink() -> None:
    for finding in ("bruise", "mould", "blue_mould", "grey_mould", "rot_spot", "rot"):
        assert may_put_by(rules(), "apple", [finding])["code"] in ("patulin", "spoilt")
