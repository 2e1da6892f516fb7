"""A household's night and the work after one push, tables to sheets: `python -m tests.bench.night`.

A database of its own, with lots of eight crops in three spaces, looked over and eaten from. The times are of
the processor, of one core; the rest of the machine may be at work. Memory is that of this one process, as a
worker of the queue would have it.
"""

from __future__ import annotations

import datetime as dt
import os
import resource
import tempfile
import time
from collections.abc import Callable
from typing import Any

os.environ.update(OMP_NUM_THREADS="1", OPENBLAS_NUM_THREADS="1")
os.environ.setdefault("DJANGO_SETTINGS_MODULE", "homestead.settings")

from tests.bench.told import Told, tell

CROPS = ("carrot", "beet", "potato", "onion", "apple", "cabbage", "celeriac", "garlic")
LOTS = (100, 200, 400)
FEW, MANY = 10, 40
DAYS = 100
AT_ONCE = 500


def main() -> None:
    with tempfile.TemporaryDirectory(prefix="rounds-night-") as folder:
        os.environ["ROUNDS_DATA"] = folder
        os.environ["ROUNDS_SECRET_KEY"] = "for-the-bench-only-" * 3
        import django
        from django.conf import settings
        from django.core.management import call_command

        django.setup()
        for database in settings.DATABASES:
            call_command("migrate", database=database, verbosity=0)
        tell(measured())


def measured() -> list[Told]:
    from homestead.season.outlook import make_outlook
    from homestead.season.rooms import make_rooms
    from tests.factories import MORNING

    night = MORNING + dt.timedelta(days=DAYS)
    at_rest = memory_mb()
    homes = {(lots, FEW): stocked(lots, FEW) for lots in LOTS} | {(LOTS[0], MANY): stocked(LOTS[0], MANY)}
    nights = {one: seconds(lambda home=home: make_outlook(home.id, now=night)) for one, home in homes.items()}
    large = homes[LOTS[-1], FEW]
    again = seconds(lambda: make_outlook(large.id, now=night + dt.timedelta(minutes=1)))
    large.write("take", {"lot": large.first, "pieces": 3, "for": "eat"}, day=DAYS - 1)
    pushed = seconds(lambda: make_outlook(large.id, now=night + dt.timedelta(minutes=2)))
    rooms = seconds(lambda: make_rooms(large.id, now=night))
    few, most = nights[LOTS[0], FEW], nights[LOTS[-1], FEW]
    grown = ", ".join(f"{lots} lots {nights[lots, FEW]:.2f} s" for lots in LOTS)
    entries = f"{FEW} entries {few:.2f} s, {MANY} entries {nights[LOTS[0], MANY]:.2f} s"
    return [
        Told("a whole night of 400 lots, tables to sheets", most, 5, "s", grown),
        Told("growth of a night: 400 lots against 100", most / few, 4 * 1.25, "x", "4 is a line"),
        Told("growth of a night: 40 entries a lot against 10", nights[LOTS[0], MANY] / few, 4, "x", entries),
        Told("after a push of one take, 400 lots", pushed, None, "s", f"with nothing new {again:.2f} s"),
        Told("the rooms of 400 lots", rooms, None, "s"),
        Told("memory of a worker at rest", at_rest, None, "MB", "all it needs loaded"),
        Told("memory of a worker at its most, after these nights", memory_mb(), None, "MB"),
    ]


def stocked(lots: int, entries: int) -> Any:
    """A household with so many lots and so many looks and takes of each; `first` is one of them."""
    from tests.factories import HomeFactory

    home = HomeFactory()
    spaces = [home.space(f"Cellar {number}") for number in range(3)]
    lines = []
    for space in spaces:
        for day in range(0, DAYS, 7):
            lines.append(
                home.line("reading", {"space": space, "temp_c": 3.5 + day % 3, "rh_pct": 90}, day=day)
            )
    for number in range(lots):
        lines += lines_of_lot(home, CROPS[number % len(CROPS)], spaces[number % 3], entries)
    for start in range(0, len(lines), AT_ONCE):
        receipts = home.write_lines(lines[start : start + AT_ONCE])
        assert all(one.result == "accepted" for one in receipts), receipts
    home.first = next(line["id"] for line in lines if line["kind"] == "put_away")
    return home


def lines_of_lot(home: Any, crop: str, space: str, entries: int) -> list[Any]:
    began = {"crop": crop, "space": space, "pieces": 400, "grams": 40_000, "measured": "weighed"}
    lines = [home.line("put_away", began, day=0)]
    lot = lines[0]["id"]
    for number in range(entries):
        day = 1 + number * (DAYS - 2) // (entries - 1)
        if number % 2:
            lines.append(home.line("take", {"lot": lot, "pieces": 2, "for": "eat"}, day=day))
        else:
            look = {"lot": lot, "space": space, "way": "sample", "looked": 30, "counted": False}
            lines.append(home.line("inspection", look, day=day))
    return lines


def seconds(work: Callable[[], object]) -> float:
    began = time.process_time()
    work()
    return time.process_time() - began


def memory_mb() -> float:
    """The most this process ever had in memory."""
    import homestead.season.outlook  # noqa: F401

    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1000


if __name__ == "__main__":
    main()
