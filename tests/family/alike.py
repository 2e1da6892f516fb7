"""The same seed gives the same rosters on SQLite and on PostgreSQL: `python -m tests.family.alike 1 3 26`.

Runs the simulated winter of those seeds once on each and compares every roster that was made, by their
digest. PostgreSQL is started for it.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile

from tests.services import running_postgres


def rosters(words: list[str], more: dict[str, str]) -> list[str]:
    """What the simulated winter says of each seed, on a database of its own."""
    with tempfile.TemporaryDirectory() as data:
        environment = os.environ | {"ROUNDS_DATA": data} | more
        command = [sys.executable, "-m", "tests.family.simulate", *words]
        done = subprocess.run(command, env=environment, stdout=subprocess.PIPE, text=True, check=True)
    return [line.rstrip() for line in done.stdout.splitlines() if line[:4].strip().isdigit()]


def main() -> int:
    words = sys.argv[1:] or ["1", "3", "26"]
    sqlite = rosters(words, {})
    with running_postgres() as server:
        version, postgres = server.version, rosters(words, server.settings())
    for one, other in zip(sqlite, postgres, strict=True):
        print(f"SQLite      {one}\nPostgreSQL  {other}\n{'alike' if one == other else 'DIFFERENT'}")
    alike = sqlite == postgres
    print(f"{len(sqlite)} seeds on SQLite and PostgreSQL {version}: {'alike' if alike else 'NOT alike'}")
    return 0 if alike and sqlite else 1


if __name__ == "__main__":
    sys.exit(main())
