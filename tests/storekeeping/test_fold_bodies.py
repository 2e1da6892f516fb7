"""The vectors tell of entries the ledger would take: their bodies are held against those of the kinds."""

from __future__ import annotations

import json
import uuid
from typing import Any

import pytest
from pydantic import ValidationError

from homestead.ledger.kinds import all_kinds
from tests.storekeeping.agreement import vectors

#: fields that hold an id; in vectors ids are short names
IDS = frozenset({"lot", "space", "animals", "suspect", "round", "doer"})
FAMILY = uuid.UUID("019b0000-0000-7000-8000-000000000000")


def with_ids(value: Any, field: str = "") -> Any:
    if isinstance(value, dict):
        return {name: with_ids(each, name) for name, each in value.items()}
    if isinstance(value, list):
        return [with_ids(each) for each in value]
    return str(uuid.uuid5(FAMILY, value)) if field in IDS else value


@pytest.mark.parametrize("vector", vectors(), ids=lambda vector: vector["name"])
def test_the_kinds_take_what_the_vector_tells(vector: dict[str, Any]) -> None:
    for line in vector["lines"]:
        written = line["written"]
        try:
            all_kinds()[written["kind"]].body.model_validate_json(json.dumps(with_ids(written["body"])))
        except ValidationError as wrong:
            pytest.fail(f"{written['id']}: {wrong}")
