"""A server killed between commit and reply, and started again."""

from __future__ import annotations

import http.client
import json
import os
import sqlite3
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest

from tests.services import free_port

BASE = Path(__file__).resolve().parents[2]
SET_UP = """
import django; django.setup()
from django.core.management import call_command
call_command("migrate", verbosity=0)
import json
from tests.lines import make_family
from tests.ledger.conftest import cellar, lot_in
from tests.small_kinds import small_house
with small_house():
    family = make_family()
    lot = lot_in(family, cellar(family))
    phone = family.phones["adult"]
    lines = [phone.write("looked", {"lot": lot, "count": n}) for n in range(3)]
print(json.dumps({"token": phone.token, "device": str(phone.device.pk), "lines": lines}))
"""


@pytest.fixture
def environment(tmp_path: Path) -> dict[str, str]:
    """A database of the test's own, on disk."""
    named = {"DJANGO_SETTINGS_MODULE": "homestead.settings", "ROUNDS_DATA": str(tmp_path)}
    without = {name: value for name, value in os.environ.items() if not name.startswith("ROUNDS_PG")}
    return without | named


@contextmanager
def server(environment: dict[str, str], how: str) -> Iterator[tuple[int, subprocess.Popen[str]]]:
    port = free_port()
    command = [sys.executable, "-m", "tests.api.killed_server", str(port), how]
    process = subprocess.Popen(command, cwd=BASE, env=environment, stdout=subprocess.PIPE, text=True)
    try:
        assert process.stdout
        assert process.stdout.readline() == "open\n"
        yield port, process
    finally:
        process.kill()
        process.wait()
        process.stdout.close()


def push(port: int, told: dict[str, Any]) -> dict[str, Any]:
    """As a phone does it; raises when the connection breaks before the reply."""
    door = http.client.HTTPConnection("127.0.0.1", port, timeout=30)
    cookie = f"rounds_device={told['token']}; csrftoken={'a' * 32}"
    body = {
        "device": told["device"],
        "sent_at": "2026-11-25T09:30:00Z",
        "build": "1",
        "lines": [{"written": line} for line in told["lines"]],
    }
    headers = {"Cookie": cookie, "X-CSRFToken": "a" * 32, "Content-Type": "application/json"}
    door.request("POST", "/api/v1/sync/push", json.dumps(body), headers)
    answer = door.getresponse()
    found: dict[str, Any] = json.loads(answer.read())
    assert answer.status == 200, found
    return found


def kept(environment: dict[str, str]) -> list[tuple[int, str]]:
    """The lines in the file itself, by their number."""
    with sqlite3.connect(Path(environment["ROUNDS_DATA"]) / "rounds.sqlite3") as file:
        rows: list[tuple[int, str]] = file.execute(
            "SELECT seq, uuid FROM ledger_line ORDER BY seq"
        ).fetchall()
        [(sound,)] = file.execute("PRAGMA integrity_check")
    assert sound == "ok"
    return rows


def test_a_server_killed_after_the_commit_has_each_line_once(environment: dict[str, str]) -> None:
    """hazard 1: killed between commit and reply; sent again; one row each, and the numbers they had."""
    done = subprocess.run(
        [sys.executable, "-c", SET_UP], cwd=BASE, env=environment, capture_output=True, text=True, check=True
    )
    told = json.loads(done.stdout)
    with server(environment, "die") as (port, process):
        with pytest.raises((http.client.HTTPException, OSError)):
            push(port, told)
        assert process.wait(timeout=10) == 9
    after_the_kill = kept(environment)
    with server(environment, "live") as (port, _):
        receipts = push(port, told)["receipts"]
    assert [one["result"] for one in receipts] == ["duplicate"] * 3
    assert kept(environment) == after_the_kill
    numbers = {line.replace("-", ""): seq for seq, line in after_the_kill}
    assert [one["seq"] for one in receipts] == [numbers[one["id"].replace("-", "")] for one in receipts]
