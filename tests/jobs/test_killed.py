"""A worker killed in the middle of a night's work: the sheets end as in an undisturbed run.

`python -m tests.jobs.test_killed 20` kills it so many times; here at each named point once.
"""

from __future__ import annotations

import datetime as dt
import os
import signal
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

import pytest

BASE = Path(__file__).resolve().parents[2]
#: where the work stands still to be killed: after reading, with the lock held, half way through writing, late
POINTS = (
    "homestead.rounds.planning.plan_of",
    "homestead.rounds.planning.write_sheets",
    "homestead.ledger.actions.keep_sheet",
    "homestead.byproducts.tally.write_sheets",
)
#: [days]
AFTER_LEASE = 0.01
NIGHT = dt.datetime(2026, 12, 1, 4, 0, tzinfo=dt.UTC)

_PROGRAM = """
import os, pathlib, sys, time, django
django.setup()
from unittest import mock
from django.core.management import call_command
from django.utils import timezone
import tests.jobs.test_killed as here
act, point, mark = sys.argv[1:4]
if act == "make":
    for name in ("default", "queue"):
        call_command("migrate", database=name, verbosity=0)
    from tests.factories import HomeFactory
    home = HomeFactory()
    cellar = home.space()
    hens = home.animals()
    home.lot(cellar, "onion"), home.lot(cellar, "carrot")
    home.edit("chore", {"name": "Shut the hens in", "animals": hens})
    home.write("lay", {"animals": hens, "day": "2026-11-25", "eggs": 6})
else:
    days = float(sys.argv[4])
    def stand_still(*_, **__):
        pathlib.Path(mark).touch()
        time.sleep(600)
    import contextlib
    still = mock.patch(point, stand_still) if point else contextlib.nullcontext()
    now = here.NIGHT + here.dt.timedelta(days=days)
    with still, mock.patch("django.utils.timezone.now", lambda: now):
        here.night(now)
    print(here.sheets())
"""


def night(now: dt.datetime) -> None:
    """What the queue does in one minute of the night, in this process: ask for what is due, do it."""
    from homestead.jobs import work
    from homestead.ledger.heads import last_lines

    last = last_lines()
    work.ask_for_what_is_due(last, now)
    for household in last:
        for what in ("roster", "tally"):
            work.do(what, str(household))


def sheets() -> str:
    """Every household's sheets, without when they were made and their numbers."""
    import json

    from homestead.household.models import Household
    from homestead.ledger.reads import sheets_of

    return json.dumps(
        [
            sorted((str(one["key"]), one["as_of"], one["content"]) for one in sheets_of(household))
            for household in Household.objects.order_by("made_at").values_list("pk", flat=True)
        ]
    )


def run(
    data: Path, act: str, point: str = "", days: float = 0, mark: Path | None = None
) -> subprocess.Popen[str]:
    environment = os.environ | {"ROUNDS_DATA": str(data), "DJANGO_SETTINGS_MODULE": "homestead.settings"}
    command = [sys.executable, "-c", _PROGRAM, act, point, str(mark or data / "none"), str(days)]
    return subprocess.Popen(command, cwd=BASE, env=environment, stdout=subprocess.PIPE, text=True)


def finished(process: subprocess.Popen[str]) -> str:
    told, _ = process.communicate(timeout=300)
    assert process.returncode == 0
    return told


def killed_at(data: Path, point: str, days: int) -> None:
    """Begin the night's work and end it with SIGKILL where it stands still."""
    mark = data / f"reached-{days}"
    process = run(data, "night", point, days, mark)
    until = time.monotonic() + 120
    while not mark.exists() and time.monotonic() < until:
        assert process.poll() is None, f"{point} was never reached"
        time.sleep(0.05)
    process.send_signal(signal.SIGKILL)
    process.communicate()
    assert mark.exists()


def copy(data: Path, to: Path) -> Path:
    to.mkdir()
    for one in data.glob("*.sqlite3*"):
        (to / one.name).write_bytes(one.read_bytes())
    return to


def judge(folder: Path, points: tuple[str, ...]) -> None:
    """Each killed night is made up a quarter of an hour later, the lease over; then six days asleep."""
    made = folder / "made"
    made.mkdir()
    finished(run(made, "make"))
    undisturbed, disturbed = copy(made, folder / "undisturbed"), copy(made, folder / "disturbed")
    for number, point in enumerate(points):
        killed_at(disturbed, point, number * 6)
        finished(run(disturbed, "night", days=number * 6 + AFTER_LEASE))
        finished(run(undisturbed, "night", days=number * 6))
    last = len(points) * 6
    assert finished(run(disturbed, "night", days=last)) == finished(run(undisturbed, "night", days=last))


@pytest.mark.parametrize("point", POINTS)
def test_a_night_killed_at_a_named_point_ends_as_an_undisturbed_one(point: str, tmp_path: Path) -> None:
    judge(tmp_path, (point,))


def main() -> None:
    """So many kills one after the other, the points in turn."""
    kills: Any = int(sys.argv[1])
    with tempfile.TemporaryDirectory() as folder:
        judge(Path(folder), tuple(POINTS[number % len(POINTS)] for number in range(kills)))
    print(f"killed {kills} times at {len(POINTS)} points, six days asleep each time: sheets as undisturbed")


if __name__ == "__main__":
    main()
