#!/usr/bin/env python3
"""Memory of everything that `start` runs, at rest and after some work, beside the budget of 200 MB (PSS).

    .venv/bin/python tests/bench/at_rest.py

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
from pathlib import Path

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
            print(f"open after {time.monotonic() - began:.1f} s, the invented household made")
            time.sleep(45)  # the first minute's work is done
            tell("at rest", whole.pid)
            for _ in range(500):
                urllib.request.urlopen(page).close()
            tell("after 500 requests", whole.pid)
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


def tell(when: str, pid: int) -> None:
    shares = {one: pss_kb(one) for one in family(pid)}
    total = sum(shares.values()) / 1000
    print(f"{when}: {total:.0f} MB in {len(shares)} processes, {total / BUDGET_MB:.2f} of the budget")
    for one, share in shares.items():
        print(
            f"  {share / 1000:6.1f} MB  {Path(f'/proc/{one}/cmdline').read_text().replace(chr(0), ' ')[-60:]}"
        )


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
    lines = Path(f"/proc/{pid}/smaps_rollup").read_text().splitlines()
    return next(int(line.split()[1]) for line in lines if line.startswith("Pss:"))


if __name__ == "__main__":
    main()
