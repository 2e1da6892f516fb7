"""The ladder against its vectors. The vectors are written by hand from fixtures/reference; sources stand
in its rows."""

from __future__ import annotations

from typing import Any

import pytest

from homestead.reference import rules
from homestead.storekeeping.conditions import conditions_of, rows_for
from homestead.storekeeping.ladder import parts_of, rung_of, uses_of
from homestead.storekeeping.rules import STEPS, Uses
from tests.storekeeping.vectors import cases, named


def gathered(uses: Uses) -> dict[str, Any]:
    """An answer as the vectors write it: cautions and `not_for` over all steps."""
    return {
        "known": uses["known"],
        "steps": [allowed["step"] for allowed in uses["steps"]],
        "cautions": sorted({row for allowed in uses["steps"] for row in allowed["cautions"]}),
        "withheld": {withheld["step"]: withheld["code"] for withheld in uses["withheld"]},
        "animals": {
            answer["kind"]: answer["verdict"]
            if answer.get("code", answer["verdict"]) == answer["verdict"]
            else f"{answer['verdict']}:{answer['code']}"
            for answer in uses["animals"]
        },
        "not_for": sorted(
            f"{allowed['step']} {not_for['eater']} {not_for['row']}"
            for allowed in uses["steps"]
            for not_for in allowed["not_for"]
        ),
    }


@pytest.mark.parametrize("case", cases("ladder.json"), ids=named)
def test_it_gives_the_uses_that_are_left(case: dict[str, Any]) -> None:
    uses = uses_of(rules(), case["ask"], case["groups"], case["law"])
    assert gathered(uses) == case["expect"]


@pytest.mark.parametrize("case", cases("ladder_rung.json"), ids=named)
def test_it_tells_the_rung_a_lot_stands_on(case: dict[str, Any]) -> None:
    assert rung_of(rules(), case["crop"], case["standing"]) == case["expect"]


def test_it_knows_a_use_for_every_crop_and_finding_or_says_it_does_not() -> None:
    findings = [f for f, rule in rules()["findings"].items() if rule["kind"] != "state"]
    for crop in rules()["crops"]:
        for finding in findings:
            uses = uses_of(rules(), {"crop": crop, "findings": [finding], "cut_in": "store"})
            assert uses["steps"], f"{crop} {finding} has nowhere to go"
            if not rows_for(rules(), crop, finding):
                assert not uses["known"]
                assert not {"raw", "cook", "pot"}.intersection(gathered(uses)["steps"])


def test_it_gives_the_steps_in_the_order_of_the_ladder() -> None:
    uses = uses_of(rules(), {"crop": "carrot", "findings": ["sound"]}, [{"kind": "rabbit"}])
    steps = gathered(uses)["steps"]
    assert steps == sorted(steps, key=STEPS.index)


def test_it_takes_up_the_parts_of_a_state_with_the_stored_part_first() -> None:
    assert parts_of(rules(), "cabbage", ["yellowing"]) == ["head", "outer leaves"]
    assert parts_of(rules(), "potato", ["sound"])[0] == "tuber"


def test_it_counts_a_crop_as_old_from_the_age_in_its_row() -> None:
    question = {"crop": "carrot", "findings": ["sound"]}
    assert conditions_of(rules(), question | {"age_days": 240}) == ["sound"]
    assert conditions_of(rules(), question | {"age_days": 241}) == ["old"]


def test_it_leaves_sound_out_beside_another_finding() -> None:
    question = {"crop": "carrot", "findings": ["sound", "shrivelled", "shrivelled"]}
    assert conditions_of(rules(), question) == ["shrivelled"]
