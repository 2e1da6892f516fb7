"""What a vector is like once its numbers are taken out: two that are alike test the same thing twice."""

from __future__ import annotations

import json
import re
from typing import Any

Json = dict[str, Any]
MOMENT = re.compile(r"\d{4}-\d\d-\d\d.*")


def likeness(vector: Json) -> str:
    """The kinds, fields, words and references of the lines in order of arrival, without any number or date.

    Kept of the numbers: whether one is 0, and how the entries lie in time; of ids only which is which.
    """
    ids = _numbered(line["written"]["id"] for line in vector["lines"])
    devices = _numbered(line["written"]["device"] for line in vector["lines"])
    moments = sorted({line["written"]["happened_at"] for line in vector["lines"]})
    lines = [
        {
            "id": ids[line["written"]["id"]],
            "device": devices[line["written"]["device"]],
            "rank": moments.index(line["written"]["happened_at"]),
            "strikes": ids.get(line["written"].get("strikes", ""), "-"),
            "dated": line["written"]["dated"],
            "kind": line["written"]["kind"],
            "skew": _without_numbers(line.get("clock_skew_ms"), ids),
            "sent": "seq" in line,
            "standing": line.get("standing"),
            "photos": len(line["written"].get("photos", ())),
            "body": _without_numbers(line["written"]["body"], ids),
        }
        for line in vector["lines"]
    ]
    setting = _without_numbers({**vector["setting"], "figures": sorted(vector["setting"]["figures"])}, ids)
    return json.dumps([setting, lines], sort_keys=True)


def _numbered(names: Any) -> dict[str, str]:
    return {name: f"#{i}" for i, name in enumerate(dict.fromkeys(names))}


def _without_numbers(value: Any, ids: dict[str, str]) -> Any:
    if isinstance(value, dict):
        return {key: _without_numbers(each, ids) for key, each in value.items()}
    if isinstance(value, list):
        return [_without_numbers(each, ids) for each in value]
    if isinstance(value, bool) or value is None:
        return value
    if isinstance(value, int | float):
        return "0" if value == 0 else "-" if value < 0 else "+"
    return "day" if MOMENT.fullmatch(value) else ids.get(value, value)
