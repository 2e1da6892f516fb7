"""The vectors of the fold are written in readable ids; with ids of phones, every body in them is taken."""

from __future__ import annotations

import json
import uuid
from pathlib import Path
from typing import Any

import pytest

from homestead.ledger.kinds import all_kinds
from tests.bodies import read

VECTORS = sorted((Path(__file__).parents[2] / "fixtures" / "vectors").glob("fold*.json"))
NAMING = {"lot", "space", "animals", "suspect", "doer", "round", "chore", "heap"}


def with_ids(value: Any, name: str = "") -> Any:
    """Readable ids turned into ids of phones, alike each time; everything else as it is."""
    if isinstance(value, dict):
        return {inner: with_ids(one, inner) for inner, one in value.items()}
    if isinstance(value, list):
        return [with_ids(one, name) for one in value]
    return str(uuid.uuid5(uuid.NAMESPACE_URL, value)) if name in NAMING else value


@pytest.mark.parametrize("file", VECTORS, ids=lambda file: file.stem)
def test_every_body_in_the_vectors_is_one_the_server_takes(file: Path) -> None:
    lines = [
        line["written"] for vector in json.loads(file.read_text())["vectors"] for line in vector["lines"]
    ]
    told = [line for line in lines if line["kind"] in all_kinds()]
    assert len(told) > 20
    for line in told:
        assert read(all_kinds()[line["kind"]].body, with_ids(line["body"])), line


def test_there_are_vectors() -> None:
    assert VECTORS
