"""What all tests share: a folder for the test database, and the way past the ledger's guard at teardown."""

from __future__ import annotations

from typing import Any

import pytest
from django.test import TransactionTestCase


def pytest_configure(config: pytest.Config) -> None:
    from django.conf import settings

    settings.DATA.mkdir(parents=True, exist_ok=True)
    for database in settings.DATABASES.values():
        if "sqlite" in database["ENGINE"]:
            # a test database need not outlive a power cut
            database["OPTIONS"]["init_command"] += " PRAGMA synchronous=OFF;"


@pytest.fixture(autouse=True, scope="session")
def _lines_may_go_when_a_test_ends() -> Any:
    """Tests that commit clear all tables afterwards; the triggers let lines go by this way only."""
    clear = TransactionTestCase._fixture_teardown

    def open_and_clear(case: TransactionTestCase) -> None:
        from homestead.ledger.actions import open_for_clearing
        from homestead.ledger.models import Line

        open_for_clearing()
        Line.everywhere.all()._raw_delete("default")
        clear(case)

    TransactionTestCase._fixture_teardown = open_and_clear
    yield
    TransactionTestCase._fixture_teardown = clear
