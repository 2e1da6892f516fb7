"""docs/fold.md, the code and the vectors name the same rules, kinds and flags."""

from __future__ import annotations

import re
from pathlib import Path
from typing import get_args

from homestead.ledger.kinds import all_kinds
from homestead.storekeeping.order import KINDS
from homestead.storekeeping.state import Bucket, Flag
from tests.storekeeping.agreement import vectors

DOC = (Path(__file__).parents[2] / "docs" / "fold.md").read_text(encoding="utf-8")


def test_each_rule_has_its_paragraph_in_order() -> None:
    rules = re.findall(r"^\*\*F(\d+)", DOC, re.MULTILINE)
    assert [int(rule) for rule in rules] == list(range(1, 21))


def test_each_kind_has_its_row_in_the_page_and_is_folded() -> None:
    rows = set(re.findall(r"^\| (\w+) \| ", DOC.split("## 2.")[0], re.MULTILINE)) - {"kind"}
    assert rows == set(KINDS)
    assert set(KINDS) <= set(all_kinds())


def test_each_bucket_of_the_balance_is_in_the_page() -> None:
    balance = DOC.split("**Balance.**")[1].split("\n\n")[0]
    assert all(bucket.replace("_", " ") in balance for bucket in get_args(Bucket))


def test_each_flag_is_raised_by_a_vector_and_said_in_the_page() -> None:
    told = {
        "clock": "clock?",
        "more": "*more*",
        "other_space": "it is flagged",
        "nothing_there": "nothing\nthere",
    }
    raised = {
        flag
        for vector in vectors()
        for past in vector["expect"].get("past", {}).values()
        for flag in past.get("flags", ())
    }
    assert raised == set(get_args(Flag))
    assert all(words in DOC or words.replace("\n", " ") in DOC for words in told.values())
