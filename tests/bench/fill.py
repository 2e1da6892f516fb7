"""Fills the one household of a home with twenty thousand invented entries of four hundred lots.

Run by `phone.py` with `ROUNDS_DATA` set; says how many lines were taken. What the fold needs not, but the
server asks for, is put in: real spaces, people and devices.
"""

from __future__ import annotations

import json
import os
import sys
from collections import Counter
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))
os.environ.setdefault("DJANGO_SETTINGS_MODULE", "homestead.settings")

BATCH = 500
NAMES = {"cellar": "Root cellar", "loft": "Loft"}


def main() -> None:
    import django

    django.setup()
    from django.utils import timezone

    from homestead.household.models import Device, Household
    from homestead.ledger.actions import write_down
    from tests.bench.many_entries import many_entries

    (household,) = Household.objects.all()
    (device,) = Device.everywhere.filter(household=household)
    names = named(household) | {"household": str(household.pk), "person": device.people[0]}
    lines = [as_written(line["written"], names) for line in many_entries()]
    told: Counter[str] = Counter()
    for start in range(0, len(lines), BATCH):
        receipts = write_down(household.pk, lines[start : start + BATCH], now=timezone.now())
        told.update(one.code or one.result for one in receipts)
    print(json.dumps(told))


def named(household: Any) -> dict[str, str]:
    """Ids of the spaces the entries name."""
    from homestead.store.models import Space

    spaces = Space.rows.of(household)
    return {short: str(spaces.get(name=name).uuid) for short, name in NAMES.items()}


def as_written(written: dict[str, Any], names: dict[str, str]) -> dict[str, Any]:
    body = dict(written["body"])
    if "space" in body:
        body["space"] = names[body["space"]]
    if "cut" in body:
        body["cut"] = body["cut"] | {"step": "compost"}
    return written | {"household": names["household"], "person": names["person"], "body": body}


if __name__ == "__main__":
    main()
