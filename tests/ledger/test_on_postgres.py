"""Everything the ledger promises holds on PostgreSQL too."""

from __future__ import annotations

import re

import pytest

from tests.postgres import run_on_postgres

EXCHANGE = ("tests/api/test_exchange.py", "tests/api/test_bad_input.py", "tests/api/test_machine.py")


@pytest.mark.postgres
def test_the_ledger_holds_on_postgresql() -> None:
    """hazard 2, hazard 32, and all other tests of these folders"""
    said = run_on_postgres("tests/ledger", "tests/household", *EXCHANGE)
    passed = re.search(r"(\d+) passed", said)
    assert passed
    assert int(passed[1]) > 200
