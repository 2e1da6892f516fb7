"""The app built anew for a test: by another build number, or with the maps back to its source."""

from __future__ import annotations

import os
import subprocess
from pathlib import Path

from homestead import settings
from homestead.jobs import node
from tests.journeys.home import BASE

FRONT = BASE / "frontend"
VITE = FRONT / "node_modules" / "vite" / "bin" / "vite.js"


def kept_build() -> Path:
    """What every other journey is served."""
    return Path(settings.DIST)


def build(into: Path, *options: str, number: str = "1") -> Path:
    """Built by the same tool as always; `number` is what the app tells the server with each push."""
    command = [str(node.NODE), str(VITE), "build", "--outDir", str(into), "--emptyOutDir", *options]
    environment = {**os.environ, **node.environment(), "ROUNDS_BUILD": number}
    done = subprocess.run(command, cwd=FRONT, env=environment, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    return into
