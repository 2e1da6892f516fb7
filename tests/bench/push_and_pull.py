#!/usr/bin/env python3
"""The exchange beside plain bulk_create of the same rows, in one run, as ratios.

    .venv/bin/python tests/bench/push_and_pull.py [how many lines]

Uses a database of its own (PostgreSQL where ROUNDS_PG_NAME says so, else SQLite on disk).
"""

from __future__ import annotations

import itertools
import json
import os
import statistics
import sys
import tempfile
import time
import uuid
from collections.abc import Callable
from pathlib import Path
from typing import Any

BASE = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(BASE))
os.environ.setdefault("DJANGO_SETTINGS_MODULE", "homestead.settings")

BATCH = 200
ROUNDS = 5
NUMBERS = itertools.count(10_000_000)


def main(count: int) -> None:
    with tempfile.TemporaryDirectory(prefix="rounds-bench-") as folder:
        os.environ["ROUNDS_DATA"] = folder
        os.environ["ROUNDS_HOSTS"] = "localhost"
        import django
        from django.conf import settings
        from django.core.management import call_command
        from django.db import connection

        django.setup()
        for database in settings.DATABASES:
            call_command("migrate", database=database, verbosity=0)
        from tests.small_kinds import small_house

        print(f"{count} lines on {connection.vendor}, batches of {BATCH}, medians of {ROUNDS}")
        print("the ledger alone (small kinds):")
        with small_house():
            measure(count, "begun", "looked", {"pieces": 3}, 2)
        print("with the store's and the rounds' own tables and the fold (inspections of 20 lots):")
        measure(count, "put_away", "inspection", INSPECTION, 1)


INSPECTION = {"way": "sample", "looked": 20, "counted": False, "seen": [], "out": [], "trims": []}


def measure(count: int, birth: str, kind: str, body: dict[str, Any], schema: int) -> None:
    from tests.api.browser import Browser
    from tests.lines import make_family, new_id

    family = make_family(f"Bench {kind}")
    keeper = family.phones["keeper"]
    browser, space = Browser(keeper), new_id()
    browser.push(keeper, keeper.edit("space", space, {"name": "Cellar"}))
    birth_body = {"space": space, "grams": 24_000}
    if birth == "put_away":
        birth_body |= {"crop": "carrot", "pack": "sand"}
    lots = [keeper.write(birth, birth_body) for _ in range(20)]
    assert {one["result"] for one in json.loads(browser.push(keeper, *lots).content)["receipts"]} == {
        "accepted"
    }

    def lines() -> list[dict[str, Any]]:
        more = {"space": space} if birth == "put_away" else {}
        return [
            keeper.write(kind, {"lot": lots[n % 20]["id"]} | more | body, schema=schema) for n in range(count)
        ]

    twin = make_family(f"Twin of {kind}").household
    ratios, told = [], ("", 0.0, 0.0)
    for _ in range(ROUNDS):
        batch, before = lines(), rows_by_table()
        pushed = seconds(lambda batch=batch: push(browser, keeper, batch))  # type: ignore[misc]
        copies = [copies_for(twin, model, more) for model, more in grown(before)]
        plain = seconds(lambda copies=copies: write_all(copies))  # type: ignore[misc]
        ratios.append(pushed / plain)
        told = (", ".join(f"{len(one)} {one[0]._meta.label}" for one in copies), pushed, plain)
    print(
        f"  push of {count}: {told[1] * 1000:.0f} ms, bulk_create of the same rows {told[2] * 1000:.0f} ms,"
    )
    print(f"    ratio {statistics.median(ratios):.2f} (at most 2); rows: {told[0]}")
    idle = median(lambda n: browser.push(keeper))
    pulled = median(lambda n: pull_all(browser))
    rows = pull_all(browser)
    print(f"  push with nothing to do {idle * 1000:.1f} ms, {idle / 0.050:.2f} of 50 ms")
    print(f"  pull of {rows} rows {pulled * 1000:.0f} ms, {rows / pulled:,.0f} rows/s")


def push(browser: Any, phone: Any, lines: list[dict[str, Any]]) -> None:
    for start in range(0, len(lines), BATCH):
        reply = json.loads(browser.push(phone, *lines[start : start + BATCH]).content)
        assert {one["result"] for one in reply["receipts"]} == {"accepted"}, reply["receipts"][0]


def rows_by_table() -> dict[Any, int]:
    from django.apps import apps

    from homestead.household.rows import OfHousehold

    tables = [model for model in apps.get_models() if issubclass(model, OfHousehold)]
    return {model: model.everywhere.count() for model in tables}


def grown(before: dict[Any, int]) -> list[tuple[Any, int]]:
    after = rows_by_table()
    return [(model, after[model] - before[model]) for model in before if after[model] > before[model]]


def copies_for(twin: Any, model: Any, count: int) -> list[Any]:
    """The newest rows as rows of another household, so that no number or id is there twice."""
    rows = list(model.everywhere.order_by("-pk")[:count])
    for row in rows:
        row.pk, row.household = None, twin
        row._state.adding = True
        if "uuid" in {field.name for field in model._meta.fields} and model._meta.label != "ledger.Touch":
            row.uuid = uuid.uuid4()
        if hasattr(row, "seq"):
            row.seq = next(NUMBERS)
    return rows


def write_all(tables: list[list[Any]]) -> None:
    from django.db import transaction

    with transaction.atomic():
        for rows in tables:
            type(rows[0]).everywhere.bulk_create(rows)


def pull_all(browser: Any) -> int:
    after, rows = "0", 0
    while True:
        page = json.loads(browser.pull(after).content)
        rows += len(page["rows"])
        after = page["next"]
        if not page["more"]:
            return rows


def median(act: Callable[[int], object]) -> float:
    return statistics.median(seconds(lambda n=n: act(n)) for n in range(ROUNDS))  # type: ignore[misc]


def seconds(act: Callable[[], object]) -> float:
    began = time.perf_counter()
    act()
    return time.perf_counter() - began


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 500)
