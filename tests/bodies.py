"""One plain, valid body for each kind, as parsed from JSON; a test changes what it is about."""

from __future__ import annotations

import json
from typing import Any

import pydantic
import pytest

from homestead.ledger.kinds import Body

LOT = "0190c1a5-0000-7000-8000-000000000001"
OTHER_LOT = "0190c1a5-0000-7000-8000-000000000002"
SPACE = "0190c1a5-0000-7000-8000-000000000003"
HENS = "0190c1a5-0000-7000-8000-000000000004"
SUSPECT = "0190c1a5-0000-7000-8000-000000000005"
PERSON = "0190c1a5-0000-7000-8000-000000000006"
ROUND = "0190c1a5-0000-7000-8000-000000000007"
HEAP = "0190c1a5-0000-7000-8000-000000000009"
DECISION = "0190c1a5-0000-7000-8000-000000000008"

Json = dict[str, Any]


def out(**changes: Any) -> Json:
    return {"pieces": 2, "findings": ["soft_rot"], "went": [{"step": "compost"}]} | changes


def bodies() -> dict[str, Json]:
    """Kind to body, made anew on each call."""
    return {
        "put_away": {"crop": "carrot", "space": SPACE, "pack": "sand", "grams": 24_000},
        "take": {"lot": LOT, "grams": 2_000, "for": "eat"},
        "cull": {"lot": LOT} | out(),
        "trim": {"lot": LOT, "findings": ["yellowing"], "cut": {"step": "compost", "grams": 300}},
        "move": {"lot": LOT, "all": False, "space": SPACE, "pieces": 40},
        "count": {"lot": LOT, "pieces": 105},
        "set_aside": {"lot": LOT, "pieces": 12},
        "put_by": {
            "from": [{"lot": LOT, "grams": 6_000}],
            "method": "freeze",
            "crop": "frozen",
            "label": "Carrot, sliced",
            "space": SPACE,
            "pack": "freezer_bag",
            "pieces": 9,
        },
        "reading": {"space": SPACE, "temp_c": 2.5},
        "round": {
            "space": SPACE,
            "began_at": "2026-11-25T10:24:53.123+01:00",
            "ended_at": "2026-11-25T10:41:02.000+01:00",
        },
        "inspection": {
            "lot": LOT,
            "space": SPACE,
            "way": "sample",
            "looked": 20,
            "counted": False,
            "seen": [],
            "out": [],
            "trims": [],
        },
        "suspect": {"lot": LOT, "findings": ["unsure"], "lies": "held"},
        "decision": {"suspect": SUSPECT, "do": "compost"},
        "claim": {"chore": DECISION},
        "offer": {"chore": DECISION},
        "chore_done": {"chore": DECISION},
        "scrap": {"crop": "carrot", "findings": ["sound"], "went": [{"step": "compost", "grams": 400}]},
        "lay": {"animals": HENS, "day": "2026-11-25", "eggs": 6},
        "pail": {"animals": HENS, "mixed": False},
        "heap": {"heap": HEAP, "did": "turned"},
    }


def body(kind: str, **changes: Any) -> Json:
    """A valid body of the kind with some fields changed; a field set to `...` is taken out."""
    changed = bodies()[kind] | changes
    return {name: value for name, value in changed.items() if value is not ...}


def read(shape: type[Body], written: Json) -> Body:
    return shape.model_validate_json(json.dumps(written))


def refusal(shape: type[Body], written: Json) -> tuple[str, str]:
    """Where the body does not fit (dotted, empty for a rule across fields) and the sentence about it."""
    with pytest.raises(pydantic.ValidationError) as caught:
        read(shape, written)
    first = caught.value.errors()[0]
    return ".".join(str(step) for step in first["loc"]), first["msg"]
