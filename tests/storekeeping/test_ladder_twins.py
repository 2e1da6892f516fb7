"""Both languages give the same answers to 10,000 random questions.

Each hashes its answers, 500 at a time, as canonical JSON (RFC 8785); `fixtures/vectors/ladder_twins.json`
holds the hashes, and `frontend/src/storekeeping/ladder_twins.test.ts` compares with the same file.
`python -m tests.storekeeping.test_ladder_twins` writes it anew after the tables or the rules changed.
"""

from __future__ import annotations

import hashlib
import json
from typing import Any

import rfc8785

from homestead.reference import rules, version
from homestead.storekeeping.feeding import check_went
from homestead.storekeeping.ladder import parts_of, rung_of, uses_of
from tests.storekeeping.ladder_combinations import combinations
from tests.storekeeping.vectors import VECTORS

SEED, COUNT, BATCH = 20_261_125, 10_000, 500
FILE = VECTORS / "ladder_twins.json"


def answer(one: dict[str, Any]) -> dict[str, Any]:
    """Everything the rules say of one question."""
    question, groups, law = one["question"], one["groups"], one["law"]
    went = {"step": "animals"}
    went |= {name: question[name] for name in ("part", "cut_in") if question[name]}
    refusal = check_went(
        rules(),
        went,
        crop=question["crop"],
        findings=question["findings"],
        whole=one["whole"],
        groups={str(number): group for number, group in enumerate(groups)},
        law=law,
    )
    standing = [{"finding": f, "share": (i + 1) / 8} for i, f in enumerate(question["findings"])]
    return {
        "uses": uses_of(rules(), question, groups, law),
        "refusal": refusal,
        "parts": parts_of(rules(), question["crop"], question["findings"]),
        "rung": rung_of(rules(), question["crop"], standing),
    }


def hashes() -> list[str]:
    """One a batch, so that a difference is found within 500 questions."""
    answers = [answer(one) for one in combinations(rules(), SEED, COUNT)]
    batches = [answers[start : start + BATCH] for start in range(0, COUNT, BATCH)]
    return [hashlib.sha256(rfc8785.dumps(batch)).hexdigest() for batch in batches]


def vector() -> dict[str, Any]:
    return {
        "about": "SHA-256 of the canonical JSON of the answers to random questions, a batch each.",
        "seed": SEED,
        "count": COUNT,
        "batch": BATCH,
        "rules_version": version(),
        "hashes": hashes(),
    }


def test_both_languages_answer_10_000_questions_alike() -> None:
    kept = json.loads(FILE.read_text(encoding="utf-8"))
    assert kept["rules_version"] == version(), "the tables changed: write the hashes anew"
    assert hashes() == kept["hashes"]


if __name__ == "__main__":
    FILE.write_text(json.dumps(vector(), indent=2) + "\n", encoding="utf-8")
