"""Reads the vectors that both languages run."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

VECTORS = Path(__file__).resolve().parents[2] / "fixtures" / "vectors"


def cases(name: str) -> list[dict[str, Any]]:
    """The named cases of a file of `fixtures/vectors`."""
    found: list[dict[str, Any]] = json.loads((VECTORS / name).read_text(encoding="utf-8"))["cases"]
    return found


def named(case: dict[str, Any]) -> str:
    return str(case["name"])
