"""Memory of everything that `start` runs, at rest and at work: `python -m tests.bench.at_rest`.

Uses a folder of data of its own. PSS counts a page that n processes share as 1/n in each (proc(5)).
"""

from __future__ import annotations

import contextlib
import os
import signal
import socket
import subprocess
import sys
import tempfile
import time
import urllib.request
from collections.abc import Iterator
from pathlib import Path

from tests.bench.told import Told, tell

BASE = Path(__file__).resolve().parents[2]
BUDGET_MB = 200


def main() -> None:
    with tempfile.TemporaryDirectory(prefix="rounds-rest-") as folder:
        ports = {"ROUNDS_PORT": free_port(), "ROUNDS_PHONE_PORT": free_port()}
        own = {
            "ROUNDS_DATA": folder,
            "ROUNDS_PREPARED": "1",
            **{name: str(port) for name, port in ports.items()},
        }
        began = time.monotonic()
        command = [sys.executable, str(BASE / "manage.py"), "start"]
        whole = subprocess.Popen(command, env={**os.environ, **own}, stdout=subprocess.DEVNULL)
        try:
            page = f"http://127.0.0.1:{ports['ROUNDS_PORT']}/api/v1/csrf"
            wait_for(page)
            opened = f"open after {time.monotonic() - began:.1f} s, the invented household made"
            busiest = max(shared_mb(whole.pid) for _ in watching(75))  # the first minute's work is done
            rest = Told("memory at rest (PSS)", shared_mb(whole.pid), BUDGET_MB, "MB", each(whole.pid))
            for _ in range(500):
                urllib.request.urlopen(page).close()
            asked = Told("memory after 500 requests", shared_mb(whole.pid), BUDGET_MB, "MB")
            tell([rest, asked, Told("memory with the worker at work", busiest, None, "MB", opened)])
        finally:
            whole.send_signal(signal.SIGTERM)
            whole.wait(timeout=30)


def free_port() -> int:
    with socket.socket() as door:
        door.bind(("127.0.0.1", 0))
        return int(door.getsockname()[1])


def wait_for(page: str) -> None:
    for _ in range(600):
        with contextlib.suppress(OSError):
            urllib.request.urlopen(page).close()
            return
        time.sleep(0.2)
    sys.exit("It did not open in two minutes.")


def watching(seconds: int) -> Iterator[int]:
    for one in range(2 * seconds):
        yield one
        time.sleep(0.5)


def shared_mb(pid: int) -> float:
    return sum(pss_kb(one) for one in family(pid)) / 1000


def each(pid: int) -> str:
    """What each process has."""
    shares = {one: pss_kb(one) / 1000 for one in family(pid)}
    names = {one: Path(f"/proc/{one}/cmdline").read_text().split("\0") for one in shares}
    return ", ".join(f"{' '.join(names[one][-3:]).strip()[-28:]} {mb:.0f}" for one, mb in shares.items())


def family(pid: int) -> list[int]:
    parents = {}
    for place in Path("/proc").glob("[0-9]*"):
        with contextlib.suppress(OSError):
            parents[int(place.name)] = int((place / "stat").read_text().rpartition(")")[2].split()[1])
    found = [pid]
    for one in found:
        found += [child for child, parent in parents.items() if parent == one]
    return found


def pss_kb(pid: int) -> int:
    try:
        lines = Path(f"/proc/{pid}/smaps_rollup").read_text().splitlines()
    except OSError:  # it has just ended
        return 0
    return next(int(line.split()[1]) for line in lines if line.startswith("Pss:"))


if __name__ == "__main__":
    main()
