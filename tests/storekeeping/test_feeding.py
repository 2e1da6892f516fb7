"""What is refused to animals at push, and what the law says. Vectors written by hand from
fixtures/reference."""

from __future__ import annotations

from typing import Any

import pytest

from homestead.reference import rules
from homestead.storekeeping.feeding import check_went, may_feed
from tests.storekeeping.vectors import cases, named


@pytest.mark.parametrize("case", cases("ladder_went.json"), ids=named)
def test_it_refuses_what_is_never_fed(case: dict[str, Any]) -> None:
    refusal = check_went(
        rules(),
        case["went"],
        crop=case["crop"],
        findings=case["findings"],
        whole=case["whole"],
        groups=case["groups"],
        law=case["law"],
    )
    told = refusal and {"code": refusal["code"], "kind": refusal["kind"]}
    assert told == case["expect"]


@pytest.mark.parametrize("animal", ["laying_hen", "duck", "pig", "goat", "sheep", "cattle", "rabbit"])
def test_it_never_feeds_rot_or_mould_of_any_crop(animal: str) -> None:
    spoilt = [f for f, rule in rules()["findings"].items() if rule["kind"] == "rot"]
    for crop in rules()["crops"]:
        for finding in spoilt:
            question = {"crop": crop, "findings": [finding], "cut_in": "yard"}
            answer = may_feed(rules(), question, {"kind": animal}, None)
            assert (answer["offered"], answer["refused"]) == (False, True)


def test_it_names_the_row_whose_limit_counts() -> None:
    answer = may_feed(
        rules(),
        {"crop": "cabbage", "part": "outer leaves", "findings": ["sound"], "cut_in": "yard"},
        {"kind": "cattle"},
    )
    assert answer["verdict"] == "limited"
    assert answer["limits"] == [
        "feed_safety:cattle/cabbage/outer leaves/sound",
        "ladder:cabbage/outer leaves/sound",
    ]


def test_it_joins_two_limits_and_keeps_both() -> None:
    question = {"crop": "celery", "part": "leaves", "findings": ["sound"], "cut_in": "yard"}
    answer = may_feed(rules(), question, {"kind": "rabbit"})
    assert len(answer["limits"]) >= 2


@pytest.mark.parametrize(
    ("law", "code"),
    [
        (None, "country_not_set"),
        ({"confirmed": True, "kitchen_to": ["laying_hen"]}, "country_not_set"),
        ({"country": "DE", "confirmed": True, "kitchen_to": ["laying_hen"]}, "law_prohibited"),
        ({"country": "GB", "confirmed": True, "kitchen_to": ["laying_hen"]}, "law_prohibited"),
        ({"country": "US", "confirmed": False, "kitchen_to": ["laying_hen"]}, "law_not_confirmed"),
        ({"country": "US", "confirmed": True, "kitchen_to": []}, "law_not_allowed"),
        ({"country": "CH", "confirmed": True, "kitchen_to": []}, "law_not_known"),
    ],
)
def test_it_gives_kitchen_scraps_to_no_animal_before_the_law_is_settled(law: Any, code: str) -> None:
    question = {"crop": "carrot", "part": "peel", "findings": ["sound"], "cut_in": "kitchen"}
    answer = may_feed(rules(), question, {"kind": "laying_hen"}, law)
    assert (answer["offered"], answer.get("code")) == (False, code)


def test_it_gives_kitchen_scraps_in_a_country_the_tables_lack_on_the_keepers_word_alone() -> None:
    law = {"country": "CH", "confirmed": True, "kitchen_to": ["laying_hen"]}
    question = {"crop": "carrot", "part": "peel", "findings": ["sound"], "cut_in": "kitchen"}
    assert may_feed(rules(), question, {"kind": "laying_hen"}, law)["offered"]
    assert not may_feed(rules(), question, {"kind": "duck"}, law)["offered"]
