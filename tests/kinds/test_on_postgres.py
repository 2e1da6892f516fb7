"""All kinds settle, undo and replay on PostgreSQL as they do on SQLite."""

from __future__ import annotations

import re

import pytest

from tests.postgres import run_on_postgres

SHEETS = ("tests/rounds/test_roster.py", "tests/byproducts/test_tally.py", "tests/store/test_reads.py")


@pytest.mark.postgres
def test_the_rooms_hold_on_postgresql() -> None:
    said = run_on_postgres("tests/kinds/test_every_kind.py", *SHEETS)
    passed = re.search(r"(\d+) passed", said)
    assert passed
    assert int(passed[1]) > 150
