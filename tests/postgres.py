"""The same tests once more, on a PostgreSQL that is started for them."""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
from pathlib import Path

from tests.services import running_postgres

HERE = Path(__file__).resolve().parent.parent
MINUTES = 15


def run_on_postgres(*tests: str) -> str:
    """Run these tests (paths from the top of the tree) against PostgreSQL; returns what pytest said.

    Those marked `postgres` start one themselves and are left out, or they would run themselves again.
    """
    with running_postgres() as server, tempfile.TemporaryDirectory() as data:
        environment = os.environ | server.settings("rounds") | {"ROUNDS_DATA": data}
        environment.pop("PYTEST_ADDOPTS", None)
        command = [
            sys.executable,
            "-m",
            "pytest",
            "-q",
            "-m",
            "not postgres",
            "-p",
            "no:cacheprovider",
            *tests,
        ]
        done = subprocess.run(
            command, cwd=HERE, env=environment, capture_output=True, text=True, timeout=MINUTES * 60
        )
    assert done.returncode == 0, done.stdout[-20_000:] + done.stderr[-2_000:]
    return done.stdout
