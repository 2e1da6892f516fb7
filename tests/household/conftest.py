from __future__ import annotations

from collections.abc import Iterator

import pytest

from tests.lines import Family, make_family
from tests.small_kinds import small_house


@pytest.fixture(autouse=True)
def _small_house() -> Iterator[None]:
    with small_house():
        yield


@pytest.fixture
def family(db: None) -> Family:
    return make_family()
