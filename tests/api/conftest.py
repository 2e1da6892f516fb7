from __future__ import annotations

from collections.abc import Iterator

import pytest
from django.conf import LazySettings

import api.wire  # noqa: F401  (makes its shapes of the kinds there are: before any test has others)
from tests.ledger.conftest import cellar, lot_in
from tests.lines import Family, make_family
from tests.small_kinds import small_house


@pytest.fixture(autouse=True)
def _small_house() -> Iterator[None]:
    with small_house():
        yield


@pytest.fixture(autouse=True)
def _names_of_this_server(settings: LazySettings) -> None:
    settings.ALLOWED_HOSTS = ["localhost", "rounds.example"]


@pytest.fixture
def family(db: None) -> Family:
    return make_family()


@pytest.fixture
def space(family: Family) -> str:
    return cellar(family)


@pytest.fixture
def lot(family: Family, space: str) -> str:
    return lot_in(family, space)
