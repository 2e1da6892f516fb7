"""How the outcome of a vector is held against what it expects: the same walk as in the twin's test."""

from __future__ import annotations

import json
import math
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

VECTORS = Path(__file__).parents[2] / "fixtures" / "vectors"
#: pieces, grams, grams a piece, shares
NEAR = 0.01
OUTFLOWS = ("eaten", "given", "seed", "shrink", "cured", "moved", "put_by", "unknown")

Json = dict[str, Any]
Folder = Callable[[Json], Json]


def vectors() -> list[Json]:
    files = sorted(VECTORS.glob("fold_*.json"))
    return [vector for file in files for vector in json.loads(file.read_text("utf-8"))["vectors"]]


def disagreements(vector: Json, state: Json) -> list[str]:
    """What in the outcome is not as expected, and where; the balance is checked in each vector (F15)."""
    expect = vector["expect"]
    found = list(_differences(expect, state, ""))
    if "lots" in expect and set(expect["lots"]) != set(state["lots"]):
        found.append(f"lots: {sorted(expect['lots'])}, not {sorted(state['lots'])}")
    return found + [f"balance of {lot['id']}" for lot in state["lots"].values() if not balances(lot)]


def balances(lot: Json) -> bool:
    """put away + found = there + all that left, where grams were known all along."""
    tallies = lot["tallies"]
    if not tallies["whole"]:
        return True
    left = sum(tallies[name] for name in OUTFLOWS)
    return math.isclose(tallies["put_away"] + tallies["found"], tallies["there"] + left, abs_tol=NEAR)


def _differences(expected: Any, actual: Any, at: str) -> Iterator[str]:
    if isinstance(expected, dict) and isinstance(actual, dict):
        for key, value in expected.items():
            if key not in actual and value is not None:
                yield f"{at}/{key} is missing"
            else:
                yield from _differences(value, actual.get(key), f"{at}/{key}")
    elif isinstance(expected, list) and isinstance(actual, list):
        if len(expected) != len(actual):
            yield f"{at}: {len(expected)} expected, {len(actual)} there"
        for i, (one, other) in enumerate(zip(expected, actual, strict=False)):
            yield from _differences(one, other, f"{at}/{i}")
    elif not _same(expected, actual):
        yield f"{at}: {expected!r} expected, {actual!r} there"


def _same(expected: Any, actual: Any) -> bool:
    numbers = all(isinstance(each, int | float) and not isinstance(each, bool) for each in (expected, actual))
    if numbers:
        return math.isclose(expected, actual, abs_tol=NEAR, rel_tol=0)
    return type(expected) is type(actual) and bool(expected == actual)
