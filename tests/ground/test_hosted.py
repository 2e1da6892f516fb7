"""The hosted way for real: PostgreSQL, Redis, a web server of several workers' kind, a queue of its own."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import time
import urllib.error
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from tests.ground.tree import BASE
from tests.services import free_port, running_postgres, running_redis, wait_for

pytestmark = [pytest.mark.postgres, pytest.mark.redis]


@pytest.fixture
def host(tmp_path: Path) -> Iterator[dict[str, str]]:
    """The environment of a host, set as docs/hosting.md tells."""
    with running_postgres() as postgres, running_redis() as redis:
        own = {"ROUNDS_REDIS": redis, "ROUNDS_SECRET_KEY": "k" * 50, "ROUNDS_HOSTS": "rounds.example"}
        folders = {"ROUNDS_DATA": str(tmp_path / "data"), "ROUNDS_PHOTOS": str(tmp_path / "photos")}
        yield {**os.environ, **postgres.settings(), **own, **folders, "ROUNDS_PREPARED": "1"}


def manage(host: dict[str, str], *words: str) -> str:
    command = [sys.executable, BASE / "manage.py", *words]
    done = subprocess.run(command, env=host, cwd=BASE, capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


@contextmanager
def running(host: dict[str, str], *command: str) -> Iterator[None]:
    process = subprocess.Popen([sys.executable, *command], env=host, cwd=BASE, start_new_session=True)
    try:
        yield
    finally:
        process.terminate()
        process.wait(timeout=30)


def test_a_host_serves_and_works_for_its_families(host: dict[str, str]) -> None:
    told = json.loads(manage(host, "settle").splitlines()[-1])
    assert told == {"notes": []}
    assert manage(host, "shell", "-c", COUNT_HOUSEHOLDS).strip().endswith("0")
    manage(host, "demo", "--ends-on", "2026-11-25")
    port = free_port()
    web = (
        "-m",
        "granian",
        "--interface",
        "wsgi",
        "--host",
        "127.0.0.1",
        "--port",
        str(port),
        "--workers",
        "1",
    )
    with running(host, *web, "homestead.wsgi:application"), running(host, "manage.py", "qcluster"):
        wait_for(port, seconds=30)
        assert _asked(port, "rounds.example") == 200
        assert _asked(port, "elsewhere.example") == 400
        names = ("outlook", "remind", "rooms", "roster", "tally", "year")
        assert _worked(host, seconds=60) == ", ".join(f"{name} done" for name in names)


COUNT_HOUSEHOLDS = "from homestead.household.models import Household; print(Household.objects.count())"
RUNS = (
    "from homestead.jobs.models import Run; "
    "print(', '.join(f'{run.what} {run.result}' for run in Run.everywhere.order_by('what')))"
)


def _asked(port: int, name: str) -> int:
    asked = urllib.request.Request(f"http://127.0.0.1:{port}/api/v1/csrf", headers={"Host": name})
    try:
        return int(urllib.request.urlopen(asked, timeout=10).status)
    except urllib.error.HTTPError as refused:
        return refused.code


def _worked(host: dict[str, str], seconds: float) -> str:
    until = time.monotonic() + seconds
    while (
        "never" in (told := manage(host, "shell", "-c", RUNS).splitlines()[-1]) and time.monotonic() < until
    ):
        time.sleep(1)
    return told


def test_a_server_looks_through_what_it_loaded_only_once(host: dict[str, str]) -> None:
    """gc.freeze: what was loaded is left out of every later collection (library reference)."""
    command = [sys.executable, "-c", "import gc, homestead.wsgi; print(gc.get_freeze_count())"]
    done = subprocess.run(command, env=host, cwd=BASE, capture_output=True, text=True, check=True)
    assert int(done.stdout) > 50_000


def test_a_host_without_a_secret_key_serves_nothing(host: dict[str, str]) -> None:
    del host["ROUNDS_SECRET_KEY"]
    command = [sys.executable, "-c", "import homestead.wsgi"]
    told = subprocess.run(command, env=host, cwd=BASE, capture_output=True, text=True)
    assert told.returncode == 1
    assert "There is no secret key" in told.stderr
