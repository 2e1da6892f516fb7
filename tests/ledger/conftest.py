from __future__ import annotations

from collections.abc import Iterator

import pytest

from tests.lines import Family, make_family, new_id
from tests.small_kinds import small_house


@pytest.fixture(autouse=True)
def _small_house() -> Iterator[None]:
    with small_house():
        yield


@pytest.fixture
def family(db: None) -> Family:
    return make_family()


def cellar(family: Family, name: str = "Root cellar") -> str:
    """A space of the household."""
    keeper, space = family.phones["keeper"], new_id()
    assert keeper.push(keeper.edit("space", space, {"name": name})).receipts[0].result == "accepted"
    return space


def lot_in(family: Family, space: str) -> str:
    """A lot in it."""
    keeper = family.phones["keeper"]
    line = keeper.write("begun", {"space": space, "grams": 24_000})
    assert keeper.push(line).receipts[0].result == "accepted"
    return str(line["id"])


@pytest.fixture
def space(family: Family) -> str:
    return cellar(family)


@pytest.fixture
def lot(family: Family, space: str) -> str:
    return lot_in(family, space)
