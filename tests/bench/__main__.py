"""Every budget, measured and printed as a ratio: `python -m tests.bench [part ...]`.

Parts: sizes, fold, forecast, night, push_and_pull, phone, at_rest, pouch. Each is a program of its own, so
that none measures what another left in memory. `ROUNDS_DIST` names the built frontend; see docs/bench.md.
"""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

from tests.bench.told import Told, heard, load, table

BASE = Path(__file__).resolve().parents[2]
PARTS = ("sizes", "fold", "forecast", "night", "push_and_pull", "phone", "at_rest", "pouch")


def run(part: str) -> list[Told]:
    """What the part measured; its own words go by on standard error."""
    print(f"{part}: begun at a load of {load()}", file=sys.stderr, flush=True)
    words = ["--speed"] if part == "forecast" else []
    command = [sys.executable, "-m", f"tests.bench.{part}", *words]
    done = subprocess.run(command, cwd=BASE, stdout=subprocess.PIPE, text=True, check=False)
    print(done.stdout, file=sys.stderr, flush=True)
    if done.returncode != 0:
        print(f"{part} ended with {done.returncode}: its lines are missing below.", file=sys.stderr)
    return heard(done.stdout)


def main(parts: list[str]) -> int:
    if unknown := sorted(set(parts) - set(PARTS)):
        sys.exit(f"There is no part {', '.join(unknown)}. Parts: {', '.join(PARTS)}.")
    began, told, silent = load(), [], []
    for part in parts or PARTS:
        rows = run(part)
        told += rows
        silent += [] if rows else [part]
    print(f"Load at the start {began}, at the end {load()}.\n")
    print(table(told))
    for part in silent:
        print(f"\nNot measured: {part}.")
    return 1 if silent else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
