from __future__ import annotations

import pytest

from tests.factories import Home, HomeFactory


@pytest.fixture
def home(db: None) -> Home:
    return HomeFactory()
