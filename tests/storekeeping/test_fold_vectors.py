"""Every vector, by the Python twin. `frontend/src/storekeeping/fold.test.ts` runs the same files."""

from __future__ import annotations

from collections import Counter
from typing import Any

import pytest

from fixtures.vectors.fold_source import write
from homestead.storekeeping.fold import fold_all, state_at
from tests.storekeeping.agreement import VECTORS, disagreements, vectors
from tests.storekeeping.likeness import likeness
from tests.storekeeping.oracle import expectation_of

ALL = vectors()


def named(vector: dict[str, Any]) -> str:
    return str(vector["name"])


@pytest.mark.parametrize("vector", ALL, ids=named)
def test_it_gives_the_stock_the_vector_expects(vector: dict[str, Any]) -> None:
    folded = fold_all(vector["lines"], vector["setting"])
    assert disagreements(vector, state_at(folded, vector["today"])) == []


@pytest.mark.parametrize("vector", ALL, ids=named)
def test_the_oracle_reads_the_rules_alike(vector: dict[str, Any]) -> None:
    told = expectation_of(vector)
    folded = fold_all(vector["lines"], vector["setting"])
    assert disagreements({"expect": told}, state_at(folded, vector["today"])) == []


def test_the_files_are_what_the_stories_say() -> None:
    assert (VECTORS / "fold_by_hand.json").read_text(encoding="utf-8") == write.by_hand_text()
    assert (VECTORS / "fold_generated.json").read_text(encoding="utf-8") == write.generated_text()


def test_no_two_vectors_are_alike_but_for_numbers() -> None:
    told: dict[str, list[str]] = {}
    for vector in ALL:
        told.setdefault(likeness(vector), []).append(vector["name"])
    assert [names for names in told.values() if len(names) > 1] == []
    assert len(told) >= 150


def test_each_rule_is_named_by_vectors_of_both_sorts() -> None:
    rules = {f"F{number}" for number in range(1, 21)}
    by_hand = Counter(rule for vector in write.BY_HAND for rule in vector.rules.split())
    named = Counter(rule for vector in ALL for rule in vector["rules"])
    assert set(named) == rules
    assert {rule: count for rule, count in by_hand.items() if count < 2} == {}
    assert rules - set(by_hand) == set()


def test_what_can_go_wrong_in_time_occurs_in_the_vectors() -> None:
    lines = [(vector, line) for vector in ALL for line in vector["lines"]]
    kinds = Counter(line["written"]["kind"] for _, line in lines)
    assert min(kinds[kind] for kind in ("put_by", "set_aside", "chore_done", "claim", "scrap", "lay")) >= 2
    assert sum(abs(line.get("clock_skew_ms", 0)) > 120_000 for _, line in lines) >= 10
    assert sum(line["written"]["dated"] == "person" for _, line in lines) >= 10
    assert sum("seq" not in line for _, line in lines) >= 10
    assert (
        sum(len(vector["lines"]) > len({each["written"]["id"] for each in vector["lines"]}) for vector in ALL)
        >= 10
    )
