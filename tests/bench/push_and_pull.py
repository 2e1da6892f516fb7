"""The exchange beside plain bulk_create of the same rows, in one run: `python -m tests.bench.push_and_pull`.

A database of its own (PostgreSQL where ROUNDS_PG_NAME says so, else SQLite on disk). The plain rows are made
and written in as many transactions as the push has requests.
"""

from __future__ import annotations

import itertools
import json
import os
import statistics
import tempfile
import time
import uuid
from collections.abc import Callable
from typing import Any

from tests.bench.told import Told, tell

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "homestead.settings")

BATCH = 200
ROUNDS = 5
NUMBERS = itertools.count(10_000_000)


def main(count: int) -> None:
    with tempfile.TemporaryDirectory(prefix="rounds-bench-") as folder:
        os.environ["ROUNDS_DATA"] = folder
        os.environ["ROUNDS_HOSTS"] = "localhost"
        os.environ["ROUNDS_SECRET_KEY"] = "for-the-bench-only-" * 3
        # as a server loads it, and puts aside what it loaded
        from django.conf import settings
        from django.core.management import call_command

        import homestead.wsgi  # noqa: F401

        for database in settings.DATABASES:
            call_command("migrate", database=database, verbosity=0)
        from tests.small_kinds import small_house

        with small_house():
            alone = measure(count, ("the ledger alone", "begun", "looked"), {"pieces": 3}, 2)
        tell([*measure(count, ("with tables and fold", "put_away", "inspection"), INSPECTION, 1), *alone])


INSPECTION = {"way": "sample", "looked": 20, "counted": False, "seen": [], "out": [], "trims": []}


def measure(count: int, told_as: tuple[str, str, str], body: dict[str, Any], schema: int) -> list[Told]:
    from tests.api.browser import Browser
    from tests.lines import make_family, new_id

    where, birth, kind = told_as
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
    pushes, plains, ratios, rows_told = [], [], [], ""
    for _ in range(ROUNDS):
        batch, before = lines(), rows_by_table()
        pushed = seconds(lambda batch=batch: push(browser, keeper, batch))  # type: ignore[misc]
        copies = [copies_for(twin, model, more) for model, more in grown(before)]
        plain = seconds(lambda copies=copies: write_all(copies))  # type: ignore[misc]
        pushes.append(pushed)
        plains.append(plain)
        ratios.append(pushed / plain)
        rows_told = ", ".join(f"{len(values)} {model.__name__}" for model, values in copies)
    idle = median(lambda n: browser.push(keeper))
    pulled = median(lambda n: pull_all(browser))
    rows = pull_all(browser)
    size = len(json.dumps({"lines": [{"written": line} for line in lines()]}, separators=(",", ":")))
    beside = (
        f"{statistics.median(pushes) * 1000:.0f} ms against {statistics.median(plains) * 1000:.0f} ms; "
        f"rows: {rows_told}"
    )
    ratio, requests = statistics.median(ratios), f"{10_000 // BATCH} requests"
    per_second = f"{rows / pulled:,.0f} rows/s"
    return [
        Told(f"push of {count} against bulk_create, {where}", ratio, 2, "x", beside),
        Told(f"push with nothing to do, {where}", idle * 1000, 50, "ms"),
        Told(f"bodies of pushes of 10,000 rows, {where}", size * 10_000 / count / 1e6, 4.0, "MB", requests),
        Told(f"pull of {rows:,} rows by the server, {where}", pulled * 1000, None, "ms", per_second),
    ]


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


def copies_for(twin: Any, model: Any, count: int) -> tuple[Any, list[dict[str, Any]]]:
    """Columns of the newest rows, as of another household, so that no number or id is there twice."""
    columns = [field.attname for field in model._meta.fields if not field.primary_key]
    copies = []
    for row in model.everywhere.order_by("-pk")[:count]:
        copy = {column: getattr(row, column) for column in columns} | {"household_id": twin.pk}
        if "uuid" in copy and model.__name__ != "Touch":
            copy["uuid"] = uuid.uuid4()
        if "seq" in copy:
            copy["seq"] = next(NUMBERS)
        copies.append(copy)
    return model, copies


def write_all(tables: list[tuple[Any, list[dict[str, Any]]]]) -> None:
    """In as many transactions as the push has requests."""
    from django.db import transaction

    for start in range(0, max(len(rows) for _, rows in tables), BATCH):
        with transaction.atomic():
            for model, rows in tables:
                model.everywhere.bulk_create([model(**row) for row in rows[start : start + BATCH]])


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
    main(500)
