"""A night's work of many households on PostgreSQL with Redis and two workers.

`python -m tests.bench.nights 50 100 500`. Invented households of forty lots each, with four weeks of rounds,
are filled in to each number in turn; then all that runs by itself is asked for at once, as in the first
minute after the night's hour, and the time is taken until the last of it is done. Prints how it grows.
Budget: ten minutes for 500 households.
"""

from __future__ import annotations

import datetime as dt
import os
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

from tests.services import running_postgres, running_redis

BASE = Path(__file__).resolve().parents[2]
BUDGET_S = 600
LOTS, SPACES, WEEKS = 40, 6, 4
HEAD = "households filled in s  night s  s each processor s   on average"
CROPS = ("carrot", "onion", "potato", "cabbage", "apple", "beet", "garlic", "squash")
KINDS = ("root_cellar", "cold_room", "loft", "pantry", "spare_room", "garage")


def fill(wanted: int) -> None:
    """Up to so many households, each through the ledger."""
    from homestead.household.models import Household
    from tests.factories import HomeFactory

    for _ in range(Household.objects.count(), wanted):
        home = HomeFactory()
        for name, role in (("Tom", "adult"), ("Ana", "rounds"), ("Wil", "child")):
            home.person(name, role)
        hens = home.animals()
        home.edit("chore", {"name": "Let out, feed, water", "at": "08:00", "animals": hens})
        home.edit("chore", {"name": "Shut in at dusk", "at": "16:30", "animals": hens})
        spaces = [home.space(f"Room {number}", kind=KINDS[number]) for number in range(SPACES)]
        lines = list(_lines(home, spaces))
        receipts = home.write_lines(lines)
        refused = [one for one in receipts if one.result != "accepted"]
        assert not refused, refused[:3]


def _lines(home: Any, spaces: list[str]) -> Any:
    lots = []
    for number in range(LOTS):
        body = {"crop": CROPS[number % len(CROPS)], "space": spaces[number % SPACES], "grams": 18_000}
        born = home.line("put_away", body | {"measured": "weighed"}, day=-7 * WEEKS - 1)
        lots.append((born["id"], body["space"]))
        yield born
    for week in range(-WEEKS, 0):
        for space in spaces:
            yield home.line("reading", {"space": space, "temp_c": 6.0, "rh_pct": 88}, day=7 * week)
        for lot, space in lots:
            look = {"lot": lot, "space": space, "way": "sample", "looked": 20, "counted": False}
            out = {"pieces": 1, "findings": ["rot"], "went": [{"step": "compost"}]}
            yield home.line("inspection", look | {"out": [out]}, day=7 * week)
        for lot, _ in lots[::3]:
            yield home.line("take", {"lot": lot, "grams": 700, "for": "eat"}, day=7 * week + 3)


def begin_night() -> None:
    """As if nothing had run tonight and no sheet were there: what is asked for is done in full."""
    from homestead.household.models import Household
    from homestead.jobs.models import Run
    from homestead.ledger.actions import drop_sheets
    from homestead.ledger.reads import sheets_of

    Run.everywhere.all().delete()
    for household in Household.objects.values_list("pk", flat=True):
        drop_sheets(household, [sheet["key"] for sheet in sheets_of(household)])


def night_s(workers: subprocess.Popen[bytes]) -> float:
    """Ask for all, and wait for the last. [s]"""
    from homestead.household.models import Household
    from homestead.jobs.models import Run
    from homestead.jobs.schedules import WORK
    from homestead.jobs.work import minute

    wanted, began = Household.objects.count() * len(WORK), time.monotonic()
    minute()
    while (done := Run.everywhere.filter(result=Run.Result.DONE, asked_at=None).count()) < wanted:
        assert workers.poll() is None, "the workers are gone"
        failed = Run.everywhere.filter(result=Run.Result.FAILED).first()
        assert failed is None, failed and failed.why
        print(f"\r{done} of {wanted}", end="", file=sys.stderr)
        time.sleep(1)
    return time.monotonic() - began


def slowest() -> str:
    """What each piece takes on average."""
    from django.db.models import Avg

    from homestead.jobs.models import Run

    took = Run.everywhere.values("what").annotate(ms=Avg("took_ms")).order_by("what")
    return ", ".join(f"{one['what']} {one['ms']:.0f} ms" for one in took)


def _processor_s() -> float:
    """What programs started here and ended took of the processor: the workers', not the database's. [s]"""
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def main(numbers: list[int]) -> None:
    with running_postgres() as server, running_redis() as redis, tempfile.TemporaryDirectory() as data:
        given = server.settings() | {"ROUNDS_REDIS": redis, "ROUNDS_WORKERS": "2", "ROUNDS_DATA": data}
        os.environ.update(given, DJANGO_SETTINGS_MODULE="homestead.settings")
        import django

        django.setup()
        from django.core.management import call_command

        call_command("migrate", verbosity=0)
        print(HEAD)
        first: float | None = None
        for number in numbers:
            began = time.monotonic()
            fill(number)
            filled, _ = time.monotonic() - began, begin_night()
            command, before = [sys.executable, "manage.py", "qcluster"], _processor_s()
            workers = subprocess.Popen(command, cwd=BASE, stdout=subprocess.DEVNULL)
            try:
                took = night_s(workers)
            finally:
                workers.terminate()
                workers.wait(timeout=60)
            each, processor = took / number, _processor_s() - before
            first = first or each
            line = f"{number:10} {filled:11.0f} {took:8.1f} {each:7.2f} {processor:11.1f}   {slowest()}"
            print(f"\r{line}", flush=True)
        print(f"grown {each / first:.2f} times a household; budget {BUDGET_S} s for 500, {dt.date.today()}")


if __name__ == "__main__":
    main([int(one) for one in sys.argv[1:]] or [50, 100, 500])
