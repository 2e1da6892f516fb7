"""Every vector, by the Python twin. `frontend/src/storekeeping/fold.test.ts` runs the same file."""

from __future__ import annotations

from typing import Any

import pytest

from fixtures.vectors.fold_source import write
from homestead.storekeeping.fold import fold_all, state_at
from tests.storekeeping.agreement import VECTORS, disagreements, vectors


@pytest.mark.parametrize("vector", vectors(), ids=lambda vector: vector["name"])
def test_it_gives_the_stock_the_vector_expects(vector: dict[str, Any]) -> None:
    folded = fold_all(vector["lines"], vector["setting"])
    assert disagreements(vector, state_at(folded, vector["today"])) == []


def test_the_file_is_what_the_hand_written_stories_say() -> None:
    assert (VECTORS / "fold_by_hand.json").read_text(encoding="utf-8") == write.by_hand_text()
